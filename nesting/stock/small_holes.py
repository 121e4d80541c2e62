"""Holes that the process cannot cut become centres to drill, on the sheet alone.

A blank's own drawing keeps its true hole: it is the part. On the sheet the torch is not sent there.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

from platewheel.nesting.geometry.facets import outer_polygon
from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.base.cut_process import least_hole_mm
from platewheel.parts.base.so_many import noun, so_many
from platewheel.parts.geometry.blank import Blank, MarkPoint
from platewheel.parts.geometry.outline import Loop, reversed_loop, signed_area_mm2
from platewheel.parts.geometry.round_hole import round_hole as round_hole

LEAST_BY_HAND_MM = 25.0  # drill or hole saw below it; common practice, no source
TOLERANCE_MM = 1e-6


@dataclass(frozen=True)
class MarkedHoles:
    """Holes of one size of one blank that are marked, not cut; `count` is of one blank."""

    blank: str
    diameter_mm: float
    count: int
    least_mm: float

    def __str__(self) -> str:
        holes = "hole" if self.count == 1 else so_many(self.count, "hole")
        verb = noun(self.count, "is", "are")
        return (
            f"{self.blank}: the {holes} of {self.diameter_mm:g} mm {verb} smaller than "
            f"{self.least_mm:g} mm, the least that is cut: a centre to drill on the sheets"
        )


def least_hole(cutting: Cutting, thickness_mm: float) -> float:
    """Diameter of the smallest hole that is cut in a thickness: the key, or by the process.

    Source: as the check of holes; by hand 25 mm, common practice, no source.
    """
    if cutting.least_hole_mm is not None:
        return cutting.least_hole_mm
    if cutting.process == "hand":
        return LEAST_BY_HAND_MM
    return least_hole_mm(cutting.process, thickness_mm)


def without_small_holes(blank: Blank, cutting: Cutting) -> Blank:
    """The blank as it is laid on a sheet: round holes below the least as centre marks. By hand it
    keeps all its holes: each is made its own way, none by a torch."""
    if cutting.process == "hand":
        return blank
    least = least_hole(cutting, blank.thickness_mm)
    small = [hole for hole in blank.holes if _is_small(hole, least)]
    if not small:
        return blank
    there = {mark.at for mark in blank.marks if isinstance(mark, MarkPoint)}
    centres = [circle.centre for circle in map(round_hole, small) if circle]
    new = tuple(MarkPoint(at) for at in centres if at not in there)
    kept = tuple(hole for hole in blank.holes if not _is_small(hole, least))
    return replace(blank, holes=kept, marks=(*blank.marks, *new))


def marked_holes(blanks: Iterable[Blank], cutting: Cutting) -> tuple[MarkedHoles, ...]:
    """What `without_small_holes` takes out of these blanks, by blank and size."""
    found = []
    for blank in blanks:
        least = least_hole(cutting, blank.thickness_mm)
        round_holes = [circle for circle in map(round_hole, blank.holes) if circle]
        sizes = Counter(
            round(2 * circle.radius_mm, 6) for circle in round_holes if _is_small(circle, least)
        )
        found += [MarkedHoles(blank.name, size, sizes[size], least) for size in sorted(sizes)]
    return tuple(found)


def narrow_holes(blanks: Iterable[Blank], cutting: Cutting) -> tuple[str, ...]:
    """A line for each blank with holes, not round, that are narrower than the least.

    They stay cut, for no drill makes them; the width is that of the least rectangle about one. By
    hand there are none: each cut-out has its own way.
    """
    if cutting.process == "hand":
        return ()
    lines = []
    for blank in blanks:
        least = least_hole(cutting, blank.thickness_mm)
        widths = [_width_mm(hole) for hole in blank.holes if round_hole(hole) is None]
        narrow = [width for width in widths if width < least - TOLERANCE_MM]
        if narrow:
            lines.append(
                f"{blank.name}: {len(narrow)} cut-outs that are not round are narrower than "
                f"{least:g} mm ({min(narrow):.1f} mm): they are cut all the same, look at the "
                "edges, or drill the ends and saw"
            )
    return tuple(lines)


def _is_small(hole: Loop, least_mm: float) -> bool:
    circle = round_hole(hole)
    return circle is not None and 2 * circle.radius_mm < least_mm - TOLERANCE_MM


def _width_mm(hole: Loop) -> float:
    """Shorter side of the least rectangle about a hole."""
    import shapely

    points = outer_polygon(hole if signed_area_mm2(hole) > 0 else reversed_loop(hole))
    box = shapely.Polygon(points).minimum_rotated_rectangle
    corners = list(box.exterior.coords)
    return min(math.dist(corners[0], corners[1]), math.dist(corners[1], corners[2]))
