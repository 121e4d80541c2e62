"""Leads in the order in which they are tried: as wanted, shorter, slanting along a gap."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from platewheel.nesting.cutting.lead_place import Leads
from platewheel.nesting.stock.pierce_clear import SLACK_MM
from platewheel.parts.geometry.outline import Line, Segment

SHORTER = (1.0, 0.75, 0.5, 0.35, 0.25)  # of the lead that there is room for at the most
SLANTS_DEG = (90.0, 60.0, 45.0, 30.0)  # of a line to the cut


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
