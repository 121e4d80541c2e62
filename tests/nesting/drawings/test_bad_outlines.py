"""Drawings that are no part: each told in one line, all at once, and nothing else raised."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from platewheel.nesting.drawings.read import MOST_EDGES, read_outline
from platewheel.parts.base.faults import SpecError
from tests.nesting.drawn_files import drawing, save


def told(path: Path) -> list[str]:
    with pytest.raises(SpecError) as caught:
        read_outline(path, said="bracket.dxf")
    for fault in caught.value.faults:
        assert fault.key == "file"
        assert fault.value == "bracket.dxf"
        assert fault.allowed
        assert fault.advice
    return [str(fault) for fault in caught.value.faults]


def square(space: Any, x: float, y: float, side: float) -> None:
    corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
    space.add_lwpolyline(corners, close=True)


def two_parts(space: Any) -> None:
    square(space, 0, 0, 50)
    square(space, 70, 5, 50)


def island(space: Any) -> None:
    square(space, 0, 0, 50)
    space.add_circle((25, 25), 20)
    space.add_circle((25, 25), 10)


def open_chain(space: Any) -> None:
    for a, b in (((0, 0), (50, 0)), ((50, 0), (50, 50)), ((50, 50), (3, 4))):
        space.add_line(a, b)


def branch(space: Any) -> None:
    square(space, 100, 100, 5)
    for a, b in (((0, 0), (50, 0)), ((50, 0), (50, 50)), ((50, 50), (0, 0)), ((50, 0), (60, 70))):
        space.add_line(a, b)


def crossing(space: Any) -> None:
    square(space, 0, 0, 50)
    space.add_circle((50, 25), 10)


def bow(space: Any) -> None:
    space.add_lwpolyline([(0, 0), (50, 50), (50, 0), (0, 50)], close=True)


def touching(space: Any) -> None:
    square(space, 0, 0, 50)
    space.add_circle((40, 25), 10)


def along(space: Any) -> None:
    square(space, 0, 0, 50)
    square(space, 0, 10, 20)  # shares a stretch of the left edge


def there_and_back(space: Any) -> None:
    space.add_lwpolyline([(0, 0), (50, 0), (20, 0)], close=True)


def sliver(space: Any) -> None:
    space.add_lwpolyline([(0, 0), (50, 0), (50, 0.015), (0, 0.015)], close=True)


def leaning(space: Any) -> None:
    square(space, 0, 0, 50)
    space.add_line((0, 0, 0), (10, 10, 5))


def tilted(space: Any) -> None:
    space.add_circle((0, 0), 30, dxfattribs={"extrusion": (0, 1, 1)})


def faces(space: Any) -> None:
    square(space, 0, 0, 50)
    space.add_3dface([(0, 0), (1, 0), (1, 1)])


def endless(space: Any) -> None:
    space.add_circle((0, 0), 1e300)


def tiny(space: Any) -> None:
    square(space, 0, 0, 0.5)


def vast(space: Any) -> None:
    square(space, 0, 0, 40_000)


def self_holding(space: Any) -> None:
    block = space.doc.blocks.new("a")
    block.add_blockref("a", (0, 0))
    space.add_blockref("a", (0, 0))


def many(space: Any) -> None:
    points = [(i % 2000, (i % 2) + (5 if i < 2000 else 0)) for i in range(MOST_EDGES + 10)]
    space.add_lwpolyline(points, close=True)


@pytest.mark.parametrize(
    ("draw", "allowed", "advice"),
    [
        (lambda space: None, "none are drawn", "draw the part's edge"),
        (lambda space: space.add_text("a"), "none are drawn", "draw the part's edge"),
        (two_parts, "one outermost loop; there are 2", r"corners: \(0, 0\), \(70, 5\)"),
        (island, "nothing in them", r"lower left corner: \(15, 15\)"),
        (open_chain, r"within 0\.05 mm", r"gap of 5 mm from \(0, 0\) to \(3, 4\)"),
        (branch, "two lines meet", r"3 lines that meet at \(50, 0\)"),
        (crossing, "neither cross nor touch", r"at \(50, (15|35)\) .*1 more|at \(50, (15|35)\)"),
        (bow, "neither cross nor touch", r"at \(25, 25\)"),
        (touching, "neither cross nor touch", r"at \(50, 25\)"),
        (along, "neither cross nor touch", r"at \(0, (10|30)\)"),
        (there_and_back, "enclose an area", r"\(0, 0\)"),
        (sliver, "enclose an area", r"\(0, 0\)"),
        (leaning, "in the xy plane", "LINE that rises 5 mm"),
        (tilted, "in the xy plane", "CIRCLE that does not lie"),
        (faces, "in the xy plane", "3DFACE"),
        (endless, "in the xy plane", "CIRCLE that lies beyond"),
        (tiny, "1 to 30000 mm; this is 0.5 x 0.5", "key unit"),
        (vast, "1 to 30000 mm; this is 40000 x 40000", "key unit"),
        (self_holding, "which holds itself", "explode"),
        (many, f"at most {MOST_EDGES} lines", "as arcs"),
    ],
)
def test_a_drawing_that_is_no_part(
    draw: Callable[[Any], None], allowed: str, advice: str, tmp_path: Path
) -> None:
    doc = drawing()
    draw(doc.modelspace())
    lines = told(save(doc, tmp_path))
    assert any(re.search(f"allowed: .*{allowed}.*; try: .*{advice}", line) for line in lines), lines


def test_all_faults_come_at_once(tmp_path: Path) -> None:
    doc = drawing()
    for draw in (two_parts, faces, tilted):
        draw(doc.modelspace())
    doc.modelspace().add_line((200, 0), (200, 9))
    text = "\n".join(told(save(doc, tmp_path)))
    for words in ("3DFACE", "CIRCLE", "gap of 9 mm"):
        assert words in text


def test_a_unit_of_no_shop_is_refused(tmp_path: Path) -> None:
    doc = drawing(insunits=2)  # feet
    square(doc.modelspace(), 0, 0, 50)
    path = save(doc, tmp_path)
    (line,) = told(path)
    assert "$INSUNITS is 2" in line
    assert "key unit" in line
    assert read_outline(path, "mm").outline


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (None, "no such file"),
        (b"", "empty"),
        (b"a letter, no drawing", "cannot be read"),
        (b"\x00\xff" * 500, "cannot be read"),
        (b"AutoCAD Binary DXF\r\n\x1a\x00\x07", "cannot be read"),
        (b"  0\nSECTION\n  2\nENTITIES\n  0\nLINE\n 10\nx\n", "cannot be read"),
    ],
)
def test_a_file_that_is_no_drawing(content: bytes | None, words: str, tmp_path: Path) -> None:
    path = tmp_path / "part.dxf"
    if content is not None:
        path.write_bytes(content)
    (line,) = told(path)
    assert words in line


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    (line,) = told(tmp_path)
    assert "name a file" in line


@pytest.mark.parametrize("version", ["R12", "R2000"])
def test_damaged_files_are_read_or_told(version: str, tmp_path: Path) -> None:
    doc = drawing(version, None)
    space = doc.modelspace()
    space.add_polyline2d([(0, 0), (50, 0), (50, 50), (0, 50)], close=True)
    space.add_circle((25, 25), 10)
    space.add_ellipse((10, 10), (3, 0), 0.5) if version != "R12" else space.add_arc((9, 9), 3, 0, 9)
    good = save(doc, tmp_path).read_bytes()
    start = good.rindex(b"ENTITIES")
    rng, path = random.Random(1), tmp_path / "damaged.dxf"
    told_of = []
    for _ in range(25):
        data = bytearray(good)
        if rng.random() < 0.3:
            del data[rng.randrange(len(data)) :]
        for _ in range(rng.randrange(1, 4)):
            if len(data) > start:
                data[rng.randrange(start, len(data))] = rng.randrange(256)
        path.write_bytes(data)
        try:
            read_outline(path)
        except SpecError as error:
            told_of.append(str(error))
    assert told_of
    assert all("; try: " in text for text in told_of)


def test_lines_that_cross_everywhere_are_told_without_counting_them_all(tmp_path: Path) -> None:
    """Seven hundred lines to and fro cross a quarter of a million times."""
    doc = drawing()
    way = [(1000.0 * (i % 2), (i * 331 % 701) * 1.0) for i in range(701)]
    doc.modelspace().add_lwpolyline([*way, (500, 2000)], close=True)
    with pytest.raises(SpecError) as caught:
        read_outline(save(doc, tmp_path))
    assert len(caught.value.faults) == 5
    assert all("more than 995 more places" in fault.advice for fault in caught.value.faults)
