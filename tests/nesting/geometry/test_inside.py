"""Inside an outline of very many segments, beside the plain way of one after the other."""

from __future__ import annotations

import math

from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry.gaps import LONG, loop_gap, segment_gap
from platewheel.nesting.geometry.inside import MANY, inside
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Segment,
    contains,
    polygon,
    reversed_loop,
    segments,
)

COUNT = MANY + 20


def gear(count: int = COUNT) -> Loop:
    """Half circles in turn out of and into a circle of 50 mm, and a line between two of them."""
    turns = [2 * math.pi * k / count for k in range(count)]
    corners = [(50 * math.cos(t), 50 * math.sin(t)) for t in turns]
    found: list[Segment] = []
    for k, (a, b) in enumerate(zip(corners, [*corners[1:], corners[0]], strict=True)):
        if k % 3 == 0:
            found.append(Line(a, b))
            continue
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        start = math.degrees(math.atan2(a[1] - middle[1], a[0] - middle[0]))
        found.append(Arc(middle, math.dist(a, b) / 2, start, 180.0 if k % 3 == 1 else -180.0))
    return tuple(found)


STAR = polygon(
    [
        ((50 if k % 2 else 20) * math.cos(t), (50 if k % 2 else 20) * math.sin(t))
        for k, t in enumerate(2 * math.pi * k / COUNT for k in range(COUNT))
    ]
)
LOOPS = [gear(), reversed_loop(gear()), STAR, reversed_loop(STAR), Circle((0.0, 0.0), 50.0)]
PLACES = st.tuples(st.floats(-60, 60), st.floats(-60, 60))
NEAR_EDGE = st.tuples(st.floats(46, 54), st.floats(0, 7)).map(
    lambda at: (at[0] * math.cos(at[1]), at[0] * math.sin(at[1]))
)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.sampled_from(LOOPS), PLACES | NEAR_EDGE)
def test_as_the_plain_way_has_it(loop: Loop, point: tuple[float, float]) -> None:
    assert len(segments(LOOPS[0])) > max(MANY, LONG)
    assert inside(loop, point) == contains(loop, point)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.sampled_from(LOOPS), PLACES | NEAR_EDGE, PLACES, st.sampled_from([0.5, 5.0, math.inf]))
def test_a_line_beside_many_segments_is_as_far_off_as_the_nearest(
    loop: Loop, start: tuple[float, float], end: tuple[float, float], enough: float
) -> None:
    line = Line(start, end)
    least = min(segment_gap(line, side) for side in segments(loop))
    assert loop_gap((line,), loop, enough) == min(least, enough)
