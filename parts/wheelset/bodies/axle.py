"""The axle as it is made, and its keys: turned, centred, keyed, dimpled; solid and volume. mm."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.geometry.section import RZ, Section, revolved_volume_mm3
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.bodies.cuts import DRILL_POINT_DEG, dimple_mm3, slot_in_shaft_mm2
from platewheel.parts.wheelset.hub_holes import key_place, screw_place

if TYPE_CHECKING:
    import cadquery as cq

# thinnest axle end, then pilot, mouth and depth of its centre: form A of DIN 332-1 (60 degrees),
# from memory; which size on which axle is common practice
_CENTRES_MM = (
    (0.0, 1.6, 3.35, 3.0),
    (14.0, 2.0, 4.25, 3.7),
    (20.0, 2.5, 5.3, 4.6),
    (30.0, 3.15, 6.7, 5.9),
    (50.0, 4.0, 8.5, 7.4),
    (80.0, 5.0, 10.6, 9.2),
)
SIDES = (-1.0, 1.0)  # left and right of the middle


def centred(setting: Setting, made: Wheelset) -> bool:
    """Whether the axle's ends have centres: it goes between a lathe's."""
    return setting.shop.lathe or len(made.steps) > 1


def axle_section(setting: Setting, made: Wheelset) -> Section:
    """Half section of the axle, (r, z) corners from end to end: shoulders square (their fillets
    are told on the drawing), centres in its ends."""
    (start, _, first), (_, end, last) = made.steps[0], made.steps[-1]
    corners: list[RZ] = [*_centre(first, start, 1.0)] if centred(setting, made) else [(0.0, start)]
    for z0, z1, diameter in made.steps:
        corners += [(diameter / 2, z0), (diameter / 2, z1)]
    corners += reversed(_centre(last, end, -1.0)) if centred(setting, made) else [(0.0, end)]
    return tuple(corners)


def _centre(diameter_mm: float, face_z: float, inwards: float) -> list[RZ]:
    """Corners of a centre from the axis out to its mouth."""
    row = [row for row in _CENTRES_MM if row[0] <= diameter_mm][-1]
    pilot, mouth, deep = row[1] / 2, row[2] / 2, row[3]
    cone = (mouth - pilot) / math.tan(math.radians(30))
    depths = ((0.0, deep), (pilot, deep), (pilot, cone), (mouth, 0.0))
    return [(r, face_z + inwards * depth) for r, depth in depths]


def axle_solid(setting: Setting, made: Wheelset) -> cq.Solid:
    """The axle in its place: both keyways on top (+X), dimples on top and a quarter turn on.

    Raises: GeometryError.
    """
    import cadquery as cq

    from platewheel.parts.geometry.solid import one_solid, revolved

    solid: cq.Shape = revolved(axle_section(setting, made), "axle")
    key, radius = key_place(setting, made), made.seat_diameter_mm / 2
    if key is not None:
        for z in _low_ends(made):
            corner = cq.Vector(radius - key.axle_depth_mm, -key.width_mm / 2, z)
            solid = solid.cut(cq.Solid.makeBox(radius, key.width_mm, key.length_mm, corner))
    for at, towards in _dimples(setting, made):
        long = radius  # of the cone, well out of the axle
        wide = long * math.tan(math.radians(DRILL_POINT_DEG / 2))
        point = at + towards * (radius - _dimple_depth_mm(setting, made))
        solid = solid.cut(cq.Solid.makeCone(0, wide, long, point, towards))
    return one_solid(solid, "axle")


def axle_volume_mm3(setting: Setting, made: Wheelset) -> float:
    """Volume of the axle as made. Source: Pappus' theorem, less `cuts.py`."""
    volume = revolved_volume_mm3(axle_section(setting, made))
    key, radius = key_place(setting, made), made.seat_diameter_mm / 2
    if key is not None:
        area = slot_in_shaft_mm2(radius, key.width_mm, key.axle_depth_mm)
        volume -= len(SIDES) * area * key.length_mm
    deep = _dimple_depth_mm(setting, made)
    if deep:
        each = dimple_mm3(made.seat_diameter_mm, deep)
        volume -= 2 * len(SIDES) * each
    return volume


def axle_kg(setting: Setting, made: Wheelset) -> float:
    """Mass of the axle as made."""
    return axle_volume_mm3(setting, made) * DENSITY_KG_MM3


def key_solid(setting: Setting, made: Wheelset) -> tuple[cq.Solid, tuple[cq.Location, ...]] | None:
    """One key, square-ended, on its side faces' middle, and where it lies at the left and at the
    right; None where no key holds the wheels."""
    import cadquery as cq

    key = key_place(setting, made)
    if key is None:
        return None
    corner = cq.Vector(0, -key.width_mm / 2, 0)
    solid = cq.Solid.makeBox(key.height_mm, key.width_mm, key.length_mm, corner)
    foot = made.seat_diameter_mm / 2 - key.axle_depth_mm
    return solid, tuple(cq.Location(cq.Vector(foot, 0, z)) for z in _low_ends(made))


def key_volume_mm3(setting: Setting, made: Wheelset) -> float:
    """Volume of one key; 0 without."""
    key = key_place(setting, made)
    return key.width_mm * key.height_mm * key.length_mm if key else 0.0


def _low_ends(made: Wheelset) -> tuple[float, float]:
    """Where the hub at the left begins, and that at the right."""
    return -made.hub_z_mm[1], made.hub_z_mm[0]


def _dimple_depth_mm(setting: Setting, made: Wheelset) -> float:
    """0 without dimples: over a key the screws stand on it and beside it."""
    screw = screw_place(setting, made)
    return 0.0 if screw is None or made.retention == "key" else screw.dimple_mm


def _dimples(setting: Setting, made: Wheelset) -> list[tuple[cq.Vector, cq.Vector]]:
    """Point of the axis below each dimple, and the way from there to it."""
    import cadquery as cq

    screw = screw_place(setting, made)
    if screw is None or not _dimple_depth_mm(setting, made):
        return []
    z = made.axle_length_mm / 2 - screw.from_axle_end_mm
    return [
        (cq.Vector(0, 0, side * z), cq.Vector(*way))
        for side in SIDES
        for way in ((1, 0, 0), (0, -side, 0))  # the right wheel is the left one turned over
    ]
