"""Keyway and screw holes of a hub or collar: its end, and the same from the side; to scale."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from platewheel.cli.papers.drawings.dimension_lines import (
    INK,
    between,
    leader,
    line,
    words,
)
from platewheel.parts.base.units import Units, length_words

DIA = "Ø"
SHARE = 0.075  # height of the letters over the hub's outside


@dataclass(frozen=True)
class _Hub:
    """What is drawn; mm. `key` is width and depth, nothing without one; a screw of 0 is none."""

    bore: float
    outside: float
    long: float
    key: tuple[float, float] | None
    screw: float
    from_end: float


def holes_picture(figures: Mapping[str, float], units: Units) -> str:
    """SVG element from the figures of the step `holes`, by name."""
    width = figures.get("keyway, width")
    hub = _Hub(
        bore=figures["bore"],
        outside=figures["outside of it"],
        long=figures["length of it"],
        key=None if width is None else (width, figures["keyway in the hub, depth"]),
        screw=figures.get("screw", 0.0),
        from_end=figures.get("from the end to the middle of the screws", 0.0),
    )
    s, r = SHARE * hub.outside, hub.outside / 2
    body = [*_end(hub, s, units), *_side(hub, s, 2 * r + 4 * s, units)]
    left, top = -r - 6 * s, -r - 4 * s
    right = 2 * r + 4 * s + max(hub.long + 2 * s, hub.from_end + 17 * s)
    wide, high = right - left, 2 * r + 8 * s
    title = "Keyway and screw holes: the end, and from the side"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{title}" '
        f'viewBox="{left:.1f} {top:.1f} {wide:.1f} {high:.1f}" font-family="sans-serif" '
        f'font-size="{s:.2f}" fill="{INK}"><title>{title}</title>{"".join(body)}</svg>'
    )


def _circle(radius: float, size: float) -> str:
    return (
        f'<circle cx="0" cy="0" r="{radius:.2f}" fill="none" stroke="{INK}" '
        f'stroke-width="{0.12 * size:.2f}"/>'
    )


def _end(hub: _Hub, s: float, units: Units) -> list[str]:
    """The end: bore, keyway on top, screws on top and a quarter turn on."""
    r, b = hub.outside / 2, hub.bore / 2
    drawn = [_circle(r, s), _circle(b, s)]
    if hub.key:
        half, deep = hub.key[0] / 2, b + hub.key[1]
        foot = (b**2 - half**2) ** 0.5
        slot = [(-half, -foot), (-half, -deep), (half, -deep), (half, -foot)]
        drawn.append(line(slot, s, weight=0.12))
        text = f"{length_words(hub.key[0], units)} x {length_words(hub.key[1], units)} deep"
        elbow = (-half - 2 * s, -r - 2.6 * s)
        drawn.append(leader("keyway", (-half, -deep), elbow, text, s, left=True))
    if hub.screw:
        half = hub.screw / 2
        for flat in (False, True):
            top = -(b + (hub.key[1] if hub.key and not flat else 0.0))
            for x in (-half, half):
                ends = [(x, -r), (x, top)]
                drawn.append(line([(-y, x) for x, y in ends] if flat else ends, s))
            middle = [(0.0, -r - 1.2 * s), (0.0, top + s)]
            drawn.append(line([(-y, x) for x, y in middle] if flat else middle, s, "2 0.4 0.3 0.4"))
    drawn.append(words((0, 0.35 * s), f"{DIA}{length_words(hub.bore, units)}", s, "middle"))
    return drawn


def _side(hub: _Hub, s: float, x0: float, units: Units) -> list[str]:
    """From the side: the hub's outline, its bore and keyway hidden, screws from its end."""
    r, b, x1 = hub.outside / 2, hub.bore / 2, x0 + hub.long
    box = [(x0, -r), (x1, -r), (x1, r), (x0, r), (x0, -r)]
    drawn = [line(box, s, weight=0.12), line([(x0 - s, 0), (x1 + s, 0)], s, "2 0.4 0.3 0.4")]
    hidden = [-b, b] + ([-b - hub.key[1]] if hub.key else [])
    drawn += [line([(x0, y), (x1, y)], s, "0.6 0.3") for y in hidden]
    if hub.screw:
        x = x0 + hub.from_end
        low = -b - (hub.key[1] if hub.key else 0.0)
        drawn += [line([(x + k * hub.screw / 2, -r), (x + k * hub.screw / 2, low)], s)
                  for k in (-1, 1)]  # fmt: skip
        drawn.append(
            f'<circle cx="{x:.2f}" cy="0" r="{hub.screw / 2:.2f}" fill="none" stroke="{INK}" '
            f'stroke-width="{0.12 * s:.2f}"/>'
        )
        drawn.append(line([(x, -r - 1.2 * s), (x, b)], s, "2 0.4 0.3 0.4"))
        text = f"2 x M{hub.screw:g}, {length_words(hub.from_end, units)} from the end"
        drawn.append(leader("screws", (x, -r), (x + 1.5 * s, -r - 2 * s), text, s, left=False))
    for x in (x0, x1):
        drawn.append(line([(x, r + 0.4 * s), (x, r + 2.5 * s)], s))
    long = length_words(hub.long, units)
    drawn.append(between("length", (x0, r + 2 * s), (x1, r + 2 * s), long, s))
    return drawn
