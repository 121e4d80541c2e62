"""Gauges of plywood that ring and flange are bent to: drawings for paper at full size. mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from platewheel.parts.base.units import Units, length
from platewheel.parts.geometry.blank import Blank, MarkText
from platewheel.parts.geometry.outline import Arc, Line, Loop
from platewheel.parts.wheel.flange import flange_section, segment_turn
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank

RING, FLANGE = "plywood-ring", "plywood-flange"
NAMES = (RING, FLANGE)
QUARTER_DEG = 90.0  # of the round, at most: longer shows no more of a bend
HOLD_MM = 40.0  # of plywood behind the curve, where it is narrowest
LIP_MM = 10.0  # flat ends of a hollow curve: a sharp horn breaks off
PLY_MM, OVER_MM = 9.0, 2.0  # thin plywood, and over an edge that it is laid to
LETTER_MM, LETTER_SHARE = 6.0, 0.8  # height of the words, width of a wide letter over it
# HOLD_MM to LETTER_SHARE: common practice, no source


@dataclass(frozen=True)
class Plywood:
    """A gauge to saw from plywood: its title, its drawing (`sizes`: radius, chord and rise of its
    curve), how it is held to the work."""

    title: str
    board: Blank
    use: str


def plywood_gauges(spec: WheelSpec, units: Units) -> tuple[Plywood, ...]:
    """All that the wheel asks for: none of the ring for a tread from pipe, none of the flange
    for a flat washer."""
    found = []
    ring, flange = ring_gauge(spec, units), flange_gauge(spec, units)
    if ring is not None:
        where = " at the field edge" if spec.taper_half_angle else ""
        found.append(
            Plywood(
                "plywood gauge of the ring",
                ring,
                f"Hold it into the ring{where}, square to it: no light below the curve.",
            )
        )
    if flange is not None:
        found.append(
            Plywood(
                "plywood gauge of the flange's tip",
                flange,
                "Lay it flat round the piece, which stands tip edge down: no light between.",
            )
        )
    return tuple(found)


def ring_gauge(spec: WheelSpec, units: Units) -> Blank | None:
    """A quarter of the bore, to hold into the ring; the bore's centre is the origin, its arc
    above. None for a tread from pipe. Source: plain geometry."""
    if tread_blank(spec) is None:
        return None
    radius = spec.bore_radius_mm(0.0)
    half = math.radians(QUARTER_DEG / 2)
    across, foot = radius * math.sin(half), radius * math.cos(half) - HOLD_MM
    arc = Arc((0.0, 0.0), radius, 90 - QUARTER_DEG / 2, QUARTER_DEG)
    low_right, low_left = (across, foot), (-across, foot)
    edge = (
        arc,
        Line(arc.end, low_left),
        Line(low_left, low_right),
        Line(low_right, arc.start),
    )
    words = _words("ring, bore radius", radius, 1.8 * across, foot + HOLD_MM / 2, units)
    sizes = _sizes(radius, half)
    return Blank(RING, "plywood", PLY_MM, edge, (), (words,), sizes)


def flange_gauge(spec: WheelSpec, units: Units) -> Blank | None:
    """Hollow to the outermost edge of the flange's tip, a quarter or one piece where that is
    less, to lay round it; the wheel's axis is the origin. None for a flat washer, which is not
    bent. Source: plain geometry."""
    if spec.flange_angle_deg >= 90:
        return None
    radius = spec.over_flange_diameter_mm / 2
    half = min(math.radians(QUARTER_DEG), segment_turn(spec)) / 2
    turn = math.degrees(half)
    arc = Arc((0.0, 0.0), radius, 90 + turn, -2 * turn)
    far, top = radius * math.sin(half) + LIP_MM, radius + HOLD_MM
    low = radius * math.cos(half)
    stops = [arc.end, (far, low), (far, top), (-far, top), (-far, low), arc.start]
    edge: Loop = (arc, *(Line(a, b) for a, b in pairwise(stops)))
    words = _words("flange, tip radius", radius, 1.8 * far, radius + HOLD_MM / 2, units)
    sizes = _sizes(radius, half)
    return Blank(FLANGE, "plywood", flange_ply_mm(spec), edge, (), (words,), sizes)


def flange_ply_mm(spec: WheelSpec) -> float:
    """Least thickness of the plywood that reaches the outermost edge of the tip, from the plate
    on which the piece stands: the rail-side edge stands above it. Source: plain geometry."""
    section = flange_section(spec)
    _, outermost = max(section)
    stands = max(z for _, z in section) - outermost
    return max(PLY_MM, float(math.ceil(stands + OVER_MM)))


def _sizes(radius_mm: float, half: float) -> dict[str, float]:
    """Source: chord 2 R sin(angle / 2), rise R (1 - cos(angle / 2))."""
    return {
        "radius_mm": radius_mm,
        "chord_mm": 2 * radius_mm * math.sin(half),
        "rise_mm": radius_mm * (1 - math.cos(half)),
    }


def _words(what: str, radius_mm: float, wide_mm: float, y_mm: float, units: Units) -> MarkText:
    text = f"{what} {length(radius_mm, units)}"
    height = min(LETTER_MM, wide_mm / (LETTER_SHARE * len(text)))
    return MarkText((0.0, y_mm), text, height)
