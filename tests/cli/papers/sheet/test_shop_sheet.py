"""The shop's sections on the job sheet: readable tables, nothing missing shown as nothing."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from platewheel.cli.papers.drawings.steps import (
    line_picture,
    pointer_picture,
    quarters_picture,
    star_picture,
)
from platewheel.cli.papers.sheet.shop import figure_words, money, stacked
from platewheel.parts.base.units import length
from platewheel.parts.making.steps.shop_limits import figure
from platewheel.parts.making.tacks import middle_out, quadrant_order, star_order
from tests.cli.jobs import job_text, run, write_job


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


def test_with_inches_every_table_of_lengths_tells_them_with_mm_beside(tmp_path: Path) -> None:
    """300 mm are 11 13/16 in to the nearest 1/64: 11.811 in, 52/64 = 0.8125."""
    text = job_text({"paper.units": '"inch"'})
    result = run("build", write_job(tmp_path, text), "--effort", "quick", "--out", tmp_path / "out")
    assert result.exit_code in (0, 1), result.output
    page = next((tmp_path / "out").rglob("job-sheet.html")).read_text(encoding="utf-8")
    tables = page.split("<h2>Sizes</h2>")[1].split("<h2>Sheets</h2>")[0]
    beside = re.findall(r"(?<![\d/])(?:(\d+) )?(?:(\d+)/(\d+) )?in \(([\d.]+) mm\)", tables)
    assert len(beside) > 20
    for whole, part, of, mm in beside:
        told = int(whole or 0) + (int(part) / int(of) if part else 0.0)
        assert abs(told * 25.4 - float(mm)) <= 25.4 / 128 + 0.051
