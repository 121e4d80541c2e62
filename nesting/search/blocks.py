"""Strips side by side in blocks, one kerf apart, so that one cut parts two of them.

A block is nested as one rectangle and taken apart once it is laid. Blocks are as large as the quick
plan with them needs no more steel than that of single strips; the work is bounded.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from platewheel.nesting.stock.cutting import LEAST_WEB_MM, Cutting
from platewheel.nesting.stock.layout import Layout, Placement, Sheet, Wanted, all_priced
from platewheel.nesting.stock.pierce_clear import SLACK_MM, pierce_clear_mm
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Line, Point, moved_point, polygon

SQUARE_MM = 1e-7  # that the corners of a rectangle may lie off
Laid = tuple[list[Layout], list[Wanted]]


@dataclass(frozen=True)
class Block:
    """So many strips as one blank; `step` leads from one to the next, in the strip's own axes.

    The strip cut first is number `first`: from the middle the others are cut on either side in
    turn, so that the torch need not travel back over a strip just cut. Strips with holes are cut
    from one end to the other: the way to the next one's holes leads over those just cut anyhow,
    and from side to side it would be many times as long.
    """

    blank: Blank
    strip: Blank
    count: int
    step: Point
    first: int

    @property
    def pairs(self) -> list[tuple[int, int]]:
        """Strips that share a line, the one cut before named first, in the order of cuts."""
        found = []
        for k in range(1, self.count):
            for side in (1, -1):
                if 0 <= self.first + side * k < self.count:
                    found.append((self.first + side * (k - 1), self.first + side * k))
        return found


@dataclass(frozen=True)
class _Strip:
    """A rectangle: one end of a long edge, the directions along it and across the strip."""

    corner: Point
    along: Point
    length_mm: float
    width_mm: float

    def at(self, along_mm: float, across_mm: float) -> Point:
        (x, y), (ax, ay) = self.corner, self.along
        return x + along_mm * ax - across_mm * ay, y + along_mm * ay + across_mm * ax

    def corners(self, width_mm: float) -> list[Point]:
        """Of a rectangle as long, counter-clockwise."""
        return [
            self.at(a, b)
            for b, ends in ((0.0, (0, 1)), (width_mm, (1, 0)))
            for a in (end * self.length_mm for end in ends)
        ]


def laid_in_blocks(
    lay: Callable[[Sequence[Wanted], bool], Laid],
    group: Sequence[Wanted],
    plates: Sequence[Sheet],
    cutting: Cutting,
) -> Laid:
    """Layouts with the lines that parts share, and what fits no plate to hand.

    `lay` plans blanks: quickly, or where its flag says so with all effort. `cutting` has the
    spacing that parts are laid at. Blocks are halved until they cost no more than single strips.
    """
    most = {w.blank.name: _most(w, plates, cutting) for w in group}
    largest = max(most.values(), default=1)
    if largest < 2:
        return lay(group, True)
    alone = _cost(lay(group, False), plates)
    for size in _sizes(largest):
        blocks: dict[str, Block] = {}
        wanted = [
            one
            for w in group
            for one in _split(w, min(size, most[w.blank.name]), cutting, blocks, list(most))
        ]
        if _cost(_whole(lay(wanted, False), blocks), plates) > alone:
            continue
        layouts, left = _whole(lay(wanted, True), blocks)
        if _cost((layouts, left), plates) <= alone:
            return layouts, left
    return lay(group, True)


def _sizes(most: int) -> Iterator[int]:
    while most > 1:
        yield most
        most = (most + 1) // 2 if most > 2 else 1


def _cost(laid: Laid, plates: Sequence[Sheet]) -> tuple[float, ...]:
    layouts, left = laid
    paid = math.fsum(lay.sheet.counts_for(all_priced(plates)) * lay.repeat for lay in layouts)
    return sum(w.count for w in left), round(paid, 6)


def _strip_of(blank: Blank) -> _Strip | None:
    """The blank as a strip where its outline is four lines at right angles."""
    ring = blank.outline
    if not isinstance(ring, tuple) or len(ring) != 4:
        return None
    if not all(isinstance(side, Line) and side.length_mm > 0 for side in ring):
        return None
    first = 0 if ring[0].length_mm >= ring[1].length_mm else 1
    side, end = ring[first], ring[(first + 1) % 4]
    (ax, ay), (bx, by), length = side.start, side.end, side.length_mm
    strip = _Strip((ax, ay), ((bx - ax) / length, (by - ay) / length), length, end.length_mm)
    there = [ring[(first + k) % 4].start for k in range(4)]
    off = (math.dist(a, b) for a, b in zip(there, strip.corners(strip.width_mm), strict=True))
    return strip if max(off) <= SQUARE_MM else None


def _most(item: Wanted, plates: Sequence[Sheet], cutting: Cutting) -> int:
    """Strips in the largest block that any plate may hold; 1 where the blank is no strip, or so
    narrow that the next but one would lie too near."""
    strip, kerf = _strip_of(item.blank), cutting.kerf_mm
    if strip is None or strip.width_mm + 2 * kerf < cutting.part_spacing_mm:
        return 1
    most = 1
    for sheet in plates:
        room = [mm - 2 * cutting.sheet_margin_mm for mm in (sheet.length_mm, sheet.width_mm)]
        for along, across in (room, room[::-1]):
            if strip.length_mm <= along:
                most = max(most, int((across + kerf) / (strip.width_mm + kerf) + 1e-9))
    return min(most, item.count)


def _split(
    item: Wanted, size: int, cutting: Cutting, blocks: dict[str, Block], names: Sequence[str]
) -> Iterator[Wanted]:
    """A blank in blocks of a size, and the rest in a smaller one; `blocks` gathers them."""
    strip = _strip_of(item.blank)
    if size < 2 or strip is None:
        yield item
        return
    whole, rest = divmod(item.count, size)
    for count, times in ((size, whole), (rest, 1)):
        if count == 1:
            yield replace(item, count=1)
        elif count and times:
            block = _block(item.blank, strip, count, cutting, names)
            blocks[block.blank.name] = block
            yield replace(item, blank=block.blank, count=times)


def _block(
    blank: Blank, strip: _Strip, count: int, cutting: Cutting, names: Sequence[str]
) -> Block:
    name = f"{blank.name}, {count} side by side"
    while name in names:
        name += "'"
    pitch = strip.width_mm + cutting.kerf_mm
    ring = polygon(strip.corners(count * pitch - cutting.kerf_mm))
    whole = Blank(name, blank.kind, blank.thickness_mm, ring, many_turns=blank.many_turns)
    step = -pitch * strip.along[1], pitch * strip.along[0]
    in_turn = not blank.holes and _led_at_ends(strip, cutting, blank.thickness_mm)
    first = (count - 1) // 2 if in_turn else 0
    return Block(whole, blank, count, step, first)


def _led_at_ends(strip: _Strip, cutting: Cutting, thickness_mm: float) -> bool:
    """Whether a strip between two others has room for its lead at an end, be it beside the
    plate's edge."""
    if not cutting.lead_in_mm:
        return True
    clear = pierce_clear_mm(cutting, thickness_mm) + SLACK_MM
    beside = clear + max(cutting.kerf_mm, LEAST_WEB_MM)
    return strip.width_mm >= 2 * clear and cutting.sheet_margin_mm >= beside


def _whole(laid: Laid, blocks: dict[str, Block]) -> Laid:
    """The strips themselves, in place of blocks."""
    layouts, left = laid
    alone = []
    for item in left:
        block = blocks.get(item.blank.name)
        alone.append(
            item
            if block is None
            else replace(item, blank=block.strip, count=item.count * block.count)
        )
    return [_taken_apart(layout, blocks) for layout in layouts], alone


def _taken_apart(layout: Layout, blocks: dict[str, Block]) -> Layout:
    placements: list[Placement] = []
    shared: list[tuple[int, int]] = []
    for placement in layout.placements:
        block = blocks.get(placement.blank.name)
        if block is None:
            placements.append(placement)
            continue
        shared += [(len(placements) + a, len(placements) + b) for a, b in block.pairs]
        x, y, turn = placement.x_mm, placement.y_mm, placement.rotation_deg
        for k in range(block.count):
            u, v = moved_point((k * block.step[0], k * block.step[1]), x, y, turn)
            placements.append(Placement(block.strip, u, v, turn))
    return replace(layout, placements=tuple(placements), shared=tuple(shared))
