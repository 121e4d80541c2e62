"""A plate for the machine, from its layout and cuts: SVG in millimetres of paper, black on white.

Parts are grey, cuts are lines, leads thin with a dot where the torch pierces, tabs thick strokes
across the cut, pieces to keep dashed, the margin dotted, cuts through the grid dash and dot.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from platewheel.cli.papers.drawings.plan.frame import Frame
from platewheel.cli.papers.drawings.plan.numbers import CROSS_MM, Label, centres
from platewheel.nesting.cutting.part_cuts import PartCuts
from platewheel.nesting.stock.layout import Sheet
from platewheel.parts.geometry.outline import (
    Line,
    Point,
    polygon,
    segments,
)

AXIS_MM, ARROW_MM, OFF_MM = 16.0, 2.0, 4.5  # of paper: axes, their heads, beside the plate
DOT_MM, TAB_MM = 0.32, 0.65
STYLES = {
    "edge": 'fill="#fff" stroke="#000" stroke-width="0.45"',
    "part": 'fill="#dcdcdc" fill-rule="evenodd" stroke="none"',
    "cut": 'fill="none" stroke="#000" stroke-width="0.2"',
    "lead": 'fill="none" stroke="#000" stroke-width="0.15"',
    "tab": 'fill="none" stroke="#000" stroke-width="0.4"',
    "mark": 'fill="none" stroke="#000" stroke-width="0.18"',
    "margin": 'fill="none" stroke="#666" stroke-width="0.18" stroke-dasharray="0.3 0.9"',
    "grid": 'fill="none" stroke="#000" stroke-width="0.2" stroke-dasharray="3 0.8 0.4 0.8"',
    "kept": 'fill="none" stroke="#000" stroke-width="0.4" stroke-dasharray="1.8 1.1"',
    "axis": 'fill="#000" stroke="#000" stroke-width="0.35"',
    "points at": 'fill="none" stroke="#000" stroke-width="0.1"',
}


@dataclass(frozen=True)
class PlateLines:
    """What is drawn on a plate."""

    sheet: Sheet
    parts: Sequence[PartCuts]
    margin_mm: float
    kept: Sequence[Sequence[Point]] = ()  # corners of pieces to keep, and of their holes
    grid: Sequence[Line] = ()
    numbers: Sequence[Label] = ()


def plate_picture(lines: PlateLines, frame: Frame) -> str:
    """The SVG; its numbers and words are set by the page, at the places of `frame`."""
    sheet = lines.sheet
    rings = [polygon(ring) for ring in (sheet.corners, *sheet.holes)]
    cuts = [cut for part in lines.parts for cut in part.cuts]
    leads = [lead for cut in cuts for lead in (cut.lead_in, cut.lead_out) if lead]
    body = [
        _group("edge", (frame.path(ring) for ring in rings)),
        _group("margin", _margin(sheet, lines.margin_mm, frame)),
        _group("part", (_body(part, frame) for part in lines.parts)),
        _group("grid", (frame.path((line,), closed=False) for line in lines.grid)),
        _group("cut", (frame.path(cut.path, closed=cut.closed) for cut in cuts)),
        _group("lead", (frame.path((lead,), closed=False) for lead in leads)),
        _dots(frame.at(cut.lead_in.start) for cut in cuts if cut.lead_in),
        _group("tab", (stroke for part in lines.parts for stroke in _tabs(part, frame))),
        _group("mark", (cross for part in lines.parts for cross in _crosses(part, frame))),
        _group("kept", (frame.path(polygon(ring)) for ring in lines.kept)),
        _group("points at", (_pointer(number) for number in lines.numbers)),
        _axes(frame),
    ]
    wide, high = frame.size_mm
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.3f}mm" height="{high:.3f}mm" '
        f'viewBox="0 0 {wide:.3f} {high:.3f}">{"".join(body)}</svg>'
    )


def _pointer(number: Label) -> str:
    """The line from a number that stands beside its part."""
    return f"M{number.x_mm} {number.y_mm}L{number.to[0]} {number.to[1]}" if number.to else ""


def _group(look: str, paths: Iterable[str]) -> str:
    data = "".join(f'<path d="{path}"/>' for path in paths if path)
    return f"<g {STYLES[look]}>{data}</g>" if data else ""


def _body(part: PartCuts, frame: Frame) -> str:
    loops = (part.placement.outline, *part.placement.holes)
    return "".join(frame.path(loop) for loop in loops)


def _dots(spots: Iterable[Point]) -> str:
    return "".join(f'<circle cx="{x:.3f}" cy="{y:.3f}" r="{DOT_MM}"/>' for x, y in spots)


def _margin(sheet: Sheet, margin_mm: float, frame: Frame) -> Iterator[str]:
    """The line that no finished part crosses."""
    import shapely

    inside = shapely.Polygon(sheet.corners, sheet.holes).buffer(-margin_mm, join_style="mitre")
    for piece in shapely.get_parts(inside):
        for ring in (piece.exterior, *piece.interiors):
            if not ring.is_empty:
                yield frame.path(polygon([(x, y) for x, y in list(ring.coords)[:-1]]))


def _tabs(part: PartCuts, frame: Frame) -> Iterator[str]:
    """A stroke across each opening between two stretches of an outline."""
    runs = [segments(cut.path) for cut in part.cuts if not (cut.closed or cut.shares)]
    for here, after in zip(runs, [*runs[1:], *runs[:1]], strict=True):
        (x, y), (u, v) = frame.at(here[-1].end), frame.at(after[0].start)
        wide = math.hypot(u - x, v - y)
        if wide < 1e-4:  # where the outline begins there is no tab
            continue
        dx, dy = -(v - y) / wide * TAB_MM, (u - x) / wide * TAB_MM
        x, y = (x + u) / 2, (y + v) / 2
        yield f"M{x - dx:.3f} {y - dy:.3f}L{x + dx:.3f} {y + dy:.3f}"


def _crosses(part: PartCuts, frame: Frame) -> Iterator[str]:
    for centre in centres(part.placement):
        x, y = frame.at(centre)
        across = f"M{x - CROSS_MM:.3f} {y:.3f}h{2 * CROSS_MM}"
        yield f"{across}M{x:.3f} {y - CROSS_MM:.3f}v{2 * CROSS_MM}"


def _axes(frame: Frame) -> str:
    """Arrows along x and y beside the corner 0, 0, and a dot on it."""
    x, y = frame.at((0.0, 0.0))
    left, low, head = x - OFF_MM, y + OFF_MM, ARROW_MM
    lines = f"M{left:.3f} {y:.3f}v{-AXIS_MM}M{x:.3f} {low:.3f}h{AXIS_MM}"
    heads = (
        f"M{left:.3f} {y - AXIS_MM - head:.3f}l{-head / 3:.3f} {head}h{2 * head / 3:.3f}Z"
        f"M{x + AXIS_MM + head:.3f} {low:.3f}l{-head} {-head / 3:.3f}v{2 * head / 3:.3f}Z"
    )
    spot = f'<circle cx="{x:.3f}" cy="{y:.3f}" r="1.1"/>'
    return f'<g {STYLES["axis"]}><path d="{lines}{heads}"/>{spot}</g>'
