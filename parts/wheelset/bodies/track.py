"""Rails, sleepers and the track's axis below a wheelset, for reference. mm.

Axes: axle = Z, +X up, rails along Y; the rails' tops stand where the treads do.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from platewheel.parts.geometry.product import Colour, Placed
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import wheel_offset_mm
from platewheel.parts.wheelset.bodies.bearing import REFERENCE, reference

if TYPE_CHECKING:
    import cadquery as cq

RAIL_LENGTH_MM = 700.0
RAIL_COLOUR: Colour = (0.45, 0.40, 0.37)
SLEEPER_COLOUR: Colour = (0.56, 0.47, 0.36)
AXIS_COLOUR: Colour = (0.80, 0.10, 0.10)
# a plain rail over its head's width: foot, height of all, of the head, of the foot, web; enough
# to be seen as a rail
_FOOT, _HIGH, _HEAD, _BASE, _WEB = 1.6, 1.8, 0.5, 0.3, 0.3
# over the gauge; common practice of light track, no source
SLEEPER_LONG, SLEEPER_WIDE, SLEEPER_HIGH = 2.0, 0.25, 0.18
SLEEPERS_APART_MM = 500.0


def rail_top_mm(setting: Setting) -> float:
    """Rail top below the axle: the greatest tread radius that stands over the rail's head."""
    inner = wheel_offset_mm(setting) - setting.track.gauge_mm / 2
    return setting.wheel.outside_radius_mm(inner)


def rail_height_mm(setting: Setting) -> float:
    """As drawn: a rail's usual height, or more for a deep flange."""
    return max(_HIGH * setting.track.rail_head_width_mm, 2 * setting.wheel.flange_depth_mm)


def track_members(setting: Setting) -> list[Placed]:
    """Both rails, two sleepers, and the line midway between the rails at the height of their
    tops."""
    import cadquery as cq

    gauge, head = setting.track.gauge_mm, setting.track.rail_head_width_mm
    top, high = -rail_top_mm(setting), rail_height_mm(setting)
    rail = reference("rail", _rail(head, high), RAIL_COLOUR)
    across = [-(gauge + head) / 2, (gauge + head) / 2]
    long, wide, thick = (share * gauge for share in (SLEEPER_LONG, SLEEPER_WIDE, SLEEPER_HIGH))
    corner = cq.Vector(-thick, -wide / 2, -long / 2)
    sleeper = reference("sleeper", cq.Solid.makeBox(thick, wide, long, corner), SLEEPER_COLOUR)
    ends = (cq.Vector(top, side * RAIL_LENGTH_MM / 2, 0) for side in (-1, 1))
    axis = reference("track axis", cq.Edge.makeLine(*ends), AXIS_COLOUR)
    return [
        *(
            Placed(f"rail-{side} ({REFERENCE})", rail, cq.Location(cq.Vector(top, 0, z)))
            for side, z in zip(("left", "right"), across, strict=True)
        ),
        *(
            Placed(
                f"sleeper-{i} ({REFERENCE})",
                sleeper,
                cq.Location(cq.Vector(top - high, y, 0)),
            )
            for i, y in ((1, -SLEEPERS_APART_MM / 2), (2, SLEEPERS_APART_MM / 2))
        ),
        Placed(axis.name, axis),
    ]


def _rail(head: float, high: float) -> cq.Solid:
    """Along Y, its top at x = 0, its middle at z = 0."""
    import cadquery as cq

    side = [
        (0.0, head / 2),
        (-_HEAD * head, head / 2),
        (-_HEAD * head, _WEB * head / 2),
        (_BASE * head - high, _WEB * head / 2),
        (_BASE * head - high, _FOOT * head / 2),
        (-high, _FOOT * head / 2),
    ]
    corners = [*side, *((x, -z) for x, z in reversed(side))]
    start = -RAIL_LENGTH_MM / 2
    wire = cq.Wire.makePolygon([cq.Vector(x, start, z) for x, z in corners], close=True)
    return cq.Solid.extrudeLinear(wire, [], cq.Vector(0, RAIL_LENGTH_MM, 0))
