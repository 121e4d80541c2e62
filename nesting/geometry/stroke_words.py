"""Words as strokes to mark on steel: open polylines at a place, a height and a turn."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from functools import lru_cache

from platewheel.nesting.geometry.stroke_letters import (
    ABOVE,
    BELOW,
    DOTLESS,
    FOOT,
    GLYPHS,
    NO_GLYPH,
    STEP,
    TOP,
    WIDE,
)
from platewheel.parts.geometry.outline import Point, moved_point

Stroke = tuple[Point, ...]
TALL = TOP - FOOT  # of a capital, in cells' units


@dataclass(frozen=True)
class WordBox:
    """Room of a word about its place: half its width, and how far it goes up and down. mm."""

    half_mm: float
    up_mm: float
    down_mm: float


def word_box(word: str, height_mm: float) -> WordBox:
    """Room that a word takes; tails hang below half the height, accents stand above it.

    Letters stand in cells of one width, so n of them are n - 1/3 of their height wide.
    """
    unit = height_mm / TALL
    ends = [float(y) for letter in word for stroke in _letter(letter) for _, y in stroke]
    foot, top = min([FOOT, *ends]), max([TOP, *ends])
    up, down = (top - TOP) * unit, (FOOT - foot) * unit
    return WordBox(_wide(word) * unit / 2, height_mm / 2 + up, height_mm / 2 + down)


def word_strokes(
    word: str, at: Point, height_mm: float, turn_deg: float = 0.0
) -> tuple[Stroke, ...]:
    """Strokes of a word in the order of writing, of at least two corners each.

    `height_mm` is a capital's; `at` is the middle of the word's width and of that height. A sign
    without a letter of its own is drawn as a box. Exact but for rounding.
    """
    unit = height_mm / TALL
    left, middle = -_wide(word) / 2, (FOOT + TOP) / 2
    return tuple(
        tuple(
            moved_point(((left + i * STEP + x) * unit, (y - middle) * unit), *at, turn_deg)
            for x, y in stroke
        )
        for i, letter in enumerate(word)
        for stroke in _letter(letter)
    )


def _wide(word: str) -> int:
    """Width of a word in cells' units, the gap behind its last letter not counted."""
    return max(0, len(word) * STEP - (STEP - WIDE))


def has_strokes(letter: str) -> bool:
    """Whether a sign is drawn as itself, not as a box."""
    return letter in GLYPHS or _accented(letter) is not None


Strokes = tuple[tuple[tuple[int, int], ...], ...]


@lru_cache(maxsize=256)
def _letter(letter: str) -> Strokes:
    """Corners of a letter's strokes in its cell."""
    return _accented(letter) or _corners(GLYPHS.get(letter, NO_GLYPH))


def _corners(strokes: tuple[str, ...], up: int = 0) -> Strokes:
    return tuple(
        tuple((int(corner[0]), int(corner[1]) + up) for corner in stroke.split())
        for stroke in strokes
    )


def _accented(letter: str) -> Strokes | None:
    """A letter with an accent above it, below it or both; None for any other sign."""
    apart = unicodedata.normalize("NFD", letter)
    base, marks = apart[0], apart[1:]
    above = [mark for mark in marks if mark in ABOVE]
    below = [mark for mark in marks if mark in BELOW]
    one_a_side = len(above) <= 1 and len(below) <= 1 and len(above) + len(below) == len(marks)
    if base not in GLYPHS or not base.isalpha() or not marks or not one_a_side:
        return None
    own = _corners(DOTLESS.get(base, GLYPHS[base]) if above else GLYPHS[base])
    up = max(y for stroke in own for _, y in stroke) + 1
    return (
        *own,
        *(stroke for mark in above for stroke in _corners(ABOVE[mark], up)),
        *(stroke for mark in below for stroke in _corners(BELOW[mark])),
    )
