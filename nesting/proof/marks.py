"""Marks stand on the steel of a part, or on a piece to keep."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from platewheel.nesting.proof.scene import TOLERANCE_MM, Scene, line_of, said


def mark_faults(scene: Scene) -> Iterator[str]:
    """A centre lies in the steel of a part; a stroke in that of one alone or on a piece to keep.

    A plain line or arc that a drawing bears may run where its part has a hole.
    """
    import shapely

    steel = shapely.STRtree(scene.steel)
    kept = shapely.STRtree(scene.kept)
    marks = [one for one in scene.drawn if one.layer == "mark"]
    strokes = [one for one in marks if one.kind == "POLYLINE" and one.path]
    lines = np.array([line_of(one.path) for one in strokes], dtype=object)
    # nearly all lie well within their steel; what does not is asked for with the tolerance
    sure = {int(i) for tree in (steel, kept) for i in tree.query(lines, predicate="covered_by")[0]}
    unsure = {id(strokes[i]): lines[i] for i in range(len(strokes)) if i not in sure}
    for one in marks:
        if one.kind == "POINT" and not len(steel.query(shapely.Point(one.at), predicate="within")):
            yield f"the centre at {said(one.at)} lies in a hole or beside the parts, steel wanted"
        line = unsure.get(id(one))
        if line is None:
            continue
        homes = [scene.steel[int(i)] for i in steel.query(line, predicate="intersects")]
        homes += [scene.kept[int(i)] for i in kept.query(line, predicate="intersects")]
        if not any(home.buffer(TOLERANCE_MM).covers(line) for home in homes):
            yield (
                f"the stroke at {said(one.at)} does not lie whole on the steel of one part or on "
                "a piece to keep"
            )
