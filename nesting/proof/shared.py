"""Lines that two parts share: cut with the first of them, open in the other's outline."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from platewheel.nesting.proof.paths import area_faults
from platewheel.nesting.proof.pieces import off, samples
from platewheel.nesting.proof.scene import STEP_MM, TOLERANCE_MM, Edge, Scene, said

JOINT_MM = 0.05  # from an end of the open cut to the cut that it begins in


def shared_faults(scene: Scene) -> Iterator[str]:
    """One open cut after the neighbour's, from it and back to it; both go all round the edge."""
    for edge in scene.edges:
        before = scene.before(edge)
        if before is not None:
            yield from _open_faults(edge, before, scene)


def _open_faults(edge: Edge, before: Edge, scene: Scene) -> Iterator[str]:
    mine, others = scene.cuts_of(edge), scene.cuts_of(before)
    if not mine or not others:
        return  # told as not cut
    if len(mine) > 1 or mine[0].run.closed:
        yield f"{edge} shares a line with part {before.part.number}: one open cut of it wanted"
        return
    run = mine[0].run
    if max(other.run.begins for other in others) > run.begins:
        yield f"{mine[0]} begins in the cut of part {before.part.number}, which comes after it"
    theirs = tuple(piece for other in others for piece in other.run.path)
    ends = [run.path[0].start, run.path[-1].end]
    for end, gap in zip(ends, off(np.array(ends), theirs), strict=True):
        if gap > JOINT_MM:
            yield (
                f"{mine[0]}: its end at {said(end)} lies {gap:.3f} mm from the cut of part "
                f"{before.part.number}, {JOINT_MM:g} at most wanted"
            )
    spots, wanted = samples(edge.path, STEP_MM), scene.asked.path_off_mm
    far = off(spots, (*run.path, *theirs))
    worst = int(np.abs(far - wanted).argmax())
    if abs(far[worst] - wanted) > TOLERANCE_MM:
        yield (
            f"{edge}: at {said(spots[worst])} the nearest cut, its own or that of part "
            f"{before.part.number}, is {far[worst]:.4f} mm off, {wanted:g} within "
            f"{TOLERANCE_MM:g} wanted"
        )
    yield from area_faults(mine, edge, scene, 0)
