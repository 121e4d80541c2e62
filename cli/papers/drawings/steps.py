"""Small pictures of the steps: tacks in a star, quarters of the rim, pointer on the tread."""

from __future__ import annotations

import math

INK = 'stroke="#1c2226" fill="none" stroke-width="1.2"'


def _svg(body: str, title: str, width: int = 220, height: int = 210) -> str:
    return (
        f'<svg viewBox="0 0 {width} {height}" role="img" aria-label="{title}" '
        f'xmlns="http://www.w3.org/2000/svg"><title>{title}</title>{body}</svg>'
    )


def _at(angle_deg: float, radius: float, middle: float = 110.0) -> tuple[float, float]:
    """Point at an angle from 12 o'clock, clockwise."""
    turn = math.radians(angle_deg)
    return middle + radius * math.sin(turn), 105 - radius * math.cos(turn)


def _text(x: float, y: float, words: str, size: float = 11) -> str:
    return (
        f'<text x="{x:.1f}" y="{y + 0.35 * size:.1f}" font-size="{size:g}" text-anchor="middle" '
        f'fill="#1c2226" font-family="sans-serif">{words}</text>'
    )


def _circle(radius: float, middle: float = 110.0, style: str = INK) -> str:
    return f'<circle cx="{middle:g}" cy="105" r="{radius:g}" {style}/>'


def star_picture(order: list[int], seam: bool) -> str:
    """Places round a rim by number; bold in brackets: when each is tacked."""
    count = len(order)
    body = _circle(78) + _circle(20)
    if seam:
        body += '<path d="M110 20v14" stroke="#1c2226" stroke-width="3"/>'
        body += _text(110, 44, "seam", 9)
    for when, place in enumerate(order, 1):
        angle = 360 * (place - 0.5) / count
        x, y = _at(angle, 78)
        body += f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.5" fill="#1c2226"/>'
        body += _text(*_at(angle, 94), str(place), 12 if count <= 16 else 9)
        if count <= 16:
            body += _text(*_at(angle, 60), f"({when})", 9)
    return _svg(body, "Places of the tacks; in brackets: which comes when")


def quarters_picture(order: list[str]) -> str:
    """Field and gauge side, the runs as arrows with their turn in the sequence."""
    head = f"run-{len(order)}"  # two such pictures on a page: names of their own
    body = f'<defs><marker id="{head}" viewBox="0 0 6 6" refX="5" refY="3" markerWidth="6" '
    body += (
        'markerHeight="6" orient="auto"><path d="M0 0L6 3L0 6z" fill="#1c2226"/></marker></defs>'
    )
    sides = [side for side in "FG" if any(name.startswith(side) for name in order)]
    for number, side in enumerate(sides or [""]):
        middle = 110.0 + 220 * number
        sense = -1 if side == "G" else 1  # the wheel turned over about the upright
        body += _circle(20, middle)
        if side:
            body += _text(middle, 105, {"F": "field", "G": "gauge"}[side], 11)
        for quarter in range(4):
            x0, y0 = _at(sense * (90 * quarter + 6), 78, middle)
            x1, y1 = _at(sense * (90 * quarter + 82), 78, middle)
            sweep = 1 if sense > 0 else 0
            body += f'<path d="M{x0:.1f} {y0:.1f}A78 78 0 0 {sweep} {x1:.1f} {y1:.1f}" '
            body += f'stroke="#1c2226" fill="none" stroke-width="3" marker-end="url(#{head})"/>'
            name = f"{side}{quarter + 1}"
            at = sense * (90 * quarter + 45)
            body += _text(*_at(at, 93, middle), name, 12)
            body += _text(*_at(at, 56, middle), f"({order.index(name) + 1})", 11)
    words = "Quarters and the order of their runs, in brackets"
    return _svg(body, words, 220 * max(1, len(sides)))


def line_picture(order: list[str]) -> str:
    """Tacks along a flange piece, with their turns."""
    count, body = len(order), '<path d="M15 78Q110 20 205 78" stroke="#1c2226" fill="none" '
    body += 'stroke-width="3"/>'
    for when, name in enumerate(order, 1):
        share = (int(name) - 1) / (count - 1)
        x, y = 15 + 190 * share, 78 - 116 * share * (1 - share)
        body += f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="#1c2226"/>'
        body += _text(x, y - 14, name, 12) + _text(x, y + 16, f"({when})", 10)
    return _svg(body, "Tacks along a piece; in brackets: which comes when", 220, 110)


def pointer_picture(points: int) -> str:
    """Where to hold the pointer: against the tread and against the gauge edge."""
    body = _circle(70, 90) + _circle(12, 90)
    for point in range(points):
        body += _text(*_at(360 * point / points, 56, 90), str(point + 1), 10)
        (x0, y0), (x1, y1) = (_at(360 * point / points, r, 90) for r in (66, 70))
        body += f'<path d="M{x0:.1f} {y0:.1f}L{x1:.1f} {y1:.1f}" {INK}/>'
    body += f'<path d="M162 105h24M186 95v50h14" {INK}/><path d="M162 105l7 -4v8z" fill="#1c2226"/>'
    body += f'<rect x="178" y="145" width="34" height="14" {INK}/>' + _text(188, 82, "tread", 10)
    # beside it, the rim seen edge on with the second pointer
    body += f'<rect x="262" y="35" width="44" height="140" {INK}/>'
    body += f'<path d="M230 105h92" {INK} stroke-dasharray="8 3 2 3"/>'
    body += f'<path d="M309 60h26v98h14" {INK}/><path d="M308 60l7 -4v8z" fill="#1c2226"/>'
    body += f'<rect x="330" y="158" width="38" height="14" {INK}/>' + _text(
        349, 50, "gauge edge", 10
    )
    return _svg(body, "Pointer against the tread, then against the gauge edge", 385, 190)
