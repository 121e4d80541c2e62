"""Torch paths: a part's outline moved by half the kerf, with true arcs.

Source: half the kerf outward on outlines, inward on holes (plain geometry; a 2 in square cut
uncompensated with a 0.05 in kerf comes out at 1.95 in).
"""

from __future__ import annotations

import math
from dataclasses import replace

from platewheel.nesting.geometry.gaps import loop_gap, meetings
from platewheel.nesting.geometry.trim import Piece, between, joined, kept_pieces, share_of
from platewheel.nesting.stock.layout import NestingError
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Segment,
    reversed_loop,
    segments,
)

SMOOTH_MM = 1e-4  # moved neighbours that end this close run on into each other


def torch_path(loop: Loop, kerf_mm: float, *, hole: bool) -> Loop:
    """Centre line of the cut that leaves the loop as the finished edge.

    The loop runs counter-clockwise and so does the path. Outer corners are rounded; in an inward
    corner the moved neighbours are trimmed where they meet, so the torch leaves it as round as
    the kerf. Raises: NestingError for a hole or hollow that the kerf does not go into.
    """
    half = kerf_mm / 2
    if half == 0:
        return loop
    if isinstance(loop, Circle):
        radius = loop.radius_mm + (-half if hole else half)
        if not radius > 0:
            raise NestingError(
                f"a hole of {2 * loop.radius_mm:g} mm is no larger than the kerf of {kerf_mm:g} mm"
            )
        return Circle(loop.centre, radius)
    ring = segments(reversed_loop(loop)) if hole else loop  # scrap on the right of either
    path = _offset(ring, half, "hole" if hole else "outline")
    return reversed_loop(path) if hole else path


def _offset(ring: tuple[Segment, ...], half: float, kind: str) -> tuple[Segment, ...]:
    """The ring moved to its right."""
    pieces: list[Piece] = []
    simple = True
    for i, segment in enumerate(ring):
        moved = _beside(segment, half)
        if moved is None:
            simple = False
        else:
            pieces.append(Piece(moved, i))
        corner = _corner(segment, ring[(i + 1) % len(ring)], half)
        simple = simple and corner is not None
        pieces += [Piece(arc, None) for arc in corner or ()]
    if not simple:
        pieces, simple = _trimmed(pieces, ring)
    plain = tuple(piece.segment for piece in pieces)
    if simple and loop_gap(plain, ring, half) >= half - 1e-6:
        return plain
    path = joined(kept_pieces(pieces, ring, half))
    fault = _fault(path, ring)
    if fault:
        raise NestingError(
            f"kerf in the path: the {kind} has {fault}, narrower than the kerf of {2 * half:g} mm"
        )
    return tuple(piece.segment for piece in path[0])


def _trimmed(pieces: list[Piece], ring: tuple[Segment, ...]) -> tuple[list[Piece], bool]:
    """Neighbours that cross cut off where they do, and whether all then run on into the next."""
    pieces, complete = list(pieces), True
    for i, piece in enumerate(pieces):
        k = (i + 1) % len(pieces)
        here, after = pieces[i].segment, pieces[k].segment
        apart = math.dist(here.end, after.start)
        at = meetings(here, after) if apart > 1e-9 else []
        if piece.home is None or not at:
            complete = complete and apart < SMOOTH_MM
            continue
        corner = ring[piece.home].end
        point = min((math.dist(p, corner), p) for p in at)[1]
        pieces[i] = replace(pieces[i], segment=between(here, 0.0, share_of(here, point)))
        pieces[k] = replace(pieces[k], segment=between(after, share_of(after, point), 1.0))
    return pieces, complete


def _fault(paths: list[list[Piece]], ring: tuple[Segment, ...]) -> str | None:
    """What the torch cannot get into: each stretch of the edge must be cut, or be the bottom
    of an inward corner between two neighbours that are."""
    if not paths:
        return "no room for the torch: all of it is"
    if len(paths) > 1:
        return "a neck"
    path, count = paths[0], len(ring)
    cut = {piece.home for piece in path}
    for piece, after in zip(path, [*path[1:], path[0]], strict=True):
        if piece.home is not None and after.home is not None:
            step = (after.home - piece.home) % count
            cut |= {(piece.home + k) % count for k in range(1, step)}
    lost = [i for i in range(count) if i not in cut]
    if lost:
        x, y = ring[lost[0]].start
        return f"a hollow at ({x:.1f}, {y:.1f})"
    return None


def _beside(segment: Segment, half: float) -> Segment | None:
    """The segment moved to its right; None for a hollow that is tighter than that."""
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        length = segment.length_mm
        dx, dy = (by - ay) / length * half, -(bx - ax) / length * half
        return Line((ax + dx, ay + dy), (bx + dx, by + dy))
    radius = segment.radius_mm + (half if segment.sweep_deg > 0 else -half)
    return replace(segment, radius_mm=radius) if radius > 1e-9 else None


def _corner(segment: Segment, after: Segment, half: float) -> tuple[Arc, ...] | None:
    """Arc about an outer corner from one moved segment to the next; none where they run on
    smoothly; None at an inward corner, where they cross."""
    first, last = _right(segment, at_end=True), _right(after, at_end=False)
    sweep = (last - first + 180) % 360 - 180
    if abs(math.radians(sweep)) * half < 1e-9:
        return ()
    if -180 + 1e-6 < sweep < 0:
        return None
    return (Arc(segment.end, half, first, sweep % 360),)


def _right(segment: Segment, *, at_end: bool) -> float:
    """Direction to the right of a segment at one of its ends, degrees."""
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        return math.degrees(math.atan2(by - ay, bx - ax)) - 90
    angle = segment.start_deg + (segment.sweep_deg if at_end else 0.0)
    return angle if segment.sweep_deg > 0 else angle + 180
