"""Whether a point lies inside an outline of very many segments: all of them seen at once."""

from __future__ import annotations

import math

import numpy as np

from platewheel.nesting.geometry.near import known_arcs, known_ends
from platewheel.parts.geometry.outline import Circle, Loop, Point, contains

MANY = 100  # segments


def inside(loop: Loop, point: Point) -> bool:
    """`contains`, as exact: by the angles through which true lines and arcs are seen."""
    if isinstance(loop, Circle) or len(loop) < MANY:
        return contains(loop, point)
    ax, ay, bx, by = (known_ends(loop) - (*point, *point)).T
    swings = np.arctan2(ax * by - bx * ay, ax * bx + ay * by)
    numbers, arcs = known_arcs(loop)
    within = np.hypot(*(arcs[:, :2] - point).T) < arcs[:, 2]
    if within.any():  # the view turns one way all along: see `contains`
        at, sweeps = numbers[within], arcs[within, 3]
        turns = np.arctan2(by[at], bx[at]) - np.arctan2(ay[at], ax[at])
        ways = np.where(sweeps > 0, 1.0, -1.0)
        swings[at] = ways * ((ways * turns) % (2 * math.pi))
    return bool(abs(swings.sum()) > math.pi)
