"""What the kerf cannot follow: found by its size and place, filled, and nothing else touched."""

from __future__ import annotations

import math
from typing import Any

import pytest
import shapely
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.drawings.kerf_fit import Fine, Fitted, fitted, notes_of
from platewheel.nesting.drawings.narrow_places import region_of
from platewheel.nesting.stock.cutting import LEAST_WEB_MM
from platewheel.nesting.stock.layout import NestingError
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    area_mm2,
    moved,
    polygon,
    segments,
)
from tests.nesting.drawn_files import parts_with_holes

KERF = 1.7
SQUARE = polygon([(0, 0), (100, 0), (100, 50), (0, 50)])
SQUARE_MM2 = 5000.0


def notched(wide: float, deep: float, floor: float | None = None) -> Loop:
    """The square with a notch in its upper edge, `floor` wide at the bottom."""
    half, low = wide / 2, (wide if floor is None else floor) / 2
    way = [(50 + half, 50), (50 + low, 50 - deep), (50 - low, 50 - deep), (50 - half, 50)]
    return polygon([(0, 0), (100, 0), (100, 50), *dict.fromkeys(way), (0, 50)])


def round_slot() -> Loop:
    """A slit of 1 mm with a round bottom and a round mouth."""
    return (
        *polygon([(48.5, 50), (0, 50), (0, 0), (100, 0), (100, 50), (51.5, 50)])[:-1],
        Arc((51.5, 49), 1, 90, 90),
        Line((50.5, 49), (50.5, 30)),
        Arc((50, 30), 0.5, 0, -180),
        Line((49.5, 30), (49.5, 49)),
        Arc((48.5, 49), 1, 0, 90),
    )


def bay(mouth: float) -> Loop:
    """A bay of 10 x 10 mm behind a mouth 10 mm long."""
    low, high = 50 - mouth / 2, 50 + mouth / 2
    inside = [(high, 50), (high, 40), (55, 40), (55, 30), (45, 30), (45, 40), (low, 40), (low, 50)]
    return polygon([(0, 0), (100, 0), (100, 50), *inside, (0, 50)])


def one(found: Fitted, what: str, width: float, place: Point, within: float = 1.0) -> None:
    (fine,) = found.fine
    assert fine.what == what
    assert fine.width_mm == pytest.approx(width, abs=0.05)
    assert math.dist(fine.place, place) < within
    assert found.stuck == ()


@pytest.mark.parametrize("wide", [0.02, 0.5, 1.0, 1.6, 1.69])
@pytest.mark.parametrize("deep", [2.0, 10.0, 40.0])
def test_a_slit_narrower_than_the_kerf(wide: float, deep: float) -> None:
    found = fitted(notched(wide, deep), (), KERF)
    one(found, "a hollow", wide, (50, 50 - deep / 2), deep / 2)
    assert area_mm2(found.outline) == pytest.approx(SQUARE_MM2, abs=1e-3)


@pytest.mark.parametrize("deep", [0.2, 2.0, 10.0, 40.0])
@pytest.mark.parametrize("wide", [1.71, 2.0, 5.0])
def test_a_slit_as_wide_as_the_kerf_is_followed(wide: float, deep: float) -> None:
    loop = notched(wide, deep)
    assert fitted(loop, (), KERF) == Fitted(loop, (), ())


@pytest.mark.parametrize("angle", [15, 30, 60, 90, 120])
def test_an_inner_corner_is_rounded_and_no_narrow_place(angle: float) -> None:
    deep, half = 20.0, math.radians(angle / 2)
    assert fitted(notched(2 * deep * math.tan(half), deep, 0.0), (), KERF).fine == ()
    wall = KERF / 4 / math.tan(half)  # half of where a disc of the kerf's width would touch it
    (fine,) = fitted(notched(2 * wall * math.sin(half), wall * math.cos(half), 0.0), (), KERF).fine
    assert fine.what == "a hollow"


@pytest.mark.parametrize("rise", [0.04, 0.3, 1.0, 5.0])
def test_a_step_in_an_edge_is_no_narrow_place(rise: float) -> None:
    step = [(0, 0), (100, 0), (100, 50), (60, 50), (60, 50 - rise), (0, 50 - rise)]
    assert fitted(polygon(step), (), KERF).fine == ()


def test_a_slit_with_round_mouth_and_bottom() -> None:
    found = fitted(round_slot(), (), KERF)
    one(found, "a hollow", 1.0, (50, 40), 10)
    assert area_mm2(found.outline) == pytest.approx(SQUARE_MM2, abs=1.0)
    assert any(isinstance(s, Arc) for s in found.outline)  # what is left stays true


def test_a_bay_behind_a_narrow_mouth() -> None:
    found = fitted(bay(1.2), (), KERF)
    one(found, "a neck", 1.2, (50, 45), 5.5)
    assert area_mm2(found.outline) == pytest.approx(SQUARE_MM2, abs=1e-3)
    assert fitted(bay(1.8), (), KERF).fine == ()


def test_holes_no_larger_than_the_kerf_are_left_out() -> None:
    narrow = polygon([(30, 10), (40, 10), (40, 11), (30, 11)])
    wide = polygon([(30, 20), (40, 20), (40, 22), (30, 22)])
    holes = (Circle((10, 10), 0.8), narrow, wide, Circle((70, 20), 0.9))
    found = fitted(SQUARE, holes, KERF)
    assert [(f.what, round(f.width_mm, 2)) for f in found.fine] == [
        ("a hole", 1.6),
        ("a hole", 1.0),
    ]
    assert found.holes == (wide, Circle((70, 20), 0.9))


def test_a_hole_with_a_neck_keeps_its_larger_end() -> None:
    small, large = 10 * 10, 15 * 10
    hole = polygon(
        [
            *[(20, 20), (30, 20), (30, 24.5), (60, 24.5), (60, 20), (75, 20)],
            *[(75, 30), (60, 30), (60, 25.5), (30, 25.5), (30, 30), (20, 30)],
        ]
    )
    assert area_mm2(hole) == small + large + 30
    found = fitted(SQUARE, (hole,), KERF)
    one(found, "a neck", 1.0, (45, 25), 16)
    (rest,) = found.holes
    assert area_mm2(rest) == pytest.approx(large, abs=1e-3)


@pytest.mark.parametrize("thick", [0.3, 0.6, 0.99, 1.01, 2.0])
def test_a_web_between_two_cuts(thick: float) -> None:
    pairs: list[tuple[tuple[Loop, ...], Point]] = [
        ((Circle((30, 25), 6), Circle((42 + thick, 25), 6)), (36 + thick / 2, 25)),
        ((Circle((50, 6 + thick), 6),), (50, thick / 2)),
        ((polygon([(20, 20), (40, 20), (40, 50 - thick), (20, 50 - thick)]),), (30, 50)),
    ]
    for holes, place in pairs:
        found = fitted(SQUARE, holes, KERF)
        assert (found.outline, found.holes) == (SQUARE, holes)
        if thick < LEAST_WEB_MM:
            one(found, "a web", thick, place, 11)
        else:
            assert found.fine == ()


def test_a_thin_tongue_is_a_web_and_a_sharp_tip_is_none() -> None:
    tongue = [(0, 0), (30, 0), (30, 10), (50, 10), (50, 10.7), (30, 10.7), (30, 50), (0, 50)]
    one(fitted(polygon(tongue), (), KERF), "a web", 0.7, (40, 10.35), 10)
    assert fitted(polygon([(0, 0), (100, 0), (50, 5)]), (), KERF).fine == ()


def test_many_places_each_by_itself() -> None:
    row = [(x + d, y) for x in (80, 60, 40, 20) for d, y in ((1, 50), (1, 40), (0, 40), (0, 50))]
    found = fitted(polygon([(0, 0), (100, 0), (100, 50), *row, (0, 50)]), (), KERF)
    assert [round(fine.place[0]) for fine in found.fine] == [20, 40, 60, 80]
    assert area_mm2(found.outline) == pytest.approx(SQUARE_MM2, abs=1e-3)


def test_of_very_many_places_the_first_are_told_and_how_many_more() -> None:
    fine = [Fine("a web", (k, 0), 0.3, "it stays") for k in range(30)]
    fine += [Fine("a hollow", (k, 0), 0.5 + k / 100, "it is not cut") for k in range(60)]
    assert len(list(notes_of(fine[:60], KERF, (0, 0), 1.0))) == 60
    notes = list(notes_of(fine, KERF, (0, 0), 1.0))
    assert notes[:20] == list(notes_of(fine[:20], KERF, (0, 0), 1.0))
    assert notes[20:] == [
        "and 10 more places, each a web 0.30 to 0.30 mm wide: it stays",
        "and 60 more places, each a hollow 0.50 to 1.09 mm wide: it is not cut",
    ]


def test_without_a_kerf_nothing_is_too_fine() -> None:
    loop = notched(0.5, 10)
    assert fitted(loop, (), 0.0) == Fitted(loop, (), ())


@settings(max_examples=30, phases=[Phase.explicit, Phase.reuse, Phase.generate])
@given(parts_with_holes(), st.sampled_from([0.2, 1.7, 2.5]))
def test_what_is_left_is_all_followed(part: tuple[Loop, tuple[Loop, ...]], kerf: float) -> None:
    """The writer of torch paths follows what is left; only steel is added, where no disc of the
    kerf's width lies clear of the part."""
    outline, holes = part
    found = fitted(outline, holes, kerf)
    assert not found.stuck
    for loop, hole in ((found.outline, False), *((one, True) for one in found.holes)):
        torch_path(loop, kerf, hole=hole)
    before, after = region_of(outline), region_of(found.outline)
    assert before.difference(after.buffer(0.005)).area < 1e-2
    outside = before.convex_hull.buffer(20).difference(before)
    reached = outside.buffer(-kerf / 2 * 1.01)
    main = max(getattr(reached, "geoms", [reached]), key=lambda p: p.area)
    half_disc = math.pi * kerf**2 / 8  # a straight edge across a mouth fills up to that of it
    assert main.buffer(kerf / 2).intersection(after).area < half_disc * len(found.fine) + 1e-2
    if not found.fine:
        assert (found.outline, found.holes) == (outline, holes)


@settings(max_examples=30)
@given(st.floats(0.1, 4), st.floats(4, 30), st.floats(0.0, 1.3), st.sampled_from([1.7, 3.0]))
def test_what_the_writer_refuses_is_found(
    wide: float, deep: float, floor: float, kerf: float
) -> None:
    """Notches with upright, closing and opening sides."""
    loop = notched(wide, deep, wide * floor)
    try:
        torch_path(loop, kerf, hole=False)
    except NestingError:
        assert fitted(loop, (), kerf).fine


@settings(max_examples=20)
@given(st.floats(0, 360), st.floats(-1000, 1000))
def test_places_turn_and_move_with_the_part(turn: float, along: float) -> None:
    loop = moved(notched(1.0, 10), along, 7.0, turn)
    (fine,) = fitted(loop, (), KERF).fine
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    x, y = 50 * cos - 45 * sin + along, 50 * sin + 45 * cos + 7.0
    assert math.dist(fine.place, (x, y)) < 5.5
    assert fine.width_mm == pytest.approx(1.0, abs=0.05)


def test_regions_are_true_to_the_arcs() -> None:
    assert region_of(Circle((3, 4), 50)).area == pytest.approx(math.pi * 2500, rel=1e-4)
    assert shapely.is_valid(region_of(round_slot()))


@pytest.mark.parametrize("bottom", [33.8, 25])
def test_a_slit_at_the_bottom_of_a_wedge(bottom: float) -> None:
    """The disc rolls down both sides and stops before a way on that it cannot go."""
    down = [(60, 50), (50.4, 35), (50.4, bottom), (49.6, bottom), (49.6, 35), (40, 50)]
    loop = polygon([(0, 0), (100, 0), (100, 50), *down, (0, 50)])
    (fine,) = fitted(loop, (), KERF).fine
    assert fine.what == "a hollow"
    assert bottom < fine.place[1] < 36
    down[2:4] = [(50.4, 34.8), (49.6, 34.8)]  # no deeper than the corner would be
    assert fitted(polygon([(0, 0), (100, 0), (100, 50), *down, (0, 50)]), (), KERF).fine == ()


def waist(thick: float) -> Loop:
    """A bar of 40 x 20 with a round bite in either side, `thick` between the two."""
    top = thick / 2 + 6
    return (
        *polygon([(-20, -10), (-6, -10), (-6, -top)])[:-1],
        Arc((0, -top), 6, 180, -180),
        *polygon([(6, -top), (6, -10), (20, -10), (20, 10), (6, 10), (6, top)])[:-1],
        Arc((0, top), 6, 0, -180),
        *polygon([(-6, top), (-6, 10), (-20, 10), (-20, -10)])[:-1],
    )


@pytest.mark.parametrize("thick", [0.5, 0.9, 0.99])
def test_a_neck_so_short_that_the_disc_nearly_goes_through(thick: float) -> None:
    one(fitted(waist(thick), (), KERF), "a web", thick, (0, 0), 0.6)
    assert fitted(waist(1.01), (), KERF).fine == ()
    hole = waist(1.7 * thick)
    found = fitted(moved(SQUARE, -50, -25), (hole,), KERF)
    one(found, "a neck", 1.7 * thick, (0, 0), 0.6)
    (rest,) = found.holes
    half = area_mm2(hole) / 2  # one end is kept, as far as the disc goes
    assert half - 4 < area_mm2(rest) < half


def test_pockets_of_straight_lines_are_not_walked_segment_by_segment(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Of each place to fill, the ring on its other side may be looked at: thousands of lines."""
    walked: list[int] = []

    def counted(loop: Loop) -> Any:
        walked.append(len(segments(loop)))
        return region_of(loop)

    monkeypatch.setattr("platewheel.nesting.drawings.kerf_fit.region_of", counted)
    slits = [
        spot
        for x in range(190, 0, -10)
        for spot in ((x + 0.4, 50), (x + 0.4, 30), (x - 0.4, 30), (x - 0.4, 50))
    ]
    found = fitted(polygon([(0, 0), (200, 0), (200, 50), *slits, (0, 50)]), (), KERF)
    assert [one.what for one in found.fine] == 19 * ["a hollow"]
    assert area_mm2(found.outline) == pytest.approx(10_000.0, abs=1.0)
    assert len(walked) <= 4
