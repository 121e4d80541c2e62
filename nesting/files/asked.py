"""What a plate's cutting file is proved against: its layout, the cutting table, and the report."""

from __future__ import annotations

import re
from collections.abc import Sequence

from platewheel.nesting.cutting.cut_time import plate_work
from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.offcuts.remnant import Remnant, clear_distance_mm
from platewheel.nesting.proof.asked import Asked, AskedPart, Kept, Told
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.stock.pierce_clear import pierce_clear_mm


def asked_of(layout: Layout, cutting: Cutting, kept: Sequence[Remnant] = ()) -> Asked:
    """Plain values for `prove_cuts`. What the user is told is read from the warnings themselves,
    so that a fault about which the writer keeps silent is one.

    Raises: NestingError, as `sheet_cuts`.
    """
    done = sheet_cuts(layout, cutting)
    work = plate_work(layout, cutting, (), kept)
    parts = [(part.number, part.placement) for part in done.parts]
    numbers = {placement: n for n, placement in parts}
    named = {n: (f"{p.blank.name} {n} at ({p.x_mm:g}, {p.y_mm:g})", p.blank.name) for n, p in parts}

    def told(*words: str, by_name: bool = False) -> frozenset[int]:
        lines = [line for line in done.warnings if any(word in line for word in words)]
        return frozenset(
            n for n, names in named.items() if any(_names(line, names[by_name]) for line in lines)
        )

    words = " ".join(done.warnings)
    holes = frozenset(
        n
        for n, (said, _) in named.items()
        if f"a hole of {said}" in words or f" holes of {said}" in words
    )
    thick = layout.sheet.thickness_mm
    mine = [piece for piece in kept if piece.layout == layout]
    return Asked(
        plate=layout.sheet.corners,
        parts=tuple(AskedPart(n, p.blank.name, p.outline, p.holes) for n, p in parts),
        pierces=work.pierces,
        cut_length_mm=work.cut_length_mm,
        kerf_mm=cutting.kerf_mm,
        kerf_in_path=cutting.kerf_in_path,
        lead_in_mm=cutting.lead_in_mm,
        pierce_clear_mm=pierce_clear_mm(cutting, thick),
        tab_count=cutting.tab_count,
        tab_width_mm=cutting.tab_width_mm,
        plate_holes=layout.sheet.holes,
        kept=tuple(Kept(piece.corners, piece.holes) for piece in mine),
        keep_reach_mm=clear_distance_mm(cutting, thick) + cutting.kerf_mm + 1.0,
        told=Told(
            no_lead=told("no room for a lead behind a tab")
            | holes,  # an outline always has its own
            near_pierce=told("pierced in its middle", "pierced in their middle", by_name=True),
            fewer_tabs=told("room for 1 tab of", " tabs of the", by_name=True),
        ),
        shared=tuple(
            (numbers[layout.placements[a]], numbers[layout.placements[b]]) for a, b in layout.shared
        ),
    )


def _names(line: str, name: str) -> bool:
    """Whether a line has the whole name, not as a part of a longer one."""
    return re.search(rf"(?<![\w.-]){re.escape(name)}(?![\w.-])", line) is not None
