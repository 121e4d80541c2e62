"""The frame of a chart for a page (SVG): two axes, round values beside them, their names."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

WIDTH, HEIGHT, LEFT, BOTTOM, EDGE = 640, 320, 64, 44, 14
INK = "#1c2226"
HALO = 'stroke="#fff" stroke-width="3" paint-order="stroke"'  # text readable over marks


@dataclass(frozen=True)
class Chart:
    """What the axes run from and to, and their names."""

    along: tuple[float, float]
    up: tuple[float, float]
    along_name: str
    up_name: str

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A point's place in the picture, px."""
        wide, high = WIDTH - LEFT - EDGE, HEIGHT - BOTTOM - EDGE
        along = (x - self.along[0]) / (self.along[1] - self.along[0])
        up = (y - self.up[0]) / (self.up[1] - self.up[0])
        return LEFT + along * wide, HEIGHT - BOTTOM - up * high

    def drawn(self, marks: str, label: str) -> str:
        """The picture: the marks in the frame, with a label for those who cannot see it."""
        axes = f'<path d="M{LEFT} {EDGE}V{HEIGHT - BOTTOM}H{WIDTH - EDGE}" {line()}/>'
        ticks = "".join(
            f'<text x="{self.at(value, self.up[0])[0]:.1f}" y="{HEIGHT - BOTTOM + 16}" '
            f'text-anchor="middle">{value:g}</text>'
            for value in round_values(self.along)
        ) + "".join(
            f'<text x="{LEFT - 6}" y="{self.at(self.along[0], value)[1] + 4:.1f}" '
            f'text-anchor="end">{value:g}</text>'
            for value in round_values(self.up)
        )
        names = (
            f'<text x="{(LEFT + WIDTH) / 2}" y="{HEIGHT - 6}" text-anchor="middle">'
            f"{escape(self.along_name)}</text>"
            f'<text x="{LEFT + 6}" y="{EDGE + 10}" {HALO}>{escape(self.up_name)}</text>'
        )
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
            f'font-family="sans-serif" font-size="12" role="img" aria-label="{escape(label)}">'
            f"{axes}{ticks}{marks}{names}</svg>"
        )

    def level(self, y: float, words: str) -> str:
        """A dashed line across at a value, with words at its end."""
        high = self.at(self.along[0], y)[1]
        return (
            f'<path d="M{LEFT} {high:.1f}H{WIDTH - EDGE}" {line()} stroke-dasharray="6 4"/>'
            f'<text x="{WIDTH - EDGE}" y="{high - 5:.1f}" text-anchor="end" {HALO}>'
            f"{escape(words)}</text>"
        )


def line(width: float = 1) -> str:
    """Attributes of an inked line."""
    return f'fill="none" stroke="{INK}" stroke-width="{width:g}"'


def span(values: Sequence[float]) -> tuple[float, float]:
    """From the least to the largest value, with some room at both ends. Raises: ValueError
    without values."""
    low, high = min(values), max(values)
    room = 0.06 * (high - low) or 1.0
    return low - room, high + room


def round_values(ends: tuple[float, float]) -> list[float]:
    """Round values inside a span, three to nine of them."""
    rough = (ends[1] - ends[0]) / 8
    power = 10 ** math.floor(math.log10(rough))
    step = next(k * power for k in (1, 2, 5, 10) if k * power >= rough * 0.999)
    first = math.ceil(ends[0] / step)
    return [step * k for k in range(first, math.floor(ends[1] / step) + 1)]
