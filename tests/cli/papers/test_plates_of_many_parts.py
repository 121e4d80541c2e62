"""Pages of plates with many parts: each has its number, and names that do not go on are told."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from platewheel.cli.job.job import job_of
from platewheel.cli.job.plan import Plan
from platewheel.cli.papers.plates.page import plate_pages
from platewheel.cli.papers.plates_pdf import plates_pdf
from platewheel.nesting.stock.layout import Layout, Nest, Placement
from tests.cli.jobs import job_text
from tests.cli.papers.plates.pages import (
    assert_inside,
    in_rows,
    nested,
    numbers_drawn,
    own_parts,
    pages_of,
    stock,
)
from tests.nesting.plates import disc, plate

# ISO 216 and ASME Y14.1: the long side, the short side
LED = {"cutting.lead_in_mm": "3", "cutting.tab_count": "2"}


def test_every_part_has_its_number_on_a_plate_of_two_hundred(tmp_path: Path) -> None:
    sizes = {"bracket": (46.0, 38.0)}
    rows = stock(2000.0, 1000.0) + own_parts(tmp_path, sizes, count=200)
    file, sheets = nested(tmp_path, rows=rows)
    page = pages_of(file)[0]
    placements = sheets[0]["placements"]
    count = len(placements)
    assert count == 210
    found = numbers_drawn(page, count)
    assert set(found) == set(range(1, count + 1))
    # the middle of each bracket on the steel, from its placement, beside its number's on paper
    steel, paper = [], []
    for number, placed in enumerate(placements, 1):
        if placed["blank"] == "bracket":
            turn = math.radians(placed["rotation_deg"])
            x = placed["x_mm"] + 23 * math.cos(turn) - 19 * math.sin(turn)
            y = placed["y_mm"] + 23 * math.sin(turn) + 19 * math.cos(turn)
            steel.append((x, y))
            paper.append(found[number])
    (along, *_), (up, *_) = (
        np.polynomial.Polynomial.fit(
            [one[k] for one in steel], [one[k] for one in paper], 1, full=True
        )
        for k in (0, 1)
    )
    scale = along.convert().coef[1]
    assert scale > 0
    assert up.convert().coef[1] == pytest.approx(-scale, rel=0.01)  # y up
    for (x, y), (u, v) in zip(steel, paper, strict=True):
        assert (along(x), up(y)) == pytest.approx((u, v), abs=0.5)  # a bracket is 4 by 5 mm there
    assert "200 x bracket" in page.words
    assert_inside(page)


def test_sixty_parts_of_ones_own_and_a_long_name_hold(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platewheel.cli.job.plan.nest", in_rows)
    name = "the-long-named-line-by-the-old-quarry-and-the-mill-pond-2026"
    sizes = {f"bracket_of_the_brake_number_{i:02d}": (40.0 + i, 30.0 + i % 7) for i in range(60)}
    rows = stock(2000.0, 1000.0) + own_parts(tmp_path, sizes, hole_mm=6.0)
    keys = LED | {"job.name": f'"{name}"', "cutting.mark_names": "false"}
    file, sheets = nested(tmp_path, keys, rows=rows, name=name)
    page = pages_of(file)[0]
    assert [one for one in sizes if not page.says(f"1 x {one}: ")] == []
    assert f"{name}: plates to cut" in page.words
    count = len(sheets[0]["placements"])
    assert set(numbers_drawn(page, count)) == set(range(1, count + 1))
    # told once for all of them: 6 mm is less than the 7.5 that plasma cuts in 5 mm
    assert page.words.count("smaller than") == 1
    assert page.says("the hole of 6 mm is smaller than 7.5 mm")
    kept = sheets[0]["offcuts"][0]["name"]
    assert page.says(f"{kept}: ")
    assert_inside(page)


def test_more_names_than_go_on_a_page_are_said_to_stand_elsewhere() -> None:
    """Two hundred and forty discs, each with a name of its own, as many warnings, and one of so
    many kinds."""
    job = job_of(tomllib.loads(job_text()))
    placed = [
        Placement(disc(24.0, f"round_piece_of_the_wagon_{i:03d}"), *at, 0.0)
        for i, at in enumerate((50.0 * (i % 20 + 1), 50.0 * (i // 20 + 1)) for i in range(240))
    ]
    layout = Layout(plate(1050.0, 1050.0), tuple(placed))
    plan = Plan((), Nest((layout,)), (), (), (), 0.0, ())
    lines = [f"hole {i}: mind what is written here of it" for i in range(240)]
    data = plates_pdf(job, plate_pages(job, plan, ["sheets/6mm-1.dxf"], [lines]))
    (page,) = pages_of(data)
    assert page.says("240 names are too many for this page: the report.json of a build has them")
    assert page.says("241 warnings: read them before the cut, in the report.json of a build")
    assert page.says("The makers' and the local rules come first.")
    assert set(numbers_drawn(page, 240, "240 names")) == set(range(1, 241))
    assert_inside(page)
