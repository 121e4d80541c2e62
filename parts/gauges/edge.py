"""The edge of a gauge: straight lines, and bites that clear its inward corners. mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.parts.gauges.gauge import Stuff
from platewheel.parts.geometry.outline import Arc, Line, Point, Segment

BITE_MM = 2.5  # across: a thin file or a saw's corner goes in; common practice, no source
BITE_KERFS = 1.5  # and the torch can run round it
BITE_SHARE = 1 / 3  # of the edge that it is cut out of, at most


@dataclass(frozen=True)
class Bite:
    """A half circle cut into the plate, from the stop before to this point."""

    to: Point


Stop = Point | Bite


def usual_bite_mm(stuff: Stuff) -> float:
    """Width of a bite where there is room: for a file, and for the torch."""
    return max(BITE_MM, BITE_KERFS * stuff.kerf_mm)


def bite_mm(stuff: Stuff, *rooms_mm: float) -> float:
    """The same beside edges of these lengths; 0 where one is too short for any."""
    width = usual_bite_mm(stuff)
    return width if width <= BITE_SHARE * min(rooms_mm) else 0.0


def closed(stops: Sequence[Stop]) -> tuple[Segment, ...]:
    """Outline through the stops, which run counter-clockwise; stops on one spot are one."""
    found: list[Segment] = []
    for before, stop in zip([stops[-1], *stops], stops, strict=False):
        start, end = _point(before), _point(stop)
        across = math.dist(start, end)
        if across < 1e-9:
            continue
        if isinstance(stop, Bite):
            middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            turn = math.degrees(math.atan2(start[1] - middle[1], start[0] - middle[0]))
            found.append(Arc(middle, across / 2, turn, -180.0))
        else:
            found.append(Line(start, end))
    return tuple(found)


def mirrored(stops: Sequence[Stop]) -> list[Stop]:
    """The stops on the other side of the y axis, in the order that keeps them
    counter-clockwise. Raises: ValueError where the first is a bite."""
    if isinstance(stops[0], Bite):
        raise ValueError("the first stop is where the others start from: no bite")
    back: list[Stop] = []
    bitten = False
    for stop in reversed(stops):
        x, y = _point(stop)
        back.append(Bite((-x, y)) if bitten else (-x, y))
        bitten = isinstance(stop, Bite)
    return back


def _point(stop: Stop) -> Point:
    return stop.to if isinstance(stop, Bite) else stop
