"""What of leads and tabs could not be had as wanted, in words.

Every part is named: the proof of the file takes from these words what the user has been told.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from platewheel.nesting.cutting.lead_place import Neighbour
from platewheel.nesting.cutting.lead_search import HAIR_MM
from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.base.so_many import noun, so_many
from platewheel.parts.geometry.outline import Line, Loop, Segment


class NotAsWanted:
    """What is not as wanted, gathered while the cuts are laid; told once parts have numbers."""

    def __init__(self) -> None:
        self.no_lead: list[tuple[str, Neighbour]] = []  # of a hole of it, or of itself
        self.no_run_off: list[Neighbour] = []
        self.short: list[tuple[str, float]] = []
        self.near: list[tuple[str, float, float]] = []  # of a hole of it: its pierce, and wanted
        self.hemmed: list[tuple[Neighbour, float]] = []
        self.fewer_tabs: dict[str, int] = {}
        self.bare: list[Neighbour] = []

    def pierced(self, name: str, hole: Loop, into: Segment, clear_mm: float) -> None:
        """A hole that may be too small to pierce so far off its edge."""
        off = loop_gap((Line(into.start, into.start),), hole, clear_mm)
        if off < clear_mm - HAIR_MM:
            self.near.append((name, off, clear_mm))

    def lines(self, cutting: Cutting) -> Iterator[str]:
        """Each in words."""
        if self.no_lead:
            by_number = sorted(self.no_lead, key=lambda one: one[1].number)
            counted = Counter((what, part.said) for what, part in by_number)
            told = [_of_them(what, said, count) for (what, said), count in counted.items()]
            names = ", ".join(told)
            length = cutting.lead_in_mm or cutting.lead_out_mm
            kind = "lead-in" if cutting.lead_in_mm else "lead-out"
            yield f"no room for a {kind} of {length:g} mm: {names}"
        if self.no_run_off:
            yield (
                f"no room for a lead-out of {cutting.lead_out_mm:g} mm beside the lead-in: "
                + _names(self.no_run_off)
            )
        if self.short:
            least = min(length for _, length in self.short)
            names = ", ".join(sorted({name for name, _ in self.short}))
            yield (
                f"{so_many(len(self.short), 'hole is', 'holes are')} too small for the lead, "
                f"it is shorter there (down to {least:.1f} mm): {names}"
            )
        if self.near:
            least, clear = min(off for _, off, _ in self.near), self.near[0][2]
            names = ", ".join(sorted({name for name, _, _ in self.near}))
            its = noun(len(self.near), "its", "their")
            yield (
                f"{so_many(len(self.near), 'hole is', 'holes are')} too small to pierce "
                f"{clear:g} mm off {its} edge (pierce_clear_mm): pierced in {its} middle, "
                f"down to {least:.1f} mm off: {names}"
            )
        if self.hemmed:
            least = min(length for _, length in self.hemmed)
            names = _names(part for part, _ in self.hemmed)
            yield (
                f"{so_many(len(self.hemmed), 'part lies', 'parts lie')} too close for a "
                f"lead-in of {cutting.lead_in_mm:g} mm, it is shorter or slanted there "
                f"(down to {least:.1f} mm): {names}"
            )
        for name, count in self.fewer_tabs.items():
            yield f"{name}: room for {so_many(count, 'tab')} of the {cutting.tab_count} wanted"
        if self.bare:
            names = _names(self.bare)
            yield f"no room for a lead behind a tab, the torch pierces on the edge: {names}"


def _names(parts: Iterable[Neighbour]) -> str:
    """In the order of cuts."""
    return ", ".join(part.said for part in sorted(parts, key=lambda part: part.number))


def _of_them(what: str, said: str, count: int) -> str:
    """A part, or so many of its holes."""
    return f"{so_many(count, 'hole')} of {said}" if count > 1 and what else f"{what}{said}"
