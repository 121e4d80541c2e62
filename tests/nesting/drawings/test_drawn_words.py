"""Words of a drawing that are marked: where the format has them, by the meaning of its places."""

from __future__ import annotations

import itertools
import math
from pathlib import Path

import pytest
import shapely
from ezdxf.enums import TextEntityAlignment as Align
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.drawings.drawn_words import drawn_words
from platewheel.nesting.drawings.read import read_outline
from platewheel.nesting.geometry.stroke_words import word_strokes
from platewheel.parts.geometry.blank import MarkText
from tests.nesting.drawn_files import drawing, save

# DXF reference, TEXT, codes 72 and 73: which corner of the words lies at the place
X = {"LEFT": 0, "CENTER": 1, "RIGHT": 2}
TURNED = st.floats(-180.0, 180.0)
AT = st.tuples(st.floats(-500, 500), st.floats(-500, 500))


def box(words: MarkText, place: tuple[float, float], turn: float) -> tuple[float, ...]:
    """Of capitals as they are written, turned back about their place, which is then 0, 0."""
    strokes = word_strokes(words.text, words.at, words.height_mm, words.turn_deg)
    lines = shapely.affinity.rotate(shapely.MultiLineString(strokes), -turn, origin=place)
    bounds: tuple[float, ...] = shapely.affinity.translate(lines, -place[0], -place[1]).bounds
    return bounds


@given(st.sampled_from([a for a in Align if a.name not in ("ALIGNED", "FIT")]), AT, TURNED)
def test_a_line_of_words_lies_about_its_place(
    align: Align, place: tuple[float, float], turn: float
) -> None:
    entity = drawing().modelspace().add_text("HXH", height=6.0, rotation=turn)
    entity.set_placement(place, align=align)
    (words,) = drawn_words(entity, 1.0).lines
    x0, y0, x1, y1 = box(words, place, turn)
    assert y1 - y0 == pytest.approx(6.0)
    *up, side = align.name.split("_")
    row = up[0] if up else side if side == "MIDDLE" else "BASELINE"
    assert (x0, (x0 + x1) / 2, x1)[X.get(side, 1)] == pytest.approx(0.0, abs=1e-6)
    least = {"BASELINE": y0, "BOTTOM": y0, "MIDDLE": (y0 + y1) / 2, "TOP": y1}[row]
    assert least == pytest.approx(0.0, abs=1e-6)


@given(st.integers(1, 9), st.integers(1, 3), AT, TURNED)
def test_lines_of_words_hang_at_their_attachment_point(
    point: int, count: int, place: tuple[float, float], turn: float
) -> None:
    """DXF reference, MTEXT, code 71: 1 to 3 at the top, 7 to 9 at the bottom, from the left."""
    entity = drawing().modelspace().add_mtext("\\P".join(["HXH"] * count))
    entity.dxf.update(
        {"insert": place, "char_height": 6.0, "rotation": turn, "attachment_point": point}
    )
    boxes = [box(words, place, turn) for words in drawn_words(entity, 1.0).lines]
    assert len(boxes) == count
    assert [a[1] - b[1] for a, b in itertools.pairwise(boxes)] == pytest.approx(
        [10.0] * (count - 1)
    )
    x0, y0, x1, y1 = shapely.box(*boxes[0]).union(shapely.box(*boxes[-1])).bounds
    row, column = divmod(point - 1, 3)
    assert (x0, (x0 + x1) / 2, x1)[column] == pytest.approx(0.0, abs=1e-6)
    assert (y1, (y0 + y1) / 2, y0)[row] == pytest.approx(0.0, abs=1e-6)


def test_words_between_two_points_lie_in_their_middle() -> None:
    entity = drawing().modelspace().add_text("GO", height=5.0)
    entity.set_placement((10.0, 10.0), (40.0, 40.0), align=Align.ALIGNED)
    (words,) = drawn_words(entity, 25.4).lines
    assert (words.height_mm, words.turn_deg) == (pytest.approx(127.0), pytest.approx(45.0))
    off = 2.5 * math.sqrt(0.5)
    assert words.at == pytest.approx((25.4 * (25.0 - off), 25.4 * (25.0 + off)))


def test_words_on_the_mark_layer_are_marked_and_others_left_out(tmp_path: Path) -> None:
    doc = drawing()
    space = doc.modelspace()
    space.add_lwpolyline([(10, 10), (90, 10), (90, 60), (10, 60)], close=True)
    for layer, text in (("MARK", "GO"), ("MARK", "  "), ("0", "scale 1:1")):
        entity = space.add_text(text, height=8, dxfattribs={"layer": layer})
        entity.set_placement((50, 30), align=Align.MIDDLE_CENTER)
    standing = space.add_text("NO", height=8, dxfattribs={"layer": "MARK"})
    standing.dxf.extrusion = (1, 0, 0)
    drawn = read_outline(save(doc, tmp_path))
    assert drawn.marks == (MarkText((40.0, 20.0), "GO", 8.0, 0.0),)
    assert "3 TEXT left out" in drawn.notes


def test_words_in_another_alphabet_than_the_drawing_tells_are_left_out(tmp_path: Path) -> None:
    doc = drawing("R2007")  # the first in UTF-8
    doc.modelspace().add_circle((0, 0), 50)
    doc.modelspace().add_text("GOING", height=8, dxfattribs={"layer": "MARK"})
    path = save(doc, tmp_path)
    path.write_bytes(path.read_bytes().replace(b"GOING", b"GO\xff\xfeG"))
    drawn = read_outline(path)
    assert drawn.marks == ()
    assert "1 TEXT left out" in drawn.notes


def test_words_lie_at_their_place_as_they_are_spelt() -> None:
    """One letter that becomes two is as wide as these at the left of its place."""
    entity = drawing().modelspace().add_text("\u00df", height=6.0)
    entity.set_placement((10, 20), align=Align.LEFT)
    (words,) = drawn_words(entity, 1.0).lines
    assert words.text == "ss"
    assert words.at == pytest.approx((10 + (2 - 1 / 3) * 6.0 / 2, 23.0))


def test_what_cannot_be_marked_is_left_out_and_told(tmp_path: Path) -> None:
    doc = drawing()
    space = doc.modelspace()
    space.add_lwpolyline([(0, 0), (300, 0), (300, 300), (0, 300)], close=True)
    layer = {"layer": "mark"}
    for k, said in enumerate(["\u202eab\x1bc\x00", "\u6f22\u5b57 5", "Ma\u00df", "\x07"]):
        space.add_text(said, height=9, dxfattribs={**layer, "insert": (20, 20 + 20 * k)})
    space.add_mtext("\u2603\\PTr\u00e4ger", dxfattribs={**layer, "char_height": 9})
    drawn = read_outline(save(doc, tmp_path))
    assert [m.text for m in drawn.marks if isinstance(m, MarkText)] == [
        "abc",
        "Mass",
        "Tr\u00e4ger",
    ]
    hidden, swapped, lost = drawn.notes
    assert "U+202E, U+001B, U+0000, U+0007" in hidden
    assert "\u00df by ss" in swapped
    assert "\u6f22, \u5b57, \u2603" in lost
    assert "\u6f22\u5b57 5, \u2603" in lost


def test_words_of_a_block_lie_on_their_own_layer(tmp_path: Path) -> None:
    """DXF reference, ATTRIB: an entity with a layer of its own; layer 0 is that of the INSERT."""
    doc = drawing()
    doc.modelspace().add_lwpolyline([(0, 0), (300, 0), (300, 300), (0, 300)], close=True)
    doc.blocks.new("tag").add_attdef("NO", (0, 0))
    for layer, place in (("mark", (20, 20)), ("0", (20, 90))):
        block = doc.modelspace().add_blockref("tag", place)
        block.add_attrib("NO", "B7", place, dxfattribs={"layer": layer, "height": 9})
    drawn = read_outline(save(doc, tmp_path))
    assert [m.text for m in drawn.marks if isinstance(m, MarkText)] == ["B7"]
    assert drawn.notes == ("1 ATTRIB left out",)
