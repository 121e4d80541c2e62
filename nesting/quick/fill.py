"""Filling one plate: each part goes to the first free spot from the left, pockets included.

Free spots are kept on a grid, one map for each part and turn; laying a part takes its no-fit
mask out of every map. The grid only decides where parts go: edges and gaps are exact, since
the grid of each part starts where its own edge meets the margin.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from platewheel.nesting.quick.no_fit import Mask, NoFit, Variant, take_out
from platewheel.nesting.stock.layout import Placement, Sheet
from platewheel.parts.geometry.blank import Blank

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


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
        take_out(self.free[rows:], mask, i - rows, j)


class Plate:
    """One plate being filled; `placements` grow, free maps shrink."""

    def __init__(self, sheet: Sheet, blanks: Iterable[Blank], margin_mm: float, fits: NoFit):
        self.sheet, self.margin_mm, self.fits = sheet, margin_mm, fits
        self.placements: list[Placement] = []
        self._free: list[Spots] = []
        for blank in blanks:
            for variant in fits.variants_of(blank):
                free = fits.start_map(sheet, variant, margin_mm)
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
