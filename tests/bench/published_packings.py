"""Published packings with all their placements, put to our verifier; run by hand:

    python -m tests.bench.published_packings FOLDER

FOLDER holds ESICUP packing instances (XML: polygons, boards, lots, solutions with placements).
Areas and densities are from the instances' own papers as tabulated for ESICUP. Coordinates are
rounded: parts may lie in each other by ROUNDING of the strip's height, and the depth is told.
Some files keep their layouts upside down to their polygons; a layout is read the way round that
lets its parts lie clear.
"""

from __future__ import annotations

import math
import sys
import xml.etree.ElementTree as Tree
from dataclasses import dataclass, replace
from pathlib import Path

from platewheel.nesting.geometry.gaps import box_gap
from platewheel.nesting.geometry.overlap import overlap_depth
from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.nesting.verify.verify import faults
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import polygon

ROUNDING = 1.5e-3  # of the strip's height; the beam search layouts of swim and trousers need it
# instance -> total area of all pieces (shoelace, ESICUP files), published densities in percent:
# SAHA (Gomes and Oliveira, EJOR 171, 2006), beam search (Bennell and Song)
PUBLISHED: dict[str, tuple[float, tuple[float, ...]]] = {
    "albano": (42_656_785, (87.427, 87.88)),
    "fu": (1083, (90.959, 90.28)),
    "shapes0": (1596, (66.50,)),
    "swim": (25_441_305, (74.368, 75.04)),
    "trousers": (17_206.5, (89.959, 90.38)),
}


@dataclass(frozen=True)
class Packing:
    """One published solution on its strip."""

    layout: Layout
    height: float
    length: float  # reached by the placements
    said: float  # the length that the solution claims

    @property
    def density_percent(self) -> float:
        """Share of the strip up to the length claimed."""
        return 100 * self.layout.parts_area_mm2 / (self.height * self.said)

    @property
    def depth(self) -> float:
        """Deepest that any two parts lie in each other."""
        loops = [placement.outline for placement in self.layout.placements]
        boxes = [outline.bounds(loop) for loop in loops]
        return max(
            overlap_depth(loops[i], loops[j])
            for i in range(len(loops))
            for j in range(i)
            if box_gap(boxes[i], boxes[j]) == 0
        )


def read(path: Path) -> tuple[float, list[Packing]]:
    """Total area of the pieces wanted, and every solution with placements."""
    tree = Tree.parse(path)
    for element in tree.iter():
        element.tag = element.tag.rpartition("}")[2]
    shapes = {p.get("id"): _corners(p) for p in tree.iter("polygon")}
    pieces = {p.get("id"): p for p in tree.iter("piece")}
    lot = tree.find(".//lot")
    assert lot is not None
    blanks, area = {}, 0.0
    for piece in lot.findall("piece"):
        blank = _blank(piece, shapes)
        blanks[piece.get("id")] = blank
        area += blank.area_mm2 * int(piece.get("quantity", "1"))
    board = next(iter(tree.iter("boards"))).find("piece")
    assert board is not None
    frame = _blank(pieces[board.get("id")], shapes).bounds
    height = min(frame[2] - frame[0], frame[3] - frame[1])
    mirrored = {name: _upside_down(blank) for name, blank in blanks.items()}
    solutions = [s for s in tree.iter("solution") if s.find("placement") is not None]
    both = [(_packing(s, blanks, height), _packing(s, mirrored, height)) for s in solutions]
    return area, [min(pair, key=lambda packing: packing.depth) for pair in both]


def polygons_of(path: Path) -> tuple[float, list[tuple[Blank, int, int]]]:
    """Height of an instance's strip; each polygon, how many, and at how many turns it may lie."""
    tree = Tree.parse(path)
    for element in tree.iter():
        element.tag = element.tag.rpartition("}")[2]
    shapes = {p.get("id"): _corners(p) for p in tree.iter("polygon")}
    board = next(iter(tree.iter("boards"))).find("piece")
    lot = tree.find(".//lot")
    assert board is not None
    assert lot is not None
    frame = _blank(board, shapes).bounds
    pieces = [
        (_blank(p, shapes), int(p.get("quantity", "1")), len(list(p.iter("enumeration"))))
        for p in lot.findall("piece")
    ]
    return min(frame[2] - frame[0], frame[3] - frame[1]), pieces


def _upside_down(blank: Blank) -> Blank:
    corners = [(s.start[0], -s.start[1]) for s in outline.segments(blank.outline)]
    return replace(blank, outline=polygon(corners[::-1]))


def _corners(element: Tree.Element) -> list[tuple[float, float]]:
    segments = sorted(element.iter("segment"), key=lambda s: int(s.get("n", "0")))
    return [(float(s.get("x0", "0")), float(s.get("y0", "0"))) for s in segments]


def _blank(piece: Tree.Element, shapes: dict[str | None, list[tuple[float, float]]]) -> Blank:
    component = piece.find("component")
    assert component is not None
    corners = shapes[component.get("idPolygon")]
    ring = polygon([c for i, c in enumerate(corners) if c != corners[i - 1]])
    if outline.signed_area_mm2(ring) < 0:
        reverse = outline.reversed_loop(ring)
        return Blank(str(piece.get("id")), "disc", 1.0, reverse)
    return Blank(str(piece.get("id")), "disc", 1.0, ring)


def _packing(solution: Tree.Element, blanks: dict[str | None, Blank], height: float) -> Packing:
    placements = tuple(
        Placement(
            blanks[p.get("idPiece")],
            float(p.get("x", "0")),
            float(p.get("y", "0")),
            float(p.get("angle", "0")),
        )
        for p in solution.findall("placement")
    )
    boxes = [outline.bounds(placement.outline) for placement in placements]
    low = (min(b[0] for b in boxes), min(b[1] for b in boxes))
    size = (max(b[2] for b in boxes) - low[0], max(b[3] for b in boxes) - low[1])
    across = abs(size[1] - height) <= abs(size[0] - height)  # y across the strip, else x
    length = size[0] if across else size[1]
    sides = (length, height) if across else (height, length)
    moved = tuple(
        Placement(p.blank, p.x_mm - low[0], p.y_mm - low[1], p.rotation_deg) for p in placements
    )
    said = float(solution.findtext(".//solutionWidth", default=str(length)))
    return Packing(Layout(Sheet("strip", 1.0, *sides, 1, 0.0), moved), height, length, said)


def check(path: Path) -> list[str]:
    """What is wrong with an instance, by our verifier and against the published figures."""
    area, packings = read(path)
    wrong = []
    published = PUBLISHED.get(path.stem)
    if published and not math.isclose(area, published[0], rel_tol=1e-6):
        wrong.append(f"area {area:.10g}, published {published[0]:.10g}")
    for i, packing in enumerate(packings):
        found = list(faults(packing.layout, 0.0, 0.0, ROUNDING * packing.height))
        wrong += [f"solution {i + 1}: {fault}" for fault in found[:3]]
        print(
            f"{path.stem} {i + 1}: {len(packing.layout.placements)} parts, area {area:.10g}, "
            f"density {packing.density_percent:.2f} %, deepest overlap "
            f"{packing.depth / packing.height:.1e} of the height, reaches "
            f"{packing.length:.2f}, said {packing.said:.2f}"
        )
    densities = [packing.density_percent for packing in packings]
    for wanted in published[1] if published else ():
        if not any(abs(density - wanted) < 0.015 for density in densities):
            wrong.append(f"no solution of {wanted} %")
    return wrong


def main(folder: Path) -> int:
    """Check every instance of a folder; 1 where one is not as published."""
    paths = sorted(folder.glob("*.xml"))
    bad = 0
    for path in paths:
        for line in check(path):
            print(f"  {path.stem}: {line}")
            bad += 1
    print(f"{len(paths)} instances, {bad} findings")
    return int(bad > 0 or not paths)


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
