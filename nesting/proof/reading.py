"""A cutting file read back: every entity in its order, whatever version wrote it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path as File
from typing import Any

from platewheel.nesting.proof.pieces import Path, Piece
from platewheel.parts.geometry.outline import Point

MILLIMETRES = 4  # $INSUNITS. Source: DXF reference, header variables; R12 has none
UP = (0.0, 0.0, 1.0)
CUTS = ("cut-hole", "cut-outline")
LAYERS = {  # name -> kinds of entity that may stand on it
    "sheet-edge": {"POLYLINE"},
    "mark": {"POINT", "LINE", "ARC", "POLYLINE"},
    "cut-hole": {"POLYLINE"},
    "cut-outline": {"POLYLINE"},
    "lead": {"LINE", "ARC"},
    "offcut": {"LINE", "POLYLINE"},
    "skeleton": {"LINE"},
    "text": {"TEXT"},
}


@dataclass(frozen=True)
class Drawn:
    """One entity; either kind of polyline is a POLYLINE, an ARC runs counter-clockwise."""

    kind: str
    layer: str
    at: Point
    path: Path = ()
    closed: bool = False
    words: str = ""


def read_sheet(file: File) -> tuple[tuple[Drawn, ...], list[str], Any]:
    """Entities of the modelspace in their order, what is wrong with the file as such, and the
    library's own reading of it."""
    import ezdxf

    try:
        drawing = ezdxf.readfile(file)
    except (OSError, ValueError, ezdxf.DXFError) as error:
        return (), [f"the file cannot be read: {error}"], None
    faults = [f"the file's audit says: {fault.message}" for fault in drawing.audit().errors]
    if drawing.dxfversion != "AC1009" and drawing.header.get("$INSUNITS") != MILLIMETRES:
        faults.append(f"$INSUNITS is {drawing.header.get('$INSUNITS')}, {MILLIMETRES} wanted: mm")
    entities = list(drawing.modelspace())
    flat = all(tuple(e.dxf.get("extrusion", UP)) == UP for e in entities)
    if not flat:
        faults.append("an entity is drawn on a plane of its own, seen from above wanted")
    drawn = tuple(_drawn(entity) for entity in entities)
    for one in drawn:
        x, y = one.at
        if one.layer not in LAYERS:
            faults.append(
                f"a {one.kind} at ({x:.3f}, {y:.3f}) on layer {one.layer}, not one of ours"
            )
        elif one.kind not in LAYERS[one.layer]:
            faults.append(
                f"a {one.kind} at ({x:.3f}, {y:.3f}) on layer {one.layer}, "
                f"{' or '.join(sorted(LAYERS[one.layer]))} wanted there"
            )
    return drawn, faults, drawing


def _drawn(entity: Any) -> Drawn:
    kind, layer = entity.dxftype(), entity.dxf.layer
    if kind == "LWPOLYLINE":
        corners = [(x, y, b) for x, y, _, _, b in entity]  # widths between
        return _polyline(layer, corners, bool(entity.closed))
    if kind == "POLYLINE":
        corners = [
            (v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices
        ]
        return _polyline(layer, corners, bool(entity.is_closed))
    if kind == "LINE":
        a, b = _xy(entity.dxf.start), _xy(entity.dxf.end)
        return Drawn(kind, layer, a, (Piece(a, b),))
    if kind in ("ARC", "CIRCLE"):
        path = _round(entity, whole=kind == "CIRCLE")
        return Drawn(kind, layer, path[0].start, path, kind == "CIRCLE")
    if kind == "POINT":
        return Drawn(kind, layer, _xy(entity.dxf.location))
    if kind == "TEXT":
        return Drawn(kind, layer, _xy(entity.get_placement()[1]), words=entity.dxf.text)
    return Drawn(kind, layer, (math.nan, math.nan))


def _polyline(layer: str, corners: list[tuple[float, float, float]], closed: bool) -> Drawn:
    after = [*corners[1:], corners[0]] if closed else corners[1:]
    pieces = [
        Piece((ax, ay), (bx, by), bulge)
        for (ax, ay, bulge), (bx, by, _) in zip(corners, after, strict=False)
        if (ax, ay) != (bx, by)
    ]
    return Drawn("POLYLINE", layer, corners[0][:2], tuple(pieces), closed)


def _round(entity: Any, *, whole: bool) -> Path:
    """An arc in two halves, so that no bulge is more than 1."""
    (x, y), radius = _xy(entity.dxf.center), entity.dxf.radius
    low = 0.0 if whole else math.radians(entity.dxf.start_angle)
    turn = math.tau
    if not whole:
        turn = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360)
    a, b, c = (
        (x + radius * math.cos(low + k * turn / 2), y + radius * math.sin(low + k * turn / 2))
        for k in range(3)
    )
    bulge = math.tan(turn / 8)
    return Piece(a, b, bulge), Piece(b, c, bulge)


def _xy(point: Any) -> Point:
    return float(point.x), float(point.y)
