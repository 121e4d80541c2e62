"""STEP files: read back whole, repeat to the byte, with the date fixed."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from platewheel.parts.geometry.product import Body, Group, Placed, bodies_in
from platewheel.parts.geometry.step_file import Header, step_text, write_step
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
from platewheel.parts.geometry.product import Body, Group, Placed, bodies_in
from platewheel.parts.geometry.step_file import Header, step_text, write_step
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
    command = [sys.executable, "-c", WRITE_BOTH.format(values=PLAIN), str(tmp_path / "one")]
    subprocess.run(command, check=True, cwd=ROOT)
    write_step(wheel(plain_wheel()), "wheel", tmp_path / "two" / "wheel.step")
    write_step(flange_cone(plain_wheel()), "flange", tmp_path / "two" / "flange.step")
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


def test_a_part_alone_is_one_product_with_its_colour(tmp_path: Path) -> None:
    file = tmp_path / "disc.step"
    write_step(Body("disc", hub_disc(plain_wheel()), (0.8, 0.74, 0.6)), "disc", file)
    text = file.read_text()
    assert re.findall(r"PRODUCT\('([^']*)'", text) == ["disc"]
    assert "NEXT_ASSEMBLY" not in text
    (colour,) = re.findall(r"COLOUR_RGB\('[^']*',([\d.]+),([\d.]+),([\d.]+)\)", text)
    assert [float(c) for c in colour] == pytest.approx([0.8, 0.74, 0.6], abs=1e-6)


def test_the_head_says_job_author_and_what_wrote_it(tmp_path: Path) -> None:
    """ISO 10303-21, 8.2.3: name, time stamp, author, organization, preprocessor, system."""
    import cadquery as cq

    file = tmp_path / "box.step"
    header = Header(job="oysters", author="O'Hare \u00e9", made_by="platewheel 1.2")
    write_step(cq.Solid.makeBox(1, 2, 3), "box", file, header)
    head = file.read_text().split("ENDSEC;")[0].replace("\n", "")
    assert (
        "FILE_NAME('oysters: box','1970-01-01T00:00:00',('O''Hare \\X2\\00E9\\X0\\'),('')," in head
    )
    assert head.count("'platewheel 1.2'") == 1
    assert "FILE_SCHEMA(('AUTOMOTIVE_DESIGN" in head


def test_letters_beyond_ascii_as_the_standard_writes_them() -> None:
    """ISO 10303-21, 6.4.3.3: \\X2\\ for UCS-2, \\X4\\ for UCS-4; a line break too."""
    assert step_text("a\\b") == "'a\\\\b'"
    assert step_text("\n") == "'\\X2\\000A\\X0\\'"
    assert step_text("\U0001d11e") == "'\\X4\\0001D11E\\X0\\'"


@pytest.fixture(scope="module")
def twice() -> Group:
    """A cube placed twice in a group that is placed twice, beside balls that are one product."""
    import cadquery as cq

    cube = Body("cube", cq.Solid.makeBox(10, 10, 10), (0.1, 0.2, 0.3))
    balls = [cq.Solid.makeSphere(2, cq.Vector(9 * i, 0, 90)) for i in range(5)]
    beside = Body("balls", cq.Compound.makeCompound(balls), (0.9, 0.9, 0.9), "for reference")

    def at(z: float) -> cq.Location:
        return cq.Location(cq.Vector(0, 0, z))

    pair = Group("pair", (Placed("first", cube), Placed("second", cube, at(20))))
    rows = (Placed("low", pair), Placed("high", pair, at(40)), Placed("row", beside))
    return Group("all", rows)


def test_a_product_in_many_places_is_written_once(tmp_path: Path, twice: Group) -> None:
    import cadquery as cq

    files = [tmp_path / "1.step", tmp_path / "2.step"]
    for file in files:
        write_step(twice, "all", file)
    text = files[0].read_text()
    assert text == files[1].read_text()
    assert sorted(re.findall(r"PRODUCT\('([^']*)'", text)) == ["all", "balls", "cube", "pair"]
    assert text.count("MANIFOLD_SOLID_BREP(") == 6
    used = re.findall(r"OCCURRENCE\('\d+','([^']*)'", text)
    assert sorted(used) == ["first", "high", "low", "row", "second"]
    (on_layer,) = re.findall(r"LAYER_ASSIGNMENT\('for reference',[^(]*\(([^)]*)\)", text)
    assert on_layer.count("#") == 5
    back = cq.importers.importStep(str(files[0])).solids().vals()
    heights = sorted(round(one.BoundingBox().zmin) for one in back if one.Volume() > 100)
    assert heights == [0, 20, 40, 60]


def test_bodies_are_told_by_the_groups_that_they_are_in(twice: Group) -> None:
    found = {name: shape.BoundingBox().zmin for name, _, shape in bodies_in(twice)}
    names = ["low/first", "low/second", "high/first", "high/second", "row"]
    assert list(found) == names
    assert list(found.values())[:4] == pytest.approx([0, 20, 40, 60], abs=1e-5)
