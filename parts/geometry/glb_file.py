"""glTF 2.0, binary: a product as coloured triangles for viewers and web pages, in metres, Y up."""

from __future__ import annotations

from pathlib import Path

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.modeller import path_of_text, silent_modeller
from platewheel.parts.geometry.product import Product, bodies_in, document

METRES = 0.001  # of a millimetre, the unit of the solids
TURN = 0.15  # greatest angle between neighbouring triangles, radians


def write_glb(product: Product, name: str, path: Path, fine_mm: float) -> None:
    """The product, +Z up, within about `fine_mm`. Units and axes: glTF 2.0, 3.4 (metres, +Y up).

    Raises: GeometryError where the translator refuses; OSError from the disk.
    """
    from OCP.Message import Message_ProgressRange
    from OCP.RWGltf import RWGltf_CafWriter
    from OCP.RWMesh import RWMesh_CoordinateSystem
    from OCP.TCollection import TCollection_AsciiString
    from OCP.TColStd import TColStd_IndexedDataMapOfStringString

    for _, body, _ in bodies_in(product):
        body.shape.mesh(fine_mm, TURN)
    notes = TColStd_IndexedDataMapOfStringString()
    with silent_modeller(), path_of_text(path) as there:
        writer = RWGltf_CafWriter(TCollection_AsciiString(there), True)
        to_metres = writer.ChangeCoordinateSystemConverter()
        to_metres.SetInputLengthUnit(METRES)
        to_metres.SetInputCoordinateSystem(RWMesh_CoordinateSystem.RWMesh_CoordinateSystem_Zup)
        to_metres.SetOutputLengthUnit(1.0)
        to_metres.SetOutputCoordinateSystem(RWMesh_CoordinateSystem.RWMesh_CoordinateSystem_glTF)
        done = writer.Perform(document(product), notes, Message_ProgressRange())
    if not done or not path.is_file():
        raise GeometryError(
            f"{name}: the glTF translator wrote nothing to {path.name}; is the disk full?"
        )
