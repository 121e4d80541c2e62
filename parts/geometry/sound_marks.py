"""Are marks of a blank such as can be made: points, words, lines and arcs of some length. mm."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.parts.base.faults import Fault
from platewheel.parts.geometry.blank import Blank, Mark, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Arc, Line, bounds
from platewheel.parts.geometry.soundness import (
    ABOVE_0,
    DEGREES,
    PLACE,
    TOUCH_MM,
    is_finite,
    is_point,
    piece_faults,
    place,
    said,
)

OFF_MM = 0.1  # a line that is drawn to the edge may end so far beyond it
KINDS = "a MarkPoint, a MarkText, a Line or an Arc"


def mark_faults(blank: Blank) -> Iterator[Fault]:
    """What keeps its marks from being made, each with the blank and the mark; of a `Blank` that a
    script gives: drawings are proved as they are read."""
    for i, mark in enumerate(blank.marks):
        key = f"{blank.name}.marks[{i}]"
        faults = [*_faults(key, mark)]
        yield from faults or _off_faults(key, mark, blank)


def _faults(key: str, mark: object) -> Iterator[Fault]:
    if isinstance(mark, MarkPoint | MarkText):
        if not is_point(mark.at):
            yield Fault(f"{key}.at", mark.at, PLACE, "(0.0, 0.0)")
        if isinstance(mark, MarkText):
            yield from _word_faults(key, mark)
    elif isinstance(mark, Line | Arc):
        faults = [*piece_faults(key, mark)]
        yield from faults
        if not faults and mark.length_mm <= TOUCH_MM:
            yield Fault(key, mark, "a Line or an Arc of some length", "MarkPoint for a spot")
    else:
        yield Fault(key, mark, KINDS, "Arc(centre, radius_mm, 0.0, 360.0) for a circle")


def _off_faults(key: str, mark: Mark, blank: Blank) -> Iterator[Fault]:
    """A mark beside the part: cutting files leave it out, and a script is not told."""
    if isinstance(mark, MarkPoint | MarkText):
        left, low, right, high = (*mark.at, *mark.at)
    else:
        left, low, right, high = bounds((mark,))
    x0, y0, x1, y1 = blank.bounds
    if left < x0 - OFF_MM or low < y0 - OFF_MM or right > x1 + OFF_MM or high > y1 + OFF_MM:
        far = place((left, low) if left < x0 - OFF_MM or low < y0 - OFF_MM else (right, high))
        allowed = f"a mark on the part, which reaches from {said((x0, y0))} to {said((x1, y1))} mm"
        yield Fault(key, far, allowed, "move it onto the part, or leave it out")


def _word_faults(key: str, mark: MarkText) -> Iterator[Fault]:
    if not (isinstance(mark.text, str) and mark.text.strip()):
        yield Fault(f"{key}.text", mark.text, "text of one letter or more", '"lid"')
    if not (is_finite(mark.height_mm) and mark.height_mm > 0):
        yield Fault(f"{key}.height_mm", mark.height_mm, ABOVE_0, "8.0")
    if not is_finite(mark.turn_deg):
        yield Fault(f"{key}.turn_deg", mark.turn_deg, DEGREES, "0.0")
