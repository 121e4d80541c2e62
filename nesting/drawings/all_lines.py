"""How many lines and arcs the drawings of a job make on all its plates together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from platewheel.nesting.drawings.extra import Extra
from platewheel.nesting.drawings.read import Outline
from platewheel.parts.base.faults import Fault
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import segments

MANY = 200  # of one part: parts of fewer lie on plates that are cut alike, written and proved once
# Each is laid, written, drawn, read back and proved: 700 parts of 2000, 1.4 million lines, took
# `nest` 54 s and 790 MB, 1.2 million of twenty drawings 114 s and 1.3 GB
MOST_LINES = 1_200_000
DISCS = 2  # of a wheel


@dataclass(frozen=True)
class Copies:
    """A drawing and how many parts of it are cut; `stands` is the count where the user says it."""

    key: str
    value: object
    name: str
    drawn: Outline | Blank
    count: int
    stands: str = "count = {most} here"
    each: int = 1  # parts for one of what the user counts


def copies_of(extra: Extra, drawn: Outline, row: int) -> Copies:
    """Of a part of the user's own."""
    return Copies(f"extra[{row}].count", extra.count, extra.name, drawn, extra.count)


def copies_of_disc(file: str, disc: Blank, wheels: int) -> Copies:
    """Of a disc of the user's own."""
    stands = "wheels = {most} in [job]"
    return Copies("disc.file", file, disc.name, disc, DISCS * wheels, stands, DISCS)


def lines_of(drawn: Outline | Blank) -> int:
    """Lines and arcs that are cut or marked on one part."""
    cut = sum(len(segments(loop)) for loop in (drawn.outline, *drawn.holes))
    return cut + len(drawn.marks)


def too_many_lines(all_of_them: Sequence[Copies]) -> Iterator[Fault]:
    """A fault for each part of so many lines that a job of all of them would not end."""
    each = {one.key: lines_of(one.drawn) for one in all_of_them}
    fine = [one for one in all_of_them if each[one.key] > MANY]
    total = sum(each[one.key] * one.count for one in fine)
    if total <= MOST_LINES:
        return
    for one in fine:
        most = max(1, int(one.count / one.each * MOST_LINES / total))
        yield Fault(
            one.key,
            one.value,
            f"at most {MOST_LINES} lines and arcs on all parts that have more than {MANY} each; "
            f"there are {total}, {each[one.key]} on each {one.name}",
            f"{one.stands.format(most=most)} and the rest in jobs of their own, or draw its "
            "curves as arcs, not as many short lines",
        )
