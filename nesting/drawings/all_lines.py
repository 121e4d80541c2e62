"""How many lines and arcs the drawings of a job make on all its plates together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from platewheel.nesting.drawings.extra import Extra
from platewheel.nesting.drawings.read import Outline
from platewheel.parts.base.faults import Fault
from platewheel.parts.geometry.outline import segments

MANY = 200  # of one part: parts of fewer lie on plates that are cut alike, written and proved once
MOST_LINES = 350_000  # such as 80 parts of 4000: each is laid, written, drawn, read back and proved


def lines_of(drawn: Outline) -> int:
    """Lines and arcs that are cut or marked on one part."""
    cut = sum(len(segments(loop)) for loop in (drawn.outline, *drawn.holes))
    return cut + len(drawn.marks)


def too_many_lines(read: Sequence[tuple[int, Extra, Outline]]) -> Iterator[Fault]:
    """A fault of `count` for each part of so many lines that a job of all of them would not end;
    `read` has the numbers of their rows."""
    each = {row: lines_of(drawn) for row, _, drawn in read}
    fine = [(row, extra) for row, extra, _ in read if each[row] > MANY]
    total = sum(each[row] * extra.count for row, extra in fine)
    if total <= MOST_LINES:
        return
    for row, extra in fine:
        most = max(1, int(extra.count * MOST_LINES / total))
        yield Fault(
            f"extra[{row}].count",
            extra.count,
            f"at most {MOST_LINES} lines and arcs on all parts that have more than {MANY} each; "
            f"there are {total}, {each[row]} on each {extra.name}",
            f"count = {most} here and the rest in jobs of their own, or draw its curves as arcs, "
            "not as many short lines",
        )
