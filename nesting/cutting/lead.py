"""Shapes of leads: how the torch runs into a cut on the scrap side and off it again.

A cut is travelled with the scrap on its left: outlines clockwise, holes counter-clockwise, the
side on which a clockwise swirling plasma leaves the rougher edge (common practice, no source).
A line comes in square to the cut, or slanting where a gap is narrow, and goes off slantwise ahead,
so that nothing is cut twice; an arc is a quarter circle of the radius told, which runs into the
cut, or off it, smoothly. Where there is no room as wanted, leads are shorter or slant along a gap.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from platewheel.nesting.geometry.ring import Spot
from platewheel.nesting.geometry.trim import between
from platewheel.nesting.stock.pierce_clear import SLACK_MM
from platewheel.parts.geometry.outline import Arc, Line, Segment

Shape = Literal["line", "arc"]
SLANT = math.sqrt(0.5)  # a line goes off at 45 degrees
SHORTER = (1.0, 0.75, 0.5, 0.35, 0.25)  # of the lead that there is room for at the most
SLANTS_DEG = (90.0, 60.0, 45.0, 30.0)  # of a line to the cut


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


@dataclass(frozen=True)
class Leads:
    """What is wanted of a cut's leads; a length of 0 wants none."""

    in_mm: float
    out_mm: float
    shape: Shape
    slant_deg: float = 90.0  # of a line into the cut

    @property
    def off_mm(self) -> float:
        """How far from a straight cut the lead-in begins."""
        return self.in_mm * math.sin(math.radians(self.slant_deg))

    def shapes(self, spot: Spot) -> tuple[Segment | None, Segment | None]:
        """Lead-in and lead-out at a spot."""
        into = lead_in(spot, self.in_mm, self.shape, self.slant_deg) if self.in_mm else None
        off = lead_out(spot, self.out_mm, self.shape) if self.out_mm else None
        return into, off


def lead_variants(wanted: Leads, least_mm: float) -> Iterator[Leads]:
    """The leads wanted, the lead-in alone, then shorter and slanted ones that begin at least so
    far from the cut: the longest first, and of these the most upright."""
    yield wanted
    if not wanted.in_mm:
        return
    if wanted.out_mm:
        yield replace(wanted, out_mm=0.0)
    slants = SLANTS_DEG if wanted.shape == "line" else SLANTS_DEG[:1]
    lengths = [share * wanted.in_mm for share in SHORTER]
    for length in lengths:
        for slant in slants:
            other = Leads(length, 0.0, wanted.shape, slant)
            if (length < wanted.in_mm or slant < SLANTS_DEG[0]) and other.off_mm >= least_mm:
                yield other
    for slant in slants:  # just as far from the cut as it must be
        yield Leads(
            (least_mm + SLACK_MM / 2) / math.sin(math.radians(slant)), 0.0, wanted.shape, slant
        )


def size_mm(lead: Segment) -> float:
    """Length of a line, radius of an arc."""
    return lead.length_mm if isinstance(lead, Line) else lead.radius_mm


def as_wanted(into: Segment, wanted: Leads) -> bool:
    """Whether a lead-in is as long as it was to be."""
    return size_mm(into) >= wanted.in_mm - 1e-6
