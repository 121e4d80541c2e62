"""Loose lines and arcs of a drawing chained into closed loops. mm.

Faults come as `Wrong`: what a sound drawing has, and what to do at which place.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from platewheel.nesting.drawings.joined_ends import gaps, joined_ends, walks
from platewheel.parts.base.so_many import so_many
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    Segment,
    arc_pieces,
    bounds,
    signed_area_mm2,
)

JOIN_MM = 0.05  # ends this close are one corner, unless the job says otherwise
SHORT_MM = 0.01  # shorter lines are left out; a tenth of the finest cut
SAME_CIRCLE_MM = 1e-3  # arcs whose centres and radii agree so closely make one circle
FLAT_MM = 1e-5  # an arc that rises less is a line
MOST_TOLD = 5  # places told of one kind of fault

Corner = tuple[float, float, float]  # x, y, bulge of the line or arc to the next corner
Wrong = tuple[str, str]  # what is allowed, what to try


@dataclass(frozen=True)
class Run:
    """Lines and arcs end to end. `closed`: the last corner leads back to the first."""

    corners: tuple[Corner, ...]
    closed: bool = False


@dataclass
class Found:
    """Loops of a drawing, each counter-clockwise, with all that is wrong or worth telling."""

    loops: list[Loop] = field(default_factory=list)
    wrong: list[Wrong] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def closed_loops(runs: Sequence[Run], unit_mm: float = 1.0, join_mm: float = JOIN_MM) -> Found:
    """Chain the runs into loops, ends within `join_mm` joined. `unit_mm` of the drawing, in
    which places are told."""
    found, open_runs = Found(), []
    rings: list[list[Corner]] = []
    short = 0
    for run in runs:
        corners = _spread(run)
        ends_meet = len(corners) > 2 and _apart(corners[0], corners[-1]) <= join_mm
        if run.closed and len(corners) > 1:
            rings.append(corners)
        elif ends_meet:
            rings.append(_ring([corners]))
        elif len(corners) > 1:
            open_runs.append(corners)
        else:
            short += 1
    drawn = {key for ring in rings for key in _key(ring, closed=True)}
    single, over = [], 0
    for corners in open_runs:
        if _key(corners, closed=False) <= drawn:
            over += 1
        else:
            single.append(corners)
    single, twice = _once(single, closed=False)
    rings += _chained(single, found, unit_mm, join_mm)
    rings, again = _once(rings, closed=True)
    if short:
        lines = so_many(short, "line or loop", "lines or loops")
        found.notes.append(f"{lines} shorter than {SHORT_MM:g} mm left out")
    if over + twice + again:
        lines = so_many(over + twice + again, "line or loop", "lines or loops")
        told = f"{lines} drawn twice, taken once"
        found.notes.append(told)
    found.loops += sorted((loop_of(ring) for ring in rings), key=lambda loop: bounds(loop))
    return found


def run_segments(run: Run) -> tuple[Segment, ...]:
    """The run as true lines and arcs, an arc of more than half a turn in pieces."""
    corners = [*run.corners, run.corners[0]] if run.closed else list(run.corners)
    return tuple(piece for a, b in pairwise(corners) for piece in _pieces(a[:2], b[:2], a[2]))


def said(point: Point, unit_mm: float) -> str:
    """A place in the drawing's own unit."""
    return f"({point[0] / unit_mm:.6g}, {point[1] / unit_mm:.6g})"


def _pieces(start: Point, end: Point, bulge: float) -> tuple[Segment, ...]:
    """Line, or arc by its bulge, tan(sweep / 4). Source: DXF reference, group code 42."""
    chord = math.dist(start, end)
    if abs(bulge) * chord / 2 < FLAT_MM:
        return (Line(start, end),)
    out = (1 - bulge * bulge) / (4 * bulge)  # of the centre from the chord, in chords, leftwards
    cx = (start[0] + end[0]) / 2 - out * (end[1] - start[1])
    cy = (start[1] + end[1]) / 2 + out * (end[0] - start[0])
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    first = math.degrees(math.atan2(start[1] - cy, start[0] - cx))
    return arc_pieces(Arc((cx, cy), radius, first, math.degrees(4 * math.atan(bulge))))


def _apart(a: Corner, b: Corner) -> float:
    return math.dist(a[:2], b[:2])


def _spread(run: Run) -> list[Corner]:
    """The run's corners without those that repeat the one before."""
    corners: list[Corner] = []
    for corner in run.corners:
        if corners and _apart(corners[-1], corner) <= SHORT_MM:
            corners[-1] = (*corners[-1][:2], corner[2])
        else:
            corners.append(corner)
    if run.closed and len(corners) > 1 and _apart(corners[-1], corners[0]) <= SHORT_MM:
        corners.pop()
    return corners


def _once(runs: list[list[Corner]], *, closed: bool) -> tuple[list[list[Corner]], int]:
    """The runs without those that lie on another; and how many were left out."""
    kept: dict[frozenset[tuple[float, ...]], list[Corner]] = {}
    for corners in runs:
        kept.setdefault(_key(corners, closed), corners)
    return list(kept.values()), len(runs) - len(kept)


def _key(corners: list[Corner], closed: bool) -> frozenset[tuple[float, ...]]:
    """The same for runs on the same lines, whichever way they go."""
    keys = []
    for segment in run_segments(Run(tuple(corners), closed)):
        points = sorted((segment.start, segment.end))
        if isinstance(segment, Arc):
            points.append(segment.at(segment.start_deg + segment.sweep_deg / 2))
        keys.append(tuple(round(n, 3) + 0.0 for point in points for n in point))
    return frozenset(keys)


def _chained(
    runs: list[list[Corner]], found: Found, unit_mm: float, join_mm: float
) -> list[list[Corner]]:
    """Closed chains of open runs; what does not close goes to `found.wrong`."""
    if not runs:
        return []
    ends = [(run[i][0], run[i][1]) for run in runs for i in (0, -1)]
    met = joined_ends(ends, [len(run) > 2 for run in runs], min(SHORT_MM, join_mm), join_mm)
    for place, lines in met.branches[:MOST_TOLD]:
        found.wrong.append(
            (
                "plain loops: two lines meet in each corner",
                f"leave two of the {lines} lines that meet at {said(place, unit_mm)}"
                + more(len(met.branches)),
            )
        )
    for a, b in gaps(met.loose, MOST_TOLD):
        found.wrong.append(
            (
                f"closed loops: ends that meet within {join_mm:g} mm",
                f"close the gap of {math.dist(a, b):.4g} mm from {said(a, unit_mm)} to "
                f"{said(b, unit_mm)}, or remove the lines that end there"
                + more(len(met.loose) // 2),
            )
        )
    if met.branches or met.loose:
        return []
    return [
        _ring([_backwards(runs[k]) if back else runs[k] for k, back in chain])
        for chain in walks(met.partner)
    ]


def _ring(runs: Sequence[list[Corner]]) -> list[Corner]:
    """Corners of a closed chain; where two ends do not quite meet, the corner is half way."""
    ring: list[Corner] = []
    for before, run in zip([runs[-1], *runs], runs, strict=False):
        (x0, y0, _), (x1, y1, bulge) = before[-1], run[0]
        ring += [((x0 + x1) / 2, (y0 + y1) / 2, bulge), *run[1:-1]]
    return ring


def _backwards(corners: list[Corner]) -> list[Corner]:
    bulges = [-bulge for _, _, bulge in corners[-2::-1]]
    return [(x, y, bulge) for (x, y, _), bulge in zip(corners[::-1], [*bulges, 0.0], strict=True)]


def more(places: int) -> str:
    """How many places are not told."""
    left = places - MOST_TOLD
    return f" (and {left} more places)" if left > 0 else ""


def loop_of(ring: list[Corner]) -> Loop:
    """The ring counter-clockwise, from its leftmost corner on; arcs of one circle are it.

    The same to the last digit whichever way and from wherever the ring was walked.
    """
    if signed_area_mm2(run_segments(Run(tuple(ring), closed=True))) < 0:
        bulges = [bulge for _, _, bulge in ring]
        ring = [(*ring[i][:2], -bulges[i - 1]) for i in reversed(range(len(ring)))]
    first = min(range(len(ring)), key=lambda i: (round(ring[i][0], 6), round(ring[i][1], 6)))
    run = run_segments(Run((*ring[first:], *ring[:first]), closed=True))
    arcs = [s for s in run if isinstance(s, Arc)]
    if len(arcs) < len(run) or not _one_circle(arcs):
        return run
    xs, ys = zip(*(arc.centre for arc in arcs), strict=True)
    radius = math.fsum(arc.radius_mm for arc in arcs) / len(arcs)
    return Circle((math.fsum(xs) / len(arcs), math.fsum(ys) / len(arcs)), radius)


def _one_circle(arcs: list[Arc]) -> bool:
    turn = math.fsum(arc.sweep_deg for arc in arcs)
    return abs(abs(turn) - 360) < 0.1 and all(
        math.dist(arc.centre, arcs[0].centre) <= SAME_CIRCLE_MM
        and abs(arc.radius_mm - arcs[0].radius_mm) <= SAME_CIRCLE_MM
        for arc in arcs
    )
