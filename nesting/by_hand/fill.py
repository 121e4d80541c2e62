"""One plate filled in columns (or rows) of boxes that straight cuts part. mm.

Two stages and a trim: columns across the whole plate, boxes in a column, narrow ones side by side.
Source: Gilmore and Gomory, Multistage cutting stock problems of two and more dimensions, 1965;
each column is the best by area, chosen one after the other.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from platewheel.nesting.by_hand.cell import Cell
from platewheel.nesting.by_hand.usable import usable
from platewheel.nesting.stock.layout import Layout, Placement, Sheet

HAIR_MM = 1e-6
MOST_WIDTHS = 4  # of columns looked at closely, those that a greedy column fills best
MOST_BOXES = 30  # tried in a column, those with most area for their height
COARSE_MM = 4.0  # what heights in a column are told apart by


@dataclass(frozen=True)
class _Box:
    """A cell, or like ones side by side in a column, as seen with columns along x."""

    cell: Cell
    beside: int
    wide: float
    high: float

    @property
    def count(self) -> int:
        return self.beside * self.cell.count

    @property
    def area(self) -> float:
        return self.count * self.cell.blank.area_mm2


def fill(
    sheet: Sheet,
    cells: Sequence[Cell],
    left: Mapping[str, int],
    spacing_mm: float,
    margin_mm: float,
    *,
    columns: bool,
) -> Layout | None:
    """The plate with as much of what is `left` as goes on it, by name; None where nothing does.

    With `columns` the first cuts run across the plate, parallel to its y; else along its x.
    """
    room = usable(sheet, margin_mm)
    if room is None:
        return None
    x0, y0, x1, y1 = room if columns else (room[1], room[0], room[3], room[2])
    rest = Counter(left)
    placements: list[Placement] = []
    shared: list[tuple[int, int]] = []
    while x1 - x0 > HAIR_MM:
        best = _best_column(cells, rest, (x1 - x0, y1 - y0), spacing_mm, columns)
        if not best:
            break
        y = y0
        for box in best:
            for k in range(box.beside):
                x = x0 + k * (_size(box.cell, columns)[0] + spacing_mm)
                first = len(placements)
                placements += box.cell.placements(*((x, y) if columns else (y, x)))
                if box.cell.shared:
                    shared += [(i, i + 1) for i in range(first, len(placements) - 1)]
            rest[box.cell.blank.name] -= box.count
            y += box.high + spacing_mm
        x0 += max(box.wide for box in best) + spacing_mm
    return Layout(sheet, tuple(placements), 1, tuple(shared)) if placements else None


def _size(cell: Cell, columns: bool) -> tuple[float, float]:
    size = (cell.width_mm, cell.height_mm)
    return size if columns else size[::-1]


def _best_column(
    cells: Sequence[Cell],
    rest: Mapping[str, int],
    room: tuple[float, float],
    spacing_mm: float,
    columns: bool,
) -> list[_Box]:
    """The column with most area of blanks for its width, the widest boxes first."""
    sized = [(cell, *_size(cell, columns)) for cell in cells if cell.count <= rest[cell.blank.name]]
    sized = [one for one in sized if one[1] <= room[0] + HAIR_MM and one[2] <= room[1] + HAIR_MM]
    sized = list(_few(sized, columns))
    best: list[_Box] = []
    most = 0.0
    widths = []
    for width in sorted({round(one[1], 6) for one in sized}):
        boxes = sorted(
            _boxes(sized, width, rest, spacing_mm),
            key=lambda box: (-box.area / (box.high + spacing_mm), box.high),
        )
        area = _greedy(boxes, rest, room[1], spacing_mm)
        widths.append((-area / (width + spacing_mm), width, boxes[:MOST_BOXES]))
    for _, width, boxes in sorted(widths, key=lambda one: one[:2])[:MOST_WIDTHS]:
        found = _stacked(boxes, rest, room[1], spacing_mm)
        worth = sum(box.area for box in found) / (width + spacing_mm)
        if worth > most * (1 + HAIR_MM):
            best, most = found, worth
    return sorted(best, key=lambda box: (-box.wide, box.cell.blank.name, -box.count))


def _few(
    sized: Sequence[tuple[Cell, float, float]], columns: bool
) -> Iterator[tuple[Cell, float, float]]:
    """Of each blank and turn a few stacks up the column, the highest that fits among them: the
    work stays bounded however many blanks there are."""
    stacks: dict[tuple[str, float], dict[int, tuple[Cell, float, float]]] = {}
    for one in sized:
        cell = one[0]
        if cell.count == 1 or cell.pitch[0 if columns else 1] == 0:
            stacks.setdefault((cell.blank.name, cell.rotation_deg), {})[cell.count] = one
    for own in stacks.values():
        most = max(own)
        for count in sorted({1, 2, 3, most // 4, most // 2, 3 * most // 4, most}):
            if count in own:
                yield own[count]


def _boxes(
    sized: Sequence[tuple[Cell, float, float]],
    width: float,
    rest: Mapping[str, int],
    spacing_mm: float,
) -> Iterator[_Box]:
    """What goes into a column of a width: each cell, as often side by side as there is room."""
    for cell, wide, high in sized:
        if wide <= width + HAIR_MM:
            beside = int((width + spacing_mm + HAIR_MM) / (wide + spacing_mm))
            beside = min(beside, rest[cell.blank.name] // cell.count)
            whole = beside * (wide + spacing_mm) - spacing_mm
            yield _Box(cell, beside, whole, high)


def _greedy(
    boxes: Sequence[_Box], rest: Mapping[str, int], height: float, spacing_mm: float
) -> float:
    """Area of the boxes one above the other, the first that fits always next."""
    used, area, left = -spacing_mm, 0.0, Counter(rest)
    for box in boxes:
        while used + spacing_mm + box.high <= height + HAIR_MM:
            if left[box.cell.blank.name] < box.count:
                break
            left[box.cell.blank.name] -= box.count
            used += spacing_mm + box.high
            area += box.area
    return area


def _stacked(
    boxes: Sequence[_Box], rest: Mapping[str, int], height: float, spacing_mm: float
) -> list[_Box]:
    """The boxes one above the other that hold most area, by how much of the column is used; they
    come with most area for their height first."""
    best: dict[int, tuple[float, float, tuple[_Box, ...]]] = {0: (0.0, 0.0, ())}
    queue = [0]
    while queue:
        area, used, stack = best[queue.pop(0)]
        made = Counter[str]()
        for box in stack:
            made[box.cell.blank.name] += box.count
        for box in boxes:
            high = used + box.high + (spacing_mm if stack else 0.0)
            name = box.cell.blank.name
            if high > height + HAIR_MM or made[name] + box.count > rest[name]:
                continue
            key = round(high / COARSE_MM)
            if key not in best or best[key][0] < area + box.area - HAIR_MM:
                if key not in queue:
                    queue.append(key)
                best[key] = (area + box.area, high, (*stack, box))
        queue.sort()
    return list(max(best.values(), key=lambda one: (one[0], -one[1]))[2])
