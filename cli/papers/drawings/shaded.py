"""A STEP file as a shaded picture, drawn off screen by VTK (comes with cadquery)."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import cadquery as cq

FINE_MM = 0.03  # triangles off the true face
TURN = 0.05  # between neighbouring ones, radians: round edges look round
View = tuple[float, float, float]
FROM_FIELD_SIDE: View = (0.35, -0.8, -0.9)  # direction to the eye: field side, a little above


def step_picture(
    step: Path,
    png: Path,
    *,
    eye: View = FROM_FIELD_SIDE,
    up: View = (1.0, 0.0, 0.0),
    size_px: tuple[int, int] = (2400, 2200),
) -> None:
    """Shaded view of a STEP file on white; by default +X up, so that a wheel stands on its tread.

    Raises: ImportError without a working OpenGL; OSError from the disk.
    """
    import vtkmodules.vtkRenderingOpenGL2  # noqa: F401 - registers the renderer
    from cadquery.occ_impl.assembly import toVTK
    from vtkmodules.vtkFiltersCore import vtkCleanPolyData, vtkPolyDataNormals
    from vtkmodules.vtkIOImage import vtkPNGWriter
    from vtkmodules.vtkRenderingCore import vtkRenderWindow, vtkWindowToImageFilter

    renderer = toVTK(_bodies(step), tolerance=FINE_MM, angularTolerance=TURN)
    for number, actor in enumerate(renderer.GetActors()):
        if number % 2:  # faces and edges by turns
            actor.GetProperty().SetColor(0.13, 0.13, 0.13)
            actor.GetProperty().SetLineWidth(2.5)
            continue
        joined = vtkCleanPolyData()  # each triangle has points of its own
        joined.SetInputData(actor.GetMapper().GetInput())
        smooth = vtkPolyDataNormals()
        smooth.SetInputConnection(joined.GetOutputPort())
        smooth.SetFeatureAngle(25)
        smooth.Update()
        actor.GetMapper().SetInputData(smooth.GetOutput())
        actor.GetProperty().SetAmbient(0.25)
        actor.GetProperty().SetDiffuse(0.8)
    renderer.SetBackground(1, 1, 1)
    window = vtkRenderWindow()
    window.SetOffScreenRendering(1)
    window.SetMultiSamples(8)
    window.SetSize(*size_px)
    window.AddRenderer(renderer)
    camera = renderer.GetActiveCamera()
    camera.SetFocalPoint(0, 0, 0)
    camera.SetPosition(*eye)
    camera.SetViewUp(*up)
    renderer.ResetCamera()
    window.Render()
    shot = vtkWindowToImageFilter()
    shot.SetInput(window)
    shot.ReadFrontBufferOff()
    shot.Update()
    writer = vtkPNGWriter()
    writer.SetFileName(str(png))
    writer.SetInputConnection(shot.GetOutputPort())
    writer.Write()


def _bodies(step: Path) -> cq.Assembly:
    """Every body of the file as it stands, with its colour. The library's own reader of assemblies
    takes no product that stands in two places."""
    import cadquery as cq
    from OCP.Quantity import Quantity_TypeOfColor
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool
    from OCP.XCAFPrs import XCAFPrs_DocumentExplorer

    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    reader = STEPCAFControl_Reader()
    reader.SetColorMode(True)
    reader.ReadFile(str(step))
    reader.Transfer(document)
    found = cq.Assembly()
    only_leaves = 1
    explorer = XCAFPrs_DocumentExplorer(document, only_leaves)
    while explorer.More():
        node = explorer.Current()
        shape = XCAFDoc_ShapeTool.GetShape_s(node.RefLabel)
        style = node.Style
        if style.IsSetColorSurf():  # what has none is a line
            colour = style.GetColorSurf().Values(Quantity_TypeOfColor.Quantity_TOC_sRGB)
            found.add(cq.Shape.cast(shape.Located(node.Location)), color=cq.Color(*colour))
        explorer.Next()
    return found
