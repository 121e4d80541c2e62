"""The wheelset as solids: axle, spacers, bearings, both wheels, and rails drawn in for reference.

Axes: axle = Z, z = 0 in the middle of the track, +X up, the rails along Y. Shoulders are square:
their fillets are told on the drawing, and what sits against them is chamfered to clear them.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from platewheel.parts.geometry.section import Section, rectangle
from platewheel.parts.geometry.step_file import NO_JOB, Header, write_step
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_solids
from platewheel.parts.wheel.kinds import colour_of
from platewheel.parts.wheelset.assembly import Wheelset, wheel_offset_mm, wheelset

if TYPE_CHECKING:
    import cadquery as cq

Colour = tuple[float, float, float]
Named = tuple[str, "cq.Solid", Colour]

RAIL_LENGTH_MM = 400.0
RAIL_HEIGHT_SHARE = 1.5  # of the head's width: enough to be seen as a rail
AXLE_COLOUR = (0.70, 0.72, 0.74)
SPACER_COLOUR = (0.45, 0.58, 0.48)
BEARING_COLOUR = (0.30, 0.36, 0.52)
BUSH_COLOUR = (0.76, 0.58, 0.28)
RAIL_COLOUR = (0.45, 0.40, 0.37)


def axle_section(found: Wheelset) -> Section:
    """Half section of the axle, (r, z) corners from end to end, shoulders square."""
    corners = [(0.0, found.steps[0][0])]
    for z0, z1, diameter in found.steps:
        corners += [(diameter / 2, z0), (diameter / 2, z1)]
    return (*corners, (0.0, found.steps[-1][1]))


def wheelset_solids(setting: Setting, *, welds: bool = True) -> list[Named]:
    """Every solid in its place, with name and colour; no two overlap.

    Raises: SpecError for a wheelset that cannot be made; GeometryError from the modeller.
    """
    from platewheel.parts.geometry.solid import revolved

    found = wheelset(setting)
    solids: list[Named] = [("axle", revolved(axle_section(found), "axle"), AXLE_COLOUR)]
    for name, inside, outside, length, z in found.spacers:
        section = rectangle(inside / 2, outside / 2, z - length / 2, z + length / 2)
        solids.append((name, revolved(section, name), SPACER_COLOUR))
    return [*solids, *_bearings(found), *_wheels(setting, welds), *_rails(setting)]


def write_wheelset_step(setting: Setting, path: Path, header: Header = NO_JOB) -> None:
    """Wheelset as a STEP assembly, named and coloured. Raises: as `wheelset_solids`, OSError."""
    import cadquery as cq

    assembly = cq.Assembly(name="wheelset")
    for name, solid, colour in wheelset_solids(setting):
        assembly.add(solid, name=name, color=cq.Color(*colour))
    write_step(assembly, "wheelset", path, header)


def rail_top_mm(setting: Setting) -> float:
    """Rail top below the axle: the greatest tread radius that stands over the rail's head."""
    inner = wheel_offset_mm(setting) - setting.track.gauge_mm / 2
    return setting.wheel.outside_radius_mm(inner)


def _bearings(found: Wheelset) -> Iterator[Named]:
    """Envelopes by their boundary dimensions."""
    from platewheel.parts.geometry.solid import revolved

    for i, z in enumerate(found.bearing_z_mm, start=1):
        if found.bearing is not None:
            one = found.bearing
            name, inside, outside, width = "bearing", one.bore_mm, one.outside_mm, one.width_mm
            colour = BEARING_COLOUR
        else:
            assert found.bush is not None
            bush, colour = found.bush, BUSH_COLOUR
            name, inside, outside, width = "bush", bush.bore_mm, bush.outside_mm, bush.length_mm
        section = rectangle(inside / 2, outside / 2, z - width / 2, z + width / 2)
        yield f"{name}-{i}", revolved(section, name), colour


def _wheels(setting: Setting, welds: bool) -> Iterator[Named]:
    """The wheel twice: as it lies on the left, and turned half round on the right."""
    import cadquery as cq

    offset = wheel_offset_mm(setting)
    places = {
        "left": cq.Location(cq.Vector(0, 0, -offset)),
        "right": cq.Location(cq.Vector(0, 0, offset), cq.Vector(1, 0, 0), 180),
    }
    for name, solid in wheel_solids(setting.wheel, welds=welds):
        for side, place in places.items():
            moved = solid.moved(place)
            assert isinstance(moved, cq.Solid)
            yield f"{side}-{name}", moved, colour_of(name)


def _rails(setting: Setting) -> Iterator[Named]:
    import cadquery as cq

    gauge, head = setting.track.gauge_mm, setting.track.rail_head_width_mm
    height = RAIL_HEIGHT_SHARE * head
    bottom = -rail_top_mm(setting) - height
    for side, z in (("left", -gauge / 2 - head), ("right", gauge / 2)):
        corner = cq.Vector(bottom, -RAIL_LENGTH_MM / 2, z)
        yield f"rail-{side}", cq.Solid.makeBox(height, RAIL_LENGTH_MM, head, corner), RAIL_COLOUR
