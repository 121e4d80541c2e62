"""Entities of a DXF drawing as runs of lines and arcs in mm; curves of other kinds by arcs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Any

from platewheel.nesting.drawings.closed_loops import Corner, Run
from platewheel.nesting.drawings.curve_arcs import CurveError
from platewheel.nesting.drawings.curves import curve_corners, require_flat
from platewheel.nesting.drawings.opened import with_letters

Drawn = tuple[Any, str]  # an entity and its layer

FAR_MM = 1e8  # further off the origin, numbers lose the hundredths
NO_NUMBER = "with NaN or infinity among its numbers"
CURVES = ("ELLIPSE", "SPLINE")
DRAWN = ("LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE", *CURVES)
WORDS = (  # say something about the part, are none of its edges
    *("TEXT", "MTEXT", "ATTRIB", "ATTDEF", "POINT", "DIMENSION", "ARC_DIMENSION", "LEADER"),
    *("MULTILEADER", "MLEADER", "TOLERANCE", "HATCH", "IMAGE", "WIPEOUT", "VIEWPORT"),
    *("XLINE", "RAY", "ACAD_TABLE", "LARGE_RADIAL_DIMENSION"),
)


class DrawnError(ValueError):
    """An entity that has no lines in the plane; says why."""


def flat_entities(entities: Iterable[Any], layer: str | None = None) -> Iterator[Drawn]:
    """(entity, layer) of all entities, blocks taken apart; layer 0 in a block is the block's own.

    Only of drawings whose blocks have been counted.
    """
    for entity in entities:
        home = _home(entity, layer)
        if entity.dxftype() != "INSERT":
            yield entity, home
            continue
        yield from ((attribute, _home(attribute, home)) for attribute in entity.attribs)
        for one in entity.multi_insert() if entity.mcount > 1 else [entity]:
            yield from flat_entities(one.virtual_entities(), home)


def _home(entity: Any, layer: str | None) -> str:
    own = with_letters(str(entity.dxf.get("layer", "0")))
    return layer if layer is not None and own == "0" else own


def drawn_runs(entity: Any, unit_mm: float) -> Run:
    """The entity as lines and arcs, a point as one corner.

    Raises: DrawnError for what lies across the plane or nowhere.
    """
    try:
        run = _run(entity, unit_mm)
    except DrawnError:
        raise
    except CurveError as error:
        raise DrawnError(f"{entity.dxftype()} {error}") from error
    except Exception as error:  # damaged numbers can upset the library in any way
        raise DrawnError(f"{entity.dxftype()} that cannot be drawn") from error
    if not all(math.isfinite(number) for corner in run.corners for number in corner):
        raise DrawnError(f"{entity.dxftype()} {NO_NUMBER}")
    if not all(abs(number) <= FAR_MM for corner in run.corners for number in corner):
        raise DrawnError(f"{entity.dxftype()} that lies beyond {FAR_MM:g} mm")
    return run


def _run(entity: Any, unit_mm: float) -> Run:
    from ezdxf.upright import upright

    kind = entity.dxftype()
    if kind != "LINE":  # mirrored planes are turned face up; a line's points are true ones
        upright(entity)
        normal = entity.dxf.get("extrusion", (0, 0, 1))
        if abs(normal[0]) > 1e-9 or abs(normal[1]) > 1e-9 or normal[2] <= 0:
            raise DrawnError(f"{kind} that does not lie in the xy plane")
    if kind == "POINT":
        at = entity.dxf.location
        return Run(((at.x * unit_mm, at.y * unit_mm, 0.0),))
    if kind in ("CIRCLE", "ARC"):
        return _round(entity, unit_mm)
    if kind == "LWPOLYLINE":
        corners = [(x * unit_mm, y * unit_mm, b) for x, y, b in entity.get_points("xyb")]
        return Run(tuple(corners), bool(entity.closed))
    if kind == "POLYLINE" and entity.is_2d_polyline:
        vertices = [v for v in entity.vertices if not v.dxf.flags & 16]  # 16: frame of a spline
        corners = [
            (v.dxf.location.x * unit_mm, v.dxf.location.y * unit_mm, float(v.dxf.bulge))
            for v in vertices
        ]
        return Run(tuple(corners), bool(entity.is_closed))
    if kind in CURVES:
        _near(entity, unit_mm)
        return Run(curve_corners(entity, unit_mm))
    points, closed = _points(entity)
    require_flat([point.z for point in points], unit_mm)
    return Run(tuple((p.x * unit_mm, p.y * unit_mm, 0.0) for p in points), closed)


def _points(entity: Any) -> tuple[list[Any], bool]:
    """Corners of straight lines, and whether they close."""
    kind = entity.dxftype()
    if kind == "LINE":
        return [entity.dxf.start, entity.dxf.end], False
    if kind == "POLYLINE" and entity.is_3d_polyline:
        vertices = [v for v in entity.vertices if not v.dxf.flags & 16]
        return [v.dxf.location for v in vertices], bool(entity.is_closed)
    raise DrawnError(f"{kind} entities, which are no outline")


def _near(entity: Any, unit_mm: float) -> None:
    """Raises: DrawnError for a curve so large that its arcs would have no end."""
    if entity.dxftype() == "SPLINE":
        points = [*entity.control_points, *entity.fit_points]
    else:
        points = [entity.dxf.center, entity.dxf.major_axis]
    if not all(math.isfinite(float(n)) for point in points for n in point):
        raise DrawnError(f"{entity.dxftype()} {NO_NUMBER}")
    if not all(abs(float(n)) * unit_mm <= FAR_MM for point in points for n in point):
        raise DrawnError(f"{entity.dxftype()} that lies beyond {FAR_MM:g} mm")


def _round(entity: Any, unit_mm: float) -> Run:
    """A circle, or an arc in pieces of at most half a turn."""
    x, y = entity.dxf.center.x * unit_mm, entity.dxf.center.y * unit_mm
    radius = abs(entity.dxf.radius) * unit_mm
    first, turn = 0.0, 360.0
    if entity.dxftype() == "ARC":
        first = entity.dxf.start_angle
        if not (math.isfinite(first) and math.isfinite(entity.dxf.end_angle)):
            raise DrawnError(f"ARC {NO_NUMBER}")
        turn = (entity.dxf.end_angle - first) % 360 or 360.0
    pieces = max(1, math.ceil(turn / 180 - 1e-9))
    bulge = math.tan(math.radians(turn / pieces) / 4)
    corners: list[Corner] = []
    for i in range(pieces + 1):
        angle = math.radians(first + turn * i / pieces)
        corners.append((x + radius * math.cos(angle), y + radius * math.sin(angle), bulge))
    whole = turn == 360.0
    return Run(tuple(corners[:-1] if whole else corners), whole)
