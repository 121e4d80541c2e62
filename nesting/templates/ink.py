"""How a template is drawn: its kinds of line, its words, true arcs. mm on the canvas.

Cut lines are thick and solid; holes to drill are dotted; marks are thin and dashed; what belongs
to the paper alone is thinner still, in long dashes. Spots differ by shape: a centre to punch is a
cross with a small ring, one to drill has two quarters of its ring black, a cross in a square only
lines pages up. All black: any printer keeps them apart.
"""

from __future__ import annotations

import math
import unicodedata
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from platewheel.parts.geometry.outline import Arc, Line, Loop, Point, Segment, arc_pieces, segments

FONT, BOLD = "Helvetica", "Helvetica-Bold"
CAPITALS = 0.718  # height of capitals by font size. Source: Adobe's metrics file of Helvetica
Align = Literal["left", "right", "centre"]
MOST_ARC_DEG = 15.0  # a cubic of 15 degrees is off its arc by 6e-9 of the radius


@dataclass(frozen=True)
class LineKind:
    """Width and dashes of a line; no dashes is solid."""

    width_mm: float
    dashes_mm: tuple[float, ...] = ()

    def use(self, canvas: Any) -> None:
        """Draw what follows in this kind."""
        canvas.setLineWidth(self.width_mm)
        canvas.setDash(list(self.dashes_mm))


CUT = LineKind(0.35)
MARK = LineKind(0.18, (1.2, 0.8))
DRILLED = LineKind(0.3, (0.4, 0.9))
PUNCH = LineKind(0.18)
TRIM = LineKind(0.13, (5.0, 1.5))  # edge of this page's paper
LAY = LineKind(0.13, (5.0, 1.2, 0.6, 1.2))  # edge of the page laid on this one
FINE = LineKind(0.13)
PUNCH_RING_MM = 1.2
DRILL_RING_MM = 1.8


def draw_line(canvas: Any, start: Point, end: Point, kind: LineKind) -> None:
    """One straight line."""
    kind.use(canvas)
    canvas.line(*start, *end)


def draw_punch_mark(canvas: Any, at: Point, arm_mm: float) -> None:
    """Spot to punch: a cross with a small ring."""
    PUNCH.use(canvas)
    _cross(canvas, at, arm_mm)
    canvas.circle(*at, min(PUNCH_RING_MM, arm_mm / 2))


def draw_drill_centre(canvas: Any, at: Point, arm_mm: float) -> None:
    """Spot to punch and drill: a cross with a ring, two opposite quarters of it black."""
    (x, y), ring = at, min(DRILL_RING_MM, arm_mm / 1.5)
    PUNCH.use(canvas)
    canvas.setFillGray(0)
    for start in (0, 180):
        path = canvas.beginPath()
        path.moveTo(x, y)
        path.arcTo(x - ring, y - ring, x + ring, y + ring, start, 90)
        path.close()
        canvas.drawPath(path, stroke=0, fill=1)
    canvas.circle(*at, ring)
    _cross(canvas, at, arm_mm)


def draw_arrow(canvas: Any, tip: Point, size_mm: float, towards: Point) -> None:
    """A solid arrow head: `towards` is its direction, a unit vector along an axis."""
    (x, y), (dx, dy) = tip, towards
    foot = (x - dx * size_mm, y - dy * size_mm)
    half = 0.5 * size_mm
    path = canvas.beginPath()
    path.moveTo(x, y)
    path.lineTo(foot[0] - dy * half, foot[1] + dx * half)
    path.lineTo(foot[0] + dy * half, foot[1] - dx * half)
    path.close()
    canvas.setFillGray(0)
    canvas.drawPath(path, stroke=0, fill=1)


def draw_registration(canvas: Any, at: Point, arm_mm: float) -> None:
    """Where two pages meet: a cross in a square, so that nobody punches it."""
    FINE.use(canvas)
    _cross(canvas, at, arm_mm)
    canvas.rect(at[0] - arm_mm / 2, at[1] - arm_mm / 2, arm_mm, arm_mm)


def _cross(canvas: Any, at: Point, arm: float) -> None:
    (x, y) = at
    canvas.line(x - arm, y, x + arm, y)
    canvas.line(x, y - arm, x, y + arm)


def draw_loop(canvas: Any, loop: Loop, kind: LineKind) -> None:
    """A closed outline."""
    _draw_path(canvas, segments(loop), kind, closed=True)


def draw_segment(canvas: Any, segment: Line | Arc, kind: LineKind) -> None:
    """One open line or arc."""
    _draw_path(canvas, (segment,), kind, closed=False)


def _draw_path(canvas: Any, run: tuple[Segment, ...], kind: LineKind, *, closed: bool) -> None:
    kind.use(canvas)
    canvas.setLineJoin(1)
    path = canvas.beginPath()
    path.moveTo(*run[0].start)
    for segment in run:
        if isinstance(segment, Line):
            path.lineTo(*segment.end)
        else:
            for arc in arc_pieces(segment, MOST_ARC_DEG):
                path.curveTo(*_cubic(arc))
    if closed:
        path.close()
    canvas.drawPath(path)


def _cubic(arc: Arc) -> tuple[float, float, float, float, float, float]:
    """Two control points and the end of a short arc: tangents of 4/3 tan(sweep / 4) x radius."""
    (x0, y0), (x1, y1), (cx, cy) = arc.start, arc.end, arc.centre
    share = 4 / 3 * math.tan(math.radians(arc.sweep_deg) / 4)
    return (
        x0 - share * (y0 - cy),
        y0 + share * (x0 - cx),
        x1 + share * (y1 - cy),
        y1 - share * (x1 - cx),
        x1,
        y1,
    )


def draw_text(
    canvas: Any,
    at: Point,
    words: str,
    capital_mm: float,
    *,
    width_mm: float | None = None,
    font: str = FONT,
    align: Align = "left",
    turn_deg: float = 0.0,
) -> None:
    """Words from a point on their baseline, made smaller where wider than `width_mm`."""
    words = printable_words(words)
    size = capital_mm / CAPITALS
    wide = canvas.stringWidth(words, font, size)
    if width_mm is not None and wide > width_mm:
        size, wide = size * width_mm / wide, width_mm
    canvas.saveState()
    canvas.setFillGray(0)
    canvas.translate(*at)
    canvas.rotate(turn_deg)
    canvas.setFont(font, size)
    canvas.drawString({"left": 0.0, "centre": -wide / 2, "right": -wide}[align], 0, words)
    canvas.restoreState()


def printable_words(words: str) -> str:
    """The words in letters that the PDF's own fonts have: accents beyond them are left off, and
    a letter of another alphabet shows as a question mark."""
    return "".join(_printable_letter(letter) for letter in " ".join(words.split()))


@cache
def _printable_letter(letter: str) -> str:
    plain = unicodedata.name(letter, "").partition(" WITH ")[0]  # L WITH STROKE -> L
    for one in (letter, unicodedata.lookup(plain) if plain else "?"):
        if one.isprintable() and one.encode("cp1252", "ignore"):
            return one
    return "?"
