"""Solids as the lines that an eye far away sees: hidden lines taken away by OCCT (HLRBRep)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from platewheel.cli.papers.drawings.dimension_lines import XY

if TYPE_CHECKING:
    import cadquery as cq

XYZ = tuple[float, float, float]


@dataclass(frozen=True)
class Eye:
    """Direction from the wheel to an eye far away (parallel projection); +X is up."""

    towards: XYZ

    @property
    def axes(self) -> tuple[XYZ, XYZ, XYZ]:
        """Unit vectors: to the right, up, to the eye."""
        long = math.hypot(*self.towards)
        ex, ey, ez = (part / long for part in self.towards)
        flat = math.hypot(ey, ez)
        right = (0.0, -ez / flat, ey / flat)
        up = (flat, -ex * ey / flat, -ex * ez / flat)
        return right, up, (ex, ey, ez)

    def seen(self, point: XYZ) -> XY:
        """Where a point falls in the picture: x to the right, y down."""
        right, up, _ = self.axes
        return _dot(point, right), -_dot(point, up)


def _dot(a: XYZ, b: XYZ) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def visible_edges(solids: Sequence[cq.Solid], eye: Eye, fine_mm: float) -> list[list[XY]]:
    """Edges and outlines that no solid hides, as strokes in the picture (x right, y down).

    Curves are drawn within `fine_mm`. Where two solids overlap, lines may be missing.
    """
    import cadquery as cq
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.BRepLib import BRepLib
    from OCP.GCPnts import GCPnts_QuasiUniformDeflection
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
    from OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

    right, _, towards = eye.axes
    hidden = HLRBRep_Algo()
    for solid in solids:
        hidden.Add(solid.wrapped)
    frame = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*towards), gp_Dir(*right))
    hidden.Projector(HLRAlgo_Projector(frame))
    hidden.Update()
    hidden.Hide()
    found = HLRBRep_HLRToShape(hidden)
    strokes: list[list[XY]] = []
    for compound in (found.VCompound(), found.OutLineVCompound()):
        if compound is None or compound.IsNull():
            continue
        BRepLib.BuildCurves3d_s(compound)
        for edge in cq.Shape.cast(compound).Edges():
            points = GCPnts_QuasiUniformDeflection(BRepAdaptor_Curve(edge.wrapped), fine_mm)
            values = (points.Value(i + 1) for i in range(points.NbPoints()))
            strokes.append([(point.X(), -point.Y()) for point in values])
    return strokes
