"""DXF files opened as they come: without a header, in other letters, in the binary form."""

from __future__ import annotations

from pathlib import Path

import pytest

from platewheel.nesting.drawings.read import read_outline
from platewheel.parts.geometry.outline import Circle
from tests.nesting.drawn_files import drawing, save

MM = "the drawing names no unit: taken as mm"
BARE = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\n0\n10\n7\n20\n8\n40\n50\n0\nENDSEC\n0\nEOF\n"
HEADER = "0\nSECTION\n{}2\nHEADER\n9\n$INSUNITS\n70\n1\n0\nENDSEC\n"
EMPTY = "0\nSECTION\n2\nHEADER\n0\nENDSEC\n"


@pytest.mark.parametrize("head", ["", EMPTY])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_file_without_a_header_is_in_mm_and_told(head: str, end: str, tmp_path: Path) -> None:
    path = tmp_path / "part.dxf"
    path.write_bytes((head + BARE).replace("\n", end).encode())
    drawn = read_outline(path)
    assert drawn.outline == Circle((50.0, 50.0), 50.0)
    assert drawn.notes == (MM,)
    assert read_outline(path, "cm").outline == Circle((500.0, 500.0), 500.0)


@pytest.mark.parametrize("comment", ["", "999\nby hand\n", "999\n\n999\n2\n"])
def test_a_header_behind_comments_is_heard(comment: str, tmp_path: Path) -> None:
    path = tmp_path / "part.dxf"
    path.write_text("999\nby hand\n" + HEADER.format(comment) + BARE, encoding="utf-8")
    drawn = read_outline(path)
    assert drawn.outline.radius_mm == pytest.approx(50 * 25.4)
    assert drawn.notes == ()


def test_the_header_of_a_binary_file_is_heard(tmp_path: Path) -> None:
    doc = drawing(insunits=5)
    doc.modelspace().add_circle((0, 0), 3)
    path = tmp_path / "part.dxf"
    doc.saveas(path, fmt="bin")
    assert read_outline(path).outline.radius_mm == pytest.approx(30)


@pytest.mark.parametrize("letters", ["utf-8-sig", "utf-16", "utf-16-le"])
def test_a_mark_of_byte_order_tells_the_letters(letters: str, tmp_path: Path) -> None:
    doc = drawing(insunits=5)
    doc.modelspace().add_circle((0, 0), 3, dxfattribs={"layer": "Außen"})
    path = save(doc, tmp_path)
    text = path.read_text(encoding="cp1252")
    path.write_bytes(("\ufeff" * (letters == "utf-16-le") + text).encode(letters))
    assert read_outline(path, uses={"außen": "cut"}).outline.radius_mm == pytest.approx(30)
