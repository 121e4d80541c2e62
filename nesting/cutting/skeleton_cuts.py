"""The cuts through the grid that is left, which come last: clear of all that is cut before."""

from __future__ import annotations

from functools import lru_cache

from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.cutting.parting_cuts import parting_cuts
from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.offcuts.skeleton import kept_rings, skeleton_lines
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.geometry.outline import Line


@lru_cache(maxsize=128)
def skeleton_cuts(
    layout: Layout, cutting: Cutting, kept: tuple[Remnant, ...] = ()
) -> tuple[Line, ...]:
    """`skeleton_lines` of a layout with its leads. Raises: NestingError as `sheet_cuts` and
    `parting_cuts`."""
    if not cutting.skeleton_piece_mm:
        return ()
    cuts = [cut for part in sheet_cuts(layout, cutting).parts for cut in part.cuts]
    cuts += parting_cuts(layout, cutting, kept).cuts
    leads = [lead for cut in cuts for lead in (cut.lead_in, cut.lead_out) if lead]
    return skeleton_lines(layout, cutting, kept_rings(layout, kept), leads)
