"""The straight cuts that part rows, columns and rests of a plate, in the order to make them. mm.

All lines are measured from the plate's own left and lower edge, so that they are scribed before
the first cut and no error adds up. A cut beside strips is their finished edge.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from platewheel.nesting.by_hand.cell import is_square
from platewheel.nesting.geometry.gaps import segment_gap
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, NestingError, Placement, Sheet
from platewheel.parts.geometry.outline import Line, bounds, segments

Box = tuple[float, float, float, float]
Side = Literal["on it", "beyond it", "before it"]
SAME_MM = 1e-3
SLIT_MM = 0.5  # strips no further apart than a kerf and this are a block
MOST_SLIVER_MM = 0.5  # beside a finished edge: ground off, not cut


@dataclass(frozen=True)
class StraightCut:
    """One cut: at `line_mm` from the plate's left edge (`axis` 0) or lower edge (1), from
    `start_mm` to `end_mm` along the other. The kerf lies on the line, beyond or before it."""

    number: int
    axis: int
    line_mm: float
    middle_mm: float
    start_mm: float
    end_mm: float
    kerf: Side
    whole: bool  # through the whole plate

    @property
    def line(self) -> Line:
        """The middle of the kerf."""
        ends = ((self.middle_mm, self.start_mm), (self.middle_mm, self.end_mm))
        first, last = ends if self.axis == 0 else ((e[::-1]) for e in ends)
        return Line((first[0], first[1]), (last[0], last[1]))


@dataclass(frozen=True)
class Piece:
    """An upright piece that the cuts free, with the blanks that lie in it."""

    box: Box
    placements: tuple[Placement, ...]


@dataclass(frozen=True)
class Parted:
    """A plate's straight cuts, the pieces that they leave, and the lines that were finished."""

    cuts: tuple[StraightCut, ...]
    pieces: tuple[Piece, ...]

    @property
    def rests(self) -> tuple[Box, ...]:
        """Pieces without a blank."""
        return tuple(piece.box for piece in self.pieces if not piece.placements)


@dataclass(frozen=True)
class _Mark:
    """A cut across one piece, before it has a number."""

    line_mm: float
    middle_mm: float
    kerf: Side


@lru_cache(maxsize=128)
def parted(layout: Layout, cutting: Cutting) -> Parted:
    """Every straight cut that parts blanks, finishes strips or frees a rest worth keeping."""
    sheet = layout.sheet
    whole: Box = (0.0, 0.0, sheet.length_mm, sheet.width_mm)
    cuts: list[StraightCut] = []
    pieces: list[Piece] = []
    rules = _Rules(cutting.kerf_mm, cutting.spacing_in(sheet.thickness_mm), cutting.least_offcut_mm)
    _part(Piece(whole, layout.placements), rules, whole, cuts, pieces)
    return Parted(tuple(cuts), tuple(pieces))


@dataclass(frozen=True)
class _Rules:
    kerf_mm: float
    spacing_mm: float
    least_mm: float


def _part(
    piece: Piece, rules: _Rules, plate: Box, cuts: list[StraightCut], pieces: list[Piece]
) -> None:
    """Cuts of one piece, then of each that they leave, in turn."""
    axis, marks = _marks(piece, rules)
    if not marks:
        pieces.append(piece)
        return
    box, other = piece.box, 1 - axis
    start, end = box[other], box[other + 2]
    full = abs(start - plate[other]) < SAME_MM and abs(end - plate[other + 2]) < SAME_MM
    for mark in marks:
        number = len(cuts) + 1
        cuts.append(
            StraightCut(number, axis, mark.line_mm, mark.middle_mm, start, end, mark.kerf, full)
        )
    half = rules.kerf_mm / 2
    sides = [box[axis], *(at for m in marks for at in (m.middle_mm - half, m.middle_mm + half))]
    sides.append(box[axis + 2])
    for low, high in zip(sides[::2], sides[1::2], strict=True):
        if high - low < SAME_MM:
            continue
        own = tuple(p for p in piece.placements if low - 1 < _middle(p, axis) < high + 1)
        inner = [*box]
        inner[axis], inner[axis + 2] = low, high
        _part(Piece((inner[0], inner[1], inner[2], inner[3]), own), rules, plate, cuts, pieces)


def _middle(placement: Placement, axis: int) -> float:
    box = bounds(placement.outline)
    return (box[axis] + box[axis + 2]) / 2


def _marks(piece: Piece, rules: _Rules) -> tuple[int, list[_Mark]]:
    """The cuts across a piece, all one way: those that part blanks, the shorter first; then those
    that finish a block of strips at its ends; then those between its strips."""
    if not piece.placements:
        return 0, []
    box = piece.box
    first = 0 if box[3] - box[1] <= box[2] - box[0] + SAME_MM else 1
    for gap_mm in (rules.kerf_mm + SLIT_MM, 0.0):
        ways = [(axis, *_across(piece, axis, rules, gap_mm)) for axis in (first, 1 - first)]
        for parts in (True, False):
            for axis, groups, marks in ways:
                if marks and (groups > 1) == parts:
                    return axis, marks
    return 0, []


def _across(piece: Piece, axis: int, rules: _Rules, gap_mm: float) -> tuple[int, list[_Mark]]:
    """Number of groups that cuts at right angles to an axis part, and the cuts; blanks that lie
    no further apart than a gap are one group."""
    boxes = [(bounds(p.outline), is_square(p.outline)) for p in piece.placements]
    boxes.sort(key=lambda one: (one[0][axis], one[0][axis + 2]))
    groups: list[list[tuple[Box, bool]]] = []
    reach = -math.inf
    for one in boxes:
        low, high = one[0][axis], one[0][axis + 2]
        if low > reach + max(gap_mm, SAME_MM):
            groups.append([])
        groups[-1].append(one)
        reach = max(reach, high)
    marks = list(_between(groups, piece.box, axis, rules))
    return len(groups), marks


def _between(
    groups: Sequence[Sequence[tuple[Box, bool]]], box: Box, axis: int, rules: _Rules
) -> Iterator[_Mark]:
    half = rules.kerf_mm / 2
    last = len(groups) - 1
    done = box[axis]  # to where the plate is cut
    for i, group in enumerate(groups):
        low = min(one[axis] for one, _ in group)
        high = max(one[axis + 2] for one, _ in group)
        square_low = all(square for one, square in group if one[axis] < low + SAME_MM)
        square_high = all(square for one, square in group if one[axis + 2] > high - SAME_MM)
        if square_low and low - done > MOST_SLIVER_MM:
            yield _Mark(low, low - half, "before it")
        done = high
        if i < last:
            after = groups[i + 1]
            nearest = min(one[axis] for one, _ in after)
            square_next = all(square for one, square in after if one[axis] < nearest + SAME_MM)
            if square_high:
                yield _Mark(high, high + half, "beyond it")
                done = high + 2 * half
            elif not square_next:
                middle = _whole_mm(high, min(rules.spacing_mm, nearest - high), half)
                yield _Mark(middle, middle, "on it")
                done = nearest
        elif square_high and box[axis + 2] - high > MOST_SLIVER_MM:
            yield _Mark(high, high + half, "beyond it")
        elif not square_high:
            middle = _whole_mm(high, rules.spacing_mm, half)
            if _worth_keeping(middle, box, axis, rules):
                yield _Mark(middle, middle, "on it")


def _whole_mm(edge_mm: float, gap_mm: float, half_mm: float) -> float:
    """The middle of a gap, on the whole millimetre beside it where there is room for that."""
    middle = edge_mm + gap_mm / 2
    return float(round(middle)) if gap_mm / 2 - 0.5 >= half_mm else middle


def _worth_keeping(at_mm: float, box: Box, axis: int, rules: _Rules) -> bool:
    """Whether what lies beyond a cut is as large as a piece that is kept."""
    other = 1 - axis
    beyond = box[axis + 2] - at_mm - rules.kerf_mm / 2
    return min(beyond, box[other + 2] - box[other]) >= rules.least_mm


def in_steel(cut: StraightCut, sheet: Sheet) -> tuple[Line, ...]:
    """The stretches of a cut that run through steel: an offcut may have holes and hollows."""
    if not sheet.is_offcut:
        return (cut.line,)
    import shapely

    steel = shapely.Polygon(sheet.corners, sheet.holes)
    there = steel.intersection(shapely.LineString([cut.line.start, cut.line.end]))
    lines = [one for one in shapely.get_parts(there) if one.geom_type == "LineString"]
    ends = [[(float(x), float(y)) for x, y in one.coords] for one in lines]
    return tuple(Line(one[0], one[-1]) for one in ends)


def require_clear(layout: Layout, cutting: Cutting) -> None:
    """The last word on straight cuts, by other means than made them: no kerf enters a blank.

    Raises: NestingError naming each cut that does.
    """
    half = cutting.kerf_mm / 2
    wrong = []
    for cut in parted(layout, cutting).cuts:
        for placement in layout.placements:
            edges = segments(placement.outline)
            if min(segment_gap(edge, cut.line) for edge in edges) < half - SAME_MM:
                wrong.append(f"straight cut {cut.number} runs into {placement.blank.name}")
    if wrong:
        raise NestingError(f"{layout.sheet.name}: " + "; ".join(wrong))
