"""Is it a shape that can be cut: closed loops that cross nowhere, holes inside. mm.

Exact on arcs; nothing is sampled.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.plain_values import MOST
from platewheel.parts.geometry.meeting import Box, meetings, point_gap, segment_box
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    Segment,
    arc_pieces,
    area_mm2,
    contains,
    counter_clockwise,
    length_mm,
    segments,
)

CLOSED_MM = 1e-3  # ends this close are one corner: a fifth of what a cutting path may be off
PLACE = f"two finite numbers, (x, y) in mm, up to {MOST:g}"
ABOVE_0 = f"a finite number above 0 mm, up to {MOST:g}"
DEGREES = f"a finite number, degrees, up to {MOST:g}"
TOUCH_MM = 1e-7  # edges this close touch; pieces this short are none
MOST_TOLD = 5  # places told of one blank at which edges meet

Edge = tuple[Segment, Box, int, int, int]  # with its loop, its number there, and how many those are


def tidied(loop: Loop) -> Loop:
    """The same loop counter-clockwise, without pieces of no length, no arc above half a turn."""
    if isinstance(loop, Circle):
        return loop
    if not all(map(_plain, loop)):
        kept = (piece for piece in loop if piece.length_mm > TOUCH_MM)
        loop = tuple(
            part
            for piece in kept
            for part in (arc_pieces(piece) if isinstance(piece, Arc) else (piece,))
        )
    return counter_clockwise(loop)


def _plain(piece: Segment) -> bool:
    return piece.length_mm > TOUCH_MM and (isinstance(piece, Line) or abs(piece.sweep_deg) <= 180)


def shape_faults(name: str, outline: Loop, holes: tuple[Loop, ...]) -> tuple[Fault, ...]:
    """What keeps the loops from being cut, each fault with the blank, the loop and the place.

    What was asked last is remembered: a blank with another name or other marks asks again.
    """
    try:
        found = _known_faults(outline, holes)
    except TypeError:  # points that are lists, loops of other things: nothing to remember them by
        found = _faults(outline, holes)
    return tuple(fault.below(name) for fault in found)


def _faults(outline: Loop, holes: tuple[Loop, ...]) -> tuple[Fault, ...]:
    loops = (outline, *holes)
    keys = ("outline", *(f"holes[{i}]" for i in range(len(holes))))
    found = [fault for key, loop in zip(keys, loops, strict=True) for fault in _own(key, loop)]
    if not found:
        found += _between(keys, tuple(map(tidied, loops)))
    return tuple(found)


_known_faults = lru_cache(maxsize=256)(_faults)


def _own(key: str, loop: Loop) -> Iterator[Fault]:
    """Faults of one loop: what it is made of, whether it is closed."""
    if isinstance(loop, Circle):
        yield from _round_faults(key, loop)
        return
    odd = [fault for i, piece in enumerate(loop) for fault in piece_faults(f"{key}[{i}]", piece)]
    if odd or not loop:
        yield from odd or [Fault(key, (), "a Circle, or Lines and Arcs end to end", "polygon(...)")]
        return
    kept = [(i, piece) for i, piece in enumerate(loop) if piece.length_mm > TOUCH_MM]
    for k, (i, piece) in enumerate(kept):
        after, following = kept[(k + 1) % len(kept)]
        apart = math.dist(piece.end, following.start)
        if apart > CLOSED_MM:
            there = said(following.start)
            yield Fault(
                f"{key}[{i}]",
                place(piece.end),
                f"an end within {CLOSED_MM:g} mm of where {key}[{after}] starts; it is "
                f"{apart:.3g} mm off",
                f"end it at {there}, or join both by a Line",
            )


def _round_faults(key: str, one: Circle | Arc) -> Iterator[Fault]:
    if not is_point(one.centre):
        yield Fault(f"{key}.centre", one.centre, PLACE, "(0.0, 0.0)")
    if not (is_finite(one.radius_mm) and one.radius_mm > TOUCH_MM):
        yield Fault(f"{key}.radius_mm", one.radius_mm, ABOVE_0, "10.0")


def piece_faults(key: str, piece: object) -> Iterator[Fault]:
    """What is wrong with the numbers of a Line or an Arc, or with what is neither."""
    if isinstance(piece, Line):
        for end, at in (("start", piece.start), ("end", piece.end)):
            if not is_point(at):
                yield Fault(f"{key}.{end}", at, PLACE, "(0.0, 0.0)")
    elif isinstance(piece, Arc):
        yield from _round_faults(key, piece)
        if not is_finite(piece.start_deg):
            yield Fault(f"{key}.start_deg", piece.start_deg, DEGREES, "0.0")
        if not (is_finite(piece.sweep_deg) and abs(piece.sweep_deg) <= 360):
            allowed = "a number from -360 to 360 degrees"
            yield Fault(f"{key}.sweep_deg", piece.sweep_deg, allowed, "180.0")
    else:
        yield Fault(key, piece, "a Line or an Arc", "Line((0.0, 0.0), (10.0, 0.0))")


def is_finite(number: object) -> bool:
    """Whether it is a number, and none out of all measure."""
    try:
        sound = math.isfinite(number)  # type: ignore[arg-type]
        return sound and abs(number) <= MOST and not isinstance(number, bool)  # type: ignore[arg-type]
    except (TypeError, OverflowError):
        return False


def is_point(at: object) -> bool:
    """Whether it is (x, y), both finite."""
    return isinstance(at, tuple) and len(at) == 2 and all(map(is_finite, at))


def _between(keys: Sequence[str], loops: Sequence[Loop]) -> list[Fault]:
    """Faults of closed loops: an edge that meets another, no area, holes that are none."""
    found = [
        Fault(key, f"{area_mm2(loop):.3g} mm2", "a loop that encloses an area", "draw it wider")
        for key, loop in zip(keys, loops, strict=True)
        if area_mm2(loop) <= CLOSED_MM * length_mm(loop)
    ]
    round_ones = all(isinstance(loop, Circle) for loop in loops)
    for i, j, at in _round_meetings(loops) if round_ones else _crossings(loops):
        if len(found) >= MOST_TOLD:
            break
        where = "itself" if i == j else keys[i]
        allowed = f"edges that neither cross nor touch {where}"
        fault = Fault(keys[j], place(at), allowed, f"part the edges at {said(at)}")
        found += [] if fault in found else [fault]
    if found:
        return found
    for j in range(1, len(loops)):
        at = segments(loops[j])[0].start
        if not contains(loops[0], at):
            found.append(Fault(keys[j], place(at), "a hole inside the outline", "move or drop it"))
        for i in range(1, len(loops)):
            if i != j and contains(loops[i], at):
                allowed = f"a hole with nothing in it; it lies in {keys[i]}"
                found.append(Fault(keys[j], place(at), allowed, "a Blank of its own for it"))
    return found


def _round_meetings(loops: Sequence[Loop]) -> Iterator[tuple[int, int, Point]]:
    """Circles that meet: numbers of both, and a point of the second next to the first."""
    for j, other in enumerate(loops):
        for i, one in enumerate(loops[:j]):
            assert isinstance(one, Circle)
            assert isinstance(other, Circle)
            (ax, ay), (bx, by) = one.centre, other.centre
            apart, a, b = math.hypot(bx - ax, by - ay), one.radius_mm, other.radius_mm
            if abs(a - b) - TOUCH_MM <= apart <= a + b + TOUCH_MM:
                out = math.atan2(by - ay, bx - ax)
                reach = min(a, apart + b)
                yield i, j, (ax + reach * math.cos(out), ay + reach * math.sin(out))


def _crossings(loops: Sequence[Loop]) -> Iterator[tuple[int, int, Point]]:
    """Places at which edges meet that should not, with the numbers of their loops, lower first."""
    edges: list[Edge] = []
    for n, loop in enumerate(loops):
        run = segments(loop)
        edges += ((piece, segment_box(piece), n, i, len(run)) for i, piece in enumerate(run))
    edges.sort(key=lambda edge: edge[1][0])
    open_ones: list[Edge] = []
    for edge in edges:  # a line sweeps the edges from the left, and each meets those it is over
        left, low, high = edge[1][0] - TOUCH_MM, edge[1][1] - TOUCH_MM, edge[1][3] + TOUCH_MM
        open_ones = [one for one in open_ones if one[1][2] >= left]
        for one in open_ones:
            if one[1][1] <= high and one[1][3] >= low:
                at = _meet(one, edge)
                if at is not None:
                    yield min(one[2], edge[2]), max(one[2], edge[2]), at
        open_ones.append(edge)


def _meet(one: Edge, other: Edge) -> Point | None:
    """Where two edges meet away from the corners that they share.

    Edges that run into each other smoothly may cross beside their corner by rounding: that is no
    fault while they stay within the joint (rise of an arc over a chord: c^2 / 8 r).
    """
    a, b, corners = one[0], other[0], []
    if one[2] == other[2]:
        if (one[3] + 1) % one[4] == other[3]:
            corners.append(b.start)
        if (other[3] + 1) % one[4] == one[3]:
            corners.append(a.start)
    bend = sum(1 / piece.radius_mm for piece in (a, b) if isinstance(piece, Arc))
    ends = [p for p in (a.start, a.end) if point_gap(p, b) <= TOUCH_MM]
    ends += [p for p in (b.start, b.end) if point_gap(p, a) <= TOUCH_MM]
    for at in (*meetings(a, b), *ends):
        near = min((math.dist(at, corner) for corner in corners), default=math.inf)
        if near > CLOSED_MM and (bend == 0 or near**2 / 8 * bend > CLOSED_MM):
            return at
    return None


def place(at: Point) -> Point:
    """A place as a fault tells it, mm."""
    return round(at[0], 3) + 0.0, round(at[1], 3) + 0.0


def said(at: Point) -> str:
    """A place in words, mm."""
    return f"({at[0]:.6g}, {at[1]:.6g})"
