"""Ellipses and splines of a DXF drawing, walked along stretch by smooth stretch."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import Any

from platewheel.nesting.drawings.closed_loops import Corner
from platewheel.nesting.drawings.curve_arcs import CurveError, arcs_of, traced

FLAT_MM = 1e-3  # how far a drawing may leave its plane
LOOKED_AT = 4  # places in a stretch between two knots, before more are asked for
ROUND = 8  # the same on a quarter of an ellipse

Stretch = tuple[Callable[[Any], Any], Callable[[Any], Any], Any]  # place, slope, parameters


def curve_corners(entity: Any, unit_mm: float) -> tuple[Corner, ...]:
    """The curve as arcs within `CURVE_MM` of it, in mm; its true corners stay corners.

    Raises: CurveError where it leaves the plane or turns too often.
    """
    whole: list[Corner] = []
    stretches = _ellipse if entity.dxftype() == "ELLIPSE" else _spline
    for at, slope, params in stretches(entity, unit_mm):
        whole = [*whole[:-1], *arcs_of(traced(at, slope, params))]
    return tuple(whole)


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

    tool = entity.construction_tool()
    require_flat([point.z for point in tool.control_points], unit_mm)
    every = np.array(tool.knots())
    low, high = every[tool.degree], every[tool.count]  # the curve itself, if its ends are loose
    knots, times = np.unique(every[(every >= low) & (every <= high)], return_counts=True)
    inner = zip(knots[1:-1], times[1:-1], strict=True)
    corners = [low, *(knot for knot, n in inner if n >= tool.degree), high]
    for first, last in pairwise(corners):
        here = knots[(knots >= first) & (knots <= last)]
        params = [np.linspace(a, b, LOOKED_AT, endpoint=False) for a, b in pairwise(here)]
        before = last - 1e-9 * (last - first)  # a slope at a corner is that of the next stretch

        def at(t: Any) -> Any:
            return np.array([complex(p.x, p.y) * unit_mm for p in tool.points(t.tolist())])

        def slope(t: Any, before: float = before) -> Any:
            both = tool.derivatives(np.minimum(t, before).tolist(), 1)
            return np.array([complex(d.x, d.y) * unit_mm for _, d in both])

        yield at, slope, np.concatenate([*params, [last]])
