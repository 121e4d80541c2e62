"""What was asked and what was read, laid beside each other: each run with the edge that it cuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from platewheel.nesting.proof.asked import Asked, AskedPart, Ring
from platewheel.nesting.proof.pieces import Path, facets, off, path_of, samples
from platewheel.nesting.proof.reading import CUTS, Drawn
from platewheel.nesting.proof.runs import Run, runs_of
from platewheel.parts.geometry.outline import Point

TOLERANCE_MM = 0.005
FAR_MM = 1.0  # a path further off is no cut of that edge
STEP_MM = 0.5  # from sample to sample along a path


@dataclass(frozen=True, eq=False)
class Edge:
    """A finished edge: a part's outline, or one of its holes."""

    part: AskedPart
    path: Path
    hole: bool
    area: Any  # what it goes round, on fine facets

    def __str__(self) -> str:
        x, y = self.path[0].start
        what = "a hole of part" if self.hole else "part"
        return f"{what} {self.part.number}, {self.part.name}, at ({x:.3f}, {y:.3f})"


@dataclass(frozen=True, eq=False)
class Cut:
    """A run; `edge` is what it cuts out: none for parting cuts and the grid."""

    run: Run
    edge: Edge | None

    def __str__(self) -> str:
        x, y = self.run.start
        return f"{self.edge or f'the {self.run.layer} cut'}, begun at ({x:.3f}, {y:.3f})"


@dataclass(frozen=True, eq=False)
class Scene:
    """All that the proof asks about."""

    asked: Asked
    drawn: tuple[Drawn, ...]
    cuts: tuple[Cut, ...]
    strange: tuple[Run, ...]  # cuts on the layers of parts that are the edge of none
    loose: tuple[Drawn, ...]  # leads at no cut
    edges: tuple[Edge, ...]
    steel: tuple[Any, ...]  # each part in the order asked, its holes out
    plate: Any
    kept: tuple[Any, ...]

    @cached_property
    def _cuts(self) -> dict[int, list[Cut]]:
        """By the edge that they cut."""
        found: dict[int, list[Cut]] = {}
        for cut in self.cuts:
            if cut.edge is not None:
                found.setdefault(id(cut.edge), []).append(cut)
        return found

    @cached_property
    def _edges(self) -> dict[int, list[Edge]]:
        """By the part that they are of."""
        found: dict[int, list[Edge]] = {}
        for edge in self.edges:
            found.setdefault(id(edge.part), []).append(edge)
        return found

    def cuts_of(self, edge: Edge) -> list[Cut]:
        """Runs that cut an edge, in their order."""
        return self._cuts.get(id(edge), [])

    def edges_of(self, part: AskedPart) -> list[Edge]:
        """A part's holes, and its outline."""
        return self._edges[id(part)]

    def before(self, edge: Edge) -> Edge | None:
        """The outline in whose cut that of another begins; None where it shares no line."""
        if edge.hole:
            return None
        mine = [a for a, b in self.asked.shared if b == edge.part.number]
        return next((e for e in self.edges if e.part.number in mine and not e.hole), None)

    def outline_of(self, part: AskedPart) -> Any:
        """A part, its holes filled, on fine facets."""
        return next(edge.area for edge in self.edges_of(part) if not edge.hole)


def scene_of(asked: Asked, drawn: Sequence[Drawn]) -> Scene:
    """Each run on a part's layer goes with the edge that it lies nearest to all along."""
    import shapely

    edges = []
    steel = []
    for part in asked.parts:
        outline = _edge(part, path_of(part.outline), hole=False)
        holes = [_edge(part, path_of(hole), hole=True) for hole in part.holes]
        edges += [*holes, outline]
        rings = [hole.area.exterior for hole in holes]
        steel.append(shapely.Polygon(outline.area.exterior, rings))
    runs, loose = runs_of(drawn)
    tree = shapely.STRtree([edge.area.exterior for edge in edges])
    cuts, strange = [], []
    for run in runs:
        edge = _edge_cut(run, edges, tree, asked.path_off_mm) if run.layer in CUTS else None
        if edge is None and run.layer in CUTS:
            strange.append(run)
        else:
            cuts.append(Cut(run, edge))
    return Scene(
        asked,
        tuple(drawn),
        tuple(cuts),
        tuple(strange),
        loose,
        tuple(edges),
        tuple(steel),
        _area(asked.plate, asked.plate_holes),
        tuple(_area(piece.corners, piece.holes) for piece in asked.kept),
    )


def _edge(part: AskedPart, path: Path, *, hole: bool) -> Edge:
    import shapely

    return Edge(part, path, hole, shapely.Polygon(facets(path)))


def _area(corners: Ring, holes: Sequence[Ring]) -> Any:
    import shapely

    return shapely.Polygon(corners, holes)


def _edge_cut(run: Run, edges: Sequence[Edge], tree: Any, off_mm: float) -> Edge | None:
    import shapely

    spots = samples(run.path, 20.0, 2)
    reach = off_mm + FAR_MM
    near = tree.query(shapely.Point(spots[0]), predicate="dwithin", distance=reach)
    found = []
    for i in sorted(int(k) for k in near):
        if edges[i].hole == (run.layer == "cut-hole"):
            worst = float(np.abs(off(spots, edges[i].path) - off_mm).max())
            if worst < FAR_MM:
                found.append((worst, i))
    return edges[min(found)[1]] if found else None


def line_of(path: Path) -> Any:
    """A path as a line of fine chords."""
    import shapely

    return shapely.LineString(facets(path))


def said(point: Point) -> str:
    """A place, in words."""
    return f"({point[0]:.3f}, {point[1]:.3f})"
