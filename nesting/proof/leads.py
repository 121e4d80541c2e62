"""Leads: each cut has one, it begins in scrap well away from all edges and kerfs, and its sweep
touches nothing. As drawn where the controller offsets: a lead then has its kerf about its line.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from platewheel.nesting.proof.pieces import Path, off, samples
from platewheel.nesting.proof.runs import JOINT_MM
from platewheel.nesting.proof.scene import TOLERANCE_MM, Cut, Edge, Scene, line_of, said

STRAIGHT = 0.4  # an arc of half the radius of a hole leaves it by half of what it leaves a line by


@dataclass(frozen=True, eq=False)
class _Lead:
    cut: Cut
    path: Path
    line: Any

    def __str__(self) -> str:
        return f"the lead at {said(self.path[0].start)} of {self.cut.edge or self.cut.run.layer}"


def lead_faults(scene: Scene) -> Iterator[str]:
    """All that is wrong with leads and pierces."""
    asked = scene.asked
    if asked.lead_in_mm > 0:
        for cut in scene.cuts:
            told = cut.edge is not None and cut.edge.part.number in asked.told.no_lead
            shares = cut.edge is not None and scene.before(cut.edge) is not None
            if cut.edge is not None and not cut.run.lead_in and not told and not shares:
                length = f"{asked.lead_in_mm:g} mm wanted"
                yield f"{cut} has no lead-in and the user is not told, {length}"
    yield from _scrap_faults(scene)
    yield from _pierce_faults(scene)
    yield from _sweep_faults(scene)


def _led(scene: Scene) -> list[Cut]:
    return [cut for cut in scene.cuts if cut.run.lead_in]


def _scrap_faults(scene: Scene) -> Iterator[str]:
    """Begun on the plate, in no part and no piece to keep; a hole from inside it."""
    import shapely

    steel = shapely.STRtree(scene.steel)
    keep = shapely.STRtree(scene.kept)
    for cut in _led(scene):
        spot = shapely.Point(cut.run.start)
        for i in steel.query(spot, predicate="intersects"):
            yield f"{cut} pierces in part {scene.asked.parts[int(i)].number}, scrap wanted"
        if len(keep.query(spot, predicate="within")):
            yield f"{cut} pierces in a piece to keep, scrap wanted"
        if not scene.plate.contains(spot):
            yield f"{cut} pierces off the plate"
        if cut.edge is not None and cut.edge.area.contains(spot) != cut.edge.hole:
            yield f"{cut} pierces {'outside' if cut.edge.hole else 'inside'} what it cuts"


def _pierce_faults(scene: Scene) -> Iterator[str]:
    """So far from the own edge and from the kerf of each other cut; half a kerf from the plate's.

    The runs of one edge, and the parting cuts among themselves, are one cut here. The grid is cut
    when all else is done and does not count.
    """
    import shapely

    asked = scene.asked
    clear = asked.pierce_clear_mm
    others = [cut for cut in scene.cuts if cut.run.layer != "skeleton"]
    lines = shapely.STRtree([line_of(cut.run.path) for cut in others])
    for cut in _led(scene):
        spot = shapely.Point(cut.run.start)
        gap = scene.plate.boundary.distance(spot)
        if gap < asked.half_mm - TOLERANCE_MM:
            yield (
                f"{cut} pierces {gap:.3f} mm from the plate's edge, half the kerf wanted: "
                f"{asked.half_mm:g}"
            )
        if cut.edge is not None and cut.edge.part.number in asked.told.near_pierce:
            continue
        if cut.edge is not None:
            own = float(off(np.array([cut.run.start]), cut.edge.path)[0])
            if own < clear - TOLERANCE_MM:
                yield f"{cut} pierces {own:.3f} mm from its own edge, {clear:g} wanted"
        near = lines.query(spot, predicate="dwithin", distance=clear + asked.kerf_mm)
        least: dict[int, tuple[float, Cut]] = {}
        for other in (others[int(i)] for i in sorted(near)):
            if other.edge is cut.edge:
                continue
            gap = _to_kerf(spot, other, scene)
            if gap < least.get(id(other.edge), (clear - TOLERANCE_MM,))[0]:
                least[id(other.edge)] = (gap, other)
        for gap, other in least.values():
            yield (
                f"{cut} pierces {gap:.3f} mm from the kerf of {other.edge or 'a parting cut'}, "
                f"{clear:g} wanted"
            )


def _to_kerf(spot: Any, other: Cut, scene: Scene) -> float:
    """The kerf lies about a torch path; about a finished edge, on its scrap side alone."""
    asked = scene.asked
    gap = float(off(np.array([spot.coords[0]]), other.run.path)[0])
    if asked.kerf_in_path or other.edge is None:
        return gap - asked.half_mm
    in_scrap = other.edge.area.contains(spot) == other.edge.hole
    return gap - (asked.kerf_mm if in_scrap else 0.0)


def _sweep_faults(scene: Scene) -> Iterator[str]:
    """Half a kerf either side of a lead lies no part, no other lead, no mark, no piece to keep.

    A mark on the own part may reach to the edge where the lead comes in: the cut is there anyhow.
    """
    import shapely

    leads = [
        _Lead(cut, path, line_of(path))
        for cut in scene.cuts
        for path in (cut.run.lead_in, cut.run.lead_out)
        if path
    ]
    marks = [one for one in scene.drawn if one.layer == "mark"]
    shapes = [line_of(one.path) if one.path else shapely.Point(one.at) for one in marks]
    trees = [shapely.STRtree(s) for s in (scene.steel, [o.line for o in leads], shapes, scene.kept)]
    half = scene.asked.half_mm
    least = max(half - TOLERANCE_MM, 0.0)
    for i, lead in enumerate(leads):
        edge = lead.cut.edge
        for k in trees[0].query(lead.line, predicate="dwithin", distance=least):
            part = scene.asked.parts[int(k)]
            if edge is not None and part is edge.part and not scene.asked.kerf_in_path:
                if _enters_own(lead, edge, scene, int(k)):
                    yield f"{lead} runs into its own part"
                continue
            gap = scene.steel[int(k)].distance(lead.line)
            yield f"{lead} comes {gap:.3f} mm near to part {part.number}, {half:g} wanted"
        for k in trees[1].query(lead.line, predicate="dwithin", distance=2 * least):
            other = leads[int(k)]
            if int(k) > i and not _joined(lead, other):
                gap = lead.line.distance(other.line)
                yield f"{lead} comes {gap:.3f} mm near to {other}, {2 * half:g} wanted"
        for k in trees[2].query(lead.line, predicate="dwithin", distance=least):
            own = None if edge is None else scene.outline_of(edge.part).buffer(TOLERANCE_MM)
            if own is None or not own.covers(shapes[int(k)]):
                yield f"{lead} runs over the mark at {said(marks[int(k)].at)}"
        for k in trees[3].query(lead.line, predicate="dwithin", distance=least):
            if edge is not None or scene.kept[int(k)].buffer(-TOLERANCE_MM).intersects(lead.line):
                yield f"{lead} runs into a piece to keep"


def _joined(lead: _Lead, other: _Lead) -> bool:
    """Lead-in and lead-out of one edge with tabs: its first and last run meet there."""
    if lead.cut.edge is None or lead.cut.edge is not other.cut.edge:
        return False
    ends = [(one.path[0].start, one.path[-1].end) for one in (lead, other)]
    return any(np.hypot(a[0] - b[0], a[1] - b[1]) <= JOINT_MM for a in ends[0] for b in ends[1])


def _enters_own(lead: _Lead, edge: Edge, scene: Scene, k: int) -> bool:
    """Where the line is the part, a lead ends on it: it may touch there, and not go in.

    It must leave the edge as it would a straight one, or nearly so, until half a kerf is free.
    """
    import shapely

    run = lead.cut.run
    into = lead.path is run.lead_in
    joint = lead.path[-1].end if into else lead.path[0].start
    ahead = run.path[0].heading(0.0) if into else run.path[-1].heading(1.0)
    spots = samples(lead.path, 0.1)
    aside = np.abs((spots - np.array(joint)) @ np.array((-ahead[1], ahead[0])))
    gap = np.min([off(spots, one.path) for one in scene.edges_of(edge.part)], axis=0)
    gap[shapely.contains_xy(scene.steel[k], spots)] *= -1
    return bool((gap < np.minimum(scene.asked.half_mm, STRAIGHT * aside) - TOLERANCE_MM).any())
