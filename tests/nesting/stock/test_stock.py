"""Tables of cutting and stock: what is refused, and how it is told."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.nesting.stock.layout import sheets_of
from platewheel.nesting.stock.stock import LEAST_WEB_MM, Bar, Cutting, Offcut, Pipe, Stock
from platewheel.parts.base.faults import SpecError

SQUARE = [[0.0, 0.0], [300.0, 0.0], [300.0, 200.0], [0.0, 200.0]]


def keys(kind: Any, **values: Any) -> set[str]:
    with pytest.raises(SpecError) as caught:
        kind(**values)
    for fault in caught.value.faults:
        assert fault.allowed
        assert fault.advice
    return {fault.key for fault in caught.value.faults}


def test_cutting_can_be_left_to_its_defaults() -> None:
    cut = Cutting()
    assert not cut.kerf_in_path
    assert min(cut.part_spacing_mm, cut.sheet_margin_mm) >= cut.kerf_mm + LEAST_WEB_MM


def test_spacing_and_margin_hold_the_kerf_and_a_web_of_steel() -> None:
    just = {"kerf_mm": 2.0, "part_spacing_mm": 3.0, "sheet_margin_mm": 3.0}
    assert Cutting(**just).part_spacing_mm == 3.0
    assert keys(Cutting, **(just | {"part_spacing_mm": 2.99})) == {"part_spacing_mm"}
    assert keys(Cutting, **(just | {"sheet_margin_mm": 2.99})) == {"sheet_margin_mm"}
    assert keys(Cutting, **(just | {"kerf_mm": 2.1})) == {"part_spacing_mm", "sheet_margin_mm"}


def test_common_lines_ask_for_a_kerf_in_the_path_and_no_tabs() -> None:
    path = {"common_lines": True, "kerf_in_path": True}
    assert Cutting(**path).common_lines
    assert not Cutting().common_lines
    assert keys(Cutting, common_lines=True) == {"common_lines"}
    assert keys(Cutting, **path, tab_count=2) == {"common_lines"}
    assert keys(Cutting, **path, kerf_mm=0.0) == {"common_lines"}
    with pytest.raises(SpecError) as caught:
        Cutting(common_lines=True, tab_count=3, kerf_mm=0.0)
    told = str(caught.value)
    assert all(words in told for words in ("kerf_in_path = true", "tab_count is 3", "kerf_mm is 0"))


def test_steel_that_stands_beside_the_kerfs() -> None:
    """Two neighbours have a kerf each between them, the sheet's edge has none."""
    cut = Cutting(kerf_mm=2.0, part_spacing_mm=7.0, sheet_margin_mm=9.0)
    assert (cut.web_mm, cut.edge_web_mm) == (3.0, 7.0)


@pytest.mark.parametrize(
    ("values", "key"),
    [
        ({"kerf_mm": -0.1}, "kerf_mm"),
        ({"kerf_mm": math.nan}, "kerf_mm"),
        ({"kerf_mm": math.inf}, "kerf_mm"),
        ({"lead_in_mm": 31.0}, "lead_in_mm"),
        ({"part_spacing_mm": 101.0}, "part_spacing_mm"),
        ({"sheet_margin_mm": 201.0}, "sheet_margin_mm"),
        ({"cut_speed_mm_per_min": 0.0}, "cut_speed_mm_per_min"),
        ({"pierce_s": -1.0}, "pierce_s"),
        ({"setup_minutes": -1.0}, "setup_minutes"),
        ({"price_per_h": -1.0}, "price_per_h"),
        ({"rapid_mm_per_min": 0.0}, "rapid_mm_per_min"),
        ({"current_a": 0.0}, "current_a"),
        ({"heat_apart_mm": -1.0}, "heat_apart_mm"),
        ({"least_hole_mm": -1.0}, "least_hole_mm"),
        ({"skeleton_piece_mm": -1.0}, "skeleton_piece_mm"),
        ({"process": "water"}, "process"),
        ({"kerf_in_path": 1}, "kerf_in_path"),
        ({"kerf_in": 0.07}, "kerf_in"),
    ],
)
def test_bad_cutting_is_refused_by_its_key(values: dict[str, Any], key: str) -> None:
    assert keys(Cutting, **values) == {key}


SIZES: dict[Any, dict[str, Any]] = {
    Stock: {"thickness_mm": 6.0, "width_mm": 1250.0, "length_mm": 2500.0},
    Bar: {"thickness_mm": 8.0, "width_mm": 60.0, "length_mm": 6000.0},
    Pipe: {"outside_mm": 323.9, "wall_mm": 8.0, "length_mm": 3000.0},
}


@pytest.mark.parametrize("kind", SIZES)
def test_every_size_must_be_given_and_above_nought(kind: Any) -> None:
    good = SIZES[kind]
    made = kind(**good)
    assert made.count is None  # as many as needed
    assert made.price == 0
    for key in good:
        assert keys(kind, **(good | {key: 0.0})) == {key}
        assert keys(kind, **{k: v for k, v in good.items() if k != key}) == {key}
    assert keys(kind, **(good | {"count": -1})) == {"count"}
    assert keys(kind, **(good | {"count": 1.5})) == {"count"}
    assert kind(**(good | {"count": 0})).count == 0


def test_steel_is_one_of_the_grades() -> None:
    assert Stock(**SIZES[Stock], steel="S355").steel == "S355"
    assert keys(Stock, **SIZES[Stock], steel="S690") == {"steel"}


def test_offcut_with_a_hole_and_either_way_round_is_taken() -> None:
    hole = [[50.0, 50.0], [90.0, 50.0], [90.0, 80.0]]
    for ring in (SQUARE, SQUARE[::-1]):
        made = Offcut(name="corner", thickness_mm=6.0, outline=ring, holes=[hole])
        assert made.holes == [hole]


@pytest.mark.parametrize(
    ("outline", "holes", "key"),
    [
        ([[0.0, 0.0], [300.0, 200.0], [300.0, 0.0], [0.0, 200.0]], [], "outline"),  # crosses itself
        ([[0.0, 0.0], [300.0, 0.0], [150.0, 0.0]], [], "outline"),  # no area
        ([[0.0, 0.0], [300.0, 0.0]], [], "outline"),  # two corners
        (SQUARE, [[[250.0, 50.0], [350.0, 50.0], [300.0, 90.0]]], "holes[0]"),  # over the edge
        (SQUARE, [[[400.0, 50.0], [450.0, 50.0], [420.0, 90.0]]], "holes[0]"),  # beside it
        (
            SQUARE,
            [[[50.0, 50.0], [90.0, 50.0], [90.0, 90.0]], [[9.0, 9.0], [20.0, 9.0], [15.0, 9.0]]],
            "holes[1]",  # the second one has no area
        ),
    ],
)
def test_unsound_offcut_is_refused(outline: Any, holes: Any, key: str) -> None:
    assert keys(Offcut, name="c", thickness_mm=6.0, outline=outline, holes=holes) == {key}


def test_offcut_needs_a_name_of_at_most_60_characters() -> None:
    good = {"thickness_mm": 6.0, "outline": SQUARE}
    assert keys(Offcut, **good) == {"name"}
    assert keys(Offcut, **good, name="") == {"name"}
    assert keys(Offcut, **good, name=61 * "x") == {"name"}
    assert Offcut(**good, name=60 * "x").name == 60 * "x"


def test_offcut_tables_are_moved_to_the_origin() -> None:
    table = Offcut(
        name="corner",
        thickness_mm=6.0,
        outline=[[-50.0, 100.0], [150.0, 100.0], [150.0, 250.0], [-50.0, 250.0]],
        holes=[[[0.0, 150.0], [20.0, 150.0], [20.0, 170.0]]],
    )
    (sheet,) = sheets_of([], [table])
    assert sheet.corners == ((0, 0), (200, 0), (200, 150), (0, 150))
    assert sheet.holes == (((50, 50), (70, 50), (70, 70)),)
    assert (sheet.length_mm, sheet.width_mm, sheet.count) == (200, 150, 1)
    assert sheet.area_mm2 == pytest.approx(200 * 150 - 20 * 20 / 2)


def test_a_pipe_is_hollow() -> None:
    """EN 10220 lists 10.2 mm with walls up to 2.6 mm: no pipe's wall comes near half of it."""
    pipe: dict[str, Any] = {"outside_mm": 10.2, "length_mm": 3000.0}
    assert Pipe(**pipe, wall_mm=2.6).wall_mm == 2.6
    assert Pipe(**pipe, wall_mm=5.09).wall_mm == 5.09
    for wall in (5.1, 8.0):
        assert keys(Pipe, **pipe, wall_mm=wall) == {"wall_mm"}
    assert keys(Pipe, **pipe, wall_mm="8") == {"wall_mm"}  # one fault, not two
    assert keys(Pipe, **(pipe | {"outside_mm": 0.0}), wall_mm=8.0) == {"outside_mm"}
