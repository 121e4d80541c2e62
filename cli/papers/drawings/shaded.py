"""A STEP file as a shaded picture, drawn off screen by VTK (comes with cadquery)."""

from __future__ import annotations

from pathlib import Path

View = tuple[float, float, float]
FROM_FIELD_SIDE: View = (0.35, -0.8, -0.9)  # direction to the eye: field side, a little above


def step_picture(
    step: Path, png: Path, *, eye: View = FROM_FIELD_SIDE, size_px: tuple[int, int] = (520, 480)
) -> None:
    """Shaded view of a STEP file, +X up, so that a wheel stands on its tread.

    Raises: ImportError without a working OpenGL; OSError from the disk.
    """
    import cadquery as cq
    import vtkmodules.vtkRenderingOpenGL2  # noqa: F401 - registers the renderer
    from cadquery.occ_impl.assembly import toVTK
    from vtkmodules.vtkIOImage import vtkPNGWriter
    from vtkmodules.vtkRenderingCore import vtkRenderWindow, vtkWindowToImageFilter

    renderer = toVTK(cq.Assembly.importStep(str(step)))
    renderer.SetBackground(1, 1, 1)
    window = vtkRenderWindow()
    window.SetOffScreenRendering(1)
    window.SetMultiSamples(8)
    window.SetSize(*size_px)
    window.AddRenderer(renderer)
    camera = renderer.GetActiveCamera()
    camera.SetFocalPoint(0, 0, 0)
    camera.SetPosition(*eye)
    camera.SetViewUp(1, 0, 0)
    renderer.ResetCamera()
    camera.Zoom(1.25)
    window.Render()
    shot = vtkWindowToImageFilter()
    shot.SetInput(window)
    shot.ReadFrontBufferOff()
    shot.Update()
    writer = vtkPNGWriter()
    writer.SetFileName(str(png))
    writer.SetInputConnection(shot.GetOutputPort())
    writer.Write()
