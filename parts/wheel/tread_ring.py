"""Tread ring: the wheel's running surface, a strip rolled to a ring or a length of pipe."""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

from platewheel.parts.geometry.blank import Blank, Mark, MarkText, annular_sector
from platewheel.parts.geometry.outline import Arc, Line, Loop, moved, moved_point, polygon
from platewheel.parts.geometry.section import Section, revolved_volume_mm3, slanted_plate
from platewheel.parts.wheel.part import Cut, Forming, Length, Look, Part, PartKind, Sections, Shown
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq


def tread_section(spec: WheelSpec) -> Section:
    """Ring's section. Rolled: a plate along the tread, its edges square to it. Pipe: a wall
    with a straight bore, the taper turned on its outside."""
    width, radius = spec.tread_width_mm, spec.tread_radius_mm
    field_radius = spec.outside_radius_mm(0.0)
    if spec.tread_from == "pipe":
        bore = radius - spec.tread_thickness_mm
        return ((bore, 0.0), (field_radius, 0.0), (radius, width), (bore, width))
    run = (radius - field_radius, width)
    return slanted_plate((field_radius, 0.0), run, spec.tread_thickness_mm)


def mid_radii_mm(spec: WheelSpec) -> tuple[float, float]:
    """Mid-surface radii of the rolled ring at its field and gauge edges."""
    half_wall = spec.tread_thickness_mm / 2 * math.cos(spec.taper_half_angle)
    return spec.outside_radius_mm(0.0) - half_wall, spec.tread_radius_mm - half_wall


def seam_angle(spec: WheelSpec) -> float:
    """Angle that the seam gap leaves open in the rolled ring, radians, at mid radius; pipe: 0."""
    if spec.tread_from == "pipe":
        return 0.0
    return spec.seam_gap_mm / (sum(mid_radii_mm(spec)) / 2)


def tread_ring(spec: WheelSpec) -> cq.Solid:
    """Ring about Z, field edge at z = 0, its seam gap centred on +X; mm. Raises: GeometryError.

    >>> round(tread_ring(spec).BoundingBox().zlen, 6) == spec.tread_width_mm
    True
    """
    from platewheel.parts.geometry.solid import revolved

    gap = seam_angle(spec)
    return revolved(tread_section(spec), "tread", gap / 2, 2 * math.pi - gap)


def tread_volume_mm3(spec: WheelSpec) -> float:
    """Volume of the ring without its seam weld. Source: Pappus' theorem."""
    return revolved_volume_mm3(tread_section(spec), 2 * math.pi - seam_angle(spec))


def tread_blank(spec: WheelSpec) -> Blank | None:
    """Strip to roll, or None from pipe; mm.

    >>> tread_blank(spec).thickness_mm == spec.tread_thickness_mm
    True

    Cylinder: rectangle pi (D - t) less the seam gap, lower left corner on the origin. Taper:
    annular sector, bulging to +y, the middle of its field-edge arc on the origin. The
    field edge lies at the bottom. Source: development on the mid-surface, length pi (OD - t)
    (TAFE NSW training unit on rolled rings); cone frustum, sweep 360 sin(half apex).
    """
    if spec.tread_from == "pipe":
        return None
    if spec.taper_half_angle:
        return _tapered_blank(spec)
    length = (2 * math.pi - seam_angle(spec)) * mid_radii_mm(spec)[0]
    width = spec.tread_width_mm
    edge = polygon([(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)])
    mid = width / 2
    marks: tuple[Mark, ...] = (
        *_roll_arrow((0.3 * length, mid), (0.7 * length, mid), width),
        Line((0.5 * length, 0.0), (0.5 * length, 0.15 * width)),  # opposite the seam when rolled
        MarkText((0.12 * length, mid), "tread  seam at this end", _text_height(width)),
        MarkText((0.88 * length, mid), "gauge edge: top", _text_height(width)),
    )
    sizes = {"length_mm": length, "width_mm": width}
    return Blank("tread", "tread", spec.tread_thickness_mm, edge, (), marks, sizes)


def _tapered_blank(spec: WheelSpec) -> Blank:
    half = spec.taper_half_angle
    field, gauge = mid_radii_mm(spec)
    inner, outer = field / math.sin(half), gauge / math.sin(half)
    sweep = math.degrees((2 * math.pi - seam_angle(spec)) * math.sin(half))
    # centre far below, arcs bulging to +y, middle of the inner (field edge) arc on the origin
    turn, middle = 90 - sweep / 2, (inner + outer) / 2
    edge: Loop = moved(annular_sector(inner, outer, sweep), 0.0, -inner, turn)
    width = outer - inner
    arrow = Arc((0.0, -inner), middle, 90 + 0.2 * sweep, -0.4 * sweep)

    def at(share: float) -> tuple[float, float]:
        return moved_point((0.0, middle), 0.0, -inner, sweep * (0.5 - share))

    marks: tuple[Mark, ...] = (
        arrow,
        *_arrow_head(arrow.end, -0.2 * sweep, min(width / 4, 12.0)),
        Line((0.0, 0.0), (0.0, 0.15 * width)),
        MarkText(at(0.12), "tread  seam at this end", _text_height(width), 0.38 * sweep),
        MarkText(at(0.88), "gauge edge: top", _text_height(width), -0.38 * sweep),
    )
    sizes = {
        "length_mm": math.radians(sweep) * middle,
        "width_mm": width,
        "inner_radius_mm": inner,
        "outer_radius_mm": outer,
        "sweep_deg": sweep,
    }
    return Blank("tread", "tread", spec.tread_thickness_mm, edge, (), marks, sizes)


def _text_height(width_mm: float) -> float:
    return min(8.0, width_mm / 6)


def _arrow_head(tip: tuple[float, float], turn_deg: float, size: float) -> tuple[Line, ...]:
    sides = (moved_point((-size, y), tip[0], tip[1], turn_deg) for y in (size / 3, -size / 3))
    return tuple(Line(tip, side) for side in sides)


def _roll_arrow(
    start: tuple[float, float], end: tuple[float, float], width: float
) -> tuple[Line, ...]:
    return (Line(start, end), *_arrow_head(end, 0.0, min(width / 4, 12.0)))


def tread_plates(spec: WheelSpec) -> Sections:
    """Ring's section for the stress analysis: corner 0 to 1 is the tread."""
    wall = tread_section(spec)
    if spec.tread_from == "pipe":  # listed from the bore
        wall = (wall[1], wall[2], wall[3], wall[0])
    return (("tread", wall),)


def tread_cut(spec: WheelSpec) -> Cut:
    """A strip cut from sheet, among its like."""
    area = tread_volume_mm3(spec) / spec.tread_thickness_mm
    edge = 2 * (area / spec.tread_width_mm + spec.tread_width_mm)
    return Cut(
        count=1,
        area_mm2=area,
        edge_mm=edge,
        pierces=1,
        room_mm2=lambda spacing: area + edge / 2 * spacing,
    )


def _parts(spec: WheelSpec) -> tuple[Part, ...]:
    blank = tread_blank(spec)
    solid = partial(tread_ring, spec)
    volume = tread_volume_mm3(spec)
    return (Part("tread", 1, volume, solid, blank, spec.tread_from, spec.steel),)


def _shown(spec: WheelSpec, mm: Length) -> tuple[Shown, ...]:
    size = f"{mm(spec.tread_width_mm)} × {mm(spec.tread_thickness_mm)}"
    rows = ("tread ring", f"Ø{mm(spec.tread_diameter_mm)}", size)
    return (
        Shown(key="tread", rows=rows, solids=("tread",), radius_mm=spec.tread_radius_mm, place=2),
    )


def _forming(spec: WheelSpec) -> Forming | None:
    if spec.tread_from == "pipe":
        return None
    return Forming(work="rolling rings", unit="rings", minutes_key="rolling_minutes")


TREAD = PartKind(
    name="tread",
    title="tread ring",
    names=("tread",),
    role="runs on the rail",
    look=Look(
        colour=(0.55, 0.60, 0.66),
        hatch_deg=45,
        hatch_pitch=0.62,
        ground="#e4e9ec",
        fill="#ccd4d9",
        layer=0,
    ),
    parts=_parts,
    solids=lambda spec: iter([("tread", tread_ring(spec))]),
    sections=lambda spec: (("tread", tread_section(spec)),),
    plates=tread_plates,
    shown=_shown,
    thickness_mm=lambda spec: spec.tread_thickness_mm,
    thickness_key="tread_thickness_mm",
    cut_from=lambda spec: spec.tread_from,
    cut=tread_cut,
    forming=_forming,
)
