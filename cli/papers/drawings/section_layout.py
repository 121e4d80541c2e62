"""Where the dimensions of the section drawing stand: columns at both sides, stacks beside the
section, rows above and below. Nothing in here knows what a wheel is made for; it spaces."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from platewheel.cli.papers.drawings.dimension_lines import spread, text_width
from platewheel.parts.wheel.assembly import wheel_sections
from platewheel.parts.wheel.spec import WheelSpec

LETTERS = 0.04  # height of the letters over the radius of the flange tip
MOST = 0.05  # the same for wide wheels: larger letters would not go in beside the section


@dataclass(frozen=True)
class Frame:
    """Extent of the section (x = z, y = -r, mm) and the letters' height."""

    z0: float
    z1: float
    tip: float
    size: float


@dataclass(frozen=True)
class Item:
    """Something in a stack: where it would like to stand, its height and width, how to draw it
    at a height y."""

    want: float
    height: float
    width: float
    draw: Callable[[float], str]


def frame(spec: WheelSpec) -> Frame:
    """Frame of a wheel's section; wide wheels get letters by their width."""
    sections = wheel_sections(spec)
    z0 = min(z for _, section in sections for _, z in section)
    z1 = max(z for _, section in sections for _, z in section)
    tip = max(r for _, section in sections for r, _ in section)
    return Frame(z0, z1, tip, min(LETTERS * max(tip, 0.45 * (z1 - z0)), MOST * tip))


def stacked(items: list[Item], low: float, high: float) -> str:
    """The items drawn one below the other, each as near to where it wants as the others let."""
    order = sorted(items, key=lambda item: item.want)
    places = spread([i.want for i in order], [i.height for i in order], low, high)
    return "".join(item.draw(y) for item, y in zip(order, places, strict=True))


def stack_width(items: list[Item], size: float) -> float:
    """Room that a stack needs beside the section."""
    return max((item.width for item in items), default=0.0) + 2.5 * size


def outside_width(text: str, size: float) -> float:
    """Width of a text outside its arrows, with the arrow's tail."""
    return text_width(text, size) + 3.0 * size
