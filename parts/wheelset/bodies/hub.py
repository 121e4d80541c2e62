"""Hub and collar as they are made: keyed, drilled for set screws; solids and volumes. mm.

Axes are the wheel's own; a collar's middle lies at z = 0. The keyway lies on +X, over a vent, one
screw over it, one a quarter turn on (+Y).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from platewheel.parts.geometry.section import rectangle, revolved_volume_mm3
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_solids
from platewheel.parts.wheel.hub_tube import tube_z_mm
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.bodies.cuts import radial_hole_mm3, slot_in_bore_mm2
from platewheel.parts.wheelset.hub_holes import key_place, screw_place
from platewheel.parts.wheelset.spacers import Spacer

if TYPE_CHECKING:
    import cadquery as cq

TUBE, DISC, COLLAR = "hub-tube", "disc", "collar"


def finished_solids(
    setting: Setting, made: Wheelset | None, *, welds: bool = True
) -> Iterator[tuple[str, cq.Solid]]:
    """Every solid of one wheel by its name, hub keyed and drilled for its axle. Without one the
    wheel as welded. Raises: GeometryError."""
    for name, solid in wheel_solids(setting.wheel, welds=welds, disc=setting.disc):
        yield name, solid if made is None else _machined(setting, made, name, solid)


def taken_mm3(setting: Setting, made: Wheelset, name: str, thickness_mm: float) -> float:
    """What keyway and holes take from a part of the wheel, `thickness_mm` long round the bore."""
    wheel, key = setting.wheel, key_place(setting, made)
    holed = name == TUBE if wheel.has_tube else name.startswith(DISC)
    if not holed:
        return 0.0
    slot = (key.width_mm, key.hub_depth_mm) if key else (0.0, 0.0)
    taken = slot_in_bore_mm2(wheel.hub_bore_mm / 2, *slot) * thickness_mm if key else 0.0
    screw = screw_place(setting, made)
    if screw is not None and made.retention != COLLAR:
        around = screw.drill_mm, wheel.hub_tube_outside_mm, wheel.hub_bore_mm
        taken += radial_hole_mm3(*around, slot) + radial_hole_mm3(*around)
    return taken


def spacer_solid(setting: Setting, made: Wheelset, spacer: Spacer) -> cq.Solid:
    """A spacer, shim or collar, the last with its screw holes. Raises: GeometryError."""
    from platewheel.parts.geometry.solid import one_solid, revolved

    name, inside, outside, length, _ = spacer
    solid = revolved(rectangle(inside / 2, outside / 2, -length / 2, length / 2), name)
    screw = screw_place(setting, made)
    if screw is None or not name.startswith(COLLAR):
        return solid
    return one_solid(_drilled(solid, screw.drill_mm, outside, 0.0), name)


def spacer_volume_mm3(setting: Setting, made: Wheelset, spacer: Spacer) -> float:
    """Volume of the same. Source: Pappus' theorem, less `cuts.py`."""
    name, inside, outside, length, _ = spacer
    volume = revolved_volume_mm3(rectangle(inside / 2, outside / 2, 0.0, length))
    screw = screw_place(setting, made)
    if screw is None or not name.startswith(COLLAR):
        return volume
    return volume - 2 * radial_hole_mm3(screw.drill_mm, outside, inside)


def _machined(setting: Setting, made: Wheelset, name: str, solid: cq.Solid) -> cq.Solid:
    import cadquery as cq

    from platewheel.parts.geometry.solid import one_solid

    wheel, key = setting.wheel, key_place(setting, made)
    shape: cq.Shape = solid
    if key is not None and (name == TUBE if wheel.has_tube else name.startswith(DISC)):
        box = solid.BoundingBox()
        corner = cq.Vector(0, -key.width_mm / 2, box.zmin - 1)
        deep, long = wheel.hub_bore_mm / 2 + key.hub_depth_mm, box.zmax - box.zmin + 2
        shape = shape.cut(cq.Solid.makeBox(deep, key.width_mm, long, corner))
    screw = screw_place(setting, made)
    if screw is not None and made.retention != COLLAR and name == TUBE:
        low, high = tube_z_mm(wheel)
        field = "field" in screw.where
        z = low + screw.from_end_mm if field else high - screw.from_end_mm
        shape = _drilled(shape, screw.drill_mm, wheel.hub_tube_outside_mm, z)
    return solid if shape is solid else one_solid(shape, name)


def _drilled(shape: cq.Shape, drill_mm: float, outside_mm: float, z_mm: float) -> cq.Shape:
    """Two holes square through a wall, towards +X and +Y."""
    import cadquery as cq

    middle = cq.Vector(0, 0, z_mm)
    for way in ((1, 0, 0), (0, 1, 0)):
        hole = cq.Solid.makeCylinder(drill_mm / 2, outside_mm, middle, cq.Vector(*way))
        shape = shape.cut(hole)
    return shape
