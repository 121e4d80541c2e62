"""Turns at which a blank is tried, and the places of one blank beside another that clash.

Masks of a grid, worked out once for each pair of blanks and turns, kept for every plate of a job.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

from platewheel.nesting.geometry.facets import convex_pieces, laid_polygon, sector_of
from platewheel.nesting.quick.no_fit_polygon import (
    Pieces,
    mask_of,
    no_fit_polygon,
    turned_pieces,
    widened,
)
from platewheel.nesting.quick.scrap import Scrap, scraps_of
from platewheel.nesting.quick.walked_sum import mask_within, walk_of, walked_sum
from platewheel.nesting.stock.layout import Sheet, Turns
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Point

if TYPE_CHECKING:
    from numpy.typing import NDArray

Mask = tuple["NDArray[np.bool_]", tuple[int, int]]
Packed = tuple["NDArray[np.uint8]", int, tuple[int, int]]  # bits of rows, columns, corner
Edge = tuple[tuple[Point, ...], tuple[tuple[Point, ...], ...], float]  # rim, holes, margin
SECTOR_TURNS = tuple(range(0, 360, 30))
FEW = 8  # pairs of convex pieces whose sums are united; of more, the sum is walked round
FEW_ROUND = 300  # the same of discs and sectors, whose pieces are no triangles
PLAIN_BYTES = 256_000_000  # of masks kept as they are; those that come after are kept packed
START_BYTES = 256_000_000  # of packed maps of empty offcuts; those that come after are made anew


@dataclass(frozen=True)
class Variant:
    """A blank at one turn, by its name; `low` and `high` are its turned bounds."""

    blank: Blank
    rotation_deg: int
    low: Point
    high: Point

    @property
    def key(self) -> tuple[str, int]:
        return self.blank.name, self.rotation_deg


def variants(blank: Blank, allowed: Turns = "any", *, few: bool = False) -> tuple[Variant, ...]:
    """The turns a blank is tried at: any for round parts is one, sectors every 30 degrees,
    others by quarter turns; a rectangle needs two. `few`: no more than along and across."""
    if isinstance(blank.outline, Circle) and not (blank.holes and allowed != "any"):
        turns: tuple[int, ...] = (0,)
    elif allowed == "fixed":
        turns = (0,)
    elif allowed == "half":
        turns = (0, 180)
    elif allowed == "quarter":
        turns = (0, 90, 180, 270)
    elif blank.many_turns and sector_of(blank.outline):
        turns = SECTOR_TURNS
    elif (
        not isinstance(blank.outline, Circle)
        and len(blank.outline) == 4
        and not any(s.bulge for s in blank.outline)
    ):
        turns = (0, 90)
    else:
        turns = (0, 90, 180, 270)
    if few and len(turns) > 2:
        turns = (0, 90)
    result = []
    for turn in turns:
        x0, y0, x1, y1 = outline.bounds(outline.moved(blank.outline, 0, 0, turn))
        result.append(Variant(blank, turn, (x0, y0), (x1, y1)))
    return tuple(result)


@dataclass
class NoFit:
    """No-fit masks between variants, worked out once and kept for every plate of a job."""

    spacing_mm: float
    step_mm: float
    turns: Mapping[str, Turns] = field(default_factory=dict)
    few_turns: bool = False
    _pieces: dict[str, Pieces] = field(default_factory=dict)
    _rings: dict[tuple[str, bool], NDArray[np.float64] | None] = field(default_factory=dict)
    _regions: dict[tuple[str, str, int], Any] = field(default_factory=dict)
    _masks: dict[tuple[tuple[str, int], tuple[str, int]], Mask] = field(default_factory=dict)
    _packed: dict[tuple[tuple[str, int], tuple[str, int]], Packed] = field(default_factory=dict)
    _bytes: int = 0
    _variants: dict[str, tuple[Variant, ...]] = field(default_factory=dict)
    _round: dict[str, bool] = field(default_factory=dict)
    _scraps: dict[Edge, tuple[Scrap, ...]] = field(default_factory=dict)
    _starts: dict[tuple[Edge, tuple[str, int]], NDArray[np.uint8]] = field(default_factory=dict)
    _start_bytes: int = 0

    def variants_of(self, blank: Blank) -> tuple[Variant, ...]:
        """The turns a blank is tried at in this job."""
        if blank.name not in self._variants:
            turns = self.turns.get(blank.name, "any")
            self._variants[blank.name] = variants(blank, turns, few=self.few_turns)
        return self._variants[blank.name]

    def start_map(
        self, sheet: Sheet, variant: Variant, margin_mm: float
    ) -> NDArray[np.bool_] | None:
        """Free spots of a variant on an empty plate, for the caller to take from; None where the
        plate is too small."""
        room_x = sheet.length_mm - 2 * margin_mm - (variant.high[0] - variant.low[0])
        room_y = sheet.width_mm - 2 * margin_mm - (variant.high[1] - variant.low[1])
        if room_x < -1e-9 or room_y < -1e-9:
            return None
        step = self.step_mm
        shape = (int(room_x / step + 1e-6) + 1, int(room_y / step + 1e-6) + 1)
        edge = (sheet.corners, sheet.holes, margin_mm)
        if edge not in self._scraps:
            self._scraps[edge] = scraps_of(sheet, margin_mm)
        key = (edge, variant.key)
        if key in self._starts:
            return np.unpackbits(self._starts[key], axis=1, count=shape[1]).view(np.bool_)
        free = np.ones(shape, dtype=np.bool_)
        if not self._scraps[edge]:
            return free
        blank, turn = variant.blank, variant.rotation_deg
        pieces, ring = turned_pieces(self._pieces_of(blank), turn), self._ring(blank, wide=False)
        ring = None if ring is None else _turned(ring, turn)
        first = (margin_mm - variant.low[0], margin_mm - variant.low[1])
        for scrap in self._scraps[edge]:
            for mask in scrap.masks(pieces, ring, first, step):
                take_out(free, mask, 0, 0)
        packed = np.packbits(free, axis=1)
        if self._start_bytes + packed.nbytes <= START_BYTES:
            self._start_bytes += packed.nbytes
            self._starts[key] = packed
        return free

    def mask(self, fixed: Variant, moving: Variant) -> Mask:
        """Grid offsets of `moving` from `fixed`, corner to corner of their bounds, that clash."""
        key = (fixed.key, moving.key)
        if key in self._masks:
            return self._masks[key]
        if key in self._packed:
            bits, columns, low = self._packed[key]
            return np.unpackbits(bits, axis=1, count=columns).view(np.bool_), low
        cells, low = found = self._mask(fixed, moving)
        if self._bytes + cells.nbytes <= PLAIN_BYTES:
            self._bytes += cells.nbytes
            self._masks[key] = found
        else:
            self._packed[key] = (np.packbits(cells, axis=1), cells.shape[1], low)
        return found

    def _mask(self, fixed: Variant, moving: Variant) -> Mask:
        from shapely import affinity

        first = (fixed.low[0] - moving.low[0], fixed.low[1] - moving.low[1])
        wide, other = self._walked(fixed.blank, moving.blank)
        if wide is not None and other is not None:
            walks = (
                walk_of(_turned(wide, fixed.rotation_deg)),
                walk_of(_turned(other, moving.rotation_deg + 180)),
            )
            return mask_within(walked_sum(*walks), first, self.step_mm)
        region = self._region(fixed.blank, moving.blank, moving.rotation_deg - fixed.rotation_deg)
        turn = fixed.rotation_deg
        region = affinity.rotate(region, turn, origin=(0, 0)) if turn else region
        return mask_of(region, first, self.step_mm)

    def _walked(self, fixed: Blank, moving: Blank) -> tuple[Any, Any]:
        """Corners of the widened and of the moving part, where both have one ring of them and so
        many pieces that to unite their sums would take long; None otherwise."""
        round_ones = self._is_round(fixed) or self._is_round(moving)
        sums = len(self._pieces_of(fixed)) * len(self._pieces_of(moving))
        if sums <= (FEW_ROUND if round_ones else FEW):
            return None, None
        return self._ring(fixed, wide=True), self._ring(moving, wide=False)

    def _is_round(self, blank: Blank) -> bool:
        """Whether it is a disc or an annular sector."""
        if blank.name not in self._round:
            edge = blank.outline
            self._round[blank.name] = isinstance(edge, Circle) or sector_of(edge) is not None
        return self._round[blank.name]

    def _ring(self, blank: Blank, *, wide: bool) -> NDArray[np.float64] | None:
        import shapely

        key = (blank.name, wide)
        if key not in self._rings:
            shape = shapely.Polygon(laid_polygon(blank.outline))
            if wide and shape.is_valid:
                shape = widened(self._pieces_of(blank), self.spacing_mm)
            whole = shape.is_valid and shape.geom_type == "Polygon" and not shape.interiors
            self._rings[key] = shapely.get_coordinates(shape)[:-1] if whole else None
        return self._rings[key]

    def _region(self, fixed: Blank, moving: Blank, turn: int) -> Any:
        from shapely import affinity

        key = (fixed.name, moving.name, turn % 360)
        mutual = (moving.name, fixed.name, -turn % 360)
        if mutual in self._regions and key not in self._regions:  # the same, seen from the other
            other = self._regions[mutual]
            self._regions[key] = affinity.rotate(other, 180 + turn, origin=(0, 0))
        if key not in self._regions:
            pieces = turned_pieces(self._pieces_of(moving), turn % 360)
            self._regions[key] = no_fit_polygon(self._pieces_of(fixed), pieces, self.spacing_mm)
        return self._regions[key]

    def _pieces_of(self, blank: Blank) -> Pieces:
        if blank.name not in self._pieces:
            self._pieces[blank.name] = convex_pieces(blank.outline)
        return self._pieces[blank.name]


def take_out(free: NDArray[np.bool_], mask: Mask, i: int, j: int) -> None:
    """Clear the mask's true cells from a free map, the mask's zero at cell i, j."""
    cells, (low_i, low_j) = mask
    i0, j0 = i + low_i, j + low_j
    a0, b0 = max(0, i0), max(0, j0)
    a1 = min(free.shape[0], i0 + cells.shape[0])
    b1 = min(free.shape[1], j0 + cells.shape[1])
    if a1 > a0 and b1 > b0:
        part = free[a0:a1, b0:b1]
        np.greater(part, cells[a0 - i0 : a1 - i0, b0 - j0 : b1 - j0], out=part)  # and not


def _turned(corners: NDArray[np.float64], degrees: float) -> NDArray[np.float64]:
    turn = math.radians(degrees)
    c, s = math.cos(turn), math.sin(turn)
    result: NDArray[np.float64] = corners @ np.array([[c, s], [-s, c]])
    return result
