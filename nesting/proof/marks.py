"""Marks stand on the steel of a part, or on a piece to keep."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.nesting.proof.scene import TOLERANCE_MM, Scene, line_of, said


def mark_faults(scene: Scene) -> Iterator[str]:
    """A centre lies in the steel of a part; a stroke in that of one alone or on a piece to keep.

    A plain line or arc that a drawing bears may run where its part has a hole.
    """
    import shapely

    steel = shapely.STRtree(scene.steel)
    kept = shapely.STRtree(scene.kept)
    for one in scene.drawn:
        if one.layer != "mark":
            continue
        if one.kind == "POINT" and not len(steel.query(shapely.Point(one.at), predicate="within")):
            yield f"the centre at {said(one.at)} lies in a hole or beside the parts, steel wanted"
        if one.kind != "POLYLINE" or not one.path:
            continue
        line = line_of(one.path)
        homes = [scene.steel[int(i)] for i in steel.query(line, predicate="intersects")]
        homes += [scene.kept[int(i)] for i in kept.query(line, predicate="intersects")]
        if not any(home.buffer(TOLERANCE_MM).covers(line) for home in homes):
            yield (
                f"the stroke at {said(one.at)} does not lie whole on the steel of one part or on "
                "a piece to keep"
            )
