"""Layers of a drawing as the job file says: cut, marked, ignored, and told by name."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from platewheel.nesting.drawings.layers import DrawingLayer, layer_faults, uses_for
from platewheel.nesting.drawings.read import read_outline
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import MarkPoint
from platewheel.parts.geometry.outline import Circle, Line
from tests.nesting.drawn_files import drawing, save


@pytest.fixture
def plate(tmp_path: Path) -> Path:
    """A square with a hole on EDGE, a line and a point on Engrave, a crossing line on aids, and
    a word on notes."""
    doc = drawing()
    for name in ("EDGE", "Engrave", "aids", "notes", "spare"):
        doc.layers.add(name)
    space = doc.modelspace()
    space.add_lwpolyline(
        [(0, 0), (50, 0), (50, 50), (0, 50)], close=True, dxfattribs={"layer": "EDGE"}
    )
    space.add_circle((25, 25), 10, dxfattribs={"layer": "EDGE"})
    space.add_line((5, 5), (20, 5), dxfattribs={"layer": "Engrave"})
    space.add_point((40, 40), dxfattribs={"layer": "Engrave"})
    space.add_line((-9, 25), (70, 25), dxfattribs={"layer": "aids"})
    space.add_text("plate", dxfattribs={"layer": "notes"})
    return save(doc, tmp_path)


def rows(*pairs: Any) -> dict[str, Any]:
    return uses_for([DrawingLayer(name=name, use=use) for name, use in pairs], "plate")


def wrong(path: Path, *pairs: Any) -> list[str]:
    with pytest.raises(SpecError) as caught:
        read_outline(path, said="plate.dxf", uses=rows(*pairs))
    assert all(fault.value == "plate.dxf" for fault in caught.value.faults)
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize("cut", [(), (("edge", "cut"),)])
def test_layers_are_used_as_the_rows_say(cut: Any, plate: Path) -> None:
    drawn = read_outline(plate, uses=rows(("ENGRAVE", "mark"), ("aids", "ignored"), *cut))
    assert drawn.holes == (Circle((25, 25), 10),)
    assert drawn.marks == (Line((5, 5), (20, 5)), MarkPoint((40, 40)))
    assert "1 entity on layers that the job ignores left out" in drawn.notes


def test_without_rows_all_is_cut_but_the_layer_mark(plate: Path) -> None:
    (line, *_) = wrong(plate)
    assert "close the gap" in line


def test_the_layer_mark_may_be_cut(tmp_path: Path) -> None:
    doc = drawing()
    on = {"layer": "mark"}
    doc.modelspace().add_lwpolyline([(0, 0), (9, 0), (9, 9)], close=True, dxfattribs=on)
    path = save(doc, tmp_path)
    assert len(wrong(path)) == 1
    assert read_outline(path, uses=rows(("Mark", "cut"))).marks == ()


def test_a_layer_that_the_drawing_has_not_is_told_with_those_it_has(plate: Path) -> None:
    (line,) = wrong(plate, ("engraving", "mark"), ("Engrave", "mark"), ("aids", "ignored"))
    assert "layers that the drawing has: 0, Defpoints, EDGE, Engrave, aids, notes, spare;" in line
    assert "a [[drawing_layer]] row names engraving" in line
    assert read_outline(
        plate,
        uses=rows(("spare", "cut"), ("EDGE", "cut"), ("aids", "ignored"), ("engrave", "mark")),
    ).holes  # empty, but there


def test_where_a_row_says_cut_each_layer_with_lines_has_one(plate: Path) -> None:
    lines = wrong(plate, ("edge", "cut"))
    assert any("aids has none" in line for line in lines)
    assert any('name = "engrave" and use = "cut", "mark" or "ignored"' in line for line in lines)
    assert not any("notes has none" in line for line in lines)  # words are no lines


def test_a_hidden_layer_is_neither_cut_nor_marked(tmp_path: Path) -> None:
    doc = drawing()
    doc.layers.add("EDGE").off()
    doc.modelspace().add_circle((0, 0), 9, dxfattribs={"layer": "EDGE"})
    doc.modelspace().add_circle((0, 0), 19)
    path = save(doc, tmp_path)
    assert any("edge is hidden" in line for line in wrong(path, ("EDGE", "cut"), ("0", "cut")))
    assert read_outline(path, uses=rows(("EDGE", "ignored"))).holes == ()


def test_a_row_for_one_part_goes_before_one_for_all() -> None:
    both = [
        DrawingLayer(name="A", use="mark", part="plate"),
        DrawingLayer(name="a", use="cut"),
        DrawingLayer(name="B", use="ignored", part="other"),
    ]
    assert uses_for(both, "plate") == {"a": "mark"}
    assert uses_for(both, "other") == {"a": "cut", "b": "ignored"}


def test_rows_at_fault_are_told_by_their_keys() -> None:
    table = [
        {"name": "A", "use": "cut"},
        {"name": "a", "use": "mark"},
        {"name": "a", "use": "mark", "part": "plate"},
        {"name": "b", "use": "mark", "part": "gone"},
        {"name": 3, "use": "mark"},
        "nothing",
    ]
    faults = list(layer_faults(table, {"plate", "cover"}))
    assert [fault.key for fault in faults] == ["drawing_layer[1].name", "drawing_layer[3].part"]
    assert "cover, plate" in faults[1].allowed
    with pytest.raises(SpecError, match="use: found 'scribe'"):
        DrawingLayer(name="a", use="scribe")


@pytest.mark.parametrize("spelt", ["\\U+010Cep \\U+65E5", "\\U+010cep \\U+65e5", "\u010cep \u65e5"])
def test_a_layer_is_found_however_its_letters_are_spelt(spelt: str, tmp_path: Path) -> None:
    """DXF reference: before 2007 a letter that is not of the drawing's alphabet is \\U+010C."""
    doc = drawing("R2010")
    doc.layers.add(spelt)
    doc.layers.add(f"{spelt} off").off()
    space = doc.modelspace()
    space.add_circle((0, 0), 30)
    space.add_line((5, 5), (20, 5), dxfattribs={"layer": spelt})
    space.add_line((5, 9), (20, 9), dxfattribs={"layer": f"{spelt} off"})
    path = save(doc, tmp_path)
    drawn = read_outline(path, uses=rows(("\u010dEP \u65e5", "mark")))
    assert len(drawn.marks) == 1
    assert "1 entity on hidden layers left out" in drawn.notes
    line, _ = wrong(path, ("nowhere", "mark"))
    assert (
        "layers that the drawing has: 0, Defpoints, \u010cep \u65e5, \u010cep \u65e5 off;" in line
    )
