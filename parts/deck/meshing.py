"""Half the wheel meshed by gmsh: the rated section turned half round, the vents cut out of it;
the whole, as two halves, where a disc of the user's own has no mirror line.

Plates touch only through their beads, as in `rating/section_mesh`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.deck.own_disc import edge_curves, half_disc, with_slits
from platewheel.parts.deck.solid_mesh import SolidMesh
from platewheel.parts.deck.straightened import straightened
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.section import Section
from platewheel.parts.wheel.hub_disc import DISC, SIDES, disc_z_mm
from platewheel.parts.wheel.kinds import KINDS, kind_of
from platewheel.parts.wheel.own_disc import disc_of, openings
from platewheel.parts.wheel.part import Role
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import weld_beads

if TYPE_CHECKING:
    from numpy.typing import NDArray

MISSING = "gmsh, which meshes the deck (pip install gmsh, or platewheel with its extra: deck)"
LEAST_SLIT_MM = 0.3  # parts that fit without clearance are drawn this far apart: not one body
AT_BEAD, AT_VENT = 0.5, 0.5  # of the leg, of the plate: elements there
ROUND_VENT = 28  # elements round a vent at least
AWAY = 3.0  # plate thicknesses over which elements grow to the plate's own size


def mesh_wheel(
    spec: WheelSpec,
    *,
    patch_mm: tuple[float, float, float],
    first_vent: float = 0.0,
    coarse: float = 1.0,
    disc: Blank | None = None,
    whole: bool = False,
) -> SolidMesh:
    """Mesh of the half wheel y >= 0, or of the `whole` one. `patch_mm` is the patch's place along
    the tread, width and half length, where elements are fine; `first_vent` is the angle (radians)
    of a vent's middle from the patch, 0 or half a pitch; `coarse` is the size of elements over the
    plates' thickness; `disc` is one of the user's own, as it lies.

    Raises: ImportError where gmsh is not installed; GeometryError where it cannot mesh the wheel.
    """
    spec = apart(spec)
    own = None if disc is None else with_slits(disc, spec)
    with _gmsh() as gmsh:
        volumes = _volumes(gmsh, spec, first_vent, own, whole)
        _sizes(gmsh, spec, volumes, patch_mm, first_vent, coarse, own)
        gmsh.model.mesh.generate(3)
        gmsh.model.mesh.setOrder(2)
        mesh = _read(gmsh, volumes)
    if mesh.jacobians().min() <= 0:
        mesh = straightened(mesh)
    if mesh.jacobians().min() <= 0:
        raise GeometryError("deck: elements are turned inside out; try a finer mesh")
    return mesh


def apart(spec: WheelSpec) -> WheelSpec:
    """The wheel with at least so much clearance that its parts are bodies of their own."""
    clearance = max(spec.fit_clearance_mm, LEAST_SLIT_MM)
    return unchecked(spec, {"fit_clearance_mm": clearance})


def sections(spec: WheelSpec) -> list[tuple[str, Section]]:
    """Every plate and bead of the rated section by name."""
    found = [pair for kind in KINDS for pair in (kind.plates or kind.sections)(spec)]
    beads = (bead for bead in weld_beads(spec) if not bead.name.startswith("weld-seam"))
    return [*found, *((bead.name, bead.section) for bead in beads)]


@contextmanager
def _gmsh() -> Iterator[Any]:
    """gmsh, silent, with a model of its own. Raises: ImportError, GeometryError."""
    try:
        import gmsh
    except (ImportError, OSError) as error:  # OSError: a library of the system that it needs
        raise ImportError(f"{MISSING}: {error}") from error
    gmsh.initialize(interruptible=False)
    try:
        gmsh.option.setNumber("General.Terminal", 0)
        gmsh.model.add("wheel")
        yield gmsh
    except Exception as error:
        if type(error) is Exception:  # what gmsh raises
            raise GeometryError(f"deck: gmsh cannot mesh this wheel: {error}") from error
        raise
    finally:
        gmsh.finalize()


def _volumes(
    gmsh: Any, spec: WheelSpec, first_vent: float, own: Blank | None, whole: bool
) -> list[tuple[str, int]]:
    """Volumes by the name of their part, joined where bead meets plate and nowhere else."""
    occ = gmsh.model.occ
    names: list[str] = []
    solids: list[tuple[int, int]] = []
    ways: tuple[Literal[1, -1], ...] = (1, -1) if whole else (1,)
    for name, section, way in ((*one, way) for one in sections(spec) for way in ways):
        kind = kind_of(name)
        side = next((side for side in SIDES if kind is DISC and name.endswith(side)), None)
        if side and own is not None:
            solid = half_disc(occ, disc_of(spec, own, side), disc_z_mm(spec, side), way)
            names += [name] * len(solid)
            solids += solid
            continue
        corners = [occ.addPoint(r, 0.0, z) for r, z in section]
        lines = [occ.addLine(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
        face = occ.addPlaneSurface([occ.addCurveLoop(lines)])
        turned = occ.revolve([(2, face)], 0, 0, 0, 0, 0, 1, way * math.pi)
        solid = [pair for pair in turned if pair[0] == 3]
        if side and spec.vent_count:
            solid = occ.cut(solid, _vents(occ, spec, disc_z_mm(spec, side), first_vent))[0]
        names.append(name)
        solids.append(solid[0])
    _, made = occ.fragment(solids[:1], solids[1:])
    occ.synchronize()
    return [(name, tag) for name, pairs in zip(names, made, strict=True) for _, tag in pairs]


def vent_middles(spec: WheelSpec, first_vent: float) -> NDArray[np.float64]:
    """Middles (n, 2) of the vents that the half wheel has whole or in part."""
    turns = first_vent + 2 * np.pi * np.arange(spec.vent_count) / max(spec.vent_count, 1)
    middles = spec.vent_circle_mm / 2 * np.stack([np.cos(turns), np.sin(turns)], axis=1)
    return np.asarray(middles[middles[:, 1] > -spec.vent_diameter_mm / 2])


def _vents(
    occ: Any, spec: WheelSpec, z: tuple[float, float], first_vent: float
) -> list[tuple[int, int]]:
    high = z[1] - z[0] + 2
    return [
        (3, occ.addCylinder(x, y, z[0] - 1, 0, 0, high, spec.vent_diameter_mm / 2))
        for x, y in vent_middles(spec, first_vent).tolist()
    ]


def _sizes(
    gmsh: Any,
    spec: WheelSpec,
    volumes: list[tuple[str, int]],
    patch_mm: tuple[float, float, float],
    first_vent: float,
    coarse: float,
    own: Blank | None,
) -> None:
    """Elements as large as plates are thick, smaller at beads, vents, openings and patch."""
    field = gmsh.model.mesh.field
    made: list[int] = []

    def add(kind: str, lists: dict[str, list[int]], **numbers: float) -> int:
        tag = int(field.add(kind))
        for key, many in lists.items():
            field.setNumbers(tag, key, many)
        for key, value in numbers.items():
            field.setNumber(tag, key, value)
        return tag

    def near(curves: list[int], fine: float, plate: float) -> None:
        away = add("Distance", {"CurvesList": curves}, Sampling=400)
        low, high = fine / 2, AWAY * plate
        made.append(
            add(
                "Threshold",
                {},
                InField=away,
                SizeMin=fine,
                SizeMax=coarse * plate * 1.5,
                DistMin=low,
                DistMax=high,
            )
        )

    for name, tag in volumes:
        kind = kind_of(name)
        if kind:
            size = min(coarse * kind.thickness_mm(spec), _at_slit(spec, kind.role))
            made.append(add("Constant", {"VolumesList": [tag]}, VIn=size, VOut=1e6))
        else:
            bead = next(bead for bead in weld_beads(spec) if bead.name == name)
            curves = _curves(gmsh, tag)
            plate = min(spec.disc_thickness_mm, spec.tread_thickness_mm)
            near(curves, coarse * AT_BEAD * min(bead.legs_mm), plate)
    if spec.vent_count:
        fine = min(AT_VENT * spec.disc_thickness_mm, math.pi * spec.vent_diameter_mm / ROUND_VENT)
        discs = [tag for name, tag in volumes if name.startswith("disc")]
        curves = _vent_edges(gmsh, spec, discs, first_vent)
        near(curves, coarse * fine, spec.disc_thickness_mm)
    if own is not None and openings(own):
        discs = [tag for name, tag in volumes if name.startswith(DISC.name)]
        edges = [tag for disc in discs for tag in edge_curves(gmsh, own, _curves(gmsh, disc))]
        near(sorted(set(edges)), coarse * AT_VENT * spec.disc_thickness_mm, spec.disc_thickness_mm)
    place, width, half_length = patch_mm
    z = place * math.cos(spec.taper_half_angle)
    made.append(
        add(
            "Box",
            {},
            VIn=coarse * half_length / 2,
            VOut=1e6,
            XMin=spec.outside_radius_mm(z) - half_length,
            XMax=spec.tread_radius_mm + half_length,
            YMin=-half_length,
            YMax=half_length,
            ZMin=z - width / 2,
            ZMax=z + width / 2,
            Thickness=3 * spec.tread_thickness_mm,
        )
    )
    field.setAsBackgroundMesh(add("Min", {"FieldsList": made}))
    for key in ("MeshSizeExtendFromBoundary", "MeshSizeFromPoints", "MeshSizeFromCurvature"):
        gmsh.option.setNumber(f"Mesh.{key}", 0)
    gmsh.option.setNumber("Mesh.Algorithm3D", 1)
    gmsh.option.setNumber("Mesh.Optimize", 1)


def _at_slit(spec: WheelSpec, role: Role) -> float:
    """Largest element beside a slit: chords of the two circles keep within half of it, c^2 / 8 r
    each."""
    radius = (
        spec.bore_radius_mm(0.0) if role == "runs on the rail" else spec.hub_hole_diameter_mm / 2
    )
    return 2 * math.sqrt(radius * spec.fit_clearance_mm)


def _curves(gmsh: Any, volume: int) -> list[int]:
    surfaces = gmsh.model.getBoundary([(3, volume)], oriented=False)
    curves = gmsh.model.getBoundary(surfaces, combined=False, oriented=False)
    return sorted({abs(tag) for _, tag in curves})


def _vent_edges(gmsh: Any, spec: WheelSpec, discs: list[int], first_vent: float) -> list[int]:
    """Curves of the discs that lie on a vent's circle."""
    middles, found = vent_middles(spec, first_vent), []
    for tag in sorted({tag for disc in discs for tag in _curves(gmsh, disc)}):
        low, high = (float(bound[0]) for bound in gmsh.model.getParametrizationBounds(1, tag))
        at = np.linspace(low, high, 5)
        places = np.reshape(gmsh.model.getValue(1, tag, at.tolist()), (-1, 3))[:, :2]
        away = np.hypot(*(places[:, None] - middles[None]).transpose(2, 0, 1))
        if (np.abs(away - spec.vent_diameter_mm / 2) < 1e-5).all(axis=0).any():
            found.append(tag)
    return found


def _read(gmsh: Any, volumes: list[tuple[str, int]]) -> SolidMesh:
    """Nodes and elements out of gmsh, whose last two middle nodes stand the other way round."""
    tags, flat, _ = gmsh.model.mesh.getNodes()
    places = np.reshape(flat, (-1, 3))
    names = sorted({name for name, _ in volumes})
    tets, part_of = [], []
    for name, tag in volumes:
        _, nodes = gmsh.model.mesh.getElementsByType(11, tag)
        rows = np.reshape(nodes, (-1, 10))[:, [0, 1, 2, 3, 4, 5, 6, 7, 9, 8]]
        tets.append(rows)
        part_of.append(np.full(len(rows), names.index(name)))
    every = np.concatenate(tets).astype(np.int64)
    used, numbered = np.unique(every, return_inverse=True)
    row_of = np.zeros(int(np.max(tags)) + 1, dtype=np.int64)
    row_of[np.asarray(tags, dtype=np.int64)] = np.arange(len(tags))
    return SolidMesh(
        places[row_of[used]], numbered.reshape(every.shape), np.concatenate(part_of), tuple(names)
    )
