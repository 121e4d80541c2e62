"""Hub disc: two of them close the tread ring to a box; each has vent holes near the wall."""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING, Literal

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.so_many import so_many
from platewheel.parts.geometry.blank import Blank, Mark, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Circle, Line, Point
from platewheel.parts.geometry.section import Section, rectangle
from platewheel.parts.wheel.part import Cut, Length, Look, Part, PartKind, Shown
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq

Side = Literal["field", "gauge"]
SIDES: tuple[Side, Side] = ("field", "gauge")


def disc_z_mm(spec: WheelSpec, side: Side) -> tuple[float, float]:
    """Least and greatest z of a disc; its outer face lies at the inset from its edge. Raises:
    SpecError for another side."""
    if side not in SIDES:
        raise SpecError([Fault("side", side, " | ".join(f'"{one}"' for one in SIDES), '"field"')])
    if side == "field":
        return spec.disc_field_inset_mm, spec.disc_field_inset_mm + spec.disc_thickness_mm
    top = spec.tread_width_mm - spec.disc_gauge_inset_mm
    return top - spec.disc_thickness_mm, top


def disc_diameter_mm(spec: WheelSpec, side: Side) -> float:
    """Ring bore - 2 x fit clearance, at the disc's narrower (field) face."""
    return 2 * (spec.bore_radius_mm(disc_z_mm(spec, side)[0]) - spec.fit_clearance_mm)


def disc_section(spec: WheelSpec, side: Side) -> Section:
    """Disc's section through plain plate, vents left out."""
    return rectangle(
        spec.hub_hole_diameter_mm / 2, disc_diameter_mm(spec, side) / 2, *disc_z_mm(spec, side)
    )


def vent_centres(spec: WheelSpec) -> tuple[Point, ...]:
    """Centres of the vent holes, evenly on their circle, the first on +x; opposite when even."""
    radius, count = spec.vent_circle_mm / 2, spec.vent_count
    turns = (2 * math.pi * i / count for i in range(count))
    return tuple((radius * math.cos(turn), radius * math.sin(turn)) for turn in turns)


def hub_disc(spec: WheelSpec, side: Side = "field") -> cq.Solid:
    """Disc in its place on the wheel: axis Z, first vent on +X; mm. Raises: SpecError for
    another side than "field" or "gauge"; GeometryError.

    >>> hub_disc(spec, "gauge").isValid()
    True
    """
    import cadquery as cq

    from platewheel.parts.geometry.solid import one_solid

    low, high = disc_z_mm(spec, side)
    blank = disc_blank(spec, side)
    circles = [blank.outline, *blank.holes]
    wires = [
        cq.Wire.makeCircle(c.radius_mm, cq.Vector(*c.centre, low), cq.Vector(0, 0, 1))
        for c in circles
        if isinstance(c, Circle)
    ]
    solid = cq.Solid.extrudeLinear(wires[0], wires[1:], cq.Vector(0, 0, high - low))
    return one_solid(solid, blank.name)


def discs_differ(spec: WheelSpec) -> bool:
    """Whether field and gauge disc are two blanks (tapered bore) or two of one."""
    return not math.isclose(disc_diameter_mm(spec, "field"), disc_diameter_mm(spec, "gauge"))


def disc_name(spec: WheelSpec, side: Side) -> str:
    """Name of the disc as a part and as a blank."""
    return f"disc-{side}" if discs_differ(spec) else "disc"


def disc_volume_mm3(spec: WheelSpec, side: Side) -> float:
    """Volume of one disc: net area x thickness."""
    return disc_blank(spec, side).volume_mm3


def disc_blank(spec: WheelSpec, side: Side = "field") -> Blank:
    """Disc laid flat, centre on the origin, vents first; mm. Raises: SpecError for another side.

    >>> len(disc_blank(spec).holes) == spec.vent_count + 1
    True
    """
    diameter, hub = disc_diameter_mm(spec, side), spec.hub_hole_diameter_mm
    vents = tuple(Circle(at, spec.vent_diameter_mm / 2) for at in vent_centres(spec))
    name = disc_name(spec, side)
    room = (diameter - hub) / 4  # half the plate between hub hole and rim
    middle, height = (diameter + hub) / 4, min(12.0, room / 2)
    tick = min(5.0, hub / 4)
    marks: tuple[Mark, ...] = (
        MarkPoint((0.0, 0.0)),
        *(MarkPoint(vent.centre) for vent in vents),
        Line((-tick, 0.0), (tick, 0.0)),
        Line((0.0, -tick), (0.0, tick)),
        MarkText((0.0, middle), name, height),
        MarkText((0.0, -middle), f"d {diameter:.1f}", height),
    )
    holes = (*vents, Circle((0.0, 0.0), hub / 2))
    sizes = {"diameter_mm": diameter, "hub_hole_diameter_mm": hub}
    if vents:
        sizes |= {
            "vent_diameter_mm": spec.vent_diameter_mm,
            "vent_circle_mm": spec.vent_circle_mm,
            "vent_count": spec.vent_count,
        }
    edge = Circle((0.0, 0.0), diameter / 2)
    return Blank(name, "disc", spec.disc_thickness_mm, edge, holes, marks, sizes)


def disc_room_mm2(spec: WheelSpec, spacing_mm: float) -> float:
    """Plate that a disc takes among its like: a cell of the densest packing of circles, sqrt(3)/2
    of its square (Source: Thue, Fejes Toth), spacing between."""
    side = max(SIDES, key=lambda one: disc_diameter_mm(spec, one))
    return math.sqrt(0.75) * (disc_diameter_mm(spec, side) + spacing_mm) ** 2


def disc_cut(spec: WheelSpec) -> Cut:
    """Both discs with their holes, each as the larger of the two."""
    side = max(SIDES, key=lambda one: disc_diameter_mm(spec, one))
    around = disc_diameter_mm(spec, side) + spec.hub_hole_diameter_mm
    return Cut(
        count=2,
        area_mm2=disc_volume_mm3(spec, side) / spec.disc_thickness_mm,
        edge_mm=math.pi * (around + spec.vent_count * spec.vent_diameter_mm),
        pierces=2 + spec.vent_count,
        room_mm2=partial(disc_room_mm2, spec),
    )


def _parts(spec: WheelSpec) -> tuple[Part, ...]:
    sides = SIDES if discs_differ(spec) else SIDES[:1]
    return tuple(
        Part(
            disc_name(spec, side),
            2 // len(sides),
            disc_volume_mm3(spec, side),
            partial(hub_disc, spec, side),
            disc_blank(spec, side),
            steel=spec.steel,
        )
        for side in sides
    )


def _shown(spec: WheelSpec, mm: Length) -> tuple[Shown, ...]:
    vents = (
        (f"{so_many(spec.vent_count, 'vent')} Ø{mm(spec.vent_diameter_mm)}",)
        if spec.vent_count
        else ()
    )
    return tuple(
        Shown(
            key=f"disc-{side}",
            rows=(
                f"{side} disc",
                f"Ø{mm(disc_diameter_mm(spec, side))}",
                f"{mm(spec.disc_thickness_mm)} thick",
                *vents,
            ),
            solids=(f"disc-{side}",),
            radius_mm=disc_diameter_mm(spec, side) / 2,
            place=place,
        )
        for side, place in zip(SIDES, (1, 3), strict=True)
    )


DISC = PartKind(
    name="disc",
    title="hub disc",
    names=("disc", *(f"disc-{side}" for side in SIDES)),
    role="carries",
    look=Look(
        colour=(0.80, 0.74, 0.60),
        hatch_deg=-45,
        hatch_pitch=0.62,
        ground="#f3eee2",
        fill="#ebe4d4",
        layer=2,
    ),
    parts=_parts,
    solids=lambda spec: ((f"disc-{side}", hub_disc(spec, side)) for side in SIDES),
    sections=lambda spec: tuple((f"disc-{side}", disc_section(spec, side)) for side in SIDES),
    shown=_shown,
    thickness_mm=lambda spec: spec.disc_thickness_mm,
    thickness_key="disc_thickness_mm",
    cut=disc_cut,
    fitted=2,
)
