"""Records of a nest: sheets to lay blanks on, placements, layouts. mm, degrees."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from platewheel.nesting.stock.stock import Offcut, Stock
from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Loop, Point, moved


class NestingError(ValueError):
    """A nest that could not be finished or does not stand its verification; says what and where."""


@dataclass(frozen=True)
class Sheet:
    """A kind of plate to lay blanks on; origin at its lower left corner, x along its length.

    An offcut has an `edge` and `holes` as polygons; `count` None means as many as needed.
    """

    name: str
    thickness_mm: float
    length_mm: float
    width_mm: float
    count: int | None
    price: float
    steel: str = "S235"
    edge: tuple[Point, ...] | None = None
    holes: tuple[tuple[Point, ...], ...] = ()
    setup_price: float = 0.0  # of laying one on the table
    kg_price: float = 0.0  # of its steel where `price` is not known

    @property
    def is_offcut(self) -> bool:
        return self.edge is not None

    @property
    def corners(self) -> tuple[Point, ...]:
        """The plate's edge, counter-clockwise for a plain sheet."""
        x, y = self.length_mm, self.width_mm
        return self.edge or ((0.0, 0.0), (x, 0.0), (x, y), (0.0, y))

    @property
    def area_mm2(self) -> float:
        """Plate area, holes taken off."""
        rings = [outline.area_mm2(outline.polygon(ring)) for ring in (self.corners, *self.holes)]
        return rings[0] - math.fsum(rings[1:])

    def counts_for(self, priced: bool) -> float:
        """What taking one counts for in a plan: steel (an offcut's is to hand) and setting up; or
        its area, where not all plates are `priced`."""
        if not priced:
            return 0.0 if self.is_offcut else self.area_mm2
        kg = self.area_mm2 * self.thickness_mm * DENSITY_KG_MM3
        steel = 0.0 if self.is_offcut else self.price or kg * self.kg_price
        return steel + self.setup_price


def all_priced(plates: Sequence[Sheet]) -> bool:
    """Whether the price of every plate that may be bought is known."""
    return all(p.price > 0 or p.kg_price > 0 for p in plates if not p.is_offcut)


@dataclass(frozen=True)
class Placement:
    """The blank's own origin turned by rotation_deg, then moved to x, y on the sheet.

    Its loops are moved once: file, report, pages and proof all ask for them.
    """

    blank: Blank
    x_mm: float
    y_mm: float
    rotation_deg: float

    def place(self, loop: Loop) -> Loop:
        """A loop of the blank where it lies on the sheet."""
        return moved(loop, self.x_mm, self.y_mm, self.rotation_deg)

    @cached_property
    def outline(self) -> Loop:
        return self.place(self.blank.outline)

    @cached_property
    def holes(self) -> tuple[Loop, ...]:
        return tuple(self.place(hole) for hole in self.blank.holes)


@dataclass(frozen=True)
class Layout:
    """One way to cut one plate, and how many plates are cut so.

    `shared`: pairs of placements, by their places, that lie one kerf apart and share the line
    between them; the first of the two is cut first.
    """

    sheet: Sheet
    placements: tuple[Placement, ...]
    repeat: int = 1
    shared: tuple[tuple[int, int], ...] = ()

    @property
    def counts(self) -> Counter[str]:
        """Blanks on one plate, by name."""
        return Counter(placement.blank.name for placement in self.placements)

    @property
    def parts_area_mm2(self) -> float:
        """Finished parts on one plate."""
        return math.fsum(placement.blank.area_mm2 for placement in self.placements)

    @property
    def scrap_percent(self) -> float:
        """Share of the plate that is not part, before any offcut is kept."""
        return 100 * (1 - self.parts_area_mm2 / self.sheet.area_mm2)


Report = Callable[[str], None]  # told what the search is at
Turns = Literal["any", "quarter", "half", "fixed"]


@dataclass(frozen=True)
class Wanted:
    """A blank and how many of it are to be cut.

    `turns` it may be laid at: any angle; by quarter or half turns; as drawn. Half turns keep the
    blank's x along the sheet's length, where the rolling direction runs.
    """

    blank: Blank
    count: int
    turns: Turns = "any"


@dataclass(frozen=True)
class Nest:
    """Result for all thicknesses; `unplaced` names what fits no stock, with counts left over."""

    layouts: tuple[Layout, ...]
    unplaced: tuple[Wanted, ...] = ()


def sheets_of(stock: Sequence[Stock], offcuts: Sequence[Offcut]) -> tuple[Sheet, ...]:
    """Stock tables as sheets; offcuts first, moved so that their lower left corner is 0, 0."""
    sheets = [_offcut_sheet(offcut) for offcut in offcuts]
    for size in stock:
        name = f"{size.width_mm:g} x {size.length_mm:g}"
        sheets.append(
            Sheet(
                name,
                size.thickness_mm,
                size.length_mm,
                size.width_mm,
                size.count,
                size.price,
                size.steel,
            )
        )
    return tuple(sheets)


def _offcut_sheet(offcut: Offcut) -> Sheet:
    xs, ys = [p[0] for p in offcut.outline], [p[1] for p in offcut.outline]
    x0, y0 = min(xs), min(ys)

    def shift(ring: list[list[float]]) -> tuple[Point, ...]:
        return tuple((x - x0, y - y0) for x, y in ring)

    return Sheet(
        offcut.name,
        offcut.thickness_mm,
        max(xs) - x0,
        max(ys) - y0,
        1,
        0.0,
        offcut.steel,
        shift(offcut.outline),
        tuple(shift(hole) for hole in offcut.holes),
    )
