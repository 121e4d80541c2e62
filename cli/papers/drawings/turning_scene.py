"""The wheel as coloured triangles that can be pulled apart, for a 3-D view on a screen."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from platewheel.cli.papers.drawings.exploded import EYE
from platewheel.cli.papers.drawings.pulled_apart import Pulled, pulled_apart
from platewheel.cli.papers.drawings.wheel_mesh import FINE, Mesh, cut_mesh, solid_mesh
from platewheel.parts.wheel.kinds import colour_of, kind_of
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import bead_words

if TYPE_CHECKING:
    import cadquery as cq


def turning_scene(spec: WheelSpec, solids: Mapping[str, cq.Solid]) -> dict[str, Any]:
    """Plain numbers (ready for JSON), mm. `solids` are those of `wheel_solids`, by name.

    For each solid its points and triangles in one row each, edges, the same of its section in the
    plane y = 0, what it is called, colour, and how far it goes when pulled apart; for the whole
    the radius that holds it, the middle of its width, half the length of the row of parts, and
    the axes of the first view (right, up, to the eye).
    """
    parts = pulled_apart(spec, solids)
    first, last = parts[0].shift_mm, parts[-1].shift_mm  # the row's middle stays where it is
    fine = FINE * spec.over_flange_diameter_mm / 2
    return {
        "parts": [
            _part(name, solid, fine, parts, (first + last) / 2) for name, solid in solids.items()
        ],
        "radius": round(spec.over_flange_diameter_mm / 2 + spec.tread_width_mm / 3, 1),
        "row": round((last - first) / 2, 1),
        "middle": spec.tread_width_mm / 2,
        "start": EYE.axes,
    }


def _part(
    name: str, solid: cq.Solid, fine_mm: float, parts: list[Pulled], still_mm: float
) -> dict[str, Any]:
    box = solid.BoundingBox()
    reach = max(abs(value) for value in (box.xmin, box.xmax, box.zmin, box.zmax))
    return {
        "name": name,
        "title": solid_words(name),
        "bead": kind_of(name) is None,
        "colour": [round(255 * share) for share in colour_of(name)],
        "shift": [round(value, 1) for value in _shift(solid, parts, still_mm)],
        **_net(solid_mesh(solid, fine_mm)),
        "section": _net(cut_mesh(solid, reach, fine_mm)),
    }


def solid_words(name: str) -> str:
    """A solid of the wheel as a person calls it."""
    kind = kind_of(name)
    if kind is None:
        return bead_words(name)
    rest = name.removeprefix(kind.name).strip("-")
    return f"{kind.title} {rest}" if rest.isdigit() else f"{rest} {kind.title}".strip()


def _net(mesh: Mesh) -> dict[str, Any]:
    return {
        "points": [round(value, 2) for point in mesh.points for value in point],
        "triangles": [corner for triangle in mesh.triangles for corner in triangle],
        "edges": [list(edge) for edge in mesh.edges],
    }


def _shift(solid: cq.Solid, parts: list[Pulled], still_mm: float) -> tuple[float, float, float]:
    """How far a part goes when pulled apart about the row's middle; beads do not go."""
    for part in parts:
        for i, one in enumerate(part.solids):
            if one is solid:
                x, y, z = part.piece_shift(i)
                return x, y, z - still_mm
    return 0.0, 0.0, 0.0
