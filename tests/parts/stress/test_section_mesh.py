"""The section mesh: all of the steel, no more, and joined by the beads alone."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from platewheel.parts.geometry.section import area_mm2
from platewheel.parts.stress.section_mesh import TOE_STEPS, SectionMesh, section_mesh
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.hub_disc import SIDES, disc_section
from platewheel.parts.wheel.hub_tube import tube_section
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_section
from platewheel.parts.wheel.welds import missing_beads, weld_beads
from tests.parts.wheels import WHEELS, valid_wheels

CASES = [(name, worn) for name in WHEELS for worn in (0.0, 1.5)]


def plates_of(spec: WheelSpec) -> list[str]:
    return ["tread", "disc-field", "disc-gauge", "flange"] + ["hub-tube"] * spec.has_tube


def steel_mm2(spec: WheelSpec, worn_mm: float) -> float:
    """Area of the plates' own sections and the beads', less the wear along the tread."""
    sections = [tread_section(spec), flange_section(spec)]
    sections += [disc_section(spec, side) for side in SIDES]
    sections += [tube_section(spec)] if spec.has_tube else []
    sections += [bead.section for bead in weld_beads(spec) if "seam" not in bead.name]
    wall = tread_section(spec)
    long = spec.tread_width_mm  # a pipe wears towards the axle, a rolled ring square to its wall
    if spec.tread_from != "pipe":
        long = float(np.hypot(*np.subtract(wall[1], wall[0])))
    return sum(area_mm2(section) for section in sections) - worn_mm * long


def areas(mesh: SectionMesh) -> np.ndarray:
    a, b, c = (mesh.points[mesh.triangles[:, i]] for i in range(3))
    ab, ac = b - a, c - a
    return (ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]) / 2


def sides(triangles: np.ndarray) -> Counter[tuple[int, int]]:
    pairs = np.sort(np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, ::2]]))
    return Counter(map(tuple, pairs.tolist()))


def pieces(triangles: np.ndarray) -> int:
    """Bodies that hang together by shared edges: a lone node is a hinge, and holds nothing."""
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    pairs = np.sort(triangles[:, [[0, 1], [1, 2], [2, 0]]], axis=2).reshape(-1, 2)
    _, edge = np.unique(pairs, axis=0, return_inverse=True)
    edge = edge.ravel() + len(triangles)
    cell = np.repeat(np.arange(len(triangles)), 3)
    size = int(edge.max()) + 1
    graph = coo_matrix((np.ones(len(edge)), (cell, edge)), (size, size))
    return int(connected_components(graph)[0])


def hinges(mesh: SectionMesh, plates: list[str]) -> np.ndarray:
    """Places of the nodes that two plates share."""
    owners = Counter(node for part in plates for node in mesh.nodes_of(part).tolist())
    return mesh.points[[node for node, count in owners.items() if count > 1]]


def check_mesh(spec: WheelSpec, worn_mm: float, size_mm: float) -> None:
    mesh = section_mesh(spec, worn_mm=worn_mm, size_mm=size_mm)
    cells = areas(mesh)
    assert np.abs(cells).min() > 1e-8
    assert np.abs(cells).sum() == pytest.approx(steel_mm2(spec, worn_mm), rel=1e-6)
    assert max(sides(mesh.triangles).values()) == 2
    assert pieces(mesh.triangles) == 1
    loose = np.array([not part.startswith("weld") for part in mesh.part_of])
    assert pieces(mesh.triangles[loose]) == len(plates_of(spec))
    for place in hinges(mesh, plates_of(spec)):  # only where a bead's own corner touches both
        assert np.hypot(*(np.asarray(mesh.corners) - place).T).min() < 1e-5
    assert set(mesh.part_of) >= set(plates_of(spec))


@pytest.mark.parametrize(("name", "worn_mm"), CASES)
def test_mesh_is_the_section(name: str, worn_mm: float) -> None:
    """Areas add up, no cell is flat, no edge has three cells, without beads the
    plates come apart, but for hinges at a root."""
    check_mesh(WHEELS[name], worn_mm, 2.0)


@pytest.mark.parametrize("size_mm", [1.0, 3.0])
def test_mesh_sizes(size_mm: float) -> None:
    check_mesh(WHEELS["tapered"], 0.0, size_mm)


@given(valid_wheels(), st.sampled_from([0.0, 0.3]))
@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_wheel(spec: WheelSpec, worn_share: float) -> None:
    """Whatever the spec takes has a sound mesh; cells of a fiftieth of the wheel keep it quick."""
    assume(not missing_beads(spec))  # no room for a bead: the plates stay apart, a check fails it
    end = spec.tread_thickness_mm * np.sin(spec.taper_half_angle)  # the ring's end is square to it
    assume(spec.tread_from == "pipe" or spec.disc_field_inset_mm > end + 0.1)
    assume(worn_share * spec.tread_thickness_mm < 0.9 * spec.root_weld_mm)  # or the flange is off
    check_mesh(spec, worn_share * spec.tread_thickness_mm, max(2.0, spec.tread_diameter_mm / 50))


@pytest.mark.parametrize("name", WHEELS)
def test_nodes_where_toes_are_read(name: str) -> None:
    """IIW: stress is read at 0.4 and 1.0 plate thicknesses from the toe, along the face."""
    spec = WHEELS[name]
    mesh = section_mesh(spec)
    thick = {
        "tread": spec.tread_thickness_mm,
        "flange": spec.flange_thickness_mm,
        "hub-tube": (spec.hub_tube_outside_mm - spec.hub_bore_mm) / 2,
    }
    read = 0
    for toe in mesh.toes:
        wall = thick.get(toe.plate, spec.disc_thickness_mm)
        slack = 2.1 if toe.plate == "tread" and spec.tread_taper_1_in else 1e-9
        assert toe.thickness_mm == pytest.approx(wall, abs=slack) or toe.room_mm < wall
        nodes = mesh.points[mesh.nodes_of(toe.plate)]
        for share in TOE_STEPS:
            if share * toe.thickness_mm < toe.room_mm - 1e-3:
                place = np.add(toe.at, share * toe.thickness_mm * np.asarray(toe.along))
                assert np.hypot(*(nodes - place).T).min() < 1e-6
                read += 1
    assert read >= 4  # two at each rim fillet's toe on the disc, at the least


def test_worn_ring_is_thinner() -> None:
    """Wear comes off the tread, square to it; bore, discs and flange stay."""
    spec = WHEELS["tapered"]
    new, worn = section_mesh(spec), section_mesh(spec, worn_mm=2.0)
    for part in plates_of(spec):
        lost = np.abs(areas(new))[np.array(new.part_of) == part].sum()
        lost -= np.abs(areas(worn))[np.array(worn.part_of) == part].sum()
        along = np.hypot(60.0, 60.0 / 20)
        assert lost == pytest.approx(2.0 * along if part == "tread" else 0.0, abs=1e-6)
