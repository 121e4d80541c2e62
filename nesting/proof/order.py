"""Order of the entities, the way that cuts run, nothing missing, nothing twice, nothing outside."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import numpy as np

from platewheel.nesting.proof.pieces import (
    Path,
    backwards,
    chords,
    facets,
    points_at,
    turned_area_mm2,
)
from platewheel.nesting.proof.reading import CUTS, Drawn
from platewheel.nesting.proof.scene import Scene, line_of, said
from platewheel.parts.base.so_many import so_many
from platewheel.parts.geometry.outline import Point

AT_ONCE = 2000  # pieces asked for what runs along them: memory is bounded, a stop heard between
TWICE_MM = 0.002  # two cuts as near as this along their way are one
LEAST_MM = 0.01  # shorter common ways are a crossing
SHARES = (0.05, 0.275, 0.5, 0.725, 0.95)
EDGE_MM = 0.001
RANK = {"sheet-edge": 0, "mark": 1, **dict.fromkeys((*CUTS, "lead"), 2)}
RANK |= {"offcut": 3, "skeleton": 4, "text": 5}


def order_faults(scene: Scene) -> Iterator[str]:
    """Layers in their order; holes before outlines, guests before hosts, parts by their numbers."""
    ranked = [one for one in scene.drawn if one.layer in RANK]
    leads = {id(one): after.layer for one, after in pairwise(ranked) if one.layer == "lead"}
    highest, layer = -1, ""
    for one in ranked:
        rank = RANK[leads.get(id(one), one.layer) if one.layer == "lead" else one.layer]
        if one.layer == "lead" and rank != 3:
            rank = 2  # a lead-out stands behind its cut, whatever follows
        if rank < highest:
            yield f"a {one.kind} on layer {one.layer} at {said(one.at)} stands after layer {layer}"
            break
        highest, layer = rank, one.layer
    yield from _part_by_part(scene)
    yield from _guests(scene)


def _part_by_part(scene: Scene) -> Iterator[str]:
    mine = [cut for cut in scene.cuts if cut.edge is not None]
    for before, cut in pairwise(mine):
        a, b = before.edge, cut.edge
        assert a is not None
        assert b is not None
        if b.part.number < a.part.number:
            yield f"{cut} is cut after part {a.part.number}, the numbers in their order wanted"
        if b.hole and not a.hole and a.part.number == b.part.number:
            yield f"{cut} is cut after the outline, which frees the part; before it wanted"


def _guests(scene: Scene) -> Iterator[str]:
    """A part in a hole of another, or whole in its mouth, comes before it."""
    import shapely

    outlines = [edge for edge in scene.edges if not edge.hole]
    last = {
        id(edge): max((c.run.begins for c in scene.cuts_of(edge)), default=-1) for edge in outlines
    }
    first: dict[int, int] = {}
    for cut in scene.cuts:
        if cut.edge is not None:
            first.setdefault(cut.edge.part.number, cut.run.begins)
    areas = np.array([edge.area for edge in outlines], dtype=object)
    hulls, boxes = shapely.convex_hull(areas), shapely.bounds(areas)
    tree = shapely.STRtree(areas)
    for i, host in enumerate(outlines):
        near = tree.query(hulls[i])
        within = (boxes[near, :2] >= boxes[i, :2]) & (boxes[near, 2:] <= boxes[i, 2:])
        near = near[within.all(axis=1) & (near != i)]  # a shape itself takes long to compare
        for k in near[shapely.contains(hulls[i], areas[near])]:
            guest = outlines[int(k)]
            if hulls[int(k)].contains(host.area):
                continue
            if last[id(guest)] > first.get(host.part.number, last[id(guest)]):
                yield f"{guest} lies in part {host.part.number} and is cut after it, before wanted"


def run_faults(scene: Scene) -> Iterator[str]:
    """Each edge is cut once; outlines clockwise, holes not; closed but for tabs; no lead alone."""
    for run in scene.strange:
        yield f"the cut on {run.layer} from {said(run.path[0].start)} is the edge of no part asked"
    for one in scene.loose:
        yield f"the lead at {said(one.at)} runs into no cut and off none"
    for edge in scene.edges:
        mine = scene.cuts_of(edge)
        if not mine:
            yield f"{edge} is not cut"
            continue
        whole = [cut for cut in mine if cut.run.closed]
        if len(whole) > 1 or (whole and len(mine) > 1):
            yield f"{edge} is cut {len(mine)} times, once wanted"
        open_for = scene.asked.tab_count and not edge.hole
        if len(whole) < len(mine) and not open_for and scene.before(edge) is None:
            yield f"{mine[0]} is left open, closed wanted"
        pieces = tuple(piece for cut in mine for piece in cut.run.path)
        if len(mine) == 1 or not whole:
            area = turned_area_mm2(pieces)
            if (area > 0) != edge.hole:
                way = ("clockwise", "counter-clockwise")
                yield f"{mine[0]} runs {way[not edge.hole]}, {way[edge.hole]} wanted"


def twice_faults(scene: Scene) -> Iterator[str]:
    """No entity twice, either way run, and no two cuts along the same way."""
    import shapely

    seen = set()
    for one in scene.drawn:
        ways = min(_rounded(way) for way in (one.path, backwards(one.path)))
        key = (one.layer, one.words, () if one.path else one.at, ways)
        if key in seen:
            yield f"the {one.kind} on layer {one.layer} at {said(one.at)} stands twice"
        seen.add(key)
    cutting = [one for one in scene.drawn if RANK.get(one.layer, 0) in (2, 3, 4)]
    pieces = [(i, piece) for i, one in enumerate(cutting) for piece in one.path]
    if not pieces:
        return
    path = tuple(piece for _, piece in pieces)
    tree = shapely.STRtree(chords(path))
    shared: dict[tuple[int, int], list[float]] = {}
    for first in range(0, len(path), AT_ONCE):
        spots = shapely.points(points_at(path[first : first + AT_ONCE], SHARES).reshape(-1, 2))
        asking, met = tree.query(spots, predicate="dwithin", distance=TWICE_MM)
        apart = first + asking // len(SHARES) != met
        for spot, other in zip(asking[apart].tolist(), met[apart].tolist(), strict=True):
            own, k = divmod(spot, len(SHARES))
            shared.setdefault((first + own, other), []).append(SHARES[k])
    told = set()
    for (own, other), met_at in shared.items():
        i, piece = pieces[own]
        ends = [end for k in (i, pieces[other][0]) for end in _runs_in(cutting[k])]
        shares = [
            share
            for share in met_at
            if all(math.dist(piece.at(share), at) > reach for at, reach in ends)
        ]
        if shares and (max(shares) - min(shares)) * piece.length_mm > LEAST_MM:
            pair = frozenset((own, other))
            if pair not in told:
                told.add(pair)
                layers = sorted({cutting[i].layer, cutting[pieces[other][0]].layer})
                yield (
                    f"two cuts run along the same way at {said(piece.at(0.5))}, "
                    f"on {' and '.join(layers)}"
                )


def _runs_in(one: Drawn) -> list[tuple[Point, float]]:
    """Ends of a round lead, and how far from them it may still lie on the cut that it runs into
    smoothly. Source: an arc leaves its tangent by s^2 / 2r (of the circle), a cut that bends the
    same way half as fast by half of that, so that s = sqrt(4 r gap)."""
    if one.layer != "lead":
        return []
    round_ones = [piece for piece in one.path if piece.bulge]
    return [
        (at, math.sqrt(4 * piece.circle[1] * TWICE_MM))
        for piece in round_ones
        for at in (piece.start, piece.end)
    ]


def _rounded(path: Path) -> bytes:
    rows = np.array([(*p.start, *p.end, p.bulge) for p in path])
    return (np.round(rows, 4) + 0.0).tobytes()  # no -0.0


def plate_faults(scene: Scene) -> Iterator[str]:
    """The sheet's edge is that of the plate asked, and nothing but words lies outside it,
    save that a parting cut may run off it by its kerf."""
    import shapely

    rings = [one for one in scene.drawn if one.layer == "sheet-edge" and one.path]
    drawn = [shapely.Polygon(facets(one.path)) for one in rings if len(one.path) > 2]
    shape = shapely.Polygon(scene.plate.exterior)
    wanted = [shape, *map(shapely.Polygon, scene.plate.interiors)]
    for area in wanted:
        if not any(_same(area, one) for one in drawn):
            yield f"the plate's edge at {said(area.exterior.coords[0])} is not on layer sheet-edge"
    if len(rings) != len(wanted):
        yield f"{so_many(len(rings), 'loop')} on layer sheet-edge, {len(wanted)} wanted"
    over = {"offcut": scene.asked.kerf_mm}  # a parting cut may run off the plate's edge
    rooms = {
        layer: scene.plate.buffer(EDGE_MM + over.get(layer, 0.0), join_style="mitre")
        for layer in ("", *over)
    }
    shapely.prepare(list(rooms.values()))
    for one in scene.drawn:
        if one.layer not in ("sheet-edge", "text"):
            shape = line_of(one.path) if one.path else shapely.Point(one.at)
            if not rooms.get(one.layer, rooms[""]).covers(shape):
                yield f"the {one.kind} on layer {one.layer} at {said(one.at)} lies off the plate"


def _same(a: Any, b: Any) -> bool:
    return bool(a.symmetric_difference(b).area <= EDGE_MM * a.length)
