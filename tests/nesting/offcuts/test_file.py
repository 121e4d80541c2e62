"""offcuts.toml: names that no other job or layout gives, tables that the next job takes."""

from __future__ import annotations

import tomllib
from dataclasses import replace

import pytest

from platewheel.nesting.offcuts.file import offcut_names, offcuts_toml
from platewheel.nesting.offcuts.remnant import Remnant, rectangle
from platewheel.nesting.stock.layout import Layout, Placement, sheets_of
from platewheel.nesting.stock.stock import Offcut
from tests.nesting.plates import disc, plate

LAID = (Placement(disc(90.0), 50.0, 60.0, 0.0),)


def kept_of(repeat: int, x1_mm: float = 403.7) -> Remnant:
    layout = Layout(plate(803.0, 602.0), LAID, repeat)
    return rectangle(layout, (100.0, 50.0, x1_mm, 300.0))


def read(text: str) -> list[Offcut]:
    return [Offcut(**table) for table in tomllib.loads(text).get("offcut", [])]


def test_one_offcut_for_each_plate_cut() -> None:
    offcuts = read(offcuts_toml([kept_of(2), kept_of(1, 500.0)], "my-wheels"))
    assert len({piece.name for piece in offcuts}) == 3
    sheets = sheets_of([], offcuts)
    sizes = [(sheet.length_mm, sheet.width_mm) for sheet in sheets]
    assert sizes == [pytest.approx(size) for size in ((303.7, 250), (303.7, 250), (400, 250))]
    assert {(piece.steel, piece.thickness_mm) for piece in offcuts} == {("S235", 6.0)}


def test_outline_and_holes_come_back_as_they_lie() -> None:
    corners = ((100.0, 50.0), (700.0, 50.0), (500.25, 400.0), (100.0, 600.0))
    hole = ((200.0, 150.0), (260.0, 150.0), (200.0, 190.0))
    piece = Remnant(Layout(plate(803.0, 602.0, steel="S355"), LAID), corners, (hole,))
    (row,) = read(offcuts_toml([piece], "job"))
    (sheet,) = sheets_of([], [row])
    assert sheet.steel == "S355"
    assert sheet.corners == tuple((x - 100, y - 50) for x, y in corners)
    assert sheet.holes == (tuple((x - 100, y - 50) for x, y in hole),)
    assert sheet.area_mm2 == pytest.approx(piece.area_mm2)


@pytest.mark.parametrize("name", [60 * "w", "a" + 43 * " " + "b", "v1.2_x-y"])
def test_any_job_name_gives_names_that_the_next_job_takes(name: str) -> None:
    offcuts = read(offcuts_toml([kept_of(100)], name))
    assert len({piece.name for piece in offcuts}) == 100


def test_names_differ_between_jobs_and_layouts_and_are_the_same_again() -> None:
    piece = kept_of(2)
    layout = piece.layout
    moved = replace(layout, placements=(replace(LAID[0], x_mm=51.0),))
    others = [
        ([piece], "other"),
        ([piece], "job "),
        ([kept_of(2, 404.0)], "job"),
        ([replace(piece, layout=moved)], "job"),
        ([replace(piece, layout=replace(layout, repeat=3))], "job"),
        ([piece, piece], "job"),
    ]
    names = {name for row in offcut_names([piece], "job") for name in row}
    assert len(names) == 2
    for kept, job in others:
        rows = offcut_names(kept, job)
        assert names.isdisjoint(name for row in rows for name in row)
        assert [len(row) for row in rows] == [one.layout.repeat for one in kept]
    assert offcut_names([kept_of(2)], "job") == offcut_names([piece], "job")


def test_long_job_names_that_begin_alike_give_names_apart() -> None:
    first, second = (offcut_names([kept_of(1)], 50 * "w" + end) for end in ("a", "b"))
    assert first != second


def test_nothing_kept_is_still_toml() -> None:
    assert tomllib.loads(offcuts_toml([], "job")) == {}
