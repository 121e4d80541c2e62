"""The shop's sections on the job sheet: readable tables, nothing missing shown as nothing."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from cli.job_sheet_shop import figure_words, money, stacked
from cli.shop_limits import figure, length
from parts.step_pictures import line_picture, pointer_picture, quarters_picture, star_picture
from parts.tacks import middle_out, quadrant_order, star_order


def test_a_missing_price_is_said() -> None:
    assert money(None) == "not priced"
    assert money(0.0) == "0.00"
    assert money(12.345) == "12.35" or money(12.345) == "12.34"


def test_a_cell_knows_its_head_for_the_phone_and_is_escaped() -> None:
    html = stacked(("a", "b<", "c", "d", "e"), [["1", "<x>", "3", "4", "5"]], frozenset({0}))
    tree = ElementTree.fromstring(html.replace("class=stack", "").replace("class=n", ""))
    assert [td.get("data-head") for td in tree.iter("td")] == ["a", "b<", "c", "d", "e"]
    assert [td.text for td in tree.iter("td")] == ["1", "<x>", "3", "4", "5"]
    assert "class=stack" in html
    assert "class=stack" not in stacked(("a", "b"), [["1", "2"]])


def test_sums_follow_the_rows() -> None:
    html = stacked(("a", "b"), [["1", "2"]], sums=[["all", "3"], ["bought", "4"]])
    assert re.findall(r"<td[^>]*>([^<]*)", html) == ["1", "2", "all", "3", "bought", "4"]
    assert html.count("class=sum") == 2


@pytest.mark.parametrize(
    ("mm", "units", "words"),
    [
        (282.5, "mm", "282.5 mm"),
        (8.0, "mm", "8 mm"),
        (282.575, "inch", "11 1/8 in"),  # 11.125 x 25.4
        (0.762, "inch", "0.030 in"),  # 0.03 x 25.4
    ],
)
def test_lengths_read_as_a_maker_reads_them(mm: float, units: str, words: str) -> None:
    assert length(mm, units) == words  # type: ignore[arg-type]


def test_small_figures_keep_their_hundredths() -> None:
    assert figure_words(figure("fit", 0.75), "mm") == "0.75 mm"
    assert figure_words(figure("holes", 8.0, "holes"), "inch") == "8 holes"


@pytest.mark.parametrize(
    "svg",
    [
        star_picture(star_order(8), seam=True),
        star_picture(star_order(24), seam=False),
        quarters_picture(quadrant_order()),
        quarters_picture(["1", "3", "2", "4"]),
        line_picture([str(n) for n in middle_out(4)]),
        pointer_picture(8),
    ],
)
def test_pictures_are_xml_with_a_title_and_one_ink(svg: str) -> None:
    tree = ElementTree.fromstring(svg)
    assert tree.get("role") == "img"
    assert tree.get("aria-label")
    heads = re.findall(r'marker id="([^"]+)"', svg)
    assert set(re.findall(r"url\(#([^)]+)\)", svg)) == set(heads)
    colours = set(re.findall(r'(?:stroke|fill)="(#[0-9a-f]+)"', svg))
    assert colours == {"#1c2226"}  # reads the same in greyscale
