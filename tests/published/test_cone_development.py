"""Flat pattern of a cone frustum: published layouts, and our solids integrated numerically.

Sources, named again beside each check:
- ceemrr.com, sheet-metal layout of a frustum of a cone: worked example in inches.
- anvilfire.com, cone layout: cone with a full apex angle of 90 degrees.
- mathforum.org, question 65796: chord of the blank's arc, c = 2 R sin(sweep / 2).
"""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest
from hypothesis import given, settings
from scipy.integrate import quad

from platewheel.parts.geometry.outline import Arc, Circle
from platewheel.parts.geometry.section import Section
from platewheel.parts.wheel.flange import (
    blank_sweep_deg,
    flange_blank,
    flange_section,
    slant_radii_mm,
)
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank, tread_section
from tests.parts.wheels import PLAIN, WHEELS, plain_wheel, valid_wheels

INCH = 25.4


def cone_in_inches(d0: float, d1: float, height: float, plate_mm: float) -> WheelSpec:
    """A flange whose mid-surface is this frustum, in one piece without a gap.

    Built past the spec's limits: as a flange it is far too steep, as a cone it is not.
    """
    angle = math.atan((d1 - d0) / 2 / height)
    rail_side = d0 / 2 * INCH + plate_mm / 2 * math.cos(angle)
    values: dict[str, Any] = PLAIN | {
        "tread_diameter_mm": 2 * rail_side,
        "flange_depth_mm": (d1 - d0) / 2 * INCH,
        "flange_angle_deg": math.degrees(angle),
        "flange_thickness_mm": plate_mm,
        "flange_segments": 1,
        "seam_gap_mm": 0.0,
    }
    return WheelSpec.model_construct(**values)


@pytest.mark.parametrize("plate_mm", [0.01, 3.0, 10.0])
def test_frustum_of_5_and_8_inch_4_inch_high(plate_mm: float) -> None:
    """ceemrr.com: inner radius 7.12 in, outer 11.39 in, included angle 126.4 degrees."""
    spec = cone_in_inches(5, 8, 4, plate_mm)
    inner, outer = slant_radii_mm(spec)
    assert inner / INCH == pytest.approx(7.12, abs=0.005)  # half of the last printed digit
    assert outer / INCH == pytest.approx(11.39, abs=0.005)
    assert blank_sweep_deg(spec) == pytest.approx(126.4, abs=0.05)
    sizes = flange_blank(spec).sizes
    assert sizes == {
        "inner_radius_mm": inner,
        "outer_radius_mm": outer,
        "sweep_deg": blank_sweep_deg(spec),
    }


def test_cone_with_a_full_apex_of_90_degrees() -> None:
    """anvilfire.com: the blank's angle is 254.6 degrees (0.7071 of a circle)."""
    blank = flange_blank(plain_wheel(flange_angle_deg=45.0, seam_gap_mm=0.0))
    # 360 sin 45 is 254.558; the source rounds up
    assert blank.sizes["sweep_deg"] == pytest.approx(254.6, abs=0.05)
    assert blank.sizes["sweep_deg"] / 360 == pytest.approx(0.7071, abs=0.00005)


@pytest.mark.parametrize("pieces", [1, 2, 3, 5])
def test_chord_of_each_arc(pieces: int) -> None:
    """mathforum.org 65796: c = 2 R sin(sweep / 2), laid out with a tape from corner to corner."""
    blank = flange_blank(plain_wheel(flange_segments=pieces))
    assert not isinstance(blank.outline, Circle)
    sweep = math.radians(blank.sizes["sweep_deg"])
    corners: dict[float, list[tuple[float, float]]] = {}
    for piece in blank.outline:
        if isinstance(piece, Arc):
            corners.setdefault(piece.radius_mm, []).extend([piece.start, piece.end])
    assert len(corners) == 2
    for radius, points in corners.items():
        ends = [p for p in points if sum(math.dist(p, q) < 1e-6 for q in points) == 1]
        assert math.dist(*ends) == pytest.approx(2 * radius * math.sin(sweep / 2), rel=1e-9)


def test_flange_of_the_plain_wheel() -> None:
    """Plain geometry: mid radius 150 mm, depth 15 mm, 70 degrees; slant 15.96, radii 159.63 and
    175.59, sweep 338.29 degrees, inner arc as long as the circle of radius 150 mm."""
    plate = 6.0
    diameter = 300 + plate * math.cos(math.radians(70))
    spec = plain_wheel(tread_diameter_mm=diameter, flange_thickness_mm=plate, seam_gap_mm=0.0)
    sizes = flange_blank(spec).sizes
    inner, outer = sizes["inner_radius_mm"], sizes["outer_radius_mm"]
    assert outer - inner == pytest.approx(15.96, abs=0.005)
    assert inner == pytest.approx(159.63, abs=0.005)
    assert outer == pytest.approx(175.59, abs=0.005)
    assert sizes["sweep_deg"] == pytest.approx(338.29, abs=0.005)
    assert math.radians(sizes["sweep_deg"]) * inner == pytest.approx(2 * math.pi * 150, rel=1e-9)


# The second way: integrate what the solid's section says, knowing nothing of a cone's development.


def mid_surface(section: Section) -> tuple[tuple[float, float], tuple[float, float]]:
    """Ends of the plate's mid-line in r-z: half way between its two faces at either edge."""
    a, b, c, d = section  # outer face a to b, inner face d to c
    return ((a[0] + d[0]) / 2, (a[1] + d[1]) / 2), ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2)


def integrated_area_mm2(section: Section) -> float:
    """Area of the whole turned mid-surface: integral of 2 pi r ds."""
    (r0, z0), (r1, z1) = mid_surface(section)
    speed = math.hypot(r1 - r0, z1 - z0)
    return float(quad(lambda u: math.tau * (r0 + u * (r1 - r0)) * speed, 0, 1)[0])


def integrated_circle_mm(radius: float) -> float:
    """Length of a circle: integral of the speed along x, y = r cos a, r sin a."""
    return float(
        quad(lambda a: math.hypot(radius * math.sin(a), radius * math.cos(a)), 0, math.tau)[0]
    )


def integrated_volume_mm3(section: Section) -> float:
    """Volume of the whole turned section, by slices at right angles to the axis: for every z,
    pi times the difference of the squared radii at which the section's edges are crossed."""

    def slice_mm2(z: float) -> float:
        radii = []
        for (ra, za), (rb, zb) in zip(section, (*section[1:], section[0]), strict=True):
            if min(za, zb) <= z < max(za, zb):
                radii.append(ra + (z - za) / (zb - za) * (rb - ra))
        return math.pi * (max(radii) ** 2 - min(radii) ** 2) if len(radii) > 1 else 0.0

    zs = sorted({z for _, z in section})
    parts = (quad(slice_mm2, z0, z1) for z0, z1 in itertools.pairwise(zs))
    return math.fsum(part[0] for part in parts)


def arc_lengths_mm(outline: Any) -> dict[float, float]:
    """Total length of a blank's arcs by radius."""
    lengths: dict[float, float] = {}
    for piece in outline:
        if isinstance(piece, Arc):
            radius = round(piece.radius_mm, 6)
            lengths[radius] = lengths.get(radius, 0.0) + piece.length_mm
    return lengths


@pytest.mark.parametrize("angle_deg", [45.0, 60.0, 70.0, 80.0, 89.0])
@pytest.mark.parametrize("pieces", [1, 3])
def test_flange_blank_against_integrals(angle_deg: float, pieces: int) -> None:
    spec = plain_wheel(flange_angle_deg=angle_deg, seam_gap_mm=0.0, flange_segments=pieces)
    section, blank = flange_section(spec), flange_blank(spec)
    assert blank.area_mm2 * pieces == pytest.approx(integrated_area_mm2(section), rel=1e-9)
    assert blank.volume_mm3 * pieces == pytest.approx(integrated_volume_mm3(section), rel=1e-6)
    arcs = arc_lengths_mm(blank.outline)
    circles = [integrated_circle_mm(r) for r, _ in mid_surface(section)]
    assert [arcs[r] * pieces for r in sorted(arcs)] == pytest.approx(circles, rel=1e-9)


@pytest.mark.parametrize("taper", [5.0, 20.0, 200.0])
def test_tapered_tread_blank_against_integrals(taper: float) -> None:
    spec = plain_wheel(tread_taper_1_in=taper, seam_gap_mm=0.0, vent_circle_mm=200.0)
    section, blank = tread_section(spec), tread_blank(spec)
    assert blank is not None
    assert blank.area_mm2 == pytest.approx(integrated_area_mm2(section), rel=1e-9)
    assert blank.volume_mm3 == pytest.approx(integrated_volume_mm3(section), rel=1e-6)
    arcs = arc_lengths_mm(blank.outline)
    circles = [integrated_circle_mm(r) for r, _ in mid_surface(section)]
    assert [arcs[r] for r in sorted(arcs)] == pytest.approx(circles, rel=1e-9)


def test_the_spec_of_each_named_wheel_rolls_to_its_solid() -> None:
    """The whole of the solid is what the blanks give, plus the gaps that the seams fill."""
    for spec in WHEELS.values():
        r0, r1 = (r for r, _ in mid_surface(flange_section(spec)))
        gaps = spec.flange_segments * spec.seam_gap_mm / ((r0 + r1) / 2) / math.tau
        whole = integrated_volume_mm3(flange_section(spec))
        rolled = flange_blank(spec).volume_mm3 * spec.flange_segments
        assert rolled == pytest.approx(whole * (1 - gaps), rel=1e-6)


@settings(max_examples=100, deadline=None, derandomize=True)
@given(valid_wheels())
def test_area_of_any_flange_against_the_integral(spec: WheelSpec) -> None:
    (r0, _), (r1, _) = mid_surface(flange_section(spec))
    gaps = spec.flange_segments * spec.seam_gap_mm / ((r0 + r1) / 2) / math.tau
    rolled = flange_blank(spec).area_mm2 * spec.flange_segments
    whole = integrated_area_mm2(flange_section(spec))
    assert rolled == pytest.approx(whole * (1 - gaps), rel=1e-9)
