"""Pierces and length of cut in a file beside what the report says of it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from platewheel.nesting.proof.scene import Scene
from platewheel.parts.base.so_many import so_many

LENGTH_MM = 0.1  # for each cut


def total_faults(scene: Scene) -> Iterator[str]:
    """The same number of runs, and the same length."""
    asked = scene.asked
    runs = [*(cut.run for cut in scene.cuts), *scene.strange]
    if len(runs) != asked.pierces:
        yield f"the file has {so_many(len(runs), 'pierce')}, the report {asked.pierces}"
    length, allowed = math.fsum(run.length_mm for run in runs), LENGTH_MM * max(1, len(runs))
    if abs(length - asked.cut_length_mm) > allowed:
        yield (
            f"the file has {length:.2f} mm of cut, the report {asked.cut_length_mm:.2f}: "
            f"within {allowed:.1f} wanted"
        )
