"""A rolling bearing and a housing as outlines, for reference: what is bought, not made. mm.

Rings and balls are as wide as they usually are, and so near that a drawing shows them; only bore,
outside and width are of the table. Middle at z = 0, axis Z, +X up.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from platewheel.parts.geometry.product import Body, Colour, Group, Placed
from platewheel.parts.geometry.section import rectangle
from platewheel.parts.wheelset.bearing_table import BEARINGS, Bearing
from platewheel.parts.wheelset.shoulders import INNER_RING_SHARE, inner_ring_mm

if TYPE_CHECKING:
    import cadquery as cq

REFERENCE = "for reference"  # layer of what is not made, and how its names end
BEARING_COLOUR: Colour = (0.30, 0.36, 0.52)
BALL_COLOUR: Colour = (0.75, 0.77, 0.80)
BALL_SHARE = 0.3  # of outside less bore; makers' lists, from memory
BALL_PITCH = 1.6  # from ball to ball, over the ball: filled from one side; from memory
CLEAR_MM = 0.05  # between bodies that touch, so that none overlaps another

# outside of the insert; height of its axis over the foot, length, bolts apart, width of the foot,
# bolt's hole: blocks of JIS B 1559, from memory
_BLOCKS_MM = {
    47: (33.3, 127, 95, 38, 13),
    52: (36.5, 140, 105, 38, 13),
    62: (42.9, 165, 121, 48, 17),
    72: (47.6, 167, 127, 48, 17),
    80: (49.2, 184, 137, 54, 17),
    85: (54.0, 190, 146, 54, 17),
    90: (57.2, 206, 159, 60, 20),
    100: (63.5, 219, 171, 60, 20),
    110: (69.8, 241, 184, 70, 20),
    120: (76.2, 265, 203, 70, 25),
    125: (79.4, 266, 210, 72, 25),
    130: (82.6, 275, 217, 74, 25),
    140: (88.9, 292, 232, 78, 25),
    150: (95.2, 310, 247, 83, 25),
    160: (101.6, 327, 262, 88, 27),
}
BARREL_SHARE = 0.61  # radius round the insert, over its outside; makers' drawings, from memory
BARREL_WIDE = 0.7  # over the foot's width; the same
FOOT_SHARE = 0.3  # its thickness, over the axis's height; the same


def reference(name: str, shape: cq.Shape, colour: Colour) -> Body:
    """A body that is there to be seen beside what is made, on a layer of its own."""
    return Body(f"{name} ({REFERENCE})", shape, colour, REFERENCE)


def bearing_group(one: Bearing) -> Group:
    """Inner ring, outer ring and balls. Raises: GeometryError."""
    import cadquery as cq

    from platewheel.parts.geometry.solid import one_solid, revolved

    ball = BALL_SHARE * (one.outside_mm - one.bore_mm) / 2
    pitch = (one.outside_mm + one.bore_mm) / 4
    inner_out = inner_ring_mm(one) / 2
    outer_in = one.outside_mm / 2 - INNER_RING_SHARE * (one.outside_mm - one.bore_mm) / 2
    groove = cq.Solid.makeTorus(pitch, ball + CLEAR_MM)
    half, outer_half = one.width_mm / 2, outer_width_mm(one) / 2
    inner = revolved(rectangle(one.bore_mm / 2, inner_out, -half, half), one.name)
    outer: cq.Shape = revolved(
        rectangle(outer_in, one.outside_mm / 2, -outer_half, outer_half), one.name
    )
    if one.kind == "insert":
        outer = outer.intersect(_globe(one.outside_mm / 2))
    count = max(math.floor(2 * math.pi * pitch / (BALL_PITCH * 2 * ball)), 3)
    rings = [
        reference(name, one_solid(ring.cut(groove), one.name), BEARING_COLOUR)
        for name, ring in (("inner ring", inner), ("outer ring", outer))
    ]
    globe = reference("ball", _globe(ball), BALL_COLOUR)
    turns = [2 * math.pi * i / count for i in range(count)]
    places = [cq.Vector(pitch * math.cos(a), pitch * math.sin(a), 0.0) for a in turns]
    balls = [Placed(globe.name, globe, cq.Location(at)) for at in places]
    members = (*(Placed(ring.name, ring) for ring in rings), *balls)
    return Group(f"bearing {one.name} ({REFERENCE})", members)


def outer_width_mm(one: Bearing) -> float:
    """Of the outer ring: an insert's is that of the 62 bearing of its outside, about."""
    if one.kind == "deep-groove":
        return one.width_mm
    return next(
        like.width_mm
        for like in BEARINGS
        if like.series == "62" and like.kind == "deep-groove" and like.outside_mm == one.outside_mm
    )


def housing_body(one: Bearing) -> cq.Solid | None:
    """Outline of the block of an insert, hung below its frame: foot up, two bolts. None for what
    sits in a bored housing. Raises: GeometryError."""
    import cadquery as cq

    from platewheel.parts.geometry.solid import one_solid

    if one.kind != "insert":
        return None
    high, long, apart, wide, bolt = _BLOCKS_MM[round(one.outside_mm)]
    radius, half, foot = BARREL_SHARE * one.outside_mm, BARREL_WIDE * wide / 2, FOOT_SHARE * high
    up, along = cq.Vector(1, 0, 0), cq.Vector(0, 0, 1)
    barrel = cq.Solid.makeCylinder(radius, 2 * half, cq.Vector(0, 0, -half), along)
    neck = cq.Solid.makeBox(high, 2 * radius, 2 * half, cq.Vector(0, -radius, -half))
    plate = cq.Solid.makeBox(foot, long, wide, cq.Vector(high - foot, -long / 2, -wide / 2))
    body = barrel.fuse(neck, plate).clean().cut(_globe(one.outside_mm / 2 + CLEAR_MM))
    for side in (-1, 1):
        middle = cq.Vector(0, side * apart / 2, 0)
        body = body.cut(cq.Solid.makeCylinder(bolt / 2, 2 * high, middle, up))
    return one_solid(body, "housing")


def _globe(radius: float) -> cq.Solid:
    import cadquery as cq

    middle = cq.Vector(0, 0, 0)
    return cq.Solid.makeSphere(radius, middle, angleDegrees1=-90, angleDegrees2=90)
