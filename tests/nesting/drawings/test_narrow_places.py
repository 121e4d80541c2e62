"""Of an outline of thousands of chords, only those about a place are looked at."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.drawings import chords
from platewheel.nesting.drawings.chords import Chords
from platewheel.nesting.drawings.narrow_places import Narrow, narrow_places, region_of
from platewheel.parts.geometry.outline import polygon

places = st.tuples(st.floats(-60, 60), st.floats(-60, 60))
RING = shapely.Point(0, 0).buffer(40, quad_segs=8).difference(shapely.box(-10, -9, 12, 8))


@given(st.lists(places, min_size=1, max_size=5), st.floats(0.1, 30))
def test_chords_near_a_place_are_those_that_a_polygon_library_finds(spots, wide: float) -> None:
    line = RING.boundary
    edge, asked = Chords(line), np.array(spots)
    gaps = [line.distance(shapely.Point(spot)) for spot in spots]
    assert edge.gaps(asked, 1e3) == pytest.approx(gaps, abs=1e-9)
    assert (edge.gaps(asked, wide) <= wide).tolist() == [gap <= wide for gap in gaps]
    nearest = edge.nearest(asked)
    assert np.hypot(*(nearest - asked).T) == pytest.approx(gaps, abs=1e-9)
    for spot, runs in zip(spots, edge.runs_in(asked, wide), strict=True):
        disc = shapely.Point(spot).buffer(wide, quad_segs=500)
        assert sum(length for _, length in runs) == pytest.approx(
            line.intersection(disc).length, abs=0.01 + 0.01 * wide
        )
        assert all(line.distance(shapely.Point(place)) < 1e-9 for place, _ in runs)
        least = min((math.dist(place, spot) for place, _ in runs), default=math.inf)
        assert least == pytest.approx(line.distance(shapely.Point(spot)), abs=1e-9) or not runs


@pytest.mark.parametrize("at_once", [1, 3])
def test_places_asked_for_a_few_at_once_are_told_alike(
    monkeypatch: pytest.MonkeyPatch, at_once: int
) -> None:
    spots = np.random.default_rng(2).uniform(-60, 60, (10, 2))
    edge = Chords(RING.boundary)
    gaps, nearest, runs = edge.gaps(spots, 20.0), edge.nearest(spots), edge.runs_in(spots, 12.0)
    assert 0 < np.isfinite(gaps).sum() < 10
    monkeypatch.setattr(chords, "AT_ONCE", at_once)
    assert edge.gaps(spots, 20.0).tolist() == gaps.tolist()
    assert edge.nearest(spots).tolist() == nearest.tolist()
    assert edge.runs_in(spots, 12.0) == runs


def test_a_run_goes_on_over_corners_and_over_the_start_of_a_ring() -> None:
    edge = Chords(shapely.box(0, 0, 10, 4).boundary)
    corners = edge.ends[:, 0].tolist()
    *at_corners, between, nowhere = edge.runs_in(
        np.array([*corners, [5.0, 2.0], [50.0, 50.0]]), 2.5
    )
    assert at_corners == [[(tuple(corner), pytest.approx(5.0))] for corner in corners]
    assert sorted(between) == [((5.0, 0.0), pytest.approx(3.0)), ((5.0, 4.0), pytest.approx(3.0))]
    assert nowhere == []


def test_corners_are_known_by_their_place() -> None:
    edge = Chords(shapely.union(RING, shapely.box(90, 0, 95, 5)).boundary)
    numbers = edge.corner_numbers(np.array([(95.0, 5.0), (-10.0, -9.0), (95.0, 5.1)]))
    assert edge.ends[numbers[:2], 0].tolist() == [[95.0, 5.0], [-10.0, -9.0]]
    assert numbers[2] == -1
    square = Chords(shapely.box(0, 0, 4, 3).boundary)
    (number,) = square.corner_numbers(-np.zeros((1, 2)))  # -0.0 is 0.0
    assert number >= 0
    assert square.ends[number, 0].tolist() == [0.0, 0.0]
    assert Chords(shapely.Polygon().boundary).corner_numbers(np.zeros((2, 2))).tolist() == [-1, -1]
    assert np.array_equal(edge.ends[edge.after, 0], edge.ends[:, 1])


@pytest.mark.parametrize(("gap_mm", "found"), [(1.9, 39), (2.1, 0)])
def test_each_gap_of_a_comb_is_told_once(gap_mm: float, found: int) -> None:
    """Forty teeth; the disc that goes into the gaps or does not has a radius of 1 mm."""
    corners = [(0.0, -20.0), (40 * 6.0 - gap_mm, -20.0)]
    for k in reversed(range(40)):
        left, right = k * 6.0, (k + 1) * 6.0 - gap_mm
        corners += [(right, 0.0), (right, 30.0), (left, 30.0), (left, 0.0)]
    comb = region_of(polygon(corners))
    narrow = narrow_places(shapely.box(*comb.bounds).buffer(9).difference(comb), 1.0)
    assert [one.kind for one in narrow] == found * ["end"]
    assert [one.width_mm for one in narrow] == pytest.approx(found * [gap_mm], abs=0.02)
    rests = math.sqrt(max(0.0, 1 - (gap_mm / 2) ** 2))  # the disc's centre above the teeth
    deep = math.hypot(30 + rests, gap_mm / 2) - 1
    assert [one.deep_mm for one in narrow] == pytest.approx(found * [deep], abs=0.02)


def test_widths_of_very_many_places_are_as_true() -> None:
    """Slits that grow narrower: of a hundred as of three."""

    def wedges(count: int) -> list[Narrow]:
        corners = [(0.0, -20.0), (count * 6.0, -20.0), (count * 6.0, 0.0)]
        for x in (k * 6.0 + 3.0 for k in reversed(range(count))):
            corners += [(x + 0.95, 0.0), (x + 0.2, -9.0), (x - 0.2, -9.0), (x - 0.95, 0.0)]
        block = region_of(polygon([*corners, (0.0, 0.0)]))
        return narrow_places(shapely.box(*block.bounds).buffer(9).difference(block), 1.0)

    many, few = wedges(120), wedges(3)
    assert (len(many), len(few)) == (120, 3)
    assert [one.width_mm for one in many] == pytest.approx(120 * [few[0].width_mm], abs=0.002)
    assert [one.deep_mm for one in many] == pytest.approx(120 * [few[0].deep_mm], abs=1e-6)


def test_beads_on_short_necks_are_joined_once_each_from_the_greatest_on() -> None:
    """Discs that overlap by a lens narrower than the kerf, and one far from all others."""
    beads = [shapely.Point(9.9 * k, 0).buffer(5, quad_segs=32) for k in range(9)]
    chain = shapely.union_all([*beads, shapely.Point(19.8, 0).buffer(5.05, quad_segs=32)])
    least = narrow_places(shapely.union(chain, shapely.Point(300, 0).buffer(4)), 1.0)
    assert [one.kind for one in least] == 9 * ["between"]
    assert [one.place[0] for one in least[:-1]] == pytest.approx(
        [9.9 * k + 4.95 for k in range(8)], abs=0.1
    )
    assert least[0].width_mm == pytest.approx(2 * math.sqrt(25 - 4.95**2), abs=0.05)


def test_a_long_slit_is_told_by_its_corners_not_by_places_all_along_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[int] = []
    gaps = Chords.gaps

    def counted(self: Chords, places: np.ndarray, most_mm: float) -> np.ndarray:
        asked.append(len(places))
        return gaps(self, places, most_mm)

    monkeypatch.setattr(Chords, "gaps", counted)
    slit = shapely.box(0, 24.8, 19_000, 25.2)
    (found,) = narrow_places(slit.union(shapely.box(-100, 0, 0, 50)), 0.5)
    assert (found.kind, round(found.deep_mm, -1)) == ("end", 19_000)
    assert sum(asked) < 1000
