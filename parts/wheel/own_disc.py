"""A hub disc of one's own: spokes, lightening slots of any outline, in place of the two round ones.

It is drawn, weighed and joined like them. No rating knows it, and no check that asks about discs:
those ask the spec, which has no vents beside such a disc.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache, partial
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.of_kind import require_kind
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.geometry.blank import Blank, MarkPoint
from platewheel.parts.geometry.meeting import direction_deg, point_gap
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Loop,
    Point,
    contains,
    segments,
)
from platewheel.parts.geometry.round_hole import round_hole
from platewheel.parts.geometry.section import rectangle
from platewheel.parts.wheel.hub_disc import (
    SIDES,
    Side,
    disc_diameter_mm,
    disc_z_mm,
    discs_differ,
)
from platewheel.parts.wheel.part import Part, Sections
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq

AXIS: Point = (0.0, 0.0)
OFF_MM = 0.01  # how far a centre may lie off the axis: a tenth of the finest cut
AS_FITTED_MM = 0.1  # a drawn diameter is one that the papers tell, to the last digit they print


def most_gap_mm(spec: WheelSpec) -> float:
    """Widest gap that a fillet bridges: 0.5 mm + 0.2 a, at most 3, or the drawn clearance where
    that is more. Source: ISO 5817, no. 617, level C, from memory."""
    return max(spec.fit_clearance_mm, min(3.0, 0.5 + 0.2 * spec.weld_throat_mm))


def require_blank(disc: object) -> None:
    """Raises: SpecError for what is no Blank."""
    advice = 'Blank("mine", "disc", thickness_mm, outline, holes)'
    require_kind("disc", disc, Blank, "a Blank, or None for plain discs", advice)


def require_fit(spec: WheelSpec, disc: Blank) -> None:
    """Whether the disc may be welded into this wheel. Raises: SpecError with every fault."""
    require_blank(disc)
    faults = fit_faults(spec, disc)
    if faults:
        raise SpecError(faults)


def fit_faults(spec: WheelSpec, disc: Blank) -> list[Fault]:
    """Where the disc does not fit ring, hub, beads or plate of this wheel."""
    return [*_plate_faults(spec, disc), *_rim_faults(spec, disc), *_hole_faults(spec, disc)]


def without_vents(spec: WheelSpec) -> WheelSpec:
    """The wheel beside such a disc: what is cut into its plate is the disc's own."""
    return unchecked(spec, {"vent_count": 0})


def as_disc(blank: Blank) -> Blank:
    """The blank by the name of the part that it is, its sizes told, its centre marked."""
    rim, hub = _round(blank.outline), _round(hub_hole(blank))
    sizes = {} if rim is None else {"diameter_mm": 2 * rim.radius_mm}
    sizes |= {} if hub is None else {"hub_hole_diameter_mm": 2 * hub.radius_mm}
    marks = tuple(dict.fromkeys((MarkPoint(AXIS), *blank.marks)))
    return replace(
        blank,
        name="disc",
        kind="disc",
        outline=rim or blank.outline,
        holes=tuple(_round(hole) or hole for hole in blank.holes),
        marks=marks,
        sizes=sizes,
    )


def hub_hole(disc: Blank) -> Loop | None:
    """The hole that the hub goes through."""
    return next((hole for hole in disc.holes if contains(hole, AXIS)), None)


def openings(disc: Blank) -> tuple[Loop, ...]:
    """All other holes: between spokes, slots, vents."""
    return tuple(hole for hole in disc.holes if not contains(hole, AXIS))


def openings_reach_mm(disc: Blank) -> tuple[float, float] | None:
    """Least and greatest distance from the axis that the openings have; None without any."""
    reaches = [reach_mm(hole) for hole in openings(disc)]
    return (min(r[0] for r in reaches), max(r[1] for r in reaches)) if reaches else None


def resized(disc: Blank, diameter_mm: float) -> Blank:
    """The disc with another rim; openings, hub hole and marks stay as drawn."""
    sizes = {**disc.sizes, "diameter_mm": diameter_mm}
    return replace(disc, outline=Circle(AXIS, diameter_mm / 2), sizes=sizes)


def disc_of(spec: WheelSpec, disc: Blank, side: Side) -> Blank:
    """The disc of one side: as drawn, but on a tapered bore the gauge side's rim is wider by as
    much as the bore is."""
    rim = _round(disc.outline)
    if rim is None or not discs_differ(spec):
        return disc
    wider = disc_diameter_mm(spec, side) - disc_diameter_mm(spec, "field")
    named = replace(disc, name=f"{disc.name}-{side}")
    return resized(named, 2 * rim.radius_mm + wider) if wider else named


def as_fitted_faults(spec: WheelSpec, disc: Blank) -> Iterator[Fault]:
    """Where rim or hub hole leave another gap than `fit_clearance_mm`, by which all papers are."""
    rim, hub = _round(disc.outline), _round(hub_hole(disc))
    at = next((i for i, hole in enumerate(disc.holes) if contains(hole, AXIS)), 0)
    pairs = (
        ("outline", rim, disc_diameter_mm(spec, "field"), "the ring bore less"),
        (f"holes[{at}]", hub, spec.hub_hole_diameter_mm, "the hub tube and"),
    )
    for key, drawn, wanted, words in pairs:
        if drawn and abs(2 * drawn.radius_mm - wanted) > AS_FITTED_MM:
            what = "rim" if key == "outline" else "hub hole"
            fit = spec.fit_clearance_mm if key == "outline" or spec.has_tube else 0.0
            told = f", {words} twice fit_clearance_mm = {fit:g}" if fit else ""
            allowed = f"a {what} of {wanted:.6g} mm{told}"
            advice = f"draw it {wanted:.6g} mm" + (", or another fit_clearance_mm" if fit else "")
            yield Fault(f"{disc.name}.{key}", round(2 * drawn.radius_mm, 4), allowed, advice)


def own_section(spec: WheelSpec, disc: Blank) -> Sections:
    """Sections of both discs through plain plate, from hub hole to rim as drawn."""
    rim, hub = _round(disc.outline), _round(hub_hole(disc))
    inner = hub.radius_mm if hub else spec.hub_hole_diameter_mm / 2
    outer = disc_diameter_mm(spec, "field") / 2 if rim is None else rim.radius_mm
    wider = {
        side: (disc_diameter_mm(spec, side) - disc_diameter_mm(spec, "field")) / 2 for side in SIDES
    }
    return tuple(
        (f"disc-{side}", rectangle(inner, outer + wider[side], *disc_z_mm(spec, side)))
        for side in SIDES
    )


def own_disc(spec: WheelSpec, disc: Blank, side: Side) -> cq.Solid:
    """The disc in its place on the wheel: axis Z, its +x on +X; mm. Raises: GeometryError."""
    made: cq.Solid = _solid(disc, *disc_z_mm(spec, side)).copy()  # a mesh of it stays its own
    return made


@lru_cache(maxsize=4)  # asked for by the drawings, the files and the whole wheel
def _solid(disc: Blank, low: float, high: float) -> cq.Solid:
    import cadquery as cq

    from platewheel.parts.geometry.solid import one_solid

    edge, *holes = (_wire(loop, low) for loop in (disc.outline, *disc.holes))
    solid = cq.Solid.extrudeLinear(edge, holes, cq.Vector(0, 0, high - low))
    return one_solid(solid, disc.name)


def own_parts(spec: WheelSpec, disc: Blank) -> tuple[Part, ...]:
    """Both discs, one part but on a tapered bore. Raises: SpecError where it does not fit."""
    require_fit(spec, disc)
    sides = SIDES if discs_differ(spec) else SIDES[:1]
    blanks = [(side, disc_of(spec, disc, side)) for side in sides]
    return tuple(
        Part(
            blank.name,
            2 // len(sides),
            blank.volume_mm3,
            partial(own_disc, spec, blank, side),
            blank,
            steel=spec.steel,
        )
        for side, blank in blanks
    )


def own_solids(spec: WheelSpec, disc: Blank) -> Iterator[tuple[str, cq.Solid]]:
    """Both discs by name. Raises: SpecError where it does not fit the wheel; GeometryError."""
    require_fit(spec, disc)
    for side in SIDES:
        yield f"disc-{side}", own_disc(spec, disc_of(spec, disc, side), side)


def _round(loop: Loop | None) -> Circle | None:
    """The loop as a circle; drawn as arcs it is one where they lie together within `OFF_MM`."""
    return None if loop is None else round_hole(loop, OFF_MM)


def _plate_faults(spec: WheelSpec, disc: Blank) -> Iterator[Fault]:
    thick = spec.disc_thickness_mm
    if not math.isclose(disc.thickness_mm, thick):
        advice = f"thickness_mm = {thick:g}, or another disc_thickness_mm in the wheel"
        yield Fault(f"{disc.name}.thickness_mm", disc.thickness_mm, f"{thick:g} mm", advice)


def _rim_faults(spec: WheelSpec, disc: Blank) -> Iterator[Fault]:
    rim = _round(disc.outline)
    high = 2 * min(spec.bore_radius_mm(z) for z in disc_z_mm(spec, "field"))
    low = high - 2 * most_gap_mm(spec)
    key = f"{disc.name}.outline"
    if rim is None:
        allowed = f"one circle about the axis: the bead runs round the ring bore of {high:.6g} mm"
        advice = f"a circle of {high - 2 * spec.fit_clearance_mm:.6g} mm"
        yield Fault(key, "another shape", allowed, advice)
    elif math.dist(rim.centre, AXIS) > OFF_MM:
        yield Fault(key, rim.centre, "a circle about (0, 0), the axis", "move all of it there")
    elif not low <= 2 * rim.radius_mm <= high:
        allowed = f"a diameter from {low:.6g} to {high:.6g} mm, which fits the ring bore"
        advice = f"{high - 2 * spec.fit_clearance_mm:.6g} mm, the bore less the fit clearance"
        yield Fault(key, 2 * rim.radius_mm, allowed, advice)


def _hole_faults(spec: WheelSpec, disc: Blank) -> Iterator[Fault]:
    hub = [i for i, hole in enumerate(disc.holes) if contains(hole, AXIS)]
    bore, leg = spec.hub_hole_diameter_mm, spec.weld_leg_mm
    low = spec.hub_tube_outside_mm if spec.has_tube else bore
    high = low + 2 * most_gap_mm(spec) if spec.has_tube else bore
    if not hub:
        allowed = f"a hole of {bore:.6g} mm in the middle of the rim, for the hub"
        yield Fault(f"{disc.name}.holes", "none there", allowed, f"a circle of {bore:.6g} mm there")
    for i in hub:
        hole, key = _round(disc.holes[i]), f"{disc.name}.holes[{i}]"
        if hole is None:
            advice = f"a circle of {bore:.6g} mm; a keyway is cut later, into the hub"
            yield Fault(key, "another shape", "one circle about the axis: the hub's", advice)
        elif math.dist(hole.centre, AXIS) > OFF_MM:
            off = math.dist(hole.centre, AXIS)
            x, y = (round(-value, 4) + 0.0 for value in hole.centre)
            allowed = f"a circle in the middle of the rim, the axis, within {OFF_MM:g} mm"
            yield Fault(
                key, f"its centre {off:.4g} mm off", allowed, f"move it by ({x:g}, {y:g}) mm"
            )
        elif not low - 1e-9 <= 2 * hole.radius_mm <= high + 1e-9:
            allowed = f"a diameter from {low:.6g} to {high:.6g} mm, which fits the hub"
            yield Fault(key, 2 * hole.radius_mm, allowed, f"{bore:.6g} mm")
    rim = _round(disc.outline)
    outer = rim.radius_mm - leg if rim else math.inf
    inner = bore / 2 + (leg if spec.has_tube else 0.0)
    for i, hole_loop in enumerate(disc.holes):
        if i not in hub:
            near, far = reach_mm(hole_loop)
            if near < inner or far > outer:
                allowed = (
                    f"clear of the beads, from {inner:.6g} to {outer:.6g} mm of the axis; it "
                    f"reaches from {near:.6g} to {far:.6g}"
                )
                at = f"{disc.name}.holes[{i}]"
                yield Fault(at, round(near if near < inner else far, 3), allowed, "a smaller one")


def reach_mm(loop: Loop) -> tuple[float, float]:
    """Least and greatest distance of a loop's edge from the axis; exact on arcs."""
    run = segments(loop)
    far = []
    for piece in run:
        far += [math.dist(piece.start, AXIS), math.dist(piece.end, AXIS)]
        if isinstance(piece, Arc) and piece.covers(direction_deg(AXIS, piece.centre)):
            far.append(math.dist(piece.centre, AXIS) + piece.radius_mm)
    return min(point_gap(AXIS, piece) for piece in run), max(far)


def _wire(loop: Loop, z: float) -> cq.Wire:
    """The loop as a wire at this height; each piece ends where the next one starts."""
    import cadquery as cq

    if isinstance(loop, Circle):
        return cq.Wire.makeCircle(loop.radius_mm, cq.Vector(*loop.centre, z), cq.Vector(0, 0, 1))
    edges = []
    for piece, following in zip(loop, (*loop[1:], loop[0]), strict=True):
        ends = cq.Vector(*piece.start, z), cq.Vector(*following.start, z)
        if isinstance(piece, Arc):
            middle = cq.Vector(*piece.at(piece.start_deg + piece.sweep_deg / 2), z)
            edges.append(cq.Edge.makeThreePointArc(ends[0], middle, ends[1]))
        else:
            edges.append(cq.Edge.makeLine(*ends))
    return cq.Wire.assembleEdges(edges)
