"""Words of a drawing that are to be marked: each line by its middle, height and turn, in mm.

They are written in our own single lines, whatever typeface the drawing has: capitals as high as
drawn, and as wide as our letters are.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from platewheel.nesting.drawings.opened import with_letters
from platewheel.nesting.geometry.markable import Markable, markable
from platewheel.nesting.geometry.stroke_words import word_box
from platewheel.parts.geometry.blank import MarkText
from platewheel.parts.geometry.outline import moved_point

MARKED_WORDS = ("TEXT", "ATTRIB", "MTEXT")
LINE_PITCH = 5 / 3  # of lines of MTEXT, in heights. Source: DXF reference, MTEXT, codes 44 and 73
UP = {"TOP": -0.5, "MIDDLE": 0.0}  # from the place to the middle of capitals, in heights


@dataclass(frozen=True)
class Words:
    """Lines to mark, and all lines as they were spelt, those too that miss a letter."""

    lines: tuple[MarkText, ...] = ()
    spelt: tuple[Markable, ...] = ()


def drawn_words(entity: Any, unit_mm: float) -> Words:
    """The lines of a TEXT, ATTRIB or MTEXT that lies face up in the xy plane; none of others, nor
    of one with bytes that are no letters of the drawing's alphabet."""
    from ezdxf.upright import upright

    try:
        upright(entity)
        normal = entity.dxf.get("extrusion", (0, 0, 1))
        if abs(normal[0]) > 1e-9 or abs(normal[1]) > 1e-9 or normal[2] <= 0:
            return Words()
        mtext = entity.dxftype() == "MTEXT"
        said = entity.plain_text(split=True) if mtext else [entity.plain_text()]
        said = [with_letters(one) for one in said]
        "".join(said).encode()  # bytes of no letter stay lone surrogates
        spelt = [markable(one) for one in said]
        lines = _lines(entity, spelt) if mtext else _line(entity, spelt[0])
        pairs = list(zip(lines, spelt, strict=True))
        found = tuple(_scaled(one, unit_mm) for one, by in pairs if one.text and not by.missing)
    except Exception:  # damaged numbers can upset the library in any way: told as left out
        return Words()
    sound = all(math.isfinite(n) for m in found for n in (*m.at, m.height_mm, m.turn_deg))
    return Words(found, tuple(spelt)) if sound and all(m.height_mm > 0 for m in found) else Words()


def _scaled(line: MarkText, unit_mm: float) -> MarkText:
    x, y = line.at
    return MarkText((x * unit_mm, y * unit_mm), line.text, line.height_mm * unit_mm, line.turn_deg)


def _line(entity: Any, spelt: Markable) -> Iterator[MarkText]:
    """Of a TEXT: its place may be any corner of it, or its middle."""
    align, first, second = entity.get_placement()
    text, height, turn = spelt.text, entity.dxf.height, entity.dxf.rotation
    x, y = float(first.x), float(first.y)
    if second is not None and align.name in ("ALIGNED", "FIT"):
        x, y = (x + second.x) / 2, (y + second.y) / 2
        turn = math.degrees(math.atan2(second.y - first.y, second.x - first.x))
    upright_part, _, _ = align.name.partition("_")
    yield _at(text, (x, y), height, turn, align.name, UP.get(upright_part, 0.5))


def _lines(entity: Any, spelt: Sequence[Markable]) -> Iterator[MarkText]:
    """Of an MTEXT, each by itself, from the top."""
    dxf = entity.dxf
    pitch = LINE_PITCH * dxf.char_height * dxf.get("line_spacing_factor", 1.0)
    row, column = divmod(dxf.attachment_point - 1, 3)  # upper left is 1, lower right 9
    whole = (len(spelt) - 1) * pitch + dxf.char_height
    top = (0.0, whole / 2, whole)[row]
    turn = entity.get_rotation()
    side = ("LEFT", "CENTER", "RIGHT")[column]
    for k, one in enumerate(spelt):
        up = (top - k * pitch) / dxf.char_height - 0.5
        yield _at(one.text, (dxf.insert.x, dxf.insert.y), dxf.char_height, turn, side, up)


def _at(
    text: str, place: tuple[float, float], height: float, turn: float, side: str, up: float
) -> MarkText:
    """Words whose place is at the left of them, at the right or in their middle."""
    half = word_box(text, height).half_mm
    right = half if "LEFT" in side else -half if "RIGHT" in side else 0.0
    return MarkText(moved_point((right, up * height), *place, turn), text, height, turn)
