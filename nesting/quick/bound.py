"""A number of plates that no nest can beat, and what it proves about the one found."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from platewheel.nesting.geometry.facets import sector_of
from platewheel.nesting.stock.layout import Layout, Sheet
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.blank import Blank


@dataclass(frozen=True)
class Bound:
    """Least plates of one thickness, by area, beside the plates bought."""

    thickness_mm: float
    used: int
    least: int

    @property
    def proved(self) -> bool:
        """Whether the nest is shown to use the least number of plates."""
        return self.used == self.least


def plate_bounds(
    layouts: Sequence[Layout], stock: Sequence[Sheet], cutting: Cutting
) -> tuple[Bound, ...]:
    """Bounds for each thickness whose bought plates are all of one size.

    Parts widened by half the spacing do not overlap, and lie on the plate less its margins plus
    half a spacing all round: their areas cannot add up to more than the plates'. A hole in which
    another part may lie counts as free. Offcuts are taken as filled to the last corner. Where lines
    may be shared, parts may all lie as near as a kerf.
    """
    result = []
    spacing = cutting.kerf_mm if cutting.common_lines else cutting.part_spacing_mm
    margin = cutting.sheet_margin_mm
    for thickness in sorted({layout.sheet.thickness_mm for layout in layouts}):
        sheets = [s for s in stock if s.thickness_mm == thickness]
        sizes = {(s.length_mm, s.width_mm) for s in sheets if not s.is_offcut}
        here = [layout for layout in layouts if layout.sheet.thickness_mm == thickness]
        used = sum(layout.repeat for layout in here if not layout.sheet.is_offcut)
        if len(sizes) != 1 or not used or margin < spacing / 2:
            continue
        length, width = sizes.pop()
        room = (length - 2 * margin + spacing) * (width - 2 * margin + spacing)
        blanks = {p.blank.name: p.blank for lay in here for p in lay.placements}
        each = {
            name: widened_mm2(blank, spacing) - _lent_mm2(blank, blanks.values())
            for name, blank in blanks.items()
        }
        parts = math.fsum(each[p.blank.name] * lay.repeat for lay in here for p in lay.placements)
        parts -= math.fsum(s.area_mm2 for s in sheets if s.is_offcut)
        result.append(Bound(thickness, used, max(1, math.ceil(parts / room - 1e-9))))
    return tuple(result)


def _lent_mm2(blank: Blank, others: Iterable[Blank]) -> float:
    """Holes that by their area may hold another part."""
    least = min((outline.area_mm2(o.outline) for o in others if o is not blank), default=math.inf)
    return math.fsum(area for hole in blank.holes if (area := outline.area_mm2(hole)) > least)


def widened_mm2(blank: Blank, spacing_mm: float) -> float:
    """At most the area of an outline widened by half the spacing.

    Area + length x spacing / 2, from Steiner's formula with its corners left out; for an annular
    sector the two arcs give just that too. Ends that face each other over a mouth narrower than
    the spacing widen into each other: they are left out.
    """
    area, round_it = outline.area_mm2(blank.outline), outline.length_mm(blank.outline)
    sector = sector_of(blank.outline)
    if sector is not None:
        inner, outer, _, sweep, _ = sector
        if 2 * inner * math.sin(math.radians(360 - sweep) / 2) < spacing_mm or sweep > 300:
            round_it -= 2 * (outer - inner)
    return area + round_it * spacing_mm / 2
