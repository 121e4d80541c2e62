"""The cuts that part the pieces kept of a plate, each with its lead; they come after all parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from platewheel.nesting.cutting.cut_order import cuts as cuts_of
from platewheel.nesting.cutting.lead import lead_in
from platewheel.nesting.cutting.part_cuts import Cut, sheet_cuts
from platewheel.nesting.geometry.gaps import loop_gap, point_gap, segment_gap
from platewheel.nesting.geometry.ring import Ring, ring_length, spots, stretch
from platewheel.nesting.offcuts.parting import Parting, partings
from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.stock.cutting import LEAST_WEB_MM, Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.stock.pierce_clear import SLACK_MM, pierce_clear_mm
from platewheel.parts.geometry.outline import Line, Loop, Segment, polygon, segments

STRAIGHT = 0.9  # how far a lead's begin lies off its own piece, of its length
SHORTER = (1.0, 0.75, 0.5)  # of the lead wanted, where it finds no room


@dataclass(frozen=True)
class PartingCuts:
    """Cuts in their order, and what could not be had as wanted, in words."""

    cuts: tuple[Cut, ...]
    warnings: tuple[str, ...] = ()


@lru_cache(maxsize=128)
def parting_cuts(layout: Layout, cutting: Cutting, kept: tuple[Remnant, ...]) -> PartingCuts:
    """The parting cuts of a layout, the scrap on their left as on that of a part's outline.

    By `kerf_in_path` they are the torch path or the edge of what is kept. Those that begin at the
    plate's edge or in a cut before need no lead.
    Raises: NestingError where a piece would not come free.
    """
    cuts, told = [], []
    runs = partings(layout, kept, cutting.kerf_mm)
    for run in runs:
        path = _path(run, cutting)
        if not run.closed or not cutting.lead_in_mm:
            cuts.append(Cut("offcut", path, run.closed))
            continue
        laid = [one.lead_in for one in cuts if one.lead_in]
        cut = _led(run, path, cutting, _Room(layout, cutting, kept, run.piece, laid))
        if cut is None:
            x, y, _, _ = run.piece.bounds
            told.append(
                f"no room for a lead-in of {cutting.lead_in_mm:g} mm: "
                f"the cut round the offcut at ({x:g}, {y:g})"
            )
        cuts.append(cut or Cut("offcut", path))
    return PartingCuts(tuple(cuts), tuple(told))


def _path(run: Parting, cutting: Cutting) -> Ring:
    corners = run.middle if cutting.kerf_in_path else run.edge
    after = (*corners[1:], corners[0]) if run.closed else corners[1:]
    return tuple(Line(a, b) for a, b in zip(corners, after, strict=False))


class _Room:
    """What a lead to the cut round one piece keeps clear of."""

    def __init__(
        self,
        layout: Layout,
        cutting: Cutting,
        kept: Sequence[Remnant],
        own: Remnant,
        laid: Sequence[Segment],
    ) -> None:
        parts = sheet_cuts(layout, cutting).parts
        cuts = [cut for part in parts for cut in part.cuts]
        others = [piece for piece in kept if piece.layout == layout and piece is not own]
        rings = [layout.sheet.corners, *layout.sheet.holes]
        rings += [ring for piece in others for ring in (piece.corners, *piece.holes)]
        self.edges: list[Loop] = [polygon(ring) for ring in rings]
        self.parts: list[Loop] = [cut for part in parts for cut in cuts_of(part.placement)]
        self.own = [polygon(ring) for ring in (own.corners, *own.holes)]
        self.leads = [
            *laid,
            *(lead for cut in cuts for lead in (cut.lead_in, cut.lead_out) if lead),
        ]
        self.kerf, self.clear = cutting.kerf_mm, cutting.kerf_mm + LEAST_WEB_MM
        self.pierce = pierce_clear_mm(cutting, layout.sheet.thickness_mm) + SLACK_MM

    def free(self, lead: Segment, length_mm: float) -> bool:
        """Whether a lead of the length runs off its own piece and keeps clear of all else."""
        off = min(point_gap(lead.start, side) for ring in self.own for side in segments(ring))
        if off < STRAIGHT * length_mm:
            return False
        if any(segment_gap(lead, other) < self.clear for other in self.leads):
            return False
        loops = (*self.edges, *self.parts)
        if any(loop_gap((lead,), loop, self.clear) < self.clear for loop in loops):
            return False
        return self._pierces_clear(Line(lead.start, lead.start))

    def _pierces_clear(self, spot: Line) -> bool:
        """Whether a pierce keeps off the kerfs of parts, beside their edges, and of leads."""
        off = self.pierce + self.kerf / 2
        if any(segment_gap(spot, other) < off for other in self.leads):
            return False
        off = self.pierce + self.kerf
        return all(loop_gap((spot,), loop, off) >= off for loop in self.parts)


def _led(run: Parting, path: Ring, cutting: Cutting, room: _Room) -> Cut | None:
    """The closed cut begun where a lead finds room; None where none does."""
    for share in SHORTER:
        length = share * cutting.lead_in_mm
        for spot in spots(path):
            lead = lead_in(spot, length, cutting.lead_shape)
            if room.free(lead, length):
                begun = stretch(path, spot.along_mm, spot.along_mm + ring_length(path))
                return Cut("offcut", begun, run.closed, lead)
    return None
