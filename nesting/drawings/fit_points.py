"""A spline that a drawing gives by the points it runs through, not by its control points."""

from __future__ import annotations

from typing import Any


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
