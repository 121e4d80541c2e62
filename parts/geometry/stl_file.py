"""STL, binary: one closed body as triangles, for a printed model; to scale, base on the bed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.modeller import path_of_text, silent_modeller
from platewheel.parts.geometry.solid import one_solid

if TYPE_CHECKING:
    from collections.abc import Sequence

    import cadquery as cq

FINE_MM = 0.02  # triangles off the true face, on the print: less than a printer's step
TURN = 0.1  # greatest angle between neighbouring triangles, radians
HEAD, FACET = 84, 50  # bytes


def fused(solids: Sequence[cq.Solid], name: str) -> cq.Solid:
    """Solids that touch, as one. Raises: GeometryError where they do not make one body."""
    first, *others = solids
    return one_solid(first.fuse(*others).clean() if others else first, name)


def write_stl(solid: cq.Solid, name: str, path: Path, scale: float) -> None:
    """The solid `scale` times smaller, its lowest point at z = 0; mm.

    Raises: GeometryError where nothing is written; OSError from the disk.
    """
    import cadquery as cq

    small = solid.scale(1 / scale)
    small = small.moved(cq.Location(cq.Vector(0, 0, -small.BoundingBox().zmin)))
    with silent_modeller(), path_of_text(path) as there:
        done = small.exportStl(there, FINE_MM, TURN, ascii=False, relative=False)
    if not done or not _whole(path):  # it says that all is well where its last bytes found no room
        raise GeometryError(f"{name}: the modeller wrote nothing to {path.name}; is the disk full?")


def _whole(path: Path) -> bool:
    """Whether as many triangles follow as its head says. Source: the binary STL format
    (from memory): 80 bytes, the count in 4, then 50 a triangle."""
    data = path.read_bytes()
    return len(data) == HEAD + FACET * int.from_bytes(data[HEAD - 4 : HEAD], "little")
