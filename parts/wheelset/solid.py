"""The wheelset as solids: axle, keys, spacers, bearings, the wheel twice, and what stands beside
it for reference.

In the file it lies as on its track: X along the rails, Y along the axle, Z up; the axle's middle
is the origin. Shoulders are square: their fillets are told on the drawing, and what sits against
them is chamfered to clear them.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from platewheel.parts.geometry.product import Body, Colour, Group, Placed, Product
from platewheel.parts.geometry.section import rectangle
from platewheel.parts.geometry.step_file import NO_JOB, Header, write_step
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.kinds import colour_of
from platewheel.parts.wheelset.assembly import Wheelset, wheel_offset_mm, wheelset
from platewheel.parts.wheelset.bodies.axle import axle_solid, key_solid
from platewheel.parts.wheelset.bodies.bearing import bearing_group, housing_body, reference
from platewheel.parts.wheelset.bodies.hub import finished_solids, spacer_solid
from platewheel.parts.wheelset.bodies.track import track_members

if TYPE_CHECKING:
    import cadquery as cq

AXLE_COLOUR: Colour = (0.70, 0.72, 0.74)
KEY_COLOUR: Colour = (0.78, 0.68, 0.35)
SPACER_COLOUR: Colour = (0.45, 0.58, 0.48)
HOUSING_COLOUR: Colour = (0.40, 0.50, 0.56)
BUSH_COLOUR: Colour = (0.76, 0.58, 0.28)
ENDS = ("left", "right")  # towards -z and +z


def wheel_group(setting: Setting, made: Wheelset | None, *, welds: bool = True) -> Group:
    """The wheel in its own axes, hub keyed and drilled where it goes on an axle.

    Raises: GeometryError naming the part that the modeller cannot build.
    """
    solids = finished_solids(setting, made, welds=welds)
    bodies = (Body(name, solid, colour_of(name)) for name, solid in solids)
    return Group("wheel", tuple(Placed(body.name, body) for body in bodies))


def wheelset_group(
    setting: Setting, wheel: Group | None = None, parts: tuple[Placed, ...] | None = None
) -> Group:
    """Everything in its place; no two solids overlap. `wheel` and `parts` (as `axle_parts`) where
    they are made already.

    Raises: SpecError for a wheelset that cannot be made; GeometryError from the modeller.
    """
    import cadquery as cq

    made = wheelset(setting)
    wheel = wheel_group(setting, made) if wheel is None else wheel
    parts = axle_parts(setting, made) if parts is None else parts
    offset = wheel_offset_mm(setting)
    members = (
        Placed("wheel-left", wheel, cq.Location(cq.Vector(0, 0, -offset))),
        Placed("wheel-right", wheel, _turned(offset)),
        *parts,
        *_bearings(made),
        *track_members(setting),
    )
    lying = on_track()
    return Group(
        "wheelset",
        tuple(
            Placed(one.name, one.product, lying if one.place is None else lying * one.place)
            for one in members
        ),
    )


def on_track() -> cq.Location:
    """From an axis along Z with +X up to how it lies on its track: the axis along Y, Z up."""
    import cadquery as cq

    return cq.Location(cq.Plane((0, 0, 0), (0, 0, 1), (0, 1, 0)))


def axle_parts(setting: Setting, made: Wheelset) -> tuple[Placed, ...]:
    """What is made beside the wheels: axle, keys, spacers, bushes; a product for all like ones.

    Raises: GeometryError.
    """
    return (
        Placed("axle", Body("axle", axle_solid(setting, made), AXLE_COLOUR)),
        *_keys(setting, made),
        *_spacers(setting, made),
        *_bushes(made),
    )


def write_wheelset_step(setting: Setting, path: Path, header: Header = NO_JOB) -> None:
    """Wheelset as a STEP assembly, named and coloured. Raises: as `wheelset_group`, OSError."""
    write_step(wheelset_group(setting), "wheelset", path, header)


def _turned(z: float) -> cq.Location:
    """On the right everything stands the other way round, top still up."""
    import cadquery as cq

    return cq.Location(cq.Vector(0, 0, z), cq.Vector(1, 0, 0), 180)


def _keys(setting: Setting, made: Wheelset) -> Iterator[Placed]:
    found = key_solid(setting, made)
    if found is not None:
        key = Body("key", found[0], KEY_COLOUR)
        for side, place in zip(ENDS, found[1], strict=True):
            yield Placed(f"key-{side}", key, place)


def _spacers(setting: Setting, made: Wheelset) -> Iterator[Placed]:
    import cadquery as cq

    bodies: dict[str, Body] = {}
    for spacer in made.spacers:
        name, z = spacer[0], spacer[-1]
        kind, _, side = name.rpartition("-")
        if kind not in bodies:
            bodies[kind] = Body(kind, spacer_solid(setting, made, spacer), SPACER_COLOUR)
        place = cq.Location(cq.Vector(0, 0, z)) if side == ENDS[0] else _turned(z)
        yield Placed(name, bodies[kind], place)


def _bushes(made: Wheelset) -> Iterator[Placed]:
    import cadquery as cq

    from platewheel.parts.geometry.solid import revolved

    if made.bush is None:
        return
    half = made.bush.length_mm / 2
    section = rectangle(made.bush.bore_mm / 2, made.bush.outside_mm / 2, -half, half)
    bush = Body("bush", revolved(section, "bush"), BUSH_COLOUR)
    for side, z in zip(ENDS, made.bearing_z_mm, strict=True):
        yield Placed(f"bush-{side}", bush, cq.Location(cq.Vector(0, 0, z)))


def _bearings(made: Wheelset) -> Iterator[Placed]:
    """Rolling bearings, and the housings of inserts: bought, for reference."""
    import cadquery as cq

    if made.bearing is None:
        return
    bodies: list[Product] = [bearing_group(made.bearing)]
    if block := housing_body(made.bearing):
        bodies.append(reference("housing", block, HOUSING_COLOUR))
    for i, z in enumerate(made.bearing_z_mm, start=1):
        for body in bodies:
            name = body.name.replace(" (", f" {i} (", 1)
            yield Placed(name, body, cq.Location(cq.Vector(0, 0, z)))
