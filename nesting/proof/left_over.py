"""What is left of the plate: parting cuts free the pieces to keep, the grid is cut clear of all."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from platewheel.nesting.proof.scene import TOLERANCE_MM, Cut, Scene, line_of, said
from platewheel.parts.geometry.outline import Point

FACET_CHORDS = 16  # to a quarter turn
SURE_MM = 0.01  # kerfs that only just meet are one


def left_over_faults(scene: Scene) -> Iterator[str]:
    """Parting cuts and grid touch no part; they end where the steel ends; pieces come free."""
    import shapely

    half = scene.asked.half_mm
    steel = shapely.STRtree(scene.steel)
    kept = shapely.STRtree(scene.kept)
    for cut in scene.cuts:
        if cut.edge is not None:
            continue
        line = line_of(cut.run.path)
        least = max(half - TOLERANCE_MM, 0.0)
        for i in steel.query(line, predicate="dwithin", distance=least):
            gap = scene.steel[int(i)].distance(line)
            number = scene.asked.parts[int(i)].number
            yield f"{cut} comes {gap:.3f} mm near to part {number}, {half:g} wanted"
        grid = cut.run.layer == "skeleton"
        for i in kept.query(line, predicate="dwithin", distance=least if grid else 0.0):
            piece = scene.kept[int(i)]
            if grid:
                yield f"{cut} comes {piece.distance(line):.3f} mm near to a piece to keep"
            elif piece.buffer(-half - TOLERANCE_MM).intersects(line):
                yield f"{cut} runs into a piece to keep"
    yield from _end_faults(scene)
    parting = [cut for cut in scene.cuts if cut.run.layer == "offcut"]
    for piece in scene.kept if scene.asked.parted else ():
        yield from _free_faults(piece, parting, scene)


def _end_faults(scene: Scene) -> Iterator[str]:
    """A parting cut ends in the kerf of another cut or at the plate's edge."""
    parting = [cut for cut in scene.cuts if cut.run.layer == "offcut"]
    for cut in parting:
        if cut.run.closed:
            continue
        ends = [cut.run.path[-1].end]
        if not cut.run.lead_in:
            ends.insert(0, cut.run.path[0].start)
        for end in ends:
            if not _meets(end, cut, parting, scene):
                yield f"{cut} ends at {said(end)} in steel, at a cut or the plate's edge wanted"


def _meets(end: Point, cut: Cut, parting: list[Cut], scene: Scene) -> bool:
    import shapely

    asked, spot = scene.asked, shapely.Point(end)
    if scene.plate.boundary.distance(spot) <= asked.half_mm + TOLERANCE_MM:
        return True
    reach = asked.kerf_mm + TOLERANCE_MM
    if any(
        other is not cut and line_of(other.run.path).distance(spot) <= reach for other in parting
    ):
        return True
    reach = asked.kerf_mm + asked.half_mm + TOLERANCE_MM  # from a finished edge: its kerf, and ours
    return any(shape.distance(spot) <= reach for shape in scene.steel)


def _free_faults(piece: Any, parting: list[Cut], scene: Scene) -> Iterator[str]:
    """The steel that hangs on a kept piece, all kerfs taken out, ends near to the piece; of one in
    the hole of a part, in the hole: it falls out with the slug."""
    import shapely

    asked = scene.asked
    reach = asked.keep_reach_mm
    window = piece.buffer(reach + asked.kerf_mm, quad_segs=FACET_CHORDS).intersection(scene.plate)
    by = asked.kerf_mm + SURE_MM
    gone = [
        shape.buffer(by, quad_segs=FACET_CHORDS) for shape in scene.steel if _near(shape, window)
    ]
    for cut in parting:
        for path in (cut.run.lead_in, cut.run.path):
            if path:
                line = line_of(path)
                gone.append(line.buffer(asked.half_mm + SURE_MM, quad_segs=FACET_CHORDS))
    left = window.difference(shapely.union_all(gone))
    inner = piece.buffer(-by).representative_point()
    here = next((one for one in shapely.get_parts(left) if one.contains(inner)), None)
    if here is None:
        yield f"a cut runs through the piece to keep at {said(inner.coords[0])}"
        return
    lost = piece.buffer(-by).difference(here).area
    if lost > SURE_MM * piece.length:
        yield f"cuts take {lost:.1f} mm2 off the piece to keep at {said(inner.coords[0])}"
    slug = next((e.area for e in scene.edges if e.hole and e.area.contains(piece)), None)
    beyond = here.difference(slug or piece.buffer(reach, quad_segs=FACET_CHORDS))
    if beyond.area > SURE_MM:
        place = beyond.representative_point().coords[0]
        yield (
            f"the piece to keep at {said(inner.coords[0])} is not cut free: steel hangs on it at "
            f"{said(place)}, more than {reach:g} mm beyond it"
        )


def _near(shape: Any, window: Any) -> bool:
    return bool(shape.distance(window) < 1.0)
