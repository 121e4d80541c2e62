"""3MF: one closed body as triangles in millimetres, for a printed model; the same bytes each time.

Source: 3MF Core Specification 1.3 (package, model, unit, manifold edges), from memory. Parts lie in
the package uncompressed and undated, as compressors and clocks differ.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr
from zipfile import ZipFile, ZipInfo

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.stl_file import FINE_MM, TURN

if TYPE_CHECKING:
    import cadquery as cq

UNDATED = (1980, 1, 1, 0, 0, 0)  # the first day that a ZIP knows
PLACES = 6  # decimals of a coordinate: corners of neighbouring faces that agree so far are one
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
TYPES = (
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType='
    '"application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" '
    'ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
)
RELATIONS = (
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    '<Relationship Target="/3D/3dmodel.model" Id="rel0" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
)


def write_3mf(solid: cq.Solid, name: str, path: Path, scale: float, made_by: str) -> None:
    """The solid `scale` times smaller, its lowest corner on the origin; mm.

    Raises: GeometryError where its triangles are not closed; OSError from the disk.
    """
    places, triangles = solid.scale(1 / scale).tessellate(FINE_MM, TURN)
    least = [min(getattr(at, axis) for at in places) for axis in "xyz"]
    number: dict[str, int] = {}
    row = [
        number.setdefault(
            " ".join(
                f'{axis}="{getattr(at, axis) - low:.{PLACES}f}"'
                for axis, low in zip("xyz", least, strict=True)
            ),
            len(number),
        )
        for at in places
    ]
    faces = [(row[a], row[b], row[c]) for a, b, c in triangles]
    faces = [face for face in faces if len(set(face)) == 3]
    edges = Counter(edge for a, b, c in faces for edge in ((a, b), (b, c), (c, a)))
    if not edges or any(n > 1 or (b, a) not in edges for (a, b), n in edges.items()):
        raise GeometryError(f"{name}: its triangles do not close for {path.name}")
    model = (
        f'<model unit="millimeter" xml:lang="en-US" '
        'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">'
        f'<metadata name="Title">{escape(name)}</metadata>'
        f'<metadata name="Application">{escape(made_by)}</metadata>'
        f'<resources><object id="1" type="model" name={quoteattr(name)}><mesh><vertices>'
        + "".join(f"<vertex {place}/>\n" for place in number)
        + "</vertices><triangles>"
        + "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>\n' for a, b, c in faces)
        + '</triangles></mesh></object></resources><build><item objectid="1"/></build></model>\n'
    )
    parts = {"[Content_Types].xml": TYPES, "_rels/.rels": RELATIONS, "3D/3dmodel.model": model}
    with ZipFile(path, "w") as package:
        for part, text in parts.items():
            about = ZipInfo(part, UNDATED)
            about.create_system = 0  # on every system the same
            package.writestr(about, HEAD + text)
