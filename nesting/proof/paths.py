"""Where paths lie beside the finished edges: half a kerf off them on the scrap side, or on them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from platewheel.nesting.proof.pieces import SAG_MM, off, samples, turned_area_mm2
from platewheel.nesting.proof.scene import STEP_MM, TOLERANCE_MM, Cut, Edge, Scene, said
from platewheel.parts.base.so_many import so_many

ROUND = 64  # chords to a quarter turn about a corner
TAB_MM = 0.05  # of the width of a tab
JOINT_MM = 0.005


def path_faults(scene: Scene) -> Iterator[str]:
    """Each path at its distance everywhere, on the scrap side, and all the way round."""
    for edge in scene.edges:
        mine = scene.cuts_of(edge)
        for cut in mine:
            yield from _distance_faults(cut, edge, scene)
        if len(mine) == 1 and mine[0].run.closed:
            yield from area_faults(mine, edge, scene, 0)
            if not edge.hole:
                yield from _count_faults(0, edge, scene)
        elif mine and not any(cut.run.closed for cut in mine):
            yield from _tab_faults(mine, edge, scene)


def _distance_faults(cut: Cut, edge: Edge, scene: Scene) -> Iterator[str]:
    import shapely

    wanted = scene.asked.path_off_mm
    spots = samples(cut.run.path, STEP_MM)
    far = off(spots, edge.path)
    worst = int(np.abs(far - wanted).argmax())
    if abs(far[worst] - wanted) > TOLERANCE_MM:
        yield (
            f"{cut}: the path at {said(spots[worst])} lies {far[worst]:.4f} mm from the finished "
            f"edge, {wanted:g} within {TOLERANCE_MM:g} wanted"
        )
    if wanted > TOLERANCE_MM:
        inside = shapely.contains_xy(edge.area, spots)
        wrong = np.nonzero(inside != edge.hole)[0]
        if len(wrong):
            yield f"{cut}: the path at {said(spots[wrong[0]])} lies on the side of the part"


def area_faults(mine: Sequence[Cut], edge: Edge, scene: Scene, tabs: int) -> Iterator[str]:
    """A path that lies right all along, and goes round what it should, leaves nothing out."""
    by = -scene.asked.path_off_mm if edge.hole else scene.asked.path_off_mm
    ideal = edge.area.buffer(by, quad_segs=ROUND).area if by else edge.area.area
    pieces = tuple(piece for cut in mine for piece in cut.run.path)
    found = abs(turned_area_mm2(pieces))
    # chords lie off by two thirds of the sag in the mean; a tab is cut short by a straight line
    opening = scene.asked.tab_width_mm + scene.asked.kerf_mm
    # GEOS draws the corners of what it widens together within a hundredth of the distance
    off_by = TOLERANCE_MM + SAG_MM + abs(by) / 100
    allowed = off_by * edge.area.length + tabs * opening**2 / 2 + 0.01
    if abs(found - ideal) > allowed:
        yield (
            f"{mine[0]} goes round {found:.3f} mm2, {ideal:.3f} within {allowed:.3f} wanted: "
            "some of the edge is left out or gone along twice"
        )


def _tab_faults(mine: Sequence[Cut], edge: Edge, scene: Scene) -> Iterator[str]:
    """From the end of each run to the start of the next: on without a step, or a whole tab."""
    asked, tabs = scene.asked, 0
    if edge.hole or not asked.tab_count:
        return  # open where it must not be; told already
    for before, after in pairwise([*mine, mine[0]]):
        a, b = before.run.path[-1].end, after.run.path[0].start
        gap = math.dist(a, b)
        if gap <= JOINT_MM:
            continue
        tabs += 1
        steel = gap - asked.kerf_mm
        if abs(steel - asked.tab_width_mm) > TAB_MM:
            yield (
                f"{edge}: the tab from {said(a)} to {said(b)} is {steel:.3f} mm wide between the "
                f"kerfs, {asked.tab_width_mm:g} within {TAB_MM:g} wanted"
            )
    yield from _count_faults(tabs, edge, scene)
    yield from area_faults(mine, edge, scene, tabs)


def _count_faults(tabs: int, edge: Edge, scene: Scene) -> Iterator[str]:
    wanted, fewer = scene.asked.tab_count, edge.part.number in scene.asked.told.fewer_tabs
    if tabs != wanted and not (fewer and tabs < wanted):
        yield f"{edge} has {so_many(tabs, 'tab')}, {wanted} wanted"
