"""Closed forms of ring-shaped bodies, worked out apart from the code under test."""

from __future__ import annotations

import math

from platewheel.parts.wheel.spec import WheelSpec

Box = tuple[float, float, float, float, float, float]  # x, y, z least; x, y, z greatest


def ring_mm3(outside_mm: float, inside_mm: float, height_mm: float) -> float:
    """Straight ring from two diameters."""
    return math.pi / 4 * (outside_mm**2 - inside_mm**2) * height_mm


def cone_mm3(r0: float, r1: float, height_mm: float) -> float:
    """Frustum of a solid cone."""
    return math.pi * height_mm / 3 * (r0 * r0 + r0 * r1 + r1 * r1)


def shell_mm3(r0: float, r1: float, slant_mm: float, thickness_mm: float) -> float:
    """Square-edged conical shell: lateral area pi (r0 + r1) s of its mid-surface x thickness."""
    return math.pi * (r0 + r1) * slant_mm * thickness_mm


def turned_box(r0: float, r1: float, z0: float, z1: float, start: float, turn: float) -> Box:
    """Box round a body between two radii, turned from angle `start` through `turn` (radians)."""
    angles = [start, start + turn]
    quarter = math.pi / 2
    i = math.ceil(start / quarter - 1e-12)
    while i * quarter <= start + turn + 1e-12:
        angles.append(i * quarter)
        i += 1
    xs = [r * math.cos(a) for r in (r0, r1) for a in angles]
    ys = [r * math.sin(a) for r in (r0, r1) for a in angles]
    return min(xs), min(ys), z0, max(xs), max(ys), z1


def tread_open_angle(spec: WheelSpec) -> float:
    """Angle of the tread's seam gap at mid wall and mid width; a pipe has none."""
    if spec.tread_from == "pipe":
        return 0.0
    mean = spec.tread_diameter_mm / 2 - spec.tread_width_mm / 2 * _slope(spec)
    wall = spec.tread_thickness_mm / 2 * math.cos(math.atan(_slope(spec)))
    return spec.seam_gap_mm / (mean - wall)


def flange_open_angle(spec: WheelSpec) -> float:
    """Angle of each of the flange's seam gaps at its mean mid-surface radius."""
    r0, r1 = flange_mid_radii_mm(spec)
    return spec.seam_gap_mm / ((r0 + r1) / 2)


def flange_mid_radii_mm(spec: WheelSpec) -> tuple[float, float]:
    """Radii half the plate's thickness inside its rail-side face."""
    angle = math.radians(spec.flange_angle_deg)
    inwards = spec.flange_thickness_mm / 2 * math.cos(angle)
    root = spec.tread_diameter_mm / 2 - inwards
    return root, root + spec.flange_depth_mm


def flange_segment_mm3(spec: WheelSpec) -> float:
    """One segment of the flange."""
    slant = spec.flange_depth_mm / math.sin(math.radians(spec.flange_angle_deg))
    whole = shell_mm3(*flange_mid_radii_mm(spec), slant, spec.flange_thickness_mm)
    return whole * (1 / spec.flange_segments - flange_open_angle(spec) / (2 * math.pi))


def flange_box(spec: WheelSpec, segment: int) -> Box:
    """Box round one segment in its place."""
    angle, plate = math.radians(spec.flange_angle_deg), spec.flange_thickness_mm
    radius, pitch = spec.tread_diameter_mm / 2, 2 * math.pi / spec.flange_segments
    gap = flange_open_angle(spec)
    top = spec.flange_depth_mm / math.tan(angle) + plate * math.sin(angle)
    return turned_box(
        radius - plate * math.cos(angle),
        radius + spec.flange_depth_mm,
        spec.tread_width_mm,
        spec.tread_width_mm + top,
        segment * pitch + gap / 2,
        pitch - gap,
    )


def tread_mm3(spec: WheelSpec) -> float:
    """The ring less its seam gap: from pipe a frustum less a cylinder, else a conical shell."""
    slope, width, wall = _slope(spec), spec.tread_width_mm, spec.tread_thickness_mm
    gauge = spec.tread_diameter_mm / 2
    field = gauge - width * slope
    if spec.tread_from == "pipe":
        return cone_mm3(field, gauge, width) - math.pi * (gauge - wall) ** 2 * width
    half = math.atan(slope)
    inwards = wall / 2 * math.cos(half)
    whole = shell_mm3(field - inwards, gauge - inwards, width / math.cos(half), wall)
    return whole * (1 - tread_open_angle(spec) / (2 * math.pi))


def tread_box(spec: WheelSpec) -> Box:
    """Box round the ring: a rolled tapered ring's square-cut gauge end stands a little proud."""
    half, wall = math.atan(_slope(spec)), spec.tread_thickness_mm
    proud = 0.0 if spec.tread_from == "pipe" else wall * math.sin(half)
    gauge, gap = spec.tread_diameter_mm / 2, tread_open_angle(spec)
    least = gauge - spec.tread_width_mm * _slope(spec) - wall
    z1 = spec.tread_width_mm + proud
    return turned_box(least, gauge, 0.0, z1, gap / 2, 2 * math.pi - gap)


def disc_mm(spec: WheelSpec, side: str) -> tuple[float, float, float]:
    """A disc's diameter, and its z from and to."""
    if side == "field":
        z0 = spec.disc_field_inset_mm
    else:
        z0 = spec.tread_width_mm - spec.disc_gauge_inset_mm - spec.disc_thickness_mm
    radius, wall = spec.tread_diameter_mm / 2, spec.tread_thickness_mm
    if spec.tread_from == "pipe":
        bore = radius - wall
    else:
        half = math.atan(_slope(spec))
        bore = radius - (spec.tread_width_mm - z0) * _slope(spec) - wall / math.cos(half)
    return 2 * (bore - spec.fit_clearance_mm), z0, z0 + spec.disc_thickness_mm


def hub_hole_mm(spec: WheelSpec) -> float:
    """Diameter of the hole in the discs."""
    if spec.hub_tube_length_mm:
        return spec.hub_tube_outside_mm + 2 * spec.fit_clearance_mm
    return spec.hub_bore_mm


def disc_mm3(spec: WheelSpec, side: str) -> float:
    """One disc: plain ring less its vents."""
    diameter, *_ = disc_mm(spec, side)
    vents = spec.vent_count * math.pi / 4 * spec.vent_diameter_mm**2
    plate = math.pi / 4 * (diameter**2 - hub_hole_mm(spec) ** 2) - vents
    return plate * spec.disc_thickness_mm


def disc_box(spec: WheelSpec, side: str) -> Box:
    """Box round one disc."""
    diameter, z0, z1 = disc_mm(spec, side)
    return turned_box(0.0, diameter / 2, z0, z1, 0.0, 2 * math.pi)


def tube_mm3(spec: WheelSpec) -> float:
    """The hub tube."""
    return ring_mm3(spec.hub_tube_outside_mm, spec.hub_bore_mm, spec.hub_tube_length_mm)


def tube_box(spec: WheelSpec) -> Box:
    """Box round the tube, which stands out as far on both sides of the pair of discs."""
    middle = (disc_mm(spec, "field")[1] + disc_mm(spec, "gauge")[2]) / 2
    half = spec.hub_tube_length_mm / 2
    outside = spec.hub_tube_outside_mm / 2
    return turned_box(0.0, outside, middle - half, middle + half, 0.0, 2 * math.pi)


def _slope(spec: WheelSpec) -> float:
    return 1 / spec.tread_taper_1_in if spec.tread_taper_1_in else 0.0
