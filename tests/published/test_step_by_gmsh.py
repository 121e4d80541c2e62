"""STEP files read back by gmsh, a general-purpose mesher: volumes and boxes by closed forms.

gmsh has its own build of the geometry kernel and its own reader, so what it sees is what
another program will see.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from platewheel.parts.geometry.step_file import write_step
from platewheel.parts.wheel.assembly import wheel
from platewheel.parts.wheel.flange import flange_cone
from platewheel.parts.wheel.hub_disc import hub_disc
from platewheel.parts.wheel.hub_tube import hub_tube
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_ring
from platewheel.parts.wheel.welds import weld_beads
from tests.parts import shapes
from tests.parts.wheels import WHEELS

try:
    gmsh: Any = importlib.import_module("gmsh")
    missing = ""
except OSError as error:  # the wheel is there, a system library is not
    missing = f"gmsh cannot load ({error}): apt-get install libglu1-mesa libxft2 libxcursor1"

pytestmark = pytest.mark.skipif(bool(missing), reason=missing)

PART_WHEELS = ("plain", "three-segments", "tapered", "pipe", "washer", "flat-flare")


@pytest.fixture
def reader() -> Iterator[Callable[[Path], list[tuple[int, int]]]]:
    """Function that reads a STEP file and gives the tags of its solids, lengths in mm."""
    gmsh.initialize(["gmsh", "-nopopup"], readConfigFiles=False, interruptible=False)
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setString("Geometry.OCCTargetUnit", "MM")
    gmsh.option.setNumber("Geometry.OCCBoundsUseStl", 0)

    def read(path: Path) -> list[tuple[int, int]]:
        gmsh.clear()
        gmsh.model.add("file")
        found: list[tuple[int, int]] = gmsh.model.occ.importShapes(str(path), highestDimOnly=True)
        gmsh.model.occ.synchronize()
        assert all(dim == 3 for dim, _ in found)
        return found

    yield read
    gmsh.finalize()


def volume_mm3(solids: list[tuple[int, int]]) -> float:
    return float(sum(gmsh.model.occ.getMass(dim, tag) for dim, tag in solids))


def box_mm(solids: list[tuple[int, int]]) -> list[float]:
    boxes = [gmsh.model.occ.getBoundingBox(dim, tag) for dim, tag in solids]
    least = [min(box[i] for box in boxes) for i in range(3)]
    return least + [max(box[i] for box in boxes) for i in range(3, 6)]


Wanted = tuple[str, Any, float, shapes.Box]


def parts_of(spec: WheelSpec) -> list[Wanted]:
    """Name, solid, closed-form volume and box of each plate and tube part."""
    found: list[Wanted] = [
        ("tread", tread_ring(spec), shapes.tread_mm3(spec), shapes.tread_box(spec)),
        (
            "disc-field",
            hub_disc(spec, "field"),
            shapes.disc_mm3(spec, "field"),
            shapes.disc_box(spec, "field"),
        ),
        (
            "disc-gauge",
            hub_disc(spec, "gauge"),
            shapes.disc_mm3(spec, "gauge"),
            shapes.disc_box(spec, "gauge"),
        ),
    ]
    for i in range(spec.flange_segments):
        solid, volume = flange_cone(spec, i), shapes.flange_segment_mm3(spec)
        found.append((f"flange-{i + 1}", solid, volume, shapes.flange_box(spec, i)))
    if spec.hub_tube_length_mm:
        found.append(("hub-tube", hub_tube(spec), shapes.tube_mm3(spec), shapes.tube_box(spec)))
    return found


@pytest.mark.parametrize("name", PART_WHEELS)
def test_each_part(
    name: str, tmp_path: Path, reader: Callable[[Path], list[tuple[int, int]]]
) -> None:
    for part, solid, volume, box in parts_of(WHEELS[name]):
        file = tmp_path / f"{part}.step"
        write_step(solid, part, file)
        solids = reader(file)
        assert len(solids) == 1, part
        assert volume_mm3(solids) == pytest.approx(volume, rel=1e-4), part
        # the kernel pads boxes by its tolerance, 1e-7, and bounds of cones may be a little wide
        assert box_mm(solids) == pytest.approx(box, abs=1e-4 * (box[3] - box[0])), part


@pytest.mark.parametrize("name", WHEELS)
def test_the_assembly(
    name: str, tmp_path: Path, reader: Callable[[Path], list[tuple[int, int]]]
) -> None:
    spec = WHEELS[name]
    parts, beads = parts_of(spec), weld_beads(spec)
    file = tmp_path / "wheel.step"
    write_step(wheel(spec), "wheel", file)
    solids = reader(file)
    assert len(solids) == len(parts) + len(beads)
    volume = sum(part[2] for part in parts) + sum(bead.volume_mm3 for bead in beads)
    assert volume_mm3(solids) == pytest.approx(volume, rel=1e-4)
    boxes = [part[3] for part in parts]
    tip = spec.tread_diameter_mm / 2 + spec.flange_depth_mm
    low, high = min(box[2] for box in boxes), max(box[5] for box in boxes)
    # all round: the seam beads fill the gaps in the flange
    assert box_mm(solids) == pytest.approx([-tip, -tip, low, tip, tip, high], abs=2e-4 * tip)


def test_a_bare_assembly_weighs_what_its_blanks_do(
    tmp_path: Path, reader: Callable[[Path], list[tuple[int, int]]]
) -> None:
    file = tmp_path / "wheel.step"
    write_step(wheel(WHEELS["three-segments"], welds=False), "wheel", file)
    solids = reader(file)
    assert len(solids) == 7
    plain = sum(part[2] for part in parts_of(WHEELS["three-segments"]))
    assert volume_mm3(solids) == pytest.approx(plain, rel=1e-4)
