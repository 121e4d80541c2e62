"""Flange: a very short cone, rooted at the gauge edge and flared away from the rail."""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.blank import Blank, Mark, MarkPoint, MarkText, annular_sector
from platewheel.parts.geometry.outline import Circle, Line, moved_point
from platewheel.parts.geometry.section import Section, revolved_volume_mm3, slanted_plate
from platewheel.parts.wheel.hub_disc import disc_room_mm2
from platewheel.parts.wheel.part import Cut, Forming, Length, Look, Part, PartKind, Shown
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq


def flange_section(spec: WheelSpec) -> Section:
    """Rail-side face from (R, W) to (R + h, W + h / tan delta), thickness away from the rail,
    edges square to the plate: it touches the ring at one circle and leaves a V groove to weld."""
    depth = spec.flange_depth_mm
    run = (depth, depth / math.tan(spec.flange_angle))
    return slanted_plate((spec.tread_radius_mm, spec.tread_width_mm), run, spec.flange_thickness_mm)


def flange_reach_mm(spec: WheelSpec) -> float:
    """Axial length of the flange beyond the tread: root to its inmost point."""
    depth = spec.flange_depth_mm
    run = (depth, depth / math.tan(spec.flange_angle))
    return max(z for _, z in slanted_plate((0.0, 0.0), run, spec.flange_thickness_mm))


def mid_radii_mm(spec: WheelSpec) -> tuple[float, float]:
    """Mid-surface radii at root and tip: r1 = R - t/2 cos delta, r2 = r1 + h."""
    root = spec.tread_radius_mm - spec.flange_thickness_mm / 2 * math.cos(spec.flange_angle)
    return root, root + spec.flange_depth_mm


def slant_radii_mm(spec: WheelSpec) -> tuple[float, float]:
    """Radii of the blank, s = r / sin delta. Source: development of a cone frustum."""
    root, tip = mid_radii_mm(spec)
    return root / math.sin(spec.flange_angle), tip / math.sin(spec.flange_angle)


def blank_sweep_deg(spec: WheelSpec) -> float:
    """Sweep of one segment's blank: 360 sin delta / segments, less the seam gap taken at the
    mean slant radius. A whole ring of a plate without gap at 90 degrees sweeps 360."""
    gap = spec.seam_gap_mm / (sum(slant_radii_mm(spec)) / 2)
    return 360 * math.sin(spec.flange_angle) / spec.flange_segments - math.degrees(gap)


def segment_turn(spec: WheelSpec) -> float:
    """Angle about the wheel axis that one rolled segment covers, radians."""
    return math.radians(blank_sweep_deg(spec)) / math.sin(spec.flange_angle)


def seam_weld_m(spec: WheelSpec, wheels: int) -> float:
    """Butt weld across the flange seams of so many wheels, metres."""
    return seam_length_mm(spec) * wheels / 1000


def seam_length_mm(spec: WheelSpec) -> float:
    """Butt weld across all seams of one wheel's flange: the slant depth for each segment; a
    whole ring cut flat without a gap has none."""
    if blank_sweep_deg(spec) >= 360 - 1e-9:
        return 0.0
    return spec.flange_segments * spec.flange_depth_mm / math.sin(spec.flange_angle)


def flange_cone(spec: WheelSpec, segment: int = 0) -> cq.Solid:
    """One segment in its place on the wheel (the whole flange when `flange_segments` is 1).

    Segment 0 starts at +X, with half the seam gap before it; they follow counter-clockwise.
    mm. Raises: GeometryError; IndexError for a segment that the flange does not have.

    >>> flange_cone(spec).isValid()
    True
    """
    from platewheel.parts.geometry.solid import revolved

    if not 0 <= segment < spec.flange_segments:
        raise IndexError(f"segment {segment} of a flange with {spec.flange_segments}")
    pitch, turn = 2 * math.pi / spec.flange_segments, segment_turn(spec)
    return revolved(flange_section(spec), "flange", segment * pitch + (pitch - turn) / 2, turn)


def flange_volume_mm3(spec: WheelSpec) -> float:
    """Volume of one segment. Source: Pappus' theorem."""
    return revolved_volume_mm3(flange_section(spec), segment_turn(spec))


def flange_blank(spec: WheelSpec, longer_mm: float = 0.0) -> Blank:
    """One segment of the flange laid flat, cone apex on the origin, from angle 0; mm.

    `longer_mm`, at the mean slant radius, is added to its length: what kerf and rolling are
    known to take. Raises: GeometryError where that makes a whole ring of it.

    >>> flange_blank(spec).kind
    'flange'

    Developed on the mid-surface, so area x thickness is the solid's volume and the two arcs
    are as long as the solid's mid-surface circles. The inner arc is the root.
    """
    inner, outer = slant_radii_mm(spec)
    sweep = blank_sweep_deg(spec)
    if longer_mm:
        sweep += math.degrees(longer_mm / ((inner + outer) / 2))
        if not 0 < sweep < 360:
            raise GeometryError(f"flange blank {longer_mm:+g} mm longer: sweep {sweep:.2f} deg")
    sizes = {"inner_radius_mm": inner, "outer_radius_mm": outer, "sweep_deg": sweep}
    if sweep >= 360 - 1e-9:  # a flat washer without a seam: no ends to weld
        rim, hole = Circle((0.0, 0.0), outer), Circle((0.0, 0.0), inner)
        return Blank(
            "flange", "flange", spec.flange_thickness_mm, rim, (hole,), _marks(spec), sizes
        )
    edge = annular_sector(inner, outer, sweep)
    return Blank(
        "flange", "flange", spec.flange_thickness_mm, edge, (), _marks(spec), sizes, many_turns=True
    )


def _marks(spec: WheelSpec) -> tuple[Mark, ...]:
    """Apex, mid-line (where the tape is laid), a generator every 30 degrees of the wheel, name."""
    inner, outer = slant_radii_mm(spec)
    sweep = blank_sweep_deg(spec)
    middle, width = (inner + outer) / 2, outer - inner
    step = 30 * math.sin(spec.flange_angle)
    count = math.ceil(sweep / step - 1e-9)
    generators = [sweep / 2 + (i - count // 2) * step for i in range(count + 1)]
    height = min(6.0, width / 3)
    marks: list[Mark] = [MarkPoint((0.0, 0.0))]
    for angle in generators:
        if 0.5 < angle < sweep - 0.5:
            foot, head = ((middle + side * width / 8, 0.0) for side in (-1, 1))
            marks.append(Line(moved_point(foot, 0, 0, angle), moved_point(head, 0, 0, angle)))
    at = sweep / 2 + (step / 2 if count > 1 else 0.0)
    for angle, text in ((at, "flange"), (min(step / 2, sweep / 4), "seam")):
        place = moved_point((middle, 0.0), 0, 0, angle)
        marks.append(MarkText(place, text, height, angle - 90))
    return tuple(marks)


def segment_room_mm2(spec: WheelSpec, spacing_mm: float) -> float:
    """Plate that a flange segment takes among its like.

    Short segments are stacked along their middle line: chord x shift, where a shift p leaves
    p cos(half sweep) between the ends of two arcs. Long ones take a cell of packed circles, or
    that share of it; a disc as thick as the flange lies inside one that is nearly a ring, and is
    taken off. Source: plain geometry.
    """
    inner, outer = slant_radii_mm(spec)
    half = math.radians(blank_sweep_deg(spec)) / 2
    whole = math.sqrt(0.75) * (2 * outer + spacing_mm) ** 2
    share = whole / min(spec.flange_segments, 2)
    if spec.flange_segments == 1 and spec.flange_thickness_mm == spec.disc_thickness_mm:
        share -= disc_room_mm2(spec, spacing_mm)
    if half >= math.pi / 2:
        return share
    stacked = 2 * outer * math.sin(half) * (outer - inner + spacing_mm) / math.cos(half)
    return min(share, stacked)


def flange_cut(spec: WheelSpec) -> Cut:
    """The flange's segments, each two arcs and two ends."""
    inner, outer = slant_radii_mm(spec)
    return Cut(
        count=spec.flange_segments,
        area_mm2=flange_volume_mm3(spec) / spec.flange_thickness_mm,
        edge_mm=math.radians(blank_sweep_deg(spec)) * (inner + outer) + 2 * (outer - inner),
        pierces=1,
        room_mm2=partial(segment_room_mm2, spec),
    )


def _names(spec: WheelSpec) -> tuple[str, ...]:
    count = spec.flange_segments
    return ("flange",) if count == 1 else tuple(f"flange-{i + 1}" for i in range(count))


def _parts(spec: WheelSpec) -> tuple[Part, ...]:
    return (
        Part(
            "flange",
            spec.flange_segments,
            flange_volume_mm3(spec),
            partial(flange_cone, spec),
            flange_blank(spec),
            steel=spec.steel,
        ),
    )


def _shown(spec: WheelSpec, mm: Length) -> tuple[Shown, ...]:
    names = _names(spec)
    pieces = f", {len(names)} pieces" if len(names) > 1 else ""
    rows = (
        f"flange{pieces}",
        f"Ø{mm(spec.over_flange_diameter_mm)} over it",
        f"{mm(spec.flange_thickness_mm)} thick, {round(spec.flange_angle_deg, 1):g}°",
    )
    radius = spec.over_flange_diameter_mm / 2
    return (Shown(key="flange", rows=rows, solids=names, radius_mm=radius, place=4),)


def _forming(spec: WheelSpec) -> Forming | None:
    if spec.flange_angle_deg >= 90:  # a flat washer
        return None
    return Forming(work="forming the flange", unit="segments", minutes_key="forming_minutes")


FLANGE = PartKind(
    name="flange",
    title="flange",
    names=("flange",),
    role="guides",
    look=Look(
        colour=(0.36, 0.49, 0.58),
        hatch_deg=-45,
        hatch_pitch=0.3,
        ground="#e4e9ec",
        fill="#b9c4cb",
        layer=1,
    ),
    parts=_parts,
    solids=lambda spec: ((name, flange_cone(spec, i)) for i, name in enumerate(_names(spec))),
    sections=lambda spec: (("flange", flange_section(spec)),),
    shown=_shown,
    thickness_mm=lambda spec: spec.flange_thickness_mm,
    thickness_key="flange_thickness_mm",
    cut=flange_cut,
    forming=_forming,
)
