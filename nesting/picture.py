"""A picture of a cutting file, drawn from the DXF itself: SVG with true arcs, readable in grey."""

from __future__ import annotations

import math
from html import escape
from pathlib import Path
from typing import Any

STYLES = {  # layer -> stroke or text look; line kinds differ by more than colour
    "sheet-edge": "fill:#f4f4f1;stroke:#777",
    "cut-outline": "fill:#c9d3da;stroke:#1f2d36",
    "cut-hole": "fill:#f4f4f1;stroke:#1f2d36",
    "lead": "fill:none;stroke:#b0421f",
    "mark": "fill:none;stroke:#47626f",
}
DRAWN = ("sheet-edge", "cut-outline", "cut-hole", "mark", "lead")  # from the back to the front


def dxf_picture(path: Path, title: str) -> str:
    """SVG element of a drawing's modelspace; sized by its frame, one unit a millimetre."""
    import ezdxf

    space = ezdxf.readfile(path).modelspace()
    x0, y0, x1, y1 = _frame(space)
    pen = 0.0016 * max(x1 - x0, y1 - y0)  # as wide on a small blank's picture as on a sheet's
    body = []
    for layer in DRAWN:
        shapes = "".join(_shape(entity) for entity in space.query(f'*[layer=="{layer}"]'))
        body.append(f'<g style="{STYLES[layer]}" stroke-width="{pen:.2f}">{shapes}</g>')
    texts = "".join(_text(entity) for entity in space.query("TEXT"))
    body.append(f'<g style="fill:#26333a;font-family:sans-serif">{texts}</g>')
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{escape(title)}" '
        f'viewBox="{x0:.1f} {-y1:.1f} {x1 - x0:.1f} {y1 - y0:.1f}">'
        f"<title>{escape(title)}</title>{''.join(body)}</svg>"
    )


def _frame(space: Any) -> tuple[float, float, float, float]:
    from ezdxf import bbox

    box = bbox.extents(space.query('*[layer!="text"]'), fast=True)
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
    if kind == "LWPOLYLINE":
        return _polyline(list(entity.get_points("xyb")))
    return ""


def _polyline(points: list[tuple[float, float, float]]) -> str:
    steps = [f"M{points[0][0]:.3f} {-points[0][1]:.3f}"]
    for (ax, ay, bulge), (bx, by, _) in zip(points, [*points[1:], points[0]], strict=True):
        if bulge:
            radius = math.dist((ax, ay), (bx, by)) * (1 + bulge**2) / (4 * abs(bulge))
            sweep = math.degrees(4 * math.atan(bulge))
            steps.append(_arc(radius, sweep, (bx, by)))
        else:
            steps.append(f"L{bx:.3f} {-by:.3f}")
    return f'<path d="{"".join(steps)}Z"/>'


def _arc(radius: float, sweep_deg: float, end: Any) -> str:
    large, clockwise = int(abs(sweep_deg) > 180), int(sweep_deg < 0)
    return f"A{radius:.3f} {radius:.3f} 0 {large} {clockwise} {_xy(end)}"


def _xy(point: Any) -> str:
    return f"{point[0]:.3f} {-point[1]:.3f}"


def _text(entity: Any) -> str:
    alignment, at, _ = entity.get_placement()
    anchor = "middle" if "CENTER" in alignment.name else "start"
    x, y, turn = at.x, -at.y, -entity.dxf.rotation
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{entity.dxf.height * 1.3:.1f}" '
        f'text-anchor="{anchor}" dominant-baseline="{"central" if anchor == "middle" else "auto"}" '
        f'transform="rotate({turn:.2f} {x:.2f} {y:.2f})">{escape(entity.dxf.text)}</text>'
    )
