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
from platewheel.cli.papers.sheet.steps import figure_value
from platewheel.cli.schema.shop import FigureRow
from platewheel.parts.base.units import Units, length
from platewheel.parts.making.tacks import middle_out, quadrant_order, star_order
from tests.cli.jobs import job_text, run, write_job


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
    def told(value: float, unit: str, units: Units) -> str:
        row = FigureRow(name="fit", value=value, unit=unit, limit="", source="")
        return figure_value(row).told(units)

    assert told(0.75, "mm", "mm") == "0.75 mm"
    assert told(7.5, "mm", "mm") == "7.5 mm"
    assert told(8.0, "holes", "inch") == "8 holes"
    assert told(65.25, "deg", "mm") == "65.25 deg"


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
    tables = page.split('<h2 id="blanks">')[1].split('<h2 id="sheets">')[0]
    tables += page.split('<h2 id="sizes">')[1]
    beside = re.findall(r"(?<![\d/])(?:(\d+) )?(?:(\d+)/(\d+) )?in \(([\d.]+) mm\)", tables)
    assert len(beside) > 20
    for whole, part, of, mm in beside:
        told = int(whole or 0) + (int(part) / int(of) if part else 0.0)
        assert abs(told * 25.4 - float(mm)) <= 25.4 / 128 + 0.051
