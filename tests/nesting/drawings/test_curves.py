"""Ellipses and splines as arcs, against closed forms and the curve itself looked at finely."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import scipy.interpolate
import scipy.special
import shapely
from ezdxf.math import BSpline, rational_bspline_from_arc
from hypothesis import Phase, example, given, settings
from hypothesis import strategies as st

from platewheel.nesting.drawings import curve_arcs, read
from platewheel.nesting.drawings.closed_loops import Run, run_segments
from platewheel.nesting.drawings.curve_arcs import CURVE_MM
from platewheel.nesting.drawings.drawn_runs import DrawnError, drawn_runs
from platewheel.nesting.drawings.read import read_outline
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Point,
    Segment,
    area_mm2,
    bounds,
    length_mm,
    segments,
)
from tests.nesting.drawn_files import drawing, save

FINE = 2000  # places looked at along each curve


def space() -> Any:
    return ezdxf.new("R2000").modelspace()


def along(edges: tuple[Segment, ...]) -> shapely.LineString:
    """The edges by chords of less than a third of a degree."""
    points: list[Point] = []
    for edge in edges:
        points.append(edge.start)
        if isinstance(edge, Arc):
            count = max(8, math.ceil(abs(edge.sweep_deg) * 3))
            steps = [edge.start_deg + edge.sweep_deg * i / count for i in range(1, count)]
            points += [edge.at(angle) for angle in steps]
    return shapely.LineString([*points, edges[-1].end])


def greatest_off(edges: tuple[Segment, ...], true: list[Point]) -> float:
    """Greatest distance of either from the other."""
    ours, curve = along(edges), shapely.LineString(true)
    there = shapely.distance(shapely.points(true), ours).max()
    back = shapely.distance(shapely.points(ours.coords), curve).max()
    return float(max(there, back))


@settings(max_examples=25, phases=[Phase.explicit, Phase.generate])
@given(
    st.floats(2, 500),
    st.floats(0.02, 1),
    st.floats(0, 2 * math.pi),
    st.floats(0, 2 * math.pi),
    st.floats(0.3, 2 * math.pi),
)
def test_an_ellipse_or_a_piece_of_one(
    long: float, ratio: float, lean: float, first: float, span: float
) -> None:
    major = (long * math.cos(lean), long * math.sin(lean))
    drawn = space().add_ellipse((7, -3), major, ratio, first, first + span)
    edges = run_segments(drawn_runs(drawn, 1.0))
    cos, sin, short = math.cos(lean), math.sin(lean), long * ratio
    true = []
    for i in range(FINE + 1):
        t = first + span * i / FINE
        x, y = long * math.cos(t), short * math.sin(t)
        true.append((7 + x * cos - y * sin, -3 + x * sin + y * cos))
    # what the chords of the true curve lie off it, themselves: chord^2 / 8 r, r >= short^2 / long
    own = (long * span / FINE) ** 2 / 8 / (short**2 / long)
    assert greatest_off(edges, true) <= CURVE_MM + own + 1e-6 * long
    assert len(edges) <= 8 * (4 + (long / 20) ** (1 / 3) / ratio)
    for a, b in pairwise(edges):  # they run smoothly into each other
        assert abs(math.sin(math.radians(leaves(b) - arrives(a)))) < 1e-3


def leaves(edge: Segment) -> float:
    if isinstance(edge, Arc):
        return edge.start_deg + math.copysign(90, edge.sweep_deg)
    (ax, ay), (bx, by) = edge.start, edge.end
    return math.degrees(math.atan2(by - ay, bx - ax))


def arrives(edge: Segment) -> float:
    return leaves(edge) + (edge.sweep_deg if isinstance(edge, Arc) else 0.0)


def test_a_whole_ellipse_is_as_long_wide_and_large_as_it_is(tmp_path: Path) -> None:
    doc = drawing()
    doc.modelspace().add_ellipse((0, 0), (60, 0), ratio=0.5)
    drawn = read_outline(save(doc, tmp_path))
    assert bounds(drawn.outline) == pytest.approx((0, 0, 120, 60), abs=1e-6)
    assert area_mm2(drawn.outline) == pytest.approx(math.pi * 60 * 30, rel=3e-4)
    # length 4 a E(e^2), E the complete elliptic integral. Source: Abramowitz and Stegun, 17.3
    whole = 4 * 60 * scipy.special.ellipe(1 - 0.25)
    assert length_mm(drawn.outline) == pytest.approx(whole, rel=1e-4)
    assert len(segments(drawn.outline)) <= 40
    assert drawn.notes == ("1 ELLIPSE drawn by arcs that lie within 0.02 mm of it",)


def test_a_spline_that_is_a_circle_is_one(tmp_path: Path) -> None:
    doc = drawing()
    ring = rational_bspline_from_arc((50, 0), 20, 0, 360)  # a circle without loss
    doc.modelspace().add_spline().apply_construction_tool(ring)
    drawn = read_outline(save(doc, tmp_path))
    assert isinstance(drawn.outline, Circle)
    assert drawn.outline.radius_mm == pytest.approx(20, abs=1e-6)
    assert drawn.notes == ("1 SPLINE drawn by arcs that lie within 0.02 mm of it",)


PLACES = st.lists(
    st.tuples(st.floats(-200, 200), st.floats(-200, 200)), min_size=4, max_size=12, unique=True
)


# two bends of one stretch that undo each other
BENT_BACK = [(-69.02, 195.81), (0, 185.52), (43.73, 40.27), (-192.77, 0), (0, -73.12)]
BENT_BACK += [(-47.8, 119.79), (187.79, 82.5), (1, 168.52), (0, -86.7), (71.39, 0), (0, -89.64)]
BENT_BACK += [(2, 0)]


@settings(max_examples=12, phases=[Phase.explicit, Phase.generate])
@example(BENT_BACK, 5)
@given(PLACES, st.sampled_from([2, 3, 4, 5]))
def test_a_spline_beside_scipy(places: list[Point], degree: int) -> None:
    """The same control points and knots in a library of its own."""
    degree = min(degree, len(places) - 1)
    inner = list(range(1, len(places) - degree))
    knots = [0.0] * (degree + 1) + inner + [len(inner) + 1.0] * (degree + 1)
    line = space().add_spline(degree=degree)
    line.control_points = [(x, y, 0) for x, y in places]
    line.knots = knots
    edges = run_segments(drawn_runs(line, 1.0))
    curve = scipy.interpolate.BSpline(knots, places, degree)
    steps = np.linspace(0, knots[-1], 400 * (len(inner) + 1) + 1)
    true = [(float(x), float(y)) for x, y in curve(steps[:-1])] + [places[-1]]
    bent = np.abs(curve(steps[:-1], 2)).max() * math.sqrt(2)  # a chord lies c'' t^2 / 8 off
    assert greatest_off(edges, true) <= CURVE_MM + 1.5 * bent * steps[1] ** 2 / 8
    assert edges[0].start == pytest.approx(places[0], abs=1e-6)
    assert edges[-1].end == pytest.approx(places[-1], abs=1e-6)
    assert len(edges) <= 40 * len(places)


def test_few_arcs_where_chords_would_be_many() -> None:
    line = space().add_spline([(0, 0), (100, 60), (200, -60), (300, 0)])
    chords = list(line.flattening(CURVE_MM))
    assert len(run_segments(drawn_runs(line, 1.0))) < len(chords) / 3


def test_a_closed_spline_has_the_area_of_its_own(tmp_path: Path) -> None:
    doc = drawing()
    ring = [(80, 0), (60, 50), (0, 70), (-60, 40), (-70, -20), (-20, -60), (50, -50), (80, 0)]
    doc.modelspace().add_spline(ring)
    path = save(doc, tmp_path)
    tool = next(iter(ezdxf.readfile(path).modelspace())).construction_tool()
    true = shapely.Polygon([(p.x, p.y) for p in tool.approximate(200_000)]).area
    drawn = read_outline(path)
    assert area_mm2(drawn.outline) == pytest.approx(true, rel=1e-4)
    assert len(segments(drawn.outline)) <= 60


def test_a_true_corner_of_a_spline_stays_one() -> None:
    line = space().add_spline(degree=2)  # two parabolas that meet at a right angle
    line.control_points = [(0, 0, 0), (20, 10, 0), (40, 0, 0), (30, 20, 0), (50, 40, 0)]
    line.knots = [0, 0, 0, 1, 1, 2, 2, 2]
    run = drawn_runs(line, 1.0)
    corner = min(run.corners, key=lambda c: math.dist(c[:2], (40, 0)))
    assert corner[:2] == pytest.approx((40, 0), abs=1e-9)
    edges = run_segments(run)
    turns = [abs(math.sin(math.radians(leaves(b) - arrives(a)))) for a, b in pairwise(edges)]
    assert sorted(turns)[-2] < 1e-3 < 0.5 < max(turns)


def test_loose_ends_of_knots_are_no_part_of_the_curve() -> None:
    """Even knots: the curve begins at the middle of a sixth, two thirds, a sixth.

    Source: de Boor, A Practical Guide to Splines: cubic at a simple knot of an even row.
    """
    line = space().add_spline(degree=3)
    line.control_points = [(0, 0, 0), (30, 0, 0), (60, 30, 0), (60, 90, 0), (0, 90, 0)]
    line.knots = list(range(9))
    run = drawn_runs(line, 1.0)
    assert run.corners[0][:2] == pytest.approx((30, 5))
    assert run.corners[-1][:2] == pytest.approx(((60 + 4 * 60 + 0) / 6, (30 + 4 * 90 + 90) / 6))


def test_the_drawings_unit_scales_the_curve_and_not_its_tolerance() -> None:
    drawn = space().add_ellipse((0, 0), (6, 0), ratio=0.5)
    inch = run_segments(drawn_runs(drawn, 25.4))
    true = [
        (25.4 * 6 * math.cos(t), 25.4 * 3 * math.sin(t))
        for t in (2 * math.pi * i / FINE for i in range(FINE + 1))
    ]
    assert greatest_off(inch, true) <= CURVE_MM + 1e-3


def test_curves_off_the_plane_are_told() -> None:
    rising = space().add_spline([(0, 0, 0), (10, 0, 0), (20, 0, 3), (30, 0, 9)])
    with pytest.raises(DrawnError, match="SPLINE that rises"):
        drawn_runs(rising, 1.0)


@pytest.mark.parametrize("points", [[(5, 5)] * 4, [(0, 0), (10, 0), (0, 0), (10, 0)]])
def test_a_curve_that_stands_still_or_turns_back(points: list[Point]) -> None:
    line = space().add_spline(degree=3)
    line.control_points = [(x, y, 0) for x, y in points]
    line.knots = [0, 0, 0, 0, 1, 1, 1, 1]
    run = drawn_runs(line, 1.0)
    assert isinstance(run, Run)
    xs = [corner[0] for corner in run.corners]
    assert min(x for x, _ in points) - 0.02 <= min(xs)
    assert max(xs) <= max(x for x, _ in points) + 0.02


def chain(pieces: int, degree: int = 3) -> tuple[list[Point], list[float]]:
    """Control points and knots of curves joined one to the next, as drawing programs write them."""
    count = pieces * degree + 1
    points = [(10.0 * i / degree, 20 * math.sin(i * i)) for i in range(count)]
    inner = [float(knot) for knot in range(1, pieces) for _ in range(degree)]
    return points, [0.0] * (degree + 1) + inner + [float(pieces)] * (degree + 1)


@pytest.mark.parametrize("degree", [2, 3, 5])
@pytest.mark.parametrize("weighed", [False, True])
def test_a_chain_of_pieces_is_each_of_them_on_its_own(degree: int, weighed: bool) -> None:
    points, knots = chain(5, degree)
    weights = [1 + i % 3 for i in range(len(points))] if weighed else None
    whole = space().add_spline()
    whole.dxf.degree, whole.control_points, whole.knots = degree, points, knots
    if weights:
        whole.weights = weights
    found = run_segments(drawn_runs(whole, 1.0))
    apart: list[Segment] = []
    for i in range(0, len(points) - 1, degree):
        one = space().add_spline()
        one.dxf.degree, one.control_points = degree, points[i : i + degree + 1]
        one.knots = [0.0] * (degree + 1) + [1.0] * (degree + 1)
        if weights:
            one.weights = weights[i : i + degree + 1]
        apart += run_segments(drawn_runs(one, 1.0))
    ends, wanted = ([edge.end for edge in edges] for edges in (found, apart))
    assert np.array(ends) == pytest.approx(np.array(wanted), abs=1e-5)


def test_each_look_at_a_long_chain_goes_through_its_own_piece_alone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    lengths: list[int] = []
    seen = BSpline.points

    def points(self: BSpline, t: Any) -> Any:
        lengths.append(self.count)
        return seen(self, t)

    monkeypatch.setattr(BSpline, "points", points)
    spline = space().add_spline()
    spline.control_points, spline.knots = chain(40)
    drawn_runs(spline, 1.0)
    whole = [length for length in lengths if length > 4]
    assert len(lengths) > 40
    assert len(whole) < len(lengths) / 5  # the first and the last piece, whose ends may be loose


def test_a_spline_of_straight_lines_is_its_points() -> None:
    points = [(float(i), float(i * i % 97)) for i in range(20_000)]
    spline = space().add_open_spline(points, degree=1)
    assert [corner[:2] for corner in drawn_runs(spline, 1.0).corners] == points


def test_more_arcs_than_any_part_has_are_not_looked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(curve_arcs, "MOST_ARCS", 50)
    monkeypatch.setattr(read, "MOST_ARCS", 50)
    doc = drawing()
    spline = doc.modelspace().add_spline()
    spline.control_points, spline.knots = chain(60)
    with pytest.raises(SpecError, match="takes more than 50 lines and arcs to follow"):
        read_outline(save(doc, tmp_path))
    doc = drawing()
    for i in range(20):
        doc.modelspace().add_ellipse((30 * i, 0), (10, 0), 0.5)
    with pytest.raises(SpecError, match="ELLIPSE and SPLINE of at most 50 lines and arcs together"):
        read_outline(save(doc, tmp_path))
