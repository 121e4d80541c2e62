"""Blanks as the boxes that rows and columns are made of: alone, in a stack of like sectors, or
strips side by side one kerf apart. mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from platewheel.nesting.geometry.facets import outer_polygon
from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.nesting.stock.layout import Placement, Wanted
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Line, Loop, bounds, moved

MOST_IN_STACK = 24
WORTH = 0.85  # of a box and its gap: a stack that saves less is not made
STEP_MM = 0.5  # of a stack's pitch: what a rule is read to
HAIR_MM = 1e-6
TURNS = {"any": (0.0, 90.0), "quarter": (0.0, 90.0), "half": (0.0,), "fixed": (0.0,)}


@dataclass(frozen=True)
class Cell:
    """So many of one blank, `rotation_deg` turned and `pitch` apart, in an upright box whose
    lower left corner is 0, 0. `shared`: each lies one kerf from the next."""

    blank: Blank
    rotation_deg: float
    count: int
    pitch: tuple[float, float]
    width_mm: float  # along x
    height_mm: float  # along y
    shared: bool = False

    def placements(self, x_mm: float, y_mm: float) -> Iterator[Placement]:
        """The blanks, the box's corner at a point."""
        left, bottom, _, _ = bounds(moved(self.blank.outline, 0.0, 0.0, self.rotation_deg))
        for k in range(self.count):
            at = (x_mm - left + k * self.pitch[0], y_mm - bottom + k * self.pitch[1])
            yield Placement(self.blank, *at, self.rotation_deg)


def is_square(loop: Loop) -> bool:
    """Whether an outline is an upright rectangle."""
    if not isinstance(loop, tuple) or len(loop) != 4:
        return False
    if not all(isinstance(side, Line) for side in loop):
        return False
    return all(min(abs(s.start[0] - s.end[0]), abs(s.start[1] - s.end[1])) < HAIR_MM for s in loop)


def cells_of(item: Wanted, spacing_mm: float, kerf_mm: float) -> tuple[Cell, ...]:
    """Every box that a blank may stand in, by turn and count."""
    found = []
    for turn in _turns(item):
        loop = moved(item.blank.outline, 0.0, 0.0, turn)
        left, bottom, right, top = bounds(loop)
        size = (right - left, top - bottom)
        found.append(Cell(item.blank, turn, 1, (0.0, 0.0), size[0], size[1]))
        for axis in (0, 1):
            pitch, shared = _pitch(loop, axis, size[axis], spacing_mm, kerf_mm)
            if not pitch:
                continue
            for count in range(2, min(MOST_IN_STACK, item.count) + 1):
                grown = list(size)
                grown[axis] += (count - 1) * pitch
                step = (pitch, 0.0) if axis == 0 else (0.0, pitch)
                found.append(Cell(item.blank, turn, count, step, grown[0], grown[1], shared))
    return tuple(found)


def _turns(item: Wanted) -> list[float]:
    """Turns that a blank is tried at: those asked for; and where any may be, upright in the least
    rectangle about it, both ways."""
    turns = list(TURNS[item.turns])
    if item.turns == "any":
        import shapely

        about = shapely.Polygon(outer_polygon(item.blank.outline)).minimum_rotated_rectangle
        (ax, ay), (bx, by) = about.exterior.coords[:2]
        own = -math.degrees(math.atan2(by - ay, bx - ax)) % 90
        if min(own, 90 - own) > 0.01:
            turns += [own, own + 90]
    return turns


def _pitch(
    loop: Loop, axis: int, size_mm: float, spacing_mm: float, kerf_mm: float
) -> tuple[float, bool]:
    """How far apart like blanks lie along an axis where that is nearer than box by box, 0 where
    it is not; and whether they share the line between them."""
    if is_square(loop):
        strip = size_mm + 2 * kerf_mm >= spacing_mm
        return (size_mm + kerf_mm, True) if strip and 0 < kerf_mm < spacing_mm else (0.0, False)
    least, enough = 0.0, size_mm + spacing_mm
    while enough - least > STEP_MM / 4:
        tried = (least + enough) / 2
        other = moved(loop, *((tried, 0.0) if axis == 0 else (0.0, tried)))
        if loop_gap(loop, other, spacing_mm + 1.0) >= spacing_mm:
            enough = tried
        else:
            least = tried
    pitch = STEP_MM * math.ceil(enough / STEP_MM)
    return (pitch, False) if pitch < WORTH * (size_mm + spacing_mm) else (0.0, False)
