"""How many lines and arcs a disc of a script's own may have: the modeller has no end with more."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.parts.base.faults import Fault
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle

MOST_LINES = 4000  # as of a drawing; 8 slots of 1000 corners each took over 40 s of the modeller


def too_many_lines(disc: Blank) -> Iterator[Fault]:
    """The fault of a disc with more than `MOST_LINES` in all, a circle being one."""
    loops = (disc.outline, *disc.holes)
    many = sum(1 if isinstance(loop, Circle) else len(loop) for loop in loops)
    if many > MOST_LINES:
        allowed = f"at most {MOST_LINES} lines and arcs on outline and holes together"
        yield Fault(disc.name, many, allowed, "draw curves as Arc, not as many short lines")
