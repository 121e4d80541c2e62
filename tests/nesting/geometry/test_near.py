"""Outlines of very many segments: boxes compared all at once find what each with each would."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry import gaps, near
from platewheel.nesting.geometry.gaps import box_gap, loop_gap, segment_gap
from platewheel.parts.geometry.outline import Line, Loop, moved, polygon, segments
from tests.nesting.geometry.test_gaps import arcs, lines

ends = st.tuples(*[st.integers(-9, 9).map(float) | st.floats(-9, 9)] * 4)


@given(a=st.lists(lines | arcs, max_size=9), b=st.lists(lines | arcs, max_size=9),
       within=st.floats(0, 60))  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_pairs_of_boxes_are_those_that_each_with_each_finds(a, b, within) -> None:
    ones, others = near.boxes_of(a), near.boxes_of(b)
    found = [
        (int(m), int(n))
        for i, k in near.near_pairs(ones, others, within)
        for m, n in zip(i, k, strict=True)
    ]
    gap = {(m, n): box_gap(tuple(p), tuple(q)) for m, p in enumerate(ones)
           for n, q in enumerate(others)}  # fmt: skip
    assert len(found) == len(set(found))
    assert {pair for pair, mm in gap.items() if mm <= within} <= set(found)
    assert all(gap[pair] <= within + 1e-6 for pair in found)


def test_pairs_come_in_several_arrays_where_there_are_many(monkeypatch: pytest.MonkeyPatch) -> None:
    boxes = np.array([(x, 0.0, x + 1.0, 1.0) for x in range(40)])
    monkeypatch.setattr(near, "AT_ONCE", 7)
    runs = list(near.near_pairs(boxes, boxes, 0.5))
    assert len(runs) > 10
    assert sum(len(i) for i, _ in runs) == 40 + 2 * 39


@given(a=ends, b=ends)
@settings(max_examples=200, deadline=None)
def test_gaps_of_lines_all_at_once_are_those_of_each_pair(a, b) -> None:
    told = near.line_gaps(np.array([a]), np.array([b]))[0]
    assert told == pytest.approx(segment_gap(Line(a[:2], a[2:]), Line(b[:2], b[2:])), abs=1e-12)


def _wavy(count: int, x: float, y: float, arms: int) -> Loop:
    def at(turn: float) -> tuple[float, float]:
        radius = 80 + 9 * math.sin(arms * turn)
        return radius * math.cos(turn), radius * math.sin(turn)

    ring = polygon([at(2 * math.pi * k / count) for k in range(count)])
    return moved(ring, x, y, 7.0)


@pytest.mark.parametrize("enough", [math.inf, 3.0, 400.0])
@pytest.mark.parametrize("apart", [100.0, 163.0, 182.0, 500.0])
def test_gap_of_wavy_discs_is_that_of_a_polygon_library(apart: float, enough: float) -> None:
    a, b = _wavy(300, 0, 0, 5), _wavy(170, apart, 20, 6)
    assert len(segments(a)) * len(segments(b)) > gaps.MANY
    rims = [shapely.LinearRing([one.start for one in segments(ring)]) for ring in (a, b)]
    assert loop_gap(a, b, enough) == pytest.approx(min(enough, rims[0].distance(rims[1])), abs=1e-9)


@given(st.integers(0, 300), st.integers(0, 90))
@settings(max_examples=30, deadline=None)
def test_gap_is_the_same_with_arcs_and_either_way(x: int, turn: int) -> None:
    from platewheel.parts.geometry.blank import annular_sector

    a, b = _wavy(60, 0, 0, 4), moved(annular_sector(40, 70, 200), x, 20, turn)
    plain = min(segment_gap(p, q) for p in segments(a) for q in segments(b))
    many = gaps._gap_of_many(segments(a), segments(b), math.inf)
    assert many == pytest.approx(plain, abs=1e-9)
    assert gaps._gap_of_many(segments(b), segments(a), math.inf) == pytest.approx(many, abs=1e-9)
