"""Straight and round pieces of a path as a DXF has them: two ends and a bulge. mm.

The bulge is the tangent of a quarter of the angle turned, positive counter-clockwise, 0 for a
straight piece. Source: DXF reference, group code 42.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np

from platewheel.parts.geometry.outline import Circle, Line, Loop, Point

if TYPE_CHECKING:
    from numpy.typing import NDArray

FINE_MM = 0.1  # from sample to sample on a short piece
SAG_MM = 5e-4  # how far chords lie off their arcs
AT_ONCE = 1000  # points, each perhaps beside thousands of pieces
PART_MM = 10.0  # of a straight line in a tree
SOME = 200  # points, to see how near most are
MANY = 2_000_000  # pairs of points and pieces: of more, only near ones are looked at


@dataclass(frozen=True)
class Piece:
    """One piece, run from start to end."""

    start: Point
    end: Point
    bulge: float = 0.0

    @property
    def turn(self) -> float:
        """Angle turned, radians."""
        return 4 * math.atan(self.bulge)

    @cached_property
    def circle(self) -> tuple[Point, float]:
        """Centre and radius of a round piece. Source: chord d, sagitta b d / 2, so that
        r = d (1 + b^2) / (4 |b|) and the centre lies d (1 - b^2) / (4 b) left of the chord."""
        (ax, ay), (bx, by), b = self.start, self.end, self.bulge
        left = (1 - b * b) / (4 * b)
        x, y = (ax + bx) / 2 - (by - ay) * left, (ay + by) / 2 + (bx - ax) * left
        return (x, y), math.dist(self.start, self.end) * (1 + b * b) / (4 * abs(b))

    @property
    def length_mm(self) -> float:
        """Along the piece."""
        if self.bulge == 0:
            return math.dist(self.start, self.end)
        return self.circle[1] * abs(self.turn)

    @property
    def back(self) -> Piece:
        """The same piece run the other way."""
        return Piece(self.end, self.start, -self.bulge)

    def heading(self, share: float) -> Point:
        """Direction of travel at a share of its length, of length 1."""
        (ax, ay), (bx, by) = self.start, self.end
        turn = math.atan2(by - ay, bx - ax) + (share - 0.5) * self.turn
        return math.cos(turn), math.sin(turn)

    def at(self, share: float) -> Point:
        """Point at a share of its length."""
        (ax, ay), (bx, by) = self.start, self.end
        if self.bulge == 0:
            return ax + share * (bx - ax), ay + share * (by - ay)
        (x, y), radius = self.circle
        angle = math.atan2(ay - y, ax - x) + share * self.turn
        return x + radius * math.cos(angle), y + radius * math.sin(angle)

    def spread(self, count: int) -> NDArray[np.float64]:
        """So many points at equal steps from the start on, the end left out."""
        shares = np.arange(count) / count
        (ax, ay), (bx, by) = self.start, self.end
        if self.bulge == 0:
            return np.column_stack((ax + shares * (bx - ax), ay + shares * (by - ay)))
        (x, y), radius = self.circle
        angles = math.atan2(ay - y, ax - x) + shares * self.turn
        return np.column_stack((x + radius * np.cos(angles), y + radius * np.sin(angles)))

    def facets(self) -> NDArray[np.float64]:
        """Points no chord of which lies further off than `SAG_MM`, the end left out."""
        if self.bulge == 0:
            return np.array([self.start])
        radius = max(self.circle[1], 2 * SAG_MM)
        step = 2 * math.acos(1 - SAG_MM / radius)
        return self.spread(max(2, math.ceil(abs(self.turn) / step)))


Path = tuple[Piece, ...]


def path_of(loop: Loop) -> Path:
    """A loop of a blank as pieces; a circle as two half turns, counter-clockwise."""
    if isinstance(loop, Circle):
        (x, y), radius = loop.centre, loop.radius_mm
        right, left = (x + radius, y), (x - radius, y)
        return Piece(right, left, 1.0), Piece(left, right, 1.0)
    found = []
    for one in loop:
        if isinstance(one, Line):
            found.append(Piece(one.start, one.end))
            continue
        (x, y), radius = one.centre, one.radius_mm
        count = max(1, math.ceil(abs(one.sweep_deg) / 180 - 1e-9))
        step = math.radians(one.sweep_deg) / count
        turns = [math.radians(one.start_deg) + k * step for k in range(count + 1)]
        ends = [(x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns]
        found += [Piece(a, b, math.tan(step / 4)) for a, b in pairwise(ends)]
    return tuple(found)


def ring_path(corners: Sequence[Point]) -> Path:
    """Straight pieces once round."""
    return tuple(Piece(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True))


def backwards(path: Path) -> Path:
    """The same path run the other way."""
    return tuple(piece.back for piece in reversed(path))


def path_length_mm(path: Path) -> float:
    """Length of all pieces."""
    return math.fsum(piece.length_mm for piece in path)


def turned_area_mm2(path: Path) -> float:
    """Area gone round, positive counter-clockwise: shoelace, and r^2 (t - sin t) / 2 for the
    segment of a circle beyond each chord; where it is open, a straight line closes it."""
    terms = []
    for piece, after in zip(path, [*path[1:], path[0]], strict=True):
        for (ax, ay), (bx, by) in ((piece.start, piece.end), (piece.end, after.start)):
            terms.append((ax * by - bx * ay) / 2)
        if piece.bulge:
            terms.append(piece.circle[1] ** 2 * (piece.turn - math.sin(piece.turn)) / 2)
    return math.fsum(terms)


def facets(path: Path) -> NDArray[np.float64]:
    """Points along a path, its end among them."""
    return np.vstack([*(piece.facets() for piece in path), [path[-1].end]])


def samples(path: Path, step_mm: float, least: int = 8) -> NDArray[np.float64]:
    """Points along a path at equal steps of each piece, its end among them: so many at least to a
    piece, but for those that would lie closer than `FINE_MM`."""
    counts = []
    for piece in path:
        length = piece.length_mm
        fewest = min(least, math.ceil(length / FINE_MM))
        counts.append(max(2, fewest, math.ceil(length / step_mm)))
    first = np.cumsum([0, *counts])
    share = np.arange(first[-1]) - np.repeat(first[:-1], counts)
    ends = np.repeat([(*p.start, *p.end) for p in path], counts, axis=0)
    along = (share / np.repeat(counts, counts))[:, None]
    found: NDArray[np.float64] = ends[:, :2] + along * (ends[:, 2:] - ends[:, :2])
    for k, piece in enumerate(path):
        if piece.bulge:
            found[first[k] : first[k + 1]] = piece.spread(counts[k])
    return np.vstack([found, [path[-1].end]])


def points_at(path: Path, shares: Sequence[float]) -> NDArray[np.float64]:
    """Points at shares of each piece's length: (pieces, shares, 2)."""
    ends = np.array([(*p.start, *p.end) for p in path]).reshape(-1, 1, 4)
    along = np.array(shares)[:, None]
    found: NDArray[np.float64] = ends[..., :2] + along * (ends[..., 2:] - ends[..., :2])
    for k, piece in enumerate(path):
        if piece.bulge:
            found[k] = [piece.at(share) for share in shares]
    return found


def chords(path: Path) -> Any:
    """Each piece as a line of fine chords."""
    import shapely

    lines = shapely.linestrings([(p.start, p.end) for p in path])
    for k, piece in enumerate(path):
        if piece.bulge:
            lines[k] = shapely.LineString(np.vstack([piece.facets(), [piece.end]]))
    return lines


def _short_chords(path: Path) -> tuple[Any, NDArray[np.intp]]:
    """`chords`, straight ones cut into short parts, and the piece that each is of: a tree asks
    boxes first, and one about a long slanting line is about all that lies beside it."""
    import shapely

    whole = chords(path)
    lengths = np.array([0.0 if piece.bulge else piece.length_mm for piece in path])
    counts = np.maximum(1, np.ceil(lengths / PART_MM)).astype(int)
    home = np.repeat(np.arange(len(path)), counts)
    number = np.arange(len(home)) - np.repeat(np.cumsum(counts) - counts, counts)
    ends = np.array([(*p.start, *p.end) for p in path])[home]
    along = (ends[:, 2:] - ends[:, :2]) / counts[home][:, None]
    starts = ends[:, :2] + number[:, None] * along
    parts = shapely.linestrings(np.stack([starts, starts + along], axis=1))
    alone = counts[home] == 1
    parts[alone] = whole[home[alone]]
    return parts, home


def off(points: NDArray[np.float64], path: Path) -> NDArray[np.float64]:
    """Distance of each point from a path, exact on arcs."""
    if len(points) * len(path) > MANY:
        return _off_many(points, path)
    best = np.full(len(points), np.inf)
    straight = np.array([(*p.start, *p.end) for p in path if p.bulge == 0])
    if len(straight):
        best = _off_lines(points[:, None, :], straight[None]).min(axis=1)
    for piece in path:
        if piece.bulge:
            best = np.minimum(best, _off_arc(points, piece))
    return best


def _off_lines(points: NDArray[np.float64], lines: NDArray[np.float64]) -> NDArray[np.float64]:
    """Distances of points (..., 2) from straight pieces (..., 4)."""
    a, along = lines[..., :2], lines[..., 2:] - lines[..., :2]
    square = np.maximum((along**2).sum(axis=-1), 1e-30)
    rel = points - a
    share = np.clip((rel * along).sum(axis=-1) / square, 0.0, 1.0)
    gap = rel - share[..., None] * along
    found: NDArray[np.float64] = np.hypot(gap[..., 0], gap[..., 1])
    return found


def _off_many(points: NDArray[np.float64], path: Path) -> NDArray[np.float64]:
    """`off` of a path of many pieces, so many points at once that memory is bounded: each beside
    those alone whose fine chords lie as near as most points are to the path; where none does, no
    further off than the nearest of them, which takes longer to find."""
    import shapely

    parts, home = _short_chords(path)
    tree = shapely.STRtree(parts)
    lines = np.array([(*p.start, *p.end) for p in path])
    round_ = np.array([p.bulge != 0 for p in path])
    best = np.full(len(points), np.inf)

    def look(asking: NDArray[np.intp], within_mm: Any) -> None:
        spots = shapely.points(points[asking])
        asked, part = tree.query(spots, predicate="dwithin", distance=within_mm + 2 * SAG_MM)
        asked, near = asking[asked], home[part]
        flat = ~round_[near]
        np.minimum.at(best, asked[flat], _off_lines(points[asked[flat]], lines[near[flat]]))
        for k in np.unique(near[~flat]).tolist():
            mine = asked[near == k]
            best[mine] = np.minimum(best[mine], _off_arc(points[mine], path[k]))

    def nearest(asking: NDArray[np.intp]) -> Any:
        spots = shapely.points(points[asking])
        return tree.query_nearest(spots, return_distance=True, all_matches=False)[1]

    some = np.arange(0, len(points), max(1, len(points) // SOME))
    most = min(float(np.quantile(nearest(some), 0.9)) + SAG_MM, PART_MM) if len(some) else 0.0
    for first in range(0, len(points), AT_ONCE):
        here = np.arange(first, min(first + AT_ONCE, len(points)))
        look(here, most)
        left = here[best[here] > most]
        if len(left):
            look(left, nearest(left))
    return best


def _off_arc(points: NDArray[np.float64], arc: Piece) -> NDArray[np.float64]:
    (x, y), radius = arc.circle
    begin = math.atan2(arc.start[1] - y, arc.start[0] - x)
    angles = np.arctan2(points[:, 1] - y, points[:, 0] - x)
    ahead = (angles - begin) * math.copysign(1.0, arc.turn) % (2 * math.pi)
    to_ends = np.minimum(
        np.hypot(*(points - np.array(arc.start)).T), np.hypot(*(points - np.array(arc.end)).T)
    )
    beside = np.abs(np.hypot(points[:, 0] - x, points[:, 1] - y) - radius)
    return np.where(ahead <= abs(arc.turn), beside, to_ends)
