"""Stretches of a ring, by their areas and lengths; the reference is shapely on fine chords."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.geometry.near import gaps_to
from platewheel.nesting.geometry.spans import Span, span_of
from platewheel.parts.geometry.outline import Arc, Line, Point, Segment, moved, polygon, segments

CORNERS = [(0, 0), (40, 0), (60, 15), (60, 50), (30, 30), (10, 50), (-5, 20)]
LEAST_MM = 1e-9


def line_with_bow() -> tuple[Segment, ...]:
    """A ring of lines with one round side, 20 wide, and a hollow one, 30 wide."""
    bow = Arc((20.0, 0.0), 20.0, 180.0, 180.0)
    hollow = Arc((60.0, 35.0), 15.0, -90.0, -180.0)
    lines = polygon([hollow.end, (30.0, 30.0), (0.0, 50.0), bow.start])[:-1]
    return (bow, Line(bow.end, (60.0, 0.0)), Line((60.0, 0.0), hollow.start), hollow, *lines)


RINGS = [polygon([(float(x), float(y)) for x, y in CORNERS]), line_with_bow()]


def chords(pieces: Sequence[Segment]) -> list[tuple[float, float]]:
    points = [pieces[0].start]
    for one in pieces:
        steps = 1 if isinstance(one, Line) else 2000
        if isinstance(one, Arc):
            points += [one.at(one.start_deg + k * one.sweep_deg / steps) for k in range(1, steps)]
        points.append(one.end)
    return points


def length_mm(span: Span) -> float:
    return math.fsum(one.length_mm for one in span.segments)


@pytest.mark.parametrize("ring", RINGS)
@pytest.mark.parametrize("far", [(0.0, 0.0), (5000.0, -900.0)])
def test_area_to_the_line_that_closes_a_stretch(
    ring: tuple[Segment, ...], far: tuple[float, float]
) -> None:
    at = moved(ring, *far)
    whole = span_of(at)
    for first in range(len(ring)):
        for last in range(first + 1, len(ring) + 1):
            stretch = whole[first:last]
            closed = chords(stretch.segments)
            expected = _area(closed)
            assert stretch.closed_area_mm2() == pytest.approx(expected, rel=1e-5, abs=1e-3)
            assert stretch.closed().closed_area_mm2() == pytest.approx(expected, rel=1e-5, abs=1e-3)


def _area(points: list[tuple[float, float]]) -> float:
    """By shapely, of triangles about the first corner with their signs: an 8 counts both ways."""
    x0, y0 = points[0]
    total = 0.0
    for (x, y), (u, v) in pairwise(points):
        area = shapely.Polygon([(x0, y0), (x, y), (u, v)]).area
        total += math.copysign(area, (x - x0) * (v - y0) - (y - y0) * (u - x0))
    return abs(total)


@given(
    st.sampled_from(RINGS),
    st.tuples(st.integers(0, 6), st.floats(0, 1)),
    st.tuples(st.integers(0, 6), st.floats(0, 1)),
)
def test_two_ways_between_two_places_make_the_ring(
    ring: tuple[Segment, ...], first: tuple[int, float], last: tuple[int, float]
) -> None:
    (i, s), (k, t) = (first[0] % len(ring), first[1]), (last[0] % len(ring), last[1])
    whole = span_of(ring)

    def along(at: int, share: float) -> float:
        before = math.fsum(one.length_mm for one in ring[:at])
        return before + share * ring[at].length_mm

    run, total = along(k, t) - along(i, s), length_mm(whole)
    there = whole.between((i, s), (k, t), LEAST_MM)
    back = whole.between((k, t), (i, s), LEAST_MM)
    if abs(run) > 1e-6 and total - abs(run) > 1e-6:
        assert length_mm(there) == pytest.approx(run % total, abs=1e-6)
        assert length_mm(there) + length_mm(back) == pytest.approx(total, abs=1e-6)
        assert math.dist(there.segments[-1].end, back.segments[0].start) < 1e-6
        assert math.dist(back.segments[-1].end, there.segments[0].start) < 1e-6


@given(st.sampled_from(RINGS), st.integers(0, 6), st.floats(0.001, 0.999))
def test_a_place_on_a_ring_is_found_again(
    ring: tuple[Segment, ...], number: int, share: float
) -> None:
    one = ring[number % len(ring)]
    if isinstance(one, Arc):
        place = one.at(one.start_deg + share * one.sweep_deg)
    else:
        (x, y), (u, v) = one.start, one.end
        place = (x + share * (u - x), y + share * (v - y))
    found = span_of(ring).at(place, 1e-6)
    assert found is not None
    k, s = found
    assert (k, s) == (number % len(ring), pytest.approx(share, abs=1e-6))
    x, y = place
    assert span_of(ring).at((x + 500.0, y), 1e-6) is None


def test_of_a_long_ring_only_what_lies_near_a_place_is_measured(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[int] = []

    def counted(place: Point, lines: np.ndarray) -> np.ndarray:
        asked.append(len(lines))
        return gaps_to(place, lines)

    monkeypatch.setattr("platewheel.nesting.geometry.spans.gaps_to", counted)
    corners = [(k * 1.0, 5.0 * (k % 2)) for k in range(600)]
    ring = span_of(segments(polygon([*corners, (600.0, 900.0)])))
    found = ring.at((300.5, 2.5), 0.01)
    assert found is not None
    assert found == (300, pytest.approx(0.5))
    assert ring.at((300.5, 400.0), 0.01) is None
    assert max(asked) <= 4
