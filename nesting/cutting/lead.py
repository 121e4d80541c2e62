"""Shapes of leads: how the torch runs into a cut on the scrap side and off it again.

A cut is travelled with the scrap on its left: outlines clockwise, holes counter-clockwise, the
side on which a clockwise swirling plasma leaves the rougher edge (common practice, no source).
A line comes in square to the cut, or slanting where a gap is narrow, and goes off slantwise ahead,
so that nothing is cut twice; an arc is a quarter circle of the radius told, which runs into the
cut, or off it, smoothly.
"""

from __future__ import annotations

import math
from typing import Literal

from platewheel.nesting.geometry.ring import Spot
from platewheel.nesting.geometry.trim import between
from platewheel.parts.geometry.outline import Arc, Line, Segment

Shape = Literal["line", "arc"]
SLANT = math.sqrt(0.5)  # a line goes off at 45 degrees


def lead_in(spot: Spot, length_mm: float, shape: Shape, slant_deg: float = 90.0) -> Segment:
    """Lead that ends at the spot: a line of the length, at this angle to the cut and from behind,
    or a quarter arc of that radius."""
    if shape == "line":
        slant = math.radians(slant_deg)
        back = length_mm * math.cos(slant) if slant_deg != 90.0 else 0.0
        return Line(spot.off(-back, length_mm * math.sin(slant)), spot.point)
    return Arc(spot.off(0.0, length_mm), length_mm, _down(spot) - 90.0, 90.0)


def lead_out(spot: Spot, length_mm: float, shape: Shape) -> Segment:
    """Lead that begins at the spot: a line ahead and aside, or a quarter arc."""
    if shape == "line":
        return Line(spot.point, spot.off(SLANT * length_mm, SLANT * length_mm))
    return Arc(spot.off(0.0, length_mm), length_mm, _down(spot), 90.0)


def _down(spot: Spot) -> float:
    """Direction from an arc's centre to the spot, degrees."""
    return math.degrees(math.atan2(-spot.left[1], -spot.left[0]))


def far_half(lead: Segment, *, into: bool) -> Segment:
    """The half of a lead that is away from the cut."""
    return between(lead, 0.0, 0.5) if into else between(lead, 0.5, 1.0)


def own_gap_mm(length_mm: float, shape: Shape, *, into: bool, slant_deg: float = 90.0) -> float:
    """How far the far half stays from a straight cut."""
    if shape == "arc":
        return length_mm * (1 - SLANT)
    return length_mm / 2 * (math.sin(math.radians(slant_deg)) if into else SLANT)
