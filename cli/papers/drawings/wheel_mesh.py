"""Solids as triangles, for a view on a screen; the modeller (OCCT) does the meshing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import cadquery as cq

FINE = 0.002  # chord error of the triangles, over the flange tip's radius
TURN = 0.2  # greatest angle between neighbouring triangles, radians


@dataclass(frozen=True)
class Mesh:
    """Points (mm) and triangles (three places in `points`), counter-clockwise from outside.

    Faces that meet at an edge share no points, so an edge stays sharp when shaded.
    """

    points: tuple[tuple[float, float, float], ...]
    triangles: tuple[tuple[int, int, int], ...]


def solid_mesh(solid: cq.Solid, fine_mm: float) -> Mesh:
    """A solid's faces as triangles, off the true face by at most about `fine_mm`."""
    points, triangles = solid.tessellate(fine_mm, TURN)
    return Mesh(
        tuple(point.toTuple() for point in points), tuple((a, b, c) for a, b, c in triangles)
    )
