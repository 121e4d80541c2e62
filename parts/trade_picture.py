"""A scatter of cost against strength, as a picture for a page (SVG)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

WIDTH, HEIGHT, LEFT, BOTTOM, EDGE = 640, 320, 64, 44, 14


@dataclass(frozen=True)
class Dot:
    """A wheel: cost, load it is rated for (N), how it is drawn, its label."""

    cost: float
    load_n: float
    kind: str  # "tried", "best" (nothing cheaper is as strong) or "proposed"
    label: str = ""


def trade_picture(dots: Sequence[Dot], needed_n: float, unit: str) -> str:
    """Cost along, rating up, the load that must be carried as a dashed line; marks differ in
    shape, not in colour alone. Raises: ValueError without dots."""
    if not dots:
        raise ValueError("trade_picture: no dots; allowed: at least one")
    costs = _span([dot.cost for dot in dots])
    loads = _span([*(dot.load_n for dot in dots), needed_n])

    def at(cost: float, load: float) -> tuple[float, float]:
        along = (cost - costs[0]) / (costs[1] - costs[0])
        up = (load - loads[0]) / (loads[1] - loads[0])
        wide, high = WIDTH - LEFT - EDGE, HEIGHT - BOTTOM - EDGE
        return LEFT + along * wide, HEIGHT - BOTTOM - up * high

    marks = "".join(_mark(dot, *at(dot.cost, dot.load_n)) for dot in dots)
    line = at(costs[0], needed_n)[1]
    axes = (
        f'<path d="M{LEFT} {EDGE}V{HEIGHT - BOTTOM}H{WIDTH - EDGE}" fill="none" stroke="#1c2226"/>'
        f'<path d="M{LEFT} {line:.1f}H{WIDTH - EDGE}" stroke="#1c2226" stroke-dasharray="6 4"/>'
        f'<text x="{WIDTH - EDGE}" y="{line - 5:.1f}" text-anchor="end">must carry '
        f"{needed_n:.0f} N</text>"
    )
    ticks = "".join(
        f'<text x="{at(value, loads[0])[0]:.1f}" y="{HEIGHT - BOTTOM + 16}" '
        f'text-anchor="middle">{value:g}</text>'
        for value in _ticks(costs)
    ) + "".join(
        f'<text x="{LEFT - 6}" y="{at(costs[0], value)[1] + 4:.1f}" '
        f'text-anchor="end">{value:g}</text>'
        for value in _ticks(loads)
    )
    names = (
        f'<text x="{(LEFT + WIDTH) / 2}" y="{HEIGHT - 6}" text-anchor="middle">cost of a wheel, '
        f"estimated{', ' + escape(unit) if unit else ''}</text>"
        f'<text x="{LEFT + 6}" y="{EDGE + 10}">rated wheel load, N</text>'
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'font-family="sans-serif" font-size="12" role="img" aria-label="cost against rating">'
        f"{axes}{ticks}{names}{marks}</svg>"
    )


def _mark(dot: Dot, x: float, y: float) -> str:
    if dot.kind == "proposed":
        box = f'<rect x="{x - 6:.1f}" y="{y - 6:.1f}" width="12" height="12" fill="#1c2226"/>'
        return f'{box}<text x="{x + 9:.1f}" y="{y + 14:.1f}">{escape(dot.label)}</text>'
    fill = "#5d7a8c" if dot.kind == "best" else "#fff"
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{fill}" stroke="#1c2226"/>'


def _span(values: Sequence[float]) -> tuple[float, float]:
    low, high = min(values), max(values)
    room = 0.06 * (high - low) or 1.0
    return low - room, high + room


def _ticks(span: tuple[float, float]) -> list[float]:
    """Round values inside a span, three to eight of them."""
    rough = (span[1] - span[0]) / 5
    power = 10 ** math.floor(math.log10(rough))
    step = next(k * power for k in (1, 2, 5, 10) if k * power >= rough * 0.999)
    first = math.ceil(span[0] / step)
    return [step * k for k in range(first, math.floor(span[1] / step) + 1)]
