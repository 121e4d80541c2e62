"""True lines and arcs against closed forms, and against a general polygon library on facets."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from platewheel.parts.geometry import outline
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop

STEP_DEG = 0.2  # facet of the reference: area of an arc low by 1 - sin(step)/step = 2e-6
quick = settings(max_examples=150, deadline=None, derandomize=True)


def facet_points(loop: Loop) -> list[tuple[float, float]]:
    """Points along the loop, from centre, radius and angles alone."""
    if isinstance(loop, Circle):
        loop = (Arc(loop.centre, loop.radius_mm, 0.0, 360.0),)
    points = []
    for segment in loop:
        if isinstance(segment, Line):
            points.append(segment.start)
            continue
        count = max(2, math.ceil(abs(segment.sweep_deg) / STEP_DEG))
        for i in range(count):
            angle = math.radians(segment.start_deg + segment.sweep_deg * i / count)
            x, y = segment.centre
            r = segment.radius_mm
            points.append((x + r * math.cos(angle), y + r * math.sin(angle)))
    return points


def faceted(loop: Loop) -> Polygon:
    return Polygon(facet_points(loop))


def bulged_edge(a: tuple[float, float], b: tuple[float, float], sweep_deg: float) -> Line | Arc:
    """Arc from a to b with the sweep given (positive counter-clockwise), or a line for 0."""
    if abs(sweep_deg) < 1:
        return Line(a, b)
    half = math.radians(sweep_deg) / 2
    chord = math.dist(a, b)
    radius = chord / 2 / abs(math.sin(half))
    # centre: from the chord's middle, to its left by chord/2 / tan(half)
    ux, uy = (b[0] - a[0]) / chord, (b[1] - a[1]) / chord
    lift = chord / 2 / math.tan(half)
    centre = ((a[0] + b[0]) / 2 - uy * lift, (a[1] + b[1]) / 2 + ux * lift)
    start = math.degrees(math.atan2(a[1] - centre[1], a[0] - centre[0]))
    return Arc(centre, radius, start, sweep_deg)


@st.composite
def cake_loops(draw: st.DrawFn) -> Loop:
    """Star-shaped loops of lines and arcs, bulging out and in, either way round."""
    count = draw(st.integers(3, 7))
    radii = draw(st.lists(st.floats(40, 100), min_size=count, max_size=count))
    sweeps = draw(st.lists(st.floats(-60, 170), min_size=count, max_size=count))
    turns = [2 * math.pi * i / count for i in range(count)]
    corners = [(r * math.cos(t), r * math.sin(t)) for r, t in zip(radii, turns, strict=True)]
    ends = [*corners[1:], corners[0]]
    loop: Loop = tuple(bulged_edge(a, b, s) for a, b, s in zip(corners, ends, sweeps, strict=True))
    assume(faceted(loop).is_valid)
    return outline.reversed_loop(loop) if draw(st.booleans()) else loop


@st.composite
def chord_loops(draw: st.DrawFn) -> Loop:
    """One arc of up to 355 degrees, either way, closed by its chord: above 180 a big cap."""
    sweep = draw(st.floats(5, 355)) * draw(st.sampled_from([-1, 1]))
    centre = draw(st.tuples(st.floats(-200, 200), st.floats(-200, 200)))
    arc = Arc(centre, draw(st.floats(5, 300)), draw(st.floats(-720, 720)), sweep)
    return (arc, Line(arc.end, arc.start))


@st.composite
def sector_loops(draw: st.DrawFn) -> Loop:
    """Annular sectors in one piece an arc, so that arcs above 180 degrees occur."""
    inner = draw(st.floats(10, 200))
    outer = inner + draw(st.floats(2, 100))
    sweep = draw(st.floats(5, 350))
    out, back = Arc((0, 0), outer, 0, sweep), Arc((0, 0), inner, sweep, -sweep)
    loop: Loop = (out, Line(out.end, back.start), back, Line(back.end, out.start))
    return outline.moved(loop, draw(st.floats(-300, 300)), 7.0, draw(st.floats(-360, 360)))


circles = st.builds(
    Circle, st.tuples(st.floats(-100, 100), st.floats(-100, 100)), st.floats(0.5, 300)
)
loops = st.one_of(cake_loops(), chord_loops(), sector_loops(), circles)


@quick
@given(loops)
def test_area_length_and_bounds_against_facets(loop: Loop) -> None:
    shape = faceted(loop)
    length = outline.length_mm(loop)
    # each facet lies within r (1 - cos(step/2)) of its arc
    radius = max((s.radius_mm for s in outline.segments(loop) if isinstance(s, Arc)), default=0.0)
    off = 1e-9 + radius * (1 - math.cos(math.radians(STEP_DEG / 2)))
    assert outline.area_mm2(loop) == pytest.approx(shape.area, abs=off * length)
    assert length == pytest.approx(shape.length, rel=1e-5)
    assert outline.bounds(loop) == pytest.approx(shape.bounds, abs=2 * off)


@quick
@given(loops)
def test_the_sign_of_the_area_tells_the_way_round(loop: Loop) -> None:
    ccw = faceted(loop).exterior.is_ccw
    assert (outline.signed_area_mm2(loop) > 0) == ccw


@quick
@given(loops, st.floats(-1.1, 1.1), st.floats(-1.1, 1.1))
def test_contains_against_facets(loop: Loop, across: float, up: float) -> None:
    shape = faceted(loop)
    x0, y0, x1, y1 = shape.bounds
    point = ((x0 + x1) / 2 + across * (x1 - x0) / 2, (y0 + y1) / 2 + up * (y1 - y0) / 2)
    assume(shape.exterior.distance(ShapelyPoint(point)) > 0.01)
    assert outline.contains(loop, point) == shape.contains(ShapelyPoint(point))


@quick
@given(loops)
def test_reversed_is_the_same_outline_the_other_way(loop: Loop) -> None:
    back = outline.reversed_loop(loop)
    assert faceted(back).symmetric_difference(faceted(loop)).area < 1e-6
    assert outline.length_mm(back) == pytest.approx(outline.length_mm(loop), rel=1e-12)
    if not isinstance(loop, Circle):
        area = outline.signed_area_mm2(loop)
        assert outline.signed_area_mm2(back) == pytest.approx(-area, rel=1e-9, abs=1e-9)
        assert not isinstance(back, Circle)
        for one, following in zip(back, [*back[1:], back[0]], strict=True):
            assert one.end == pytest.approx(following.start, abs=1e-9)


@quick
@given(loops, st.floats(-500, 500), st.floats(-500, 500), st.floats(-720, 720))
def test_moved_turns_about_the_origin_then_shifts(
    loop: Loop, x: float, y: float, turn: float
) -> None:
    wanted = affinity.translate(affinity.rotate(faceted(loop), turn, origin=(0, 0)), x, y)
    moved = outline.moved(loop, x, y, turn)
    if isinstance(loop, Circle):  # facets start elsewhere on a turned circle
        assert isinstance(moved, Circle)
        assert moved.radius_mm == loop.radius_mm
        assert moved.centre == pytest.approx(wanted.centroid.coords[0], abs=1e-8)
    else:
        there = [c for p in facet_points(moved) for c in p]
        assert there == pytest.approx([c for p in wanted.exterior.coords[:-1] for c in p], abs=1e-8)
    assert outline.area_mm2(moved) == pytest.approx(outline.area_mm2(loop), rel=1e-9, abs=1e-8)


@pytest.mark.parametrize("turn", [0, 90, 180, 270, -90, 360, 450])
def test_quarter_turns_are_exact(turn: int) -> None:
    x, y = outline.turned((3.0, 4.0), turn)
    assert (x, y) in {(3.0, 4.0), (-4.0, 3.0), (-3.0, -4.0), (4.0, -3.0)}
    want = complex(3, 4) * 1j ** (turn // 90 % 4)
    assert (x, y) == (want.real, want.imag)


@pytest.mark.parametrize("sweep", [30.0, 90.0, 180.0, 181.0, 270.0, 359.0])
@pytest.mark.parametrize("way", [1, -1])
def test_circular_segment_in_closed_form(sweep: float, way: int) -> None:
    """Area r^2 (a - sin a) / 2, length r a + 2 r sin(a / 2)."""
    arc = Arc((7.0, -3.0), 50.0, 20.0, way * sweep)
    loop = (arc, Line(arc.end, arc.start))
    a = math.radians(sweep)
    area = 50**2 * (a - math.sin(a)) / 2
    assert outline.signed_area_mm2(loop) == pytest.approx(way * area, rel=1e-10, abs=1e-9)
    assert outline.length_mm(loop) == pytest.approx(50 * a + 100 * math.sin(a / 2), rel=1e-12)


@pytest.mark.parametrize("sweep", [10.0, 90.0, 180.0, 200.0, 338.3, 359.9])
def test_annular_sector_in_closed_form(sweep: float) -> None:
    """Area (R^2 - r^2) a / 2; ends are straight; all arcs at most half a turn."""
    loop = annular_sector(100.0, 130.0, sweep)
    a = math.radians(sweep)
    assert outline.signed_area_mm2(loop) == pytest.approx((130**2 - 100**2) * a / 2, rel=1e-12)
    assert outline.length_mm(loop) == pytest.approx(230 * a + 2 * 30, rel=1e-12)
    assert all(abs(s.sweep_deg) <= 180 + 1e-9 for s in loop if isinstance(s, Arc))
    for one, following in zip(loop, [*loop[1:], loop[0]], strict=True):
        assert one.end == pytest.approx(following.start, abs=1e-9)


@pytest.mark.parametrize(
    ("arc", "bounds"),
    [
        (Arc((0, 0), 10, 0, 90), (0, 0, 10, 10)),
        (Arc((0, 0), 10, 90, -90), (0, 0, 10, 10)),
        (Arc((0, 0), 10, 0, 270), (-10, -10, 10, 10)),
        (Arc((0, 0), 10, 45, 90), (-10 / 2**0.5, 10 / 2**0.5, 10 / 2**0.5, 10)),
        (Arc((0, 0), 10, 135, -90), (-10 / 2**0.5, 10 / 2**0.5, 10 / 2**0.5, 10)),
        (Arc((5, 5), 10, 315, 90), (5 + 10 / 2**0.5, 5 - 10 / 2**0.5, 15, 5 + 10 / 2**0.5)),
        (Arc((5, 5), 10, -45, 450 - 135), (-5, -5, 15, 15)),
    ],
)
def test_bounds_of_an_arc(arc: Arc, bounds: tuple[float, ...]) -> None:
    assert outline.bounds((arc, Line(arc.end, arc.start))) == pytest.approx(bounds, abs=1e-9)


@quick
@given(chord_loops())
def test_bulge_gives_the_arc_back(loop: Loop) -> None:
    """DXF reference, group code 42: bulge = tan(sweep / 4); radius = chord (1 + b^2) / (4 |b|)."""
    assert not isinstance(loop, Circle)
    arc, chord = loop
    assert isinstance(arc, Arc)
    assert chord.bulge == 0
    b = arc.bulge
    assert math.degrees(4 * math.atan(b)) == pytest.approx(arc.sweep_deg)
    assert chord.length_mm * (1 + b * b) / (4 * abs(b)) == pytest.approx(arc.radius_mm, rel=1e-6)


@quick
@given(chord_loops(), st.floats(10, 180))
def test_arc_pieces_are_the_same_arc(loop: Loop, most: float) -> None:
    assert not isinstance(loop, Circle)
    arc = loop[0]
    assert isinstance(arc, Arc)
    pieces = outline.arc_pieces(arc, most)
    assert all(abs(piece.sweep_deg) <= most * (1 + 1e-9) for piece in pieces)
    assert math.fsum(piece.length_mm for piece in pieces) == pytest.approx(arc.length_mm)
    assert pieces[0].start == pytest.approx(arc.start, abs=1e-9)
    assert pieces[-1].end == pytest.approx(arc.end, abs=1e-9)
    for one, following in itertools.pairwise(pieces):
        assert one.end == pytest.approx(following.start, abs=1e-9)


def test_polygon_and_join() -> None:
    square = outline.polygon([(0, 0), (4, 0), (4, 3), (0, 3)])
    assert outline.area_mm2(square) == 12
    assert outline.length_mm(square) == 14
    assert outline.join([square, Circle((10, 10), 2)]) == pytest.approx((0, 0, 12, 12))


def test_a_blank_is_its_outline_less_its_holes() -> None:
    blank = Blank("b", "disc", 6.0, Circle((0, 0), 50), (Circle((0, 0), 10), Circle((30, 0), 5)))
    assert blank.area_mm2 == pytest.approx(math.pi * (2500 - 100 - 25))
    assert blank.cut_length_mm == pytest.approx(2 * math.pi * 65)
    assert blank.volume_mm3 == pytest.approx(6 * blank.area_mm2)
    assert blank.bounds == pytest.approx((-50, -50, 50, 50))
