"""Section to solid: the few modelling steps that all parts share."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.section import RZ

if TYPE_CHECKING:
    import cadquery as cq


def revolved(
    section: Sequence[RZ], name: str, start: float = 0.0, turn: float = 2 * math.pi
) -> cq.Solid:
    """Section turned about Z through `turn` radians from angle `start` (0 = +X); one solid.

    Raises: GeometryError where the modeller gives no valid single solid.
    """
    import cadquery as cq
    from OCP.Standard import Standard_Failure

    points = [cq.Vector(r, 0, z) for r, z in section]
    degrees = 360.0 if turn >= 2 * math.pi - 1e-12 else math.degrees(turn)
    try:
        wire = cq.Wire.makePolygon(points, close=True)
        solid = cq.Solid.revolve(wire, [], degrees, cq.Vector(0, 0, 0), cq.Vector(0, 0, 1))
    except Standard_Failure as error:
        raise GeometryError(f"{name}: the modeller cannot turn this section ({error})") from error
    solid = solid.rotate(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), math.degrees(start))
    return one_solid(solid, name)


def one_solid(shape: cq.Shape, name: str) -> cq.Solid:
    """The shape as one valid solid with positive volume. Raises: GeometryError naming the part."""
    solids = shape.Solids()
    if len(solids) != 1:
        raise GeometryError(f"{name}: the modeller gave {len(solids)} solids where one was wanted")
    solid = solids[0]
    if not solid.isValid() or not solid.Volume() > 0:
        raise GeometryError(f"{name}: the modeller gave a solid that is not valid")
    return solid
