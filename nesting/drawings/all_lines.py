"""How many lines and arcs the drawings of a job make on all plates that are cut differently."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from platewheel.nesting.drawings.extra import ExtraPart
from platewheel.nesting.stock.stock import Offcut, Stock
from platewheel.parts.base.faults import Fault
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import area_mm2, polygon, segments

MANY = 200  # of one part: many thousands of simpler ones end in seconds
# Each is laid, written, drawn, read back and proved: 1.2 million of one drawing took `nest` 70 s,
# 1.3 GB, 0.96 million of twenty 72 s, 1.1 GB; 1500 parts of 3900 that fill plates cut alike 27 s
MOST_LINES = 1_000_000
# Plates cut differently, beyond one for each kind of part: what a kind fills alone is cut again and
# again from one layout, as long as it lasts; then one that it shares, and the last
MORE_PLATES = 2
DISCS = 2  # of a wheel


@dataclass(frozen=True)
class Copies:
    """A drawing and how many parts of it are cut; `stands` is the count where the user says it."""

    key: str
    value: object
    drawn: Blank
    steel: str
    count: int
    stands: str = "count = {most} here"
    each: int = 1  # parts for one of what the user counts


def copies_of(part: ExtraPart, row: int) -> Copies:
    """Of a part of the user's own, the job's [[extra]] number `row`."""
    count = part.spec.count
    return Copies(f"extra[{row}].count", count, part.blank, part.steel, count)


def copies_of_disc(file: str, disc: Blank, steel: str, wheels: int) -> Copies:
    """Of a disc of the user's own."""
    stands = "wheels = {most} in [job]"
    return Copies("disc.file", file, disc, steel, DISCS * wheels, stands, DISCS)


def lines_of(drawn: Blank) -> int:
    """Lines and arcs that are cut or marked on one part."""
    cut = sum(len(segments(loop)) for loop in (drawn.outline, *drawn.holes))
    return cut + len(drawn.marks)


def too_many_lines(
    all_of_them: Sequence[Copies], stock: Sequence[Stock], offcuts: Sequence[Offcut]
) -> Iterator[Fault]:
    """A fault for each part of so many lines that a job of all of them would not end.

    Plates that are cut alike are worked out once: of each part at most so many are counted as have
    room on plates that differ.
    """
    fine = [one for one in all_of_them if lines_of(one.drawn) > MANY]
    counted = [min(one.count, _most_that_differ(one, all_of_them, stock, offcuts)) for one in fine]
    lines = [lines_of(one.drawn) for one in fine]
    total = sum(each * count for each, count in zip(lines, counted, strict=True))
    if total <= MOST_LINES:
        return
    allowed = _allowed(
        [each * one.each for each, one in zip(lines, fine, strict=True)],
        [count / one.each for count, one in zip(counted, fine, strict=True)],
    )
    alone = sum(allowed) == len(fine)  # one of each, and yet too many
    for one, each, most in zip(fine, lines, allowed, strict=True):
        if most * one.each >= one.count and not alone:
            continue
        fewer = f"{one.stands.format(most=most)} and the rest" if one.count > one.each else "some"
        yield Fault(
            one.key,
            one.value,
            f"at most {MOST_LINES} lines and arcs on all parts that have more than {MANY} each, "
            f"plates that are cut alike counted once; there are about {total}, {each} on "
            f"each {one.drawn.name}",
            f"{fewer} in jobs of their own, or draw its curves as arcs, not as many short lines",
        )


def _allowed(lines: Sequence[int], wanted: Sequence[float]) -> list[int]:
    """How many of each, of so many lines, make no more than MOST_LINES: alike shares of what is
    wanted, one where that is less than one."""
    few: set[int] = set()  # of which there is one
    while True:
        others = [k for k in range(len(lines)) if k not in few]
        left = MOST_LINES - sum(lines[k] for k in few)
        share = left / max(1.0, sum(lines[k] * wanted[k] for k in others))
        less = {k for k in others if wanted[k] * share < 1}
        if not less:
            return [1 if k in few else int(wanted[k] * share) for k in range(len(lines))]
        few |= less


def _most_that_differ(
    one: Copies, all_of_them: Sequence[Copies], stock: Sequence[Stock], offcuts: Sequence[Offcut]
) -> int:
    """How many of a part have room, by area, on all plates of its steel that are cut differently:
    of the largest plate one for each kind of part and MORE_PLATES; each offcut once."""
    steel = one.steel, one.drawn.thickness_mm
    alike = {other.key for other in all_of_them if (other.steel, other.drawn.thickness_mm) == steel}
    large = [s.length_mm * s.width_mm for s in stock if (s.steel, s.thickness_mm) == steel]
    room = max(large, default=0.0) * (len(alike) + MORE_PLATES)
    room += sum(
        area_mm2(polygon([(x, y) for x, y in piece.outline]))
        for piece in offcuts
        if (piece.steel, piece.thickness_mm) == steel
    )
    return math.ceil(room / area_mm2(one.drawn.outline))
