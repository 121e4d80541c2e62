"""STEP files: read back whole, repeat to the byte, with the date fixed."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from platewheel.parts.geometry.step_file import write_step
from platewheel.parts.wheel.assembly import wheel, wheel_solids
from platewheel.parts.wheel.flange import flange_cone
from platewheel.parts.wheel.hub_disc import hub_disc
from platewheel.parts.wheel.kinds import colour_of
from platewheel.parts.wheel.tread_ring import tread_ring
from tests.parts.wheels import PLAIN, WHEELS, plain_wheel
from tests.places import ROOT

WRITE_BOTH = """
import pathlib, sys
from platewheel.parts.wheel.flange import flange_cone
from platewheel.parts.geometry.step_file import write_step
from platewheel.parts.wheel.assembly import wheel
from platewheel.parts.wheel.spec import WheelSpec
spec = WheelSpec(**{values!r})
write_step(wheel(spec), "wheel", pathlib.Path(sys.argv[1]) / "wheel.step")
write_step(flange_cone(spec), "flange", pathlib.Path(sys.argv[1]) / "flange.step")
"""


def test_an_assembly_is_the_same_to_the_byte_each_time(tmp_path: Path) -> None:
    files = [tmp_path / f"{i}.step" for i in range(5)]
    for file in files:
        write_step(wheel(plain_wheel()), "wheel", file)
    assert len({file.read_bytes() for file in files}) == 1


def test_a_part_is_the_same_to_the_byte_each_time(tmp_path: Path) -> None:
    files = [tmp_path / "1.step", tmp_path / "2.step"]
    for file in files:
        write_step(flange_cone(plain_wheel()), "flange", file)
    assert files[0].read_bytes() == files[1].read_bytes()


def test_another_process_writes_the_same_bytes(tmp_path: Path) -> None:
    for folder in ("one", "two"):
        (tmp_path / folder).mkdir()
        command = [sys.executable, "-c", WRITE_BOTH.format(values=PLAIN), str(tmp_path / folder)]
        subprocess.run(command, check=True, cwd=ROOT)
    for name in ("flange.step", "wheel.step"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


@pytest.mark.parametrize("name", ["plain", "three-segments", "washer"])
def test_the_assembly_keeps_names_colours_and_a_fixed_date(tmp_path: Path, name: str) -> None:
    """ISO 10303-21 text, AP214: PRODUCT names, COLOUR_RGB, FILE_NAME with the time stamp."""
    spec = WHEELS[name]
    write_step(wheel(spec), "wheel", tmp_path / "wheel.step")
    text = (tmp_path / "wheel.step").read_text()
    assert text.startswith("ISO-10303-21;")
    assert text.rstrip().endswith("END-ISO-10303-21;")
    assert "AUTOMOTIVE_DESIGN" in text
    assert re.findall(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d", text) == ["1970-01-01T00:00:00"]
    products = set(re.findall(r"PRODUCT\('([^']*)'", text))
    solids = {part for part, _ in wheel_solids(spec)}
    assert solids | {"wheel"} == products
    colours = re.findall(r"COLOUR_RGB\('[^']*',([\d.]+),([\d.]+),([\d.]+)\)", text)
    found = {tuple(round(float(c), 3) for c in colour) for colour in colours}
    assert found == {tuple(round(c, 3) for c in colour_of(part)) for part in solids}


@pytest.mark.parametrize("part", [tread_ring, hub_disc, flange_cone])
def test_a_part_reads_back_whole(tmp_path: Path, part: object) -> None:
    import cadquery as cq

    solid = part(plain_wheel())  # type: ignore[operator]
    file = tmp_path / "part.step"
    write_step(solid, "one-part", file)
    assert "PRODUCT('one-part'" in file.read_text()
    (back,) = [
        found for shape in cq.importers.importStep(str(file)).vals() for found in shape.Solids()
    ]
    assert back.isValid()
    assert back.Volume() == pytest.approx(solid.Volume(), rel=1e-9)


def test_a_folder_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises((OSError, ValueError)):
        write_step(wheel(plain_wheel(), welds=False), "wheel", tmp_path / "none" / "wheel.step")
