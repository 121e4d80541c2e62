"""A hub disc of one's own: spokes, lightening slots of any outline, in place of the two round ones.

It is drawn, weighed and joined like them. No check and no rating knows it: those ask the spec.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.geometry.blank import Blank
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
from platewheel.parts.wheel.hub_disc import SIDES, Side, disc_z_mm
from platewheel.parts.wheel.part import Part
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq

AXIS: Point = (0.0, 0.0)
OFF_MM = 0.01  # how far a centre may lie off the axis: a tenth of the finest cut


def most_gap_mm(spec: WheelSpec) -> float:
    """Widest gap that a fillet bridges: 0.5 mm + 0.2 a, at most 3, or the drawn clearance where
    that is more. Source: ISO 5817, no. 617, level C, from memory."""
    return max(spec.fit_clearance_mm, min(3.0, 0.5 + 0.2 * spec.weld_throat_mm))


def require_fit(spec: WheelSpec, disc: Blank) -> None:
    """Whether the disc may be welded into this wheel. Raises: SpecError with every fault."""
    faults = [*_plate_faults(spec, disc), *_rim_faults(spec, disc), *_hole_faults(spec, disc)]
    if faults:
        raise SpecError(faults)


def own_disc(spec: WheelSpec, disc: Blank, side: Side) -> cq.Solid:
    """The disc in its place on the wheel: axis Z, its +x on +X; mm. Raises: GeometryError."""
    import cadquery as cq

    from platewheel.parts.geometry.solid import one_solid

    low, high = disc_z_mm(spec, side)
    edge, *holes = (_wire(loop, low) for loop in (disc.outline, *disc.holes))
    solid = cq.Solid.extrudeLinear(edge, holes, cq.Vector(0, 0, high - low))
    return one_solid(solid, disc.name)


def own_parts(spec: WheelSpec, disc: Blank) -> tuple[Part, ...]:
    """Both discs as one part. Raises: SpecError where it does not fit the wheel."""
    require_fit(spec, disc)
    solid = partial(own_disc, spec, disc, SIDES[0])
    return (Part(disc.name, 2, disc.volume_mm3, solid, disc, steel=spec.steel),)


def own_solids(spec: WheelSpec, disc: Blank) -> Iterator[tuple[str, cq.Solid]]:
    """Both discs by name. Raises: SpecError where it does not fit the wheel; GeometryError."""
    require_fit(spec, disc)
    for side in SIDES:
        yield f"disc-{side}", own_disc(spec, disc, side)


def _plate_faults(spec: WheelSpec, disc: Blank) -> Iterator[Fault]:
    thick = spec.disc_thickness_mm
    if not math.isclose(disc.thickness_mm, thick):
        advice = f"thickness_mm = {thick:g}, or another disc_thickness_mm in the wheel"
        yield Fault(f"{disc.name}.thickness_mm", disc.thickness_mm, f"{thick:g} mm", advice)


def _rim_faults(spec: WheelSpec, disc: Blank) -> Iterator[Fault]:
    rim = round_hole(disc.outline)
    least = min(spec.bore_radius_mm(z) for side in SIDES for z in disc_z_mm(spec, side))
    most = max(spec.bore_radius_mm(disc_z_mm(spec, side)[0]) for side in SIDES)
    low, high = 2 * (most - most_gap_mm(spec)), 2 * least
    key = f"{disc.name}.outline"
    if rim is None:
        allowed = f"one circle about (0, 0): the bead runs round the ring bore of {high:.6g} mm"
        yield Fault(key, "another shape", allowed, f"Circle((0.0, 0.0), {high / 2 - 0.5:.6g})")
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
        allowed = f"a hole about (0, 0) of {bore:.6g} mm for the hub"
        yield Fault(f"{disc.name}.holes", len(disc.holes), allowed, "cut it")
    for i in hub:
        hole, key = round_hole(disc.holes[i]), f"{disc.name}.holes[{i}]"
        if hole is None or math.dist(hole.centre, AXIS) > OFF_MM:
            yield Fault(key, "another shape", "one circle about (0, 0): the hub's", "cut it so")
        elif not low - 1e-9 <= 2 * hole.radius_mm <= high + 1e-9:
            allowed = f"a diameter from {low:.6g} to {high:.6g} mm, which fits the hub"
            yield Fault(key, 2 * hole.radius_mm, allowed, f"{bore:.6g} mm")
    rim = round_hole(disc.outline)
    outer = rim.radius_mm - leg if rim else math.inf
    inner = bore / 2 + (leg if spec.has_tube else 0.0)
    for i, hole_loop in enumerate(disc.holes):
        if i not in hub:
            near, far = reach_mm(hole_loop)
            if near < inner or far > outer:
                allowed = (
                    f"clear of the beads: from {inner:.6g} to {outer:.6g} mm of the axis; it "
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
