"""A turnout as a drawing (SVG): where each size of points and crossing is measured."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from platewheel.cli.papers.drawings.dimension_lines import (
    INK,
    between,
    leader,
    line,
    text_width,
    words,
)

XY = tuple[float, float]
SIZE = 8.5  # of the letters
UPPER, LOWER = 60.0, 110.0  # running edges of the straight way
TOE, HEEL, NOSE, END = 60.0, 160.0, 300.0, 400.0
WAY = 7.0  # flangeways as drawn
RAIL = 2.6


def turnout(sizes: Mapping[str, str], unit: str = "mm") -> str:
    """SVG element, not to scale, set for the straight way. `sizes` has what is printed: Fc, Fx, C,
    S, opening, heel, nose, G, in `unit`; what is missing is left out."""
    cross = math.sqrt((LOWER - UPPER) / _bend())  # along from the toe to the crossing
    at = TOE + cross
    body = [
        *_sleepers(),
        _rails([(0, LOWER), (END, LOWER)]),  # lower stock rail
        _rails([(0, UPPER), (TOE, UPPER), *_turned(UPPER, TOE, END)]),  # upper stock rail
        _rails([(TOE, UPPER + 1.2), (HEEL, UPPER), (at - 16, UPPER), *_wing(at, up=True)]),
        _rails(
            [(TOE, LOWER - 10), *_turned(LOWER, HEEL, at - 18), *_wing(at, up=False)]
        ),
        _rails([(at + 4, UPPER), (END, UPPER)]),  # the nose's two legs
        _rails(_turned(LOWER, at + 4, END)),
        _rails([(at - 45, LOWER - WAY - 3), (at - 36, LOWER - WAY), (at + 32, LOWER - WAY),
                (at + 41, LOWER - WAY - 3)], thin=True),
        _rails(_beside(at), thin=True),
        *_told(sizes, at, unit),
    ]  # fmt: skip
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="turnout" '
        f'viewBox="-6 -52 {END + 70:g} 216" font-family="sans-serif" font-size="{SIZE:g}" '
        f'fill="{INK}" stroke-linejoin="round"><title>A turnout, not to scale</title>'
        f"{''.join(body)}</svg>"
    )


def _bend() -> float:
    return (LOWER - UPPER) / (NOSE - TOE) ** 2


def _turned(y: float, low: float, high: float) -> list[XY]:
    """Points of a rail of the way that turns out, whose straight fellow is at `y`."""
    steps = 24
    xs = (low + (high - low) * k / steps for k in range(steps + 1))
    return [(x, y - _bend() * (x - TOE) ** 2) for x in xs]


def _slope(x: float) -> float:
    return -2 * _bend() * (x - TOE)


def _wing(at: float, *, up: bool) -> list[XY]:
    """The wing rail: where a rail ends before the nose and bends aside along the other leg."""
    if up:  # the straight rail turns along the leg that turns out, a flangeway above it
        foot = (at - 8, UPPER - WAY * 0.75)
        return [foot, (at + 34, UPPER - WAY + _slope(at) * 34 - 1)]
    return [(at - 6, UPPER + WAY * 0.9), (at + 36, UPPER + WAY)]


def _beside(at: float) -> list[XY]:
    """The check rail of the way that turns out, inside its upper rail."""
    xs = [at - 45, at - 36, at, at + 32, at + 41]
    more = [3.0, 0.0, 0.0, 0.0, 3.0]
    return [
        (x, UPPER - _bend() * (x - TOE) ** 2 + 1.4 * WAY + extra)
        for x, extra in zip(xs, more, strict=True)
    ]


def _rails(points: Sequence[XY], *, thin: bool = False) -> str:
    path = "L".join(f"{x:.2f} {y:.2f}" for x, y in points)
    weight = RAIL * (0.75 if thin else 1)
    return (
        f'<path d="M{path}" fill="none" stroke="{"#666" if thin else INK}" '
        f'stroke-width="{weight:.2f}"/>'
    )


def _sleepers() -> list[str]:
    found = []
    for k in range(17):
        x = 12 + 24.0 * k
        top = min(UPPER, UPPER - _bend() * max(x - TOE, 0.0) ** 2) - 12
        found.append(
            f'<path d="M{x:g} {top:.1f}V{LOWER + 12:g}" stroke="#e4e4e4" stroke-width="9"/>'
        )
    return found


def _fit(text: str, long: float) -> float:
    """Size of letters with which a text stands between the arrows of its dimension."""
    return min(SIZE, long / (text_width(text, 1.0) + 0.4))


def _told(sizes: Mapping[str, str], at: float, unit: str) -> list[str]:
    s = SIZE
    below = LOWER + 34
    tips: dict[str, tuple[str, XY, XY, bool]] = {
        "opening": ("open tongue", (TOE + 1, LOWER - 4.5), (TOE - 14, below), False),
        "heel": ("heel", (HEEL, LOWER - 4.5), (HEEL - 30, below), False),
        "Fc": ("Fc, check rail", (at - 24, LOWER - WAY / 2), (at - 70, below), False),
        "nose": ("nose", (at + 5, UPPER), (at + 76, UPPER - 12), False),
        "Fx": ("Fx, at the nose", (at + 16, UPPER + WAY / 2), (at + 56, LOWER - 30), False),
    }
    body = [
        leader(key, tip, elbow, f"{name} {sizes[key]}", s, left)
        for key, (name, tip, elbow, left) in tips.items()
        if key in sizes
    ]
    for key, (x, y) in {"C": (at + 8, UPPER), "S": (at + 28, UPPER + WAY)}.items():
        if key in sizes:
            told = f"{key} {sizes[key]}"
            body += [
                line([(x, LOWER - WAY), (x, y)], s),
                between(key, (x, LOWER - WAY), (x, y), told, _fit(told, LOWER - WAY - y)),
            ]
    if "G" in sizes:
        told = f"G {sizes['G']}"
        body.append(between("G", (20, LOWER), (20, UPPER), told, _fit(told, LOWER - UPPER)))
    body.append(words((0, LOWER + 50), f"{unit}; not to scale; set for the straight way", s))
    return body
