"""glTF, STL and 3MF read back by their own rules: metres and Y up, closed and to scale."""

from __future__ import annotations

import json
import os
import struct
import zipfile
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.glb_file import write_glb
from platewheel.parts.geometry.product import Body, Group, Placed
from platewheel.parts.geometry.step_file import write_step
from platewheel.parts.geometry.stl_file import fused, write_stl
from platewheel.parts.geometry.threemf_file import write_3mf

CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
CONTENT_TYPES = "[Content_Types].xml"


@pytest.fixture(scope="module")
def block() -> Any:
    import cadquery as cq

    return cq.Solid.makeBox(10, 20, 30)


def test_a_glb_is_in_metres_with_y_up(tmp_path: Path, block: Any) -> None:
    """glTF 2.0, 4.4 (header, chunks), 3.4 (metres, +Y up): 30 mm high is 0.03 along Y."""
    body = Body("block", block, (0.2, 0.4, 0.6))
    files = [tmp_path / "1.glb", tmp_path / "2.glb"]
    for file in files:
        write_glb(Group("all", (Placed("block", body),)), "all", file, 0.1)
    data = files[0].read_bytes()
    assert data == files[1].read_bytes()
    magic, version, length = struct.unpack("<4sII", data[:12])
    assert (magic, version, length) == (b"glTF", 2, len(data))
    (size,) = struct.unpack("<I", data[12:16])
    told = json.loads(data[20 : 20 + size])
    assert "block" in {node.get("name") for node in told["nodes"]}
    boxes = [(one["min"], one["max"]) for one in told["accessors"] if len(one.get("min", "")) == 3]
    low = np.min([box[0] for box in boxes], axis=0)
    high = np.max([box[1] for box in boxes], axis=0)
    assert high - low == pytest.approx([0.01, 0.03, 0.02])


def test_a_folder_whose_name_is_no_text_takes_models_too(tmp_path: Path, block: Any) -> None:
    """As systems had them before UTF-8, and some disks have still."""
    plain, odd = tmp_path / "plain", Path(os.fsdecode(os.fsencode(tmp_path) + b"/sh\xf8p"))
    plain.mkdir()
    try:
        odd.mkdir()
    except OSError:
        pytest.skip("no such names on this disk")
    body = Body("block", block, (0.2, 0.4, 0.6))
    for home in (plain, odd):
        write_step(body, "block", home / "block.step")
        write_glb(Group("all", (Placed("block", body),)), "all", home / "all.glb", 0.1)
        write_stl(block, "block", home / "block.stl", 4.0)
    for file in plain.iterdir():
        assert (odd / file.name).read_bytes() == file.read_bytes(), file.name


def test_an_stl_is_closed_to_scale_and_stands_on_the_bed(tmp_path: Path) -> None:
    """A ring of two halves, fused: every edge is that of two triangles, once each way."""
    import cadquery as cq

    ring = cq.Solid.makeCylinder(40, 10).cut(cq.Solid.makeCylinder(30, 10)).Solids()[0]
    half = cq.Solid.makeBox(100, 100, 10, cq.Vector(-50, 0, 0))
    halves = [ring.intersect(half).Solids()[0], ring.cut(half).Solids()[0]]
    whole = fused(halves, "ring").moved(cq.Location(cq.Vector(0, 0, 7)))
    write_stl(whole, "ring", tmp_path / "ring.stl", 4.0)
    data = (tmp_path / "ring.stl").read_bytes()
    (count,) = struct.unpack("<I", data[80:84])
    row = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])
    corners = np.frombuffer(data, row, count, 84)["corners"].astype(float)
    assert corners[..., 2].min() == pytest.approx(0.0)
    assert corners[..., 2].max() == pytest.approx(2.5)
    volume = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])).sum() / 6
    assert volume == pytest.approx(ring.Volume() / 64, rel=0.01)
    places = [[tuple(np.round(point, 5)) for point in one] for one in corners]
    edges = [(one[i], one[(i + 1) % 3]) for one in places for i in range(3)]
    assert len(edges) == len(set(edges))
    assert {(b, a) for a, b in edges} == set(edges)


def test_a_3mf_is_closed_in_mm_to_scale_and_the_same_each_time(tmp_path: Path) -> None:
    """3MF Core Specification 1.3, read by a general XML parser: the part that the package's
    relation names, its unit, ids from 1, each edge of two triangles, once each way."""
    import cadquery as cq

    tube = cq.Solid.makeCylinder(40, 10).cut(cq.Solid.makeCylinder(30, 10)).Solids()[0]
    tube = tube.moved(cq.Location(cq.Vector(100, -50, 7)))
    files = [tmp_path / "1.3mf", tmp_path / "2.3mf"]
    for file in files:
        write_3mf(tube, "tube <&> 1", file, 4.0, "platewheel")
    assert files[0].read_bytes() == files[1].read_bytes()
    with zipfile.ZipFile(files[0]) as package:
        assert package.testzip() is None
        assert {one.date_time for one in package.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        relation = ET.fromstring(package.read("_rels/.rels"))[0]
        model = ET.fromstring(package.read(relation.attrib["Target"].lstrip("/")))
        types = {one.attrib["Extension"] for one in ET.fromstring(package.read(CONTENT_TYPES))}
    assert types == {"rels", "model"}
    assert model.attrib["unit"] == "millimeter"
    names = {one.attrib["name"]: one.text for one in model.iter(f"{CORE}metadata")}
    assert names == {"Title": "tube <&> 1", "Application": "platewheel"}
    (part,), (item,) = model.iter(f"{CORE}object"), model.iter(f"{CORE}item")
    assert item.attrib["objectid"] == part.attrib["id"] == "1"
    places = np.array([[float(v.attrib[k]) for k in "xyz"] for v in model.iter(f"{CORE}vertex")])
    assert places.min(axis=0) == pytest.approx([0.0, 0.0, 0.0])
    assert places.max(axis=0) == pytest.approx([20.0, 20.0, 2.5], abs=0.03)
    rows = [[int(t.attrib[k]) for k in ("v1", "v2", "v3")] for t in model.iter(f"{CORE}triangle")]
    corners = places[np.array(rows)]
    volume = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])).sum() / 6
    assert volume == pytest.approx(tube.Volume() / 64, rel=0.01)
    edges = [(row[i], row[(i + 1) % 3]) for row in rows for i in range(3)]
    assert len(edges) == len(set(edges))
    assert {(b, a) for a, b in edges} == set(edges)


def test_an_open_shell_is_no_3mf(tmp_path: Path, block: Any) -> None:
    import cadquery as cq

    shell = cq.Shell.makeShell(block.Faces()[:5])
    with pytest.raises(GeometryError, match="do not close"):
        write_3mf(shell, "box", tmp_path / "box.3mf", 1.0, "platewheel")
    assert not (tmp_path / "box.3mf").exists()


def test_solids_apart_are_no_one_body(block: Any) -> None:
    import cadquery as cq

    away = block.moved(cq.Location(cq.Vector(50, 0, 0)))
    with pytest.raises(GeometryError, match="pair: the modeller gave 2 solids"):
        fused([block, away], "pair")


@pytest.mark.parametrize("short", [0, 1, 50])
def test_an_stl_without_its_last_bytes_is_not_taken_for_one(
    short: int, tmp_path: Path, block: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A modeller on a full disk said that all was well."""
    import cadquery as cq

    own = cq.Shape.exportStl

    def full(shape: Any, name: str, *about: Any, **more: Any) -> bool:
        own(shape, name, *about, **more)
        data = Path(name).read_bytes()
        Path(name).write_bytes(data[: len(data) - short])
        return True

    monkeypatch.setattr(cq.Shape, "exportStl", full)
    if not short:
        write_stl(block, "box", tmp_path / "box.stl", 1.0)
        return
    with pytest.raises(GeometryError, match=r"box: .* box\.stl; is the disk full\?"):
        write_stl(block, "box", tmp_path / "box.stl", 1.0)


def test_what_cannot_be_written_is_told_by_the_error_alone(
    tmp_path: Path, block: Any, capfd: pytest.CaptureFixture[str]
) -> None:
    there = tmp_path / "none"
    with pytest.raises(GeometryError, match="box: the glTF translator wrote nothing"):
        write_glb(Body("box", block), "box", there / "box.glb", 0.1)
    with pytest.raises(GeometryError, match="box: the STEP translator wrote nothing"):
        write_step(block, "box", there / "box.step")
    with pytest.raises(GeometryError, match="box: the modeller wrote nothing"):
        write_stl(block, "box", there / "box.stl", 1.0)
    assert capfd.readouterr() == ("", "")
