"""A picture of a cutting file, drawn from the DXF itself: SVG with true arcs, readable in grey."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from platewheel.nesting.files.file_layers import FileLayer, ours_again
from platewheel.nesting.files.file_units import read_in_mm
from platewheel.nesting.geometry.open_cuts import Corner, chained

if TYPE_CHECKING:
    from numpy.typing import NDArray

BODY = "fill:#c9d3da"
STYLES = {  # layer -> stroke or text look; line kinds differ by more than colour
    "sheet-edge": "fill:#f4f4f1;stroke:#777",
    "cut-outline": f"{BODY};stroke:#1f2d36",
    "tabbed": f"{BODY};stroke:none",
    "cut-hole": "fill:#f4f4f1;stroke:#1f2d36",
    "lead": "fill:none;stroke:#b0421f;stroke-linecap:round",
    "mark": "fill:none;stroke:#47626f",
    "offcut": "fill:none;stroke:#2f4a2f",
    "skeleton": "fill:none;stroke:#444",
    "straight-cut": "fill:none;stroke:#1f2d36",
}
DRAWN = (
    "sheet-edge",
    "cut-outline",
    "mark",
    "offcut",
    "skeleton",
    "straight-cut",
    "lead",
)  # back to front
PENS = {"lead": 1.3, "mark": 0.6}  # times the pen of the cuts
DASHES = {
    "skeleton": (7.0, 3.0, 1.0, 3.0),
    "straight-cut": (9.0, 3.0),
    "kept": (5.0, 4.0),
}  # in pens
LEAST_LETTER = 0.009  # of the picture's greater side: smaller words cannot be read in print

Offcut = tuple[Sequence[tuple[float, float]], str]  # corners, and words to write inside


def dxf_picture(
    path: Path,
    title: str,
    offcuts: Iterable[Offcut] = (),
    layers: Sequence[FileLayer] = (),
    drawing: Any = None,
) -> str:
    """SVG element of a drawing's modelspace; sized by its frame, one unit a millimetre.

    Pieces to keep are drawn dashed, with their words inside in place of the file's own. Reads
    R2000 and R12, in mm or inches, with our layers or as `layers` call them; or takes what was
    read of a file in mm and our layers.
    """
    if drawing is None:
        drawing = read_in_mm(path)
        ours_again(drawing, layers)
    space = drawing.modelspace()
    words = list(space.query("TEXT"))
    places = np.array([_place(text) for text in words]).reshape(-1, 6)
    x0, y0, x1, y1 = _frame(space)
    size = max(x1 - x0, y1 - y0)
    pen = 0.0016 * size  # as wide on a small blank's picture as on a sheet's
    body = []
    for layer in DRAWN:
        entities = list(space.query(f'*[layer=="{layer}"]'))
        if layer == "mark":
            entities = [one for one in entities if not _is_said(one, places)]
        if layer == "cut-outline":
            body += _bodies(entities, list(space.query('*[layer=="cut-hole"]')), pen)
            entities = [one for one in entities if _corners(one) and not _closed(one)]
        body.append(_group(layer, "".join(_shape(entity) for entity in entities), pen))
    kept = list(offcuts)
    body.append(_offcuts(kept, pen, size))
    words = [entity for entity in words if not _told_by(entity.dxf.text, kept)]
    texts = "".join(_text(entity, LEAST_LETTER * size) for entity in words)
    body.append(f'<g style="fill:#1c262b;font-family:sans-serif">{texts}</g>')
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{escape(title)}" '
        f'viewBox="{x0:.1f} {-y1:.1f} {x1 - x0:.1f} {y1 - y0:.1f}">'
        f"<title>{escape(title)}</title>{''.join(body)}</svg>"
    )


def _place(text: Any) -> tuple[float, ...]:
    """Where words stand: x and y of the middle of their line, cosine and sine of its direction,
    room along it and to its sides."""
    at, turn, high = text.get_placement()[1], math.radians(text.dxf.rotation), text.dxf.height
    half = len(text.dxf.text) * high / 2  # letters and tails
    return at.x, at.y, math.cos(turn), math.sin(turn), half, high


def _is_said(mark: Any, places: NDArray[np.float64]) -> bool:
    """Whether a mark is a stroke of words that stand as text in the same place: drawn once."""
    corners = _corners(mark)
    if not corners or _closed(mark):
        return False
    x0, y0, cos, sin, half, high = places.T
    x, y = corners[0][0] - x0, corners[0][1] - y0
    near = (np.abs(x * cos + y * sin) <= half) & (np.abs(y * cos - x * sin) <= high)
    return bool(near.any())


def _told_by(word: str, offcuts: Iterable[Offcut]) -> bool:
    """Whether a word is the name of a piece to keep, whole or its end, as its own words have it."""
    return any(words.endswith(word) or word.endswith(words) for _, words in offcuts)


def _group(layer: str, shapes: str, pen: float) -> str:
    if not shapes:
        return ""
    dash = " ".join(f"{n * pen:.2f}" for n in DASHES.get(layer, ()))
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    wide = pen * PENS.get(layer, 1.0)
    return f'<g style="{STYLES[layer]}" stroke-width="{wide:.2f}"{dashed}>{shapes}</g>'


def _offcuts(offcuts: Iterable[Offcut], pen: float, size: float) -> str:
    """Dashed outlines with words inside, as large as the piece lets them be."""
    shapes, words = [], []
    for corners, label in offcuts:
        line = "L".join(_xy(corner) for corner in corners)
        shapes.append(f'<path d="M{line}Z"/>')
        xs, ys = [c[0] for c in corners], [c[1] for c in corners]
        wide, tall = max(xs) - min(xs), max(ys) - min(ys)
        x, y, turn = (min(xs) + max(xs)) / 2, -(min(ys) + max(ys)) / 2, 0
        if tall > wide:
            wide, tall, turn = tall, wide, -90
        high = min(0.022 * size, 0.6 * tall, 1.6 * wide / max(1, len(label)))
        words.append(
            f'<text x="{x:.2f}" y="{y:.2f}" font-size="{high:.1f}" text-anchor="middle" '
            f'dominant-baseline="central" transform="rotate({turn} {x:.2f} {y:.2f})">'
            f"{escape(label)}</text>"
        )
    if not shapes:
        return ""
    dash = " ".join(f"{n * pen:.2f}" for n in DASHES["kept"])
    return (
        f'<g style="fill:none;stroke:#2f4a2f" stroke-width="{1.5 * pen:.2f}" '
        f'stroke-dasharray="{dash}">{"".join(shapes)}</g>'
        f'<g style="fill:#2f4a2f;font-family:sans-serif">{"".join(words)}</g>'
    )


def _frame(space: Any) -> tuple[float, float, float, float]:
    from ezdxf import bbox

    found = space.query('*[layer!="text"]')
    straight, others = [], []
    for entity in found:  # of strokes, which are many, the corners tell
        corners = _corners(entity)
        if corners and not any(bulge for _, _, bulge in corners):
            straight += corners
        else:
            others.append(entity)
    box = bbox.extents(others, fast=True)
    box.extend((x, y) for x, y, _ in straight)
    low = min((entity.dxf.insert.y for entity in space.query("TEXT")), default=0.0)
    return box.extmin.x - 8, min(box.extmin.y, low) - 8, box.extmax.x + 8, box.extmax.y + 8


def _shape(entity: Any) -> str:
    kind = entity.dxftype()
    if kind == "CIRCLE":
        centre = entity.dxf.center
        return f'<circle cx="{centre.x:.3f}" cy="{-centre.y:.3f}" r="{entity.dxf.radius:.3f}"/>'
    if kind == "LINE":
        return f'<path d="M{_xy(entity.dxf.start)}L{_xy(entity.dxf.end)}"/>'
    if kind == "ARC":
        sweep = (entity.dxf.end_angle - entity.dxf.start_angle) % 360
        start, end = entity.start_point, entity.end_point
        return f'<path d="M{_xy(start)}{_arc(entity.dxf.radius, sweep, end)}"/>'
    if kind == "POINT":
        at = entity.dxf.location
        return f'<path d="M{at.x - 3:.2f} {-at.y:.2f}h6M{at.x:.2f} {-at.y - 3:.2f}v6"/>'
    points = _corners(entity)
    if not points:
        return ""
    closed = _closed(entity)
    style = "" if closed else ' style="fill:none"'
    return f'<path{style} d="{_polyline(points, closed=closed)}"/>'


def _corners(entity: Any) -> list[Corner]:
    """x, y, bulge of each corner of a polyline of either version; none of other entities."""
    if entity.dxftype() == "LWPOLYLINE":
        return [(x, y, bulge) for x, y, _, _, bulge in entity]  # of a point: widths too
    if entity.dxftype() == "POLYLINE":
        return [
            (v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices
        ]
    return []


def _closed(entity: Any) -> bool:
    return bool(entity.closed if entity.dxftype() == "LWPOLYLINE" else entity.is_closed)


def _bodies(outlines: Sequence[Any], holes: Sequence[Any], pen: float) -> list[str]:
    """Parts and their holes, the large first: what lies in a hole is painted on it.

    Outlines with tabs are filled without a line across the tabs; their cuts are drawn later.
    """
    pieces = [_corners(e) for e in outlines if _corners(e) and not _closed(e)]
    found = [
        (_area(ring), "tabbed", f'<path d="{_polyline(ring, closed=True)}"/>')
        for ring in chained(pieces)
    ]
    for layer, entities in (("cut-outline", outlines), ("cut-hole", holes)):
        whole = (e for e in entities if not _corners(e) or _closed(e))
        found += [(_area(_flat(e)), layer, _shape(e)) for e in whole]
    found.sort(key=lambda one: -one[0])
    return [
        _group(layer, "".join(shape for _, _, shape in same), pen)
        for layer, same in itertools.groupby(found, key=lambda one: one[1])
    ]


def _flat(entity: Any) -> list[Corner]:
    """Corners of a closed shape, its arcs within a hundredth of their radius or so."""
    from ezdxf import path

    shape = path.make_path(entity)
    return [(at.x, at.y, 0.0) for at in shape.flattening(1.0, segments=8)]


def _area(ring: Sequence[Corner]) -> float:
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2


def _polyline(points: list[Corner], *, closed: bool) -> str:
    steps = [f"M{points[0][0]:.3f} {-points[0][1]:.3f}"]
    after = [*points[1:], points[0]] if closed else points[1:]
    for (ax, ay, bulge), (bx, by, _) in zip(points, after, strict=False):
        if bulge:
            radius = math.dist((ax, ay), (bx, by)) * (1 + bulge**2) / (4 * abs(bulge))
            sweep = math.degrees(4 * math.atan(bulge))
            steps.append(_arc(radius, sweep, (bx, by)))
        else:
            steps.append(f"L{bx:.3f} {-by:.3f}")
    return "".join(steps) + ("Z" if closed else "")


def _arc(radius: float, sweep_deg: float, end: Any) -> str:
    large, clockwise = int(abs(sweep_deg) > 180), int(sweep_deg < 0)
    return f"A{radius:.3f} {radius:.3f} 0 {large} {clockwise} {_xy(end)}"


def _xy(point: Any) -> str:
    return f"{point[0]:.3f} {-point[1]:.3f}"


def _text(entity: Any, least: float) -> str:
    alignment, at, _ = entity.get_placement()
    anchor = "middle" if "CENTER" in alignment.name else "start"
    x, y, turn = at.x, -at.y, -entity.dxf.rotation
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{max(entity.dxf.height * 1.3, least):.1f}" '
        f'text-anchor="{anchor}" dominant-baseline="{"central" if anchor == "middle" else "auto"}" '
        f'transform="rotate({turn:.2f} {x:.2f} {y:.2f})">{escape(entity.dxf.text)}</text>'
    )
