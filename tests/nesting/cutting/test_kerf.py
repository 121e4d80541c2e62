"""Torch paths lie half a kerf from the part everywhere, and enclose what geometry says."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.files.write_dxf import write_sheet_dxf
from platewheel.nesting.geometry.gaps import point_gap
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, NestingError, Placement
from platewheel.parts.geometry.blank import annular_sector
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    area_mm2,
    contains,
    length_mm,
    moved,
    polygon,
    segments,
)
from tests.nesting.plates import along, cutting, disc, faceted, plate, tapered

quick = settings(max_examples=80, deadline=None, derandomize=True)
kerfs = st.floats(0.1, 5)


def rectangle(length_mm: float, width_mm: float) -> Loop:
    return polygon([(0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm)])


def path_points(path: Loop) -> list[tuple[float, float]]:
    """Starts, ends and many points between them."""
    points = []
    for segment in segments(path):
        points += [*along(segment, 0.02), segment.end]
        if isinstance(segment, Line):
            (ax, ay), (bx, by) = segment.start, segment.end
            points += [(ax + (bx - ax) * s / 9, ay + (by - ay) * s / 9) for s in range(1, 9)]
    return points


def assert_half_a_kerf_off(part: Loop, path: Loop, kerf_mm: float, *, inside: bool) -> None:
    for point in path_points(path):
        gap = min(point_gap(point, segment) for segment in segments(part))
        assert gap == pytest.approx(kerf_mm / 2, abs=1e-8)
        assert contains(part, point) == inside


def assert_closed(path: Loop) -> None:
    ring = segments(path)
    for one, after in zip(ring, [*ring[1:], ring[0]], strict=True):
        assert one.end == pytest.approx(after.start, abs=1e-8)


@st.composite
def outlines(draw: st.DrawFn) -> Loop:
    """Disc, strip or sector; mouths of sectors at least 12 mm wide, hollows 6 mm in radius."""
    kind = draw(st.sampled_from(["disc", "strip", "sector", "tapered"]))
    if kind == "disc":
        return Circle((draw(st.floats(-50, 50)), 7.0), draw(st.floats(5, 200)))
    if kind == "strip":
        return moved(rectangle(draw(st.floats(20, 900)), draw(st.floats(10, 80))), 5.0, 9.0, 30.0)
    if kind == "tapered":
        return tapered(draw(st.floats(200, 900)), 60.0, draw(st.floats(1000, 5000))).outline
    inner = draw(st.floats(6, 200))
    most = 360 - math.degrees(12 / inner) if inner > 12 else 180.0
    edge = annular_sector(inner, inner + draw(st.floats(8, 40)), draw(st.floats(10, most)))
    return moved(edge, 3.0, -4.0, draw(st.floats(-360, 360)))


@quick
@example(moved(annular_sector(6.0, 14.0, 180.0), 3.0, -4.0, 5.5), 0.25)  # in line with its ends
@given(outlines(), kerfs)
def test_outline_path_lies_half_a_kerf_outside(part: Loop, kerf_mm: float) -> None:
    path = torch_path(part, kerf_mm, hole=False)
    assert_closed(path)
    assert_half_a_kerf_off(part, path, kerf_mm, inside=False)


@quick
@given(outlines(), kerfs)
def test_area_within_the_path_is_that_of_the_parallel_curve(part: Loop, kerf_mm: float) -> None:
    """Steiner's formula, A + P d + pi d^2 at distance d: for convex outlines, and for any whose
    hollows are wider than d. Source: Steiner's formula for parallel curves (from memory)."""
    d = kerf_mm / 2
    expected = area_mm2(part) + length_mm(part) * d + math.pi * d * d
    path = torch_path(part, kerf_mm, hole=False)
    assert area_mm2(path) == pytest.approx(expected, rel=1e-9)
    assert length_mm(path) == pytest.approx(length_mm(part) + 2 * math.pi * d, rel=1e-9)


@quick
@given(st.floats(3, 200), kerfs)
def test_hole_path_lies_half_a_kerf_inside(radius_mm: float, kerf_mm: float) -> None:
    hole = Circle((4.0, 5.0), radius_mm)
    path = torch_path(hole, kerf_mm, hole=True)
    assert_half_a_kerf_off(hole, path, kerf_mm, inside=True)
    assert area_mm2(path) == pytest.approx(math.pi * (radius_mm - kerf_mm / 2) ** 2)


def test_arcs_stay_arcs_of_the_same_centre_and_corners_are_rounded() -> None:
    part = annular_sector(50.0, 60.0, 90.0)
    path = torch_path(part, 2.0, hole=False)
    arcs = [s for s in segments(path) if isinstance(s, Arc)]
    about_apex = sorted(s.radius_mm for s in arcs if s.centre == (0.0, 0.0))
    assert about_apex == [49.0, 61.0]
    corners = [s for s in arcs if s.centre != (0.0, 0.0)]
    assert [s.radius_mm for s in corners] == [1.0] * 4
    assert [s.sweep_deg for s in corners] == pytest.approx([90.0] * 4)
    assert len(segments(path)) == 8


def test_no_kerf_no_change() -> None:
    part = annular_sector(50.0, 60.0, 90.0)
    assert torch_path(part, 0.0, hole=False) == part


@pytest.mark.parametrize("diameter_mm", [1.0, 1.7])
def test_hole_no_larger_than_the_kerf_is_refused(diameter_mm: float) -> None:
    with pytest.raises(NestingError, match=rf"{diameter_mm:g} mm is no larger than the kerf"):
        torch_path(Circle((0.0, 0.0), diameter_mm / 2), 1.7, hole=True)


def test_hollow_tighter_than_half_the_kerf_is_refused() -> None:
    with pytest.raises(NestingError, match=r"outline has a hollow at .* than the kerf of 2.2 mm"):
        torch_path(annular_sector(1.0, 20.0, 120.0), 2.2, hole=False)


@st.composite
def jagged(draw: st.DrawFn) -> Loop:
    """Corners all round a middle at any distance, some sides bowed in or out: inward corners of
    every angle, hollows of every width."""
    count = draw(st.integers(4, 9))
    sizes = draw(st.lists(st.floats(15, 60), min_size=count, max_size=count))
    bows = draw(
        st.lists(st.sampled_from([0.0, 0.0, 0.15, -0.15, 0.3]), min_size=count, max_size=count)
    )
    points = [
        (r * math.cos(2 * math.pi * i / count), r * math.sin(2 * math.pi * i / count))
        for i, r in enumerate(sizes)
    ]
    ring = []
    for (ax, ay), (bx, by), bow in zip(points, [*points[1:], points[0]], bows, strict=True):
        if not bow:
            ring.append(Line((ax, ay), (bx, by)))
            continue
        chord, turn = math.dist((ax, ay), (bx, by)), 4 * math.atan(abs(bow))
        radius, sign = chord / 2 / math.sin(turn / 2), math.copysign(1.0, bow)
        off = sign * radius * math.cos(turn / 2) / chord
        x, y = (ax + bx) / 2 - off * (by - ay), (ay + by) / 2 + off * (bx - ax)
        start = math.degrees(math.atan2(ay - y, ax - x))
        ring.append(Arc((x, y), radius, start, sign * math.degrees(turn)))
    return tuple(ring)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(jagged(), st.floats(0.2, 6), st.booleans())
def test_inward_corners_are_trimmed_as_a_buffer_is(part: Loop, kerf_mm: float, hole: bool) -> None:
    """The area within the path is that of a polygon library's buffer; the path stays half a kerf
    off, and is refused only where the buffer falls apart or the kerf loses a side of the part."""
    shape = faceted(part, 1e-3)
    if not shape.is_valid:
        return
    half = kerf_mm / 2
    wide = shape.buffer(-half if hole else half, quad_segs=64)
    whole = wide.geom_type == "Polygon" and not wide.is_empty and not wide.interiors
    try:
        path = torch_path(part, kerf_mm, hole=hole)
    except NestingError:
        lost = [
            s
            for s in segments(part)
            if shapely.LineString([*along(s, 1e-3), s.end]).distance(wide.boundary) > half + 1e-3
        ]
        assert not whole or lost
        return
    assert whole
    assert_closed(path)
    assert area_mm2(path) == pytest.approx(wide.area, abs=2e-3 * shape.length)
    assert contains(part, segments(path)[0].start) == hole
    for point in path_points(path):
        gap = min(point_gap(point, segment) for segment in segments(part))
        assert gap == pytest.approx(half, abs=1e-5)


def test_an_angle_keeps_a_fillet_of_half_the_kerf_in_its_inward_corner() -> None:
    """L of 60 x 50, legs 20: closed form. Outward by d the area grows by perimeter x d, five
    quarter discs at the outer corners, less a square of d at the inner one."""
    part = polygon([(0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (20.0, 20.0), (20.0, 50.0), (0.0, 50.0)])
    path = torch_path(part, 2.0, hole=False)
    expected = 60 * 20 + 30 * 20 + 220 * 1.0 + 5 * math.pi / 4 - 1.0
    assert area_mm2(path) == pytest.approx(expected)
    assert any(p == pytest.approx((21.0, 21.0)) for p in (s.start for s in segments(path)))
    inside = torch_path(part, 2.0, hole=True)  # the same as a hole: one corner is rounded
    assert area_mm2(inside) == pytest.approx(1800 - 220 + 5.0 - math.pi / 4)


@pytest.mark.parametrize("fillet_mm", [0.3, 0.99, 1.0, 3.0])
def test_a_fillet_tighter_than_the_kerf_comes_out_as_round_as_the_kerf(fillet_mm: float) -> None:
    r = fillet_mm
    part = (
        Line((0.0, 0.0), (60.0, 0.0)),
        Line((60.0, 0.0), (60.0, 20.0)),
        Line((60.0, 20.0), (20.0 + r, 20.0)),
        Arc((20.0 + r, 20.0 + r), r, 270.0, -90.0),
        Line((20.0, 20.0 + r), (20.0, 50.0)),
        Line((20.0, 50.0), (0.0, 50.0)),
        Line((0.0, 50.0), (0.0, 0.0)),
    )
    path = torch_path(part, 2.0, hole=False)
    assert_closed(path)
    nearest = min(math.dist(p, (20.0, 20.0)) for p in path_points(path))
    tight = max(r, 1.0)  # of the finished corner, whose middle is the path's hollow
    assert nearest == pytest.approx(math.hypot(tight, tight) - (tight - 1.0), abs=2e-2)


@pytest.mark.parametrize(("slot_mm", "fits"), [(1.9, False), (2.1, True)])
def test_a_slot_is_cut_if_the_kerf_goes_into_it(slot_mm: float, fits: bool) -> None:
    part = polygon(
        [
            (0.0, 0.0),
            (40.0, 0.0),
            (40.0, 30.0),
            (20.0 + slot_mm, 30.0),
            (20.0 + slot_mm, 10.0),
            (20.0, 10.0),
            (20.0, 30.0),
            (0.0, 30.0),
        ]
    )
    if fits:
        path = torch_path(part, 2.0, hole=False)
        assert min(p[1] for p in path_points(path) if 19 < p[0] < 23 and p[1] > 0) == (
            pytest.approx(11.0)
        )
        return
    with pytest.raises(NestingError, match=r"hollow at \(.*\), narrower than the kerf of 2 mm"):
        torch_path(part, 2.0, hole=False)


def test_holes_of_any_shape_are_cut_inside() -> None:
    path = torch_path(rectangle(30.0, 12.0), 2.0, hole=True)
    assert area_mm2(path) == pytest.approx(28.0 * 10.0)
    assert_half_a_kerf_off(rectangle(30.0, 12.0), path, 2.0, inside=True)
    keyhole = torch_path(annular_sector(10.0, 20.0, 90.0), 2.0, hole=True)
    assert_closed(keyhole)
    assert_half_a_kerf_off(annular_sector(10.0, 20.0, 90.0), keyhole, 2.0, inside=True)
    with pytest.raises(NestingError, match="hole has no room for the torch"):
        torch_path(rectangle(30.0, 1.9), 2.0, hole=True)


@pytest.mark.parametrize("sweep_deg", [359.0, 358.9])
def test_mouth_narrower_than_the_kerf_is_refused(sweep_deg: float) -> None:
    """A flat flange cut open only by its seam gap: ends 2.6 mm apart, kerf 3.5 mm. No path
    leaves both ends whole."""
    ring = annular_sector(150.0, 170.0, sweep_deg)
    with pytest.raises(NestingError):
        torch_path(ring, 3.5, hole=False)


def test_a_hole_smaller_than_the_kerf_is_refused_with_the_kerf_in_the_path(
    tmp_path: Path,
) -> None:
    tiny = disc(80.0, holes=(Circle((0.0, 0.0), 0.7),))
    only = Layout(plate(300.0, 300.0), (Placement(tiny, 100.0, 100.0, 0.0),))
    with pytest.raises(NestingError, match=r"1\.4 mm is no larger than the kerf of 1\.5 mm"):
        write_sheet_dxf(only, cutting(kerf_in_path=True), tmp_path / "s.dxf")
    write_sheet_dxf(only, Cutting(kerf_mm=1.5), tmp_path / "s.dxf")  # the controller's affair
