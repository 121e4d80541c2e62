"""Open cuts of outlines with tabs, read from a drawing and put together as whole outlines."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

Corner = tuple[float, float, float]  # x, y, bulge to the next corner
SMOOTH_DEG = 0.1
NEAR_TURN_DEG = 60.0  # how much of the whole turn may lie in the opening that is left


def chained(pieces: Sequence[list[Corner]]) -> Iterator[list[Corner]]:
    """Outlines made of open cuts in their order, with straight lines across the tabs.

    A cut that turns once round and goes on straight across its opening is whole by itself: the
    opening is a line shared with another part.

    An outline is whole when its cuts, and the way across the tabs, have turned once round and
    what is left of the way is no wider than the tabs met.
    """
    chain: list[Corner] = []
    gaps: list[float] = []
    for piece in pieces:
        if not chain and _but_one_side(piece):
            yield piece
            continue
        if chain:
            gaps.append(math.dist(chain[-1][:2], piece[0][:2]))
        chain = [*chain, *piece]
        if abs(abs(_turn_deg(chain)) - 360) <= NEAR_TURN_DEG and _nearly_closed(chain, gaps):
            yield chain
            chain, gaps = [], []
    if chain:
        yield chain


def _nearly_closed(chain: Sequence[Corner], gaps: Sequence[float]) -> bool:
    """No wider open than the other tabs; with a single one, than a part of the way run."""
    run = sum(math.dist(a[:2], b[:2]) for a, b in itertools.pairwise(chain))
    most = 1.5 * max(gaps) if gaps else 0.3 * run
    return math.dist(chain[-1][:2], chain[0][:2]) <= most


def _but_one_side(piece: Sequence[Corner]) -> bool:
    """Whether a straight line from end to start closes a cut smoothly, once round."""
    if len(piece) < 3 or math.dist(piece[0][:2], piece[-1][:2]) < 1e-9:
        return False
    over = [piece[-2], (*piece[-1][:2], 0.0), piece[0]]
    bent = _turn_deg(over) - _turn_deg(piece[-2:])
    return abs(abs(_turn_deg(piece)) - 360) <= SMOOTH_DEG and abs(bent) <= SMOOTH_DEG


def _turn_deg(chain: Sequence[Corner]) -> float:
    """How far the direction turns from the first corner to the last; a bulge is the tangent of
    a quarter of its arc's angle (source: DXF reference, code 42)."""
    total, before = 0.0, None
    for (ax, ay, bulge), (bx, by, _) in itertools.pairwise(chain):
        if math.dist((ax, ay), (bx, by)) < 1e-9:
            continue
        half = math.degrees(2 * math.atan(bulge))
        chord = math.degrees(math.atan2(by - ay, bx - ax))
        if before is not None:
            total += (chord - half - before + 180) % 360 - 180
        total += 2 * half
        before = chord + half
    return total
