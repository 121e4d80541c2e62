"""Welding symbols of ISO 2553, system A, as SVG.

An arrow line to the joint, a continuous reference line, a dashed identification line beside
it. A symbol on the continuous line means: welded on the arrow's side, one that hangs from the
dashed line: on the other side. The circle where arrow and reference line meet means: all round.
Throat or penetration stands left of the symbol.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from html import escape
from typing import Literal

from platewheel.cli.papers.drawings.dimension_lines import INK, XY, arrow, line, text_width, words

WeldKind = Literal["fillet", "square-butt", "single-v", "backing"]
BELOW = 0.42  # of the letters: identification line under the reference line


@dataclass(frozen=True)
class WeldMark:
    """One weld as a drawing tells it; `throat` is the size before the symbol, `note` the tail;
    `other` and `other_throat` the same of a weld on the other side of the joint."""

    name: str
    kind: WeldKind
    throat: str = ""  # a4: fillet of throat 4; s8: butt weld penetrating 8; empty: full section
    all_round: bool = False
    flush: bool = False  # dressed flush: a bar over the symbol
    note: str = ""
    other: WeldKind | None = None
    other_throat: str = ""

    def length(self, size: float) -> float:
        """How far the symbol reaches from its arrow, note included."""
        tail = text_width(self.note, size) + 1.4 * size if self.note else 0.0
        return self.line_length(size) + tail

    def line_length(self, size: float) -> float:
        """Length of the reference line."""
        return max(text_width(t, size) for t in (self.throat, self.other_throat)) + 2.6 * size


def weld_symbol(mark: WeldMark, tip: XY, joint: XY, size: float, left: bool) -> str:
    """The whole symbol: arrow from `joint` to `tip`, reference line from `joint` to one side."""
    long = mark.line_length(size)
    x0 = joint[0] - long if left else joint[0]
    y = joint[1]
    text_end = x0 + long - 1.7 * size
    body = line([tip, joint], size) + arrow(tip, joint, size)
    body += _part("reference", line([(x0, y), (x0 + long, y)], size, weight=0.09))
    low = y + BELOW * size
    body += _part("identification", line([(x0, low), (x0 + long, low)], size, "0.45 0.25"))
    if mark.throat:
        body += words((text_end - 0.15 * size, y - 0.25 * size), mark.throat, size, "end")
    body += _part(mark.kind, _elementary(mark.kind, text_end, y, size))
    if mark.other:
        body += _part(
            f"other-{mark.other}", _elementary(mark.other, text_end, low, size, down=True)
        )
    if mark.other_throat:
        at = (text_end - 0.15 * size, low + 1.0 * size)
        body += words(at, mark.other_throat, size, "end")
    if mark.flush:
        over = y - 1.12 * size
        bar = [(text_end - 0.1 * size, over), (text_end + 1.1 * size, over)]
        body += _part("flush", line(bar, size, weight=0.1))
    if mark.all_round:
        body += _part(
            "all-round",
            f'<circle cx="{joint[0]:.2f}" cy="{y:.2f}" r="{0.38 * size:.2f}" fill="none" '
            f'stroke="{INK}" stroke-width="{0.09 * size:.3f}"/>',
        )
    if mark.note:
        body += _tail(mark.note, (x0 if left else x0 + long, y), size, left)
    return f'<g class="weld" data-weld="{escape(mark.name)}">{body}</g>'


def _part(kind: str, body: str) -> str:
    return f'<g data-part="{kind}">{body}</g>'


def _elementary(kind: WeldKind, x: float, y: float, size: float, down: bool = False) -> str:
    """The weld's own sign, standing on the line or hanging from it; a fillet's upright leg is
    always on the left."""
    high = size if down else -size
    if kind == "fillet":
        return line([(x, y), (x, y + high), (x + size, y)], size, weight=0.1)
    if kind == "single-v":
        return line([(x, y + high), (x + size / 2, y), (x + size, y + high)], size, weight=0.1)
    if kind == "backing":
        turns = [math.pi * i / 12 for i in range(13)]
        bow = [
            (x + (1 - math.cos(turn)) * size / 2, y + high / 2 * math.sin(turn)) for turn in turns
        ]
        return line(bow, size, weight=0.1)
    sides = (x + 0.3 * size, x + 0.7 * size)
    return "".join(line([(at, y), (at, y + high)], size, weight=0.1) for at in sides)


def _tail(note: str, end: XY, size: float, left: bool) -> str:
    way = -0.6 * size if left else 0.6 * size
    fork = [(end[0] + way, end[1] - 0.6 * size), end, (end[0] + way, end[1] + 0.6 * size)]
    at = (end[0] + 1.3 * way, end[1] + 0.35 * size)
    return _part("tail", line(fork, size) + words(at, note, size, "end" if left else "start"))
