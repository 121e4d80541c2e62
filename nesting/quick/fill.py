"""Filling one plate: each part goes to the first free spot from the left, pockets included.

Free spots are kept on a grid, one map for each part and turn; laying a part takes its no-fit
mask out of every map. The grid only decides where parts go: edges and gaps are exact, since
the grid of each part starts where its own edge meets the margin.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
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
from platewheel.nesting.quick.walked_sum import mask_within, walk_of, walked_sum
from platewheel.nesting.stock.layout import Placement, Sheet, Turns
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Point

if TYPE_CHECKING:
    from numpy.typing import NDArray

Mask = tuple["NDArray[np.bool_]", tuple[int, int]]
Packed = tuple["NDArray[np.uint8]", int, tuple[int, int]]  # bits of rows, columns, corner
SECTOR_TURNS = tuple(range(0, 360, 30))
FEW = 300  # pairs of convex pieces whose sums are united; of more, the sum is walked round
PLAIN_BYTES = 256_000_000  # of masks kept as they are; those that come after are kept packed


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
        if len(self._pieces_of(fixed)) * len(self._pieces_of(moving)) <= FEW:
            return None, None
        return self._ring(fixed, wide=True), self._ring(moving, wide=False)

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


def _turned(corners: NDArray[np.float64], degrees: float) -> NDArray[np.float64]:
    turn = math.radians(degrees)
    c, s = math.cos(turn), math.sin(turn)
    result: NDArray[np.float64] = corners @ np.array([[c, s], [-s, c]])
    return result


@dataclass
class Spots:
    """Free spots of a variant on a plate, which parts only take away: none lies before `first`
    (row by row), so nothing there is looked at again."""

    variant: Variant
    free: NDArray[np.bool_]
    first: int = 0

    def copy(self) -> Spots:
        """The same, to be taken from in another way."""
        return Spots(self.variant, self.free.copy(), self.first)

    def foremost(self) -> tuple[int, int] | None:
        """The first free spot; None where there is none."""
        rest = self.free.reshape(-1)[self.first :]
        ahead = int(rest.argmax()) if rest.size else 0
        if not rest.size or not rest[ahead]:
            self.first = self.free.size
            return None
        self.first += ahead
        row, column = divmod(self.first, self.free.shape[1])
        return row, column

    def take_out(self, mask: Mask, i: int, j: int) -> None:
        """Clear the mask's true cells, the mask's zero at cell i, j."""
        rows = self.first // max(1, self.free.shape[1])
        _take_out(self.free[rows:], mask, i - rows, j)


class Plate:
    """One plate being filled; `placements` grow, free maps shrink."""

    def __init__(self, sheet: Sheet, blanks: Iterable[Blank], margin_mm: float, fits: NoFit):
        self.sheet, self.margin_mm, self.fits = sheet, margin_mm, fits
        self.placements: list[Placement] = []
        self._free: list[Spots] = []
        for blank in blanks:
            allowed = fits.turns.get(blank.name, "any")
            for variant in variants(blank, allowed, few=fits.few_turns):
                free = self._start_map(variant)
                if free is not None:
                    self._free.append(Spots(variant, free))

    def copy(self) -> Plate:
        """The same plate, to be filled on in another way."""
        twin = Plate(self.sheet, (), self.margin_mm, self.fits)
        twin.placements = list(self.placements)
        twin._free = [spots.copy() for spots in self._free]
        return twin

    def lay(self, blank: Blank) -> bool:
        """Lay one blank at the free spot that reaches least far along the plate; False if none."""
        step = self.fits.step_mm
        best: tuple[float, float, int] | None = None
        chosen: tuple[Variant, int, int] | None = None
        for spots in self._free:
            variant = spots.variant
            if variant.blank.name != blank.name:
                continue
            spot = spots.foremost()
            if spot is None:
                continue
            i, j = spot
            reach = i * step + variant.high[0] - variant.low[0]
            rank = (round(reach, 6), j * step, variant.rotation_deg)
            if best is None or rank < best:
                best, chosen = rank, (variant, i, j)
        if chosen is None:
            return False
        self._put(*chosen)
        return True

    def lay_all(self, placements: Sequence[Placement]) -> None:
        """Take a whole layout made elsewhere; nothing more is laid on this plate."""
        self.placements, self._free = list(placements), []

    def done(self) -> Plate:
        """The plate without its maps, which are large: nothing more is laid on it."""
        self._free = []
        return self

    def put(self, placement: Placement) -> None:
        """Lay a blank where another plate of the same sheet had it."""
        step = self.fits.step_mm
        for variant in (spots.variant for spots in self._free):
            if variant.key == (placement.blank.name, int(placement.rotation_deg)):
                i = round((placement.x_mm - self.margin_mm + variant.low[0]) / step)
                j = round((placement.y_mm - self.margin_mm + variant.low[1]) / step)
                self._put(variant, i, j)
                return

    def _put(self, variant: Variant, i: int, j: int) -> None:
        x = self.margin_mm + i * self.fits.step_mm - variant.low[0]
        y = self.margin_mm + j * self.fits.step_mm - variant.low[1]
        self.placements.append(
            Placement(variant.blank, round(x, 6), round(y, 6), float(variant.rotation_deg))
        )
        for spots in self._free:
            spots.take_out(self.fits.mask(variant, spots.variant), i, j)

    def _start_map(self, variant: Variant) -> NDArray[np.bool_] | None:
        room_x = self.sheet.length_mm - 2 * self.margin_mm - (variant.high[0] - variant.low[0])
        room_y = self.sheet.width_mm - 2 * self.margin_mm - (variant.high[1] - variant.low[1])
        if room_x < -1e-9 or room_y < -1e-9:
            return None
        step = self.fits.step_mm
        shape = (int(room_x / step + 1e-6) + 1, int(room_y / step + 1e-6) + 1)
        free = np.ones(shape, dtype=np.bool_)
        for region in self._barred(variant):
            first = (self.margin_mm - variant.low[0], self.margin_mm - variant.low[1])
            _take_out(free, mask_of(region, first, step), 0, 0)
        return free

    def _barred(self, variant: Variant) -> list[Any]:
        """Positions at which the variant would come too near the edge or a hole of an offcut."""
        import shapely

        if not self.sheet.is_offcut:
            return []
        plate = shapely.Polygon(self.sheet.corners, self.sheet.holes)
        around = shapely.box(*plate.bounds).difference(plate)
        moving = turned_pieces(convex_pieces(variant.blank.outline), variant.rotation_deg)
        regions = []
        for part in shapely.get_parts(around):
            pieces = [
                list(triangle.exterior.coords)[:-1]
                for triangle in shapely.constrained_delaunay_triangles(part).geoms
            ]
            regions.append(no_fit_polygon(pieces, moving, self.margin_mm))
        return regions


def _take_out(free: NDArray[np.bool_], mask: Mask, i: int, j: int) -> None:
    """Clear the mask's true cells from a free map, the mask's zero at cell i, j."""
    cells, (low_i, low_j) = mask
    i0, j0 = i + low_i, j + low_j
    a0, b0 = max(0, i0), max(0, j0)
    a1 = min(free.shape[0], i0 + cells.shape[0])
    b1 = min(free.shape[1], j0 + cells.shape[1])
    if a1 > a0 and b1 > b0:
        free[a0:a1, b0:b1] &= ~cells[a0 - i0 : a1 - i0, b0 - j0 : b1 - j0]
