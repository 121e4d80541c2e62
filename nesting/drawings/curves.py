"""Ellipses and splines of a DXF drawing, walked along stretch by smooth stretch."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import Any

from platewheel.nesting.drawings.closed_loops import Corner
from platewheel.nesting.drawings.curve_arcs import CurveError, arcs_of, require_few_arcs, traced

FLAT_MM = 1e-3  # how far a drawing may leave its plane
LOOKED_AT = 4  # places in a stretch between two knots, before more are asked for
ROUND = 8  # the same on a quarter of an ellipse

Stretch = tuple[Callable[[Any], Any], Callable[[Any], Any], Any]  # place, slope, parameters


def curve_corners(entity: Any, unit_mm: float) -> tuple[Corner, ...]:
    """The curve as arcs within `CURVE_MM` of it, in mm; its true corners stay corners.

    Raises: CurveError where it leaves the plane, turns too often or takes too many arcs.
    """
    if is_straight(entity):
        points = entity.control_points
        require_flat([z for _, _, z in points], unit_mm)
        return tuple((float(x) * unit_mm, float(y) * unit_mm, 0.0) for x, y, _ in points)
    whole: list[Corner] = []
    stretches = _ellipse if entity.dxftype() == "ELLIPSE" else _spline
    for at, slope, params in stretches(entity, unit_mm):
        whole[-1:] = arcs_of(traced(at, slope, params))
        require_few_arcs(len(whole))
    return tuple(whole)


def is_straight(entity: Any) -> bool:
    """Whether a curve runs in straight lines from one of its control points to the next."""
    if entity.dxftype() != "SPLINE" or entity.dxf.degree != 1 or not len(entity.control_points):
        return False
    return all(weight > 0 for weight in entity.weights)


def require_flat(heights: Sequence[float], unit_mm: float) -> None:
    """Raises: CurveError where these do not lie in one plane."""
    rise = (max(heights) - min(heights)) * unit_mm if heights else 0.0
    if rise > FLAT_MM:
        raise CurveError(f"that rises {rise:.3g} mm off the xy plane")


def _ellipse(entity: Any, unit_mm: float) -> Iterator[Stretch]:
    """centre + cos t x half the major axis + sin t x half the minor one. Source: DXF reference,
    ELLIPSE."""
    import numpy as np

    tool = entity.construction_tool()
    require_flat([tool.major_axis.z, -tool.major_axis.z], unit_mm)
    centre = complex(tool.center.x, tool.center.y) * unit_mm
    major = complex(tool.major_axis.x, tool.major_axis.y) * unit_mm
    minor = complex(tool.minor_axis.x, tool.minor_axis.y) * unit_mm

    def at(t: Any) -> Any:
        return centre + np.cos(t) * major + np.sin(t) * minor

    def slope(t: Any) -> Any:
        return -np.sin(t) * major + np.cos(t) * minor

    first, last = tool.start_param, tool.start_param + tool.param_span
    quarter = math.pi / 2  # broken where it is widest, so that its size is true
    inner = [k * quarter for k in range(math.ceil(first / quarter), math.ceil(last / quarter))]
    ends = [first, *(t for t in inner if first + 1e-9 < t < last - 1e-9), last]
    for a, b in pairwise(ends):
        yield at, slope, np.linspace(a, b, ROUND + 1)


def _spline(entity: Any, unit_mm: float) -> Iterator[Stretch]:
    """From corner to corner: a knot as often repeated as the degree may be one."""
    import numpy as np

    tool = spline_of(entity)
    require_flat([point.z for point in tool.control_points], unit_mm)
    every = np.array(tool.knots())
    low, high = every[tool.degree], every[tool.count]  # the curve itself, if its ends are loose
    knots, times = np.unique(every[(every >= low) & (every <= high)], return_counts=True)
    inner = [i for i in range(1, len(knots) - 1) if times[i] >= tool.degree]
    require_few_arcs(len(inner))
    for a, b in pairwise([0, *inner, len(knots) - 1]):
        here = knots[a : b + 1]
        first, last = here[0], here[-1]
        within = a > 0 and b < len(knots) - 1
        piece, zero = (_piece(tool, every, first, last), first) if within else (tool, 0.0)
        params = [np.linspace(s, t, LOOKED_AT, endpoint=False) for s, t in pairwise(here)]
        before = last - 1e-9 * (last - first)  # a slope at a corner is that of the next stretch

        def at(t: Any, piece: Any = piece, zero: float = zero) -> Any:
            points = piece.points((t - zero).tolist())
            return np.array([complex(p.x, p.y) * unit_mm for p in points])

        def slope(t: Any, before: float = before, piece: Any = piece, zero: float = zero) -> Any:
            both = piece.derivatives((np.minimum(t, before) - zero).tolist(), 1)
            return np.array([complex(d.x, d.y) * unit_mm for _, d in both])

        yield at, slope, np.concatenate([*params, [last]])


def _piece(tool: Any, knots: Any, first: float, last: float) -> Any:
    """The spline between two of its corners, as one of its own that begins at 0: each look at the
    whole would go through all of it. A knot as often repeated as the degree parts the control
    points; the one at the corner is of both sides. Source: Piegl and Tiller, The NURBS Book, 5.2
    (from memory)."""
    import numpy as np
    from ezdxf.math import BSpline

    degree = tool.degree
    start = int(np.searchsorted(knots, first, side="right")) - degree - 1
    end = int(np.searchsorted(knots, last, side="left"))
    inner = (knots[start + degree + 1 : end] - first).tolist()
    length = float(last - first)
    return BSpline(
        tool.control_points[start:end],
        tool.order,
        [*[0.0] * (degree + 1), *inner, *[length] * (degree + 1)],
        tool.weights()[start:end] or None,
    )


def spline_of(entity: Any) -> Any:
    """The drawing library's spline of a SPLINE entity.

    Raises: ValueError or ZeroDivisionError where it has none.
    """
    if len(entity.control_points) or not len(entity.fit_points):
        return entity.construction_tool()
    tangents = None
    if entity.dxf.hasattr("start_tangent") and entity.dxf.hasattr("end_tangent"):
        tangents = entity.dxf.start_tangent, entity.dxf.end_tangent
    return _through(entity.fit_points, tangents)


def _through(points: Any, tangents: tuple[Any, Any] | None) -> Any:
    """Cubic, its parameter the chords' share of their sum, without curvature at the ends or with
    the drawn tangents there; a point drawn twice is one.

    That is a band of equations (Piegl and Tiller, The NURBS Book, 9.2, from memory); the drawing
    library solves them as a square, of gigabytes where there are thousands of points.
    """
    import numpy as np
    from ezdxf.math import BSpline
    from scipy.interpolate import make_interp_spline

    places = np.array([tuple(point) for point in points], dtype=float)
    chords = np.linalg.norm(np.diff(places, axis=0), axis=1)
    places, chords = places[np.append(True, chords > 0)], chords[chords > 0]
    if len(places) < 2:
        raise ValueError("no two points")
    along = np.append(0.0, np.cumsum(chords))
    ends: Any = ([(2, np.zeros(3))], [(2, np.zeros(3))])
    if tangents is not None:
        first, last = (np.array(tuple(one.normalize(along[-1]))) for one in tangents)
        ends = ([(1, first)], [(1, last)])
    found = make_interp_spline(along / along[-1], places, k=3, bc_type=ends)
    return BSpline(found.c.tolist(), order=4, knots=found.t.tolist())
