"""Solids as triangles, for a view on a screen; the modeller (OCCT) does the meshing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import cadquery as cq

FINE = 0.002  # chord error of the triangles, over the flange tip's radius
TURN = 0.2  # greatest angle between neighbouring triangles, radians


@dataclass(frozen=True)
class Mesh:
    """Points (mm) and triangles (three places in `points`), counter-clockwise from outside.

    Faces that meet at an edge share no points, so an edge stays sharp when shaded. `edges` are
    the solid's own, each a row of places in `points`; where a face only closes on itself is none.
    """

    points: tuple[tuple[float, float, float], ...]
    triangles: tuple[tuple[int, int, int], ...]
    edges: tuple[tuple[int, ...], ...] = ()


def solid_mesh(solid: cq.Shape, fine_mm: float) -> Mesh:
    """A solid's faces as triangles, off the true face by at most about `fine_mm`."""
    points, triangles = solid.tessellate(fine_mm, TURN)
    return Mesh(
        tuple(point.toTuple() for point in points),
        tuple((a, b, c) for a, b, c in triangles),
        tuple(_edges(solid)),
    )


def cut_mesh(solid: cq.Shape, reach_mm: float, fine_mm: float) -> Mesh:
    """The solid's section in the plane y = 0, seen from +y; empty where it does not reach there."""
    import cadquery as cq

    wide = 4 * reach_mm
    plane = cq.Face.makePlane(wide, wide, cq.Vector(0, 0, 0), cq.Vector(0, 1, 0))
    faces = plane.intersect(solid).Faces()
    if not faces:
        return Mesh((), ())
    found = solid_mesh(cq.Compound.makeCompound(faces), fine_mm)
    return Mesh(found.points, tuple(_towards(found, one) for one in found.triangles), found.edges)


def _towards(mesh: Mesh, triangle: tuple[int, int, int]) -> tuple[int, int, int]:
    """The triangle turned so that it is seen from +y."""
    (ax, _, az), (bx, _, bz), (cx, _, cz) = (mesh.points[i] for i in triangle)
    up = (bz - az) * (cx - ax) - (bx - ax) * (cz - az)
    return triangle if up > 0 else (triangle[0], triangle[2], triangle[1])


def _edges(solid: cq.Shape) -> Iterator[tuple[int, ...]]:
    """Of the solid's edges those points that their triangles have."""
    from OCP.BRep import BRep_Tool
    from OCP.TopLoc import TopLoc_Location

    drawn: set[Any] = set()
    offset = 0
    for face in solid.Faces():
        place = TopLoc_Location()
        net = BRep_Tool.Triangulation_s(face.wrapped, place)
        for edge in face.Edges():
            key = edge.hashCode()
            if key in drawn or BRep_Tool.Degenerated_s(edge.wrapped):
                continue
            if BRep_Tool.IsClosed_s(edge.wrapped, face.wrapped):
                continue
            row = BRep_Tool.PolygonOnTriangulation_s(edge.wrapped, net, place)
            if row is not None:
                drawn.add(key)
                yield tuple(offset + row.Node(i + 1) - 1 for i in range(row.NbNodes()))
        offset += net.NbNodes()
