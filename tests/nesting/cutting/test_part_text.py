"""Names and numbers on parts: in the steel, clear of edges and marks, by a polygon library."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.cutting.part_marks import PartMarks, sheet_marks
from platewheel.nesting.cutting.part_text import text_place
from platewheel.nesting.files.write_dxf import write_sheet_dxf
from platewheel.nesting.geometry.stroke_words import word_strokes
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.small_holes import without_small_holes
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Circle, Line, Loop
from tests.nesting.drawn_files import parts_with_holes
from tests.nesting.plates import NAMED, cutting, disc, faceted, on_plate, plate, sector, strip

SHAPES: dict[str, Blank] = {
    "strip": strip(180.0, 30.0),
    "thin": strip(180.0, 8.0),
    "ring": sector(60.0, 70.0, 350.0),
    "third": sector(150.0, 165.0, 110.0),
    "disc": disc(120.0, holes=(Circle((0.0, 0.0), 25.0), Circle((0.0, 42.0), 8.0))),
    "washer": disc(100.0, holes=(Circle((0.0, 0.0), 40.0),)),
    "named": NAMED,
}
SAG_MM = 0.005  # of the reference


def marks_of(blank: Blank, cut: Cutting, x: float = 150.0, turn: float = 0.0) -> PartMarks:
    layout = Layout(plate(1000.0, 1000.0), (Placement(blank, x, 300.0, turn),))
    (found,) = sheet_marks(sheet_cuts(layout, cut).parts, cut).parts
    return found


def room_for(blank: Blank, cut: Cutting, x: float, turn: float) -> shapely.Geometry:
    """Steel as deep inside as half the kerf and 1 mm, at the part's place."""
    holes = shapely.union_all([faceted(hole, SAG_MM) for hole in blank.holes])
    inner = faceted(blank.outline, SAG_MM).difference(holes).buffer(-(cut.kerf_mm / 2 + 1.0))
    turned = shapely.affinity.rotate(inner, turn, origin=(0, 0))
    return shapely.affinity.translate(turned, x, 300.0)


@pytest.mark.parametrize("kerf_mm", [0.3, 1.5, 4.0])
@pytest.mark.parametrize("name", SHAPES)
def test_strokes_lie_in_the_steel(name: str, kerf_mm: float) -> None:
    cut = cutting(kerf_mm=kerf_mm, process="laser")
    strokes = shapely.MultiLineString(marks_of(SHAPES[name], cut, 150.0, 77.0).strokes)
    if strokes.is_empty:
        assert (name, kerf_mm) == ("thin", 4.0)  # 2 mm of 8 are left
        return
    assert room_for(SHAPES[name], cut, 150.0, 77.0).covers(strokes)


@settings(max_examples=30)
@given(parts_with_holes(), st.floats(0, 360), st.sampled_from([0.3, 1.7, 4.0]))
def test_strokes_lie_in_the_steel_of_any_part(
    drawn: tuple[Loop, tuple[Loop, ...]], turn: float, kerf_mm: float
) -> None:
    cut = cutting(kerf_mm=kerf_mm, process="laser")
    blank = Blank("lug", "extra", 6.0, *drawn, marks=(Line((-30.0, 0.0), (30.0, 0.0)),))
    marks = marks_of(blank, cut, 150.0, turn)
    assume(marks.strokes)
    strokes = shapely.MultiLineString(marks.strokes)
    assert room_for(blank, cut, 150.0, turn).buffer(2 * SAG_MM).covers(strokes)
    high = marks.words[-1].height_mm  # more than the gap between letters, a third of it
    for bend in marks.marks:
        assert isinstance(bend, Line)
        assert shapely.LineString([bend.start, bend.end]).distance(strokes) >= max(0.5 * high, 1)


@pytest.mark.parametrize("name", SHAPES)
def test_words_to_read_lie_in_the_steel(name: str) -> None:
    """A box as wide as the words in a plain font (0.8 of the height a letter) holds no hole and
    crosses no edge. Widths of letters: from memory, about 0.5 to 0.75 of the capital height."""
    blank = SHAPES[name]
    place = text_place(blank, "0123456789")
    assert place is not None
    assert place.height_mm >= 2
    wide, high = 10 * 0.8 * place.height_mm / 2, place.height_mm / 2
    box = shapely.affinity.rotate(
        shapely.box(-wide, -high, wide, high), place.turn_deg, origin=(0, 0)
    )
    box = shapely.affinity.translate(box, *place.at)
    assert on_plate(Placement(blank, 0.0, 0.0, 0.0)).contains(box)
    for mark in blank.marks:
        if isinstance(mark, MarkText) and mark.text != blank.name:
            far = 0.8 * len(mark.text) * mark.height_mm / 2
            x, y = mark.at
            assert not box.intersects(shapely.box(x - far, y - 3, x + far, y + 3))


def test_no_words_where_none_fit() -> None:
    assert text_place(disc(6.0), "0123456789") is None
    assert text_place(disc(6.0), "0", clear_mm=3.5) is None


def test_letters_are_as_large_as_go() -> None:
    """Of 20, 16, 12, ... mm, with a quarter of it free above and below."""
    wide, narrow = (text_place(strip(400.0, width), "HH") for width in (29.9, 10.0))
    assert wide is not None
    assert wide.height_mm == 16.0  # 1.5 x 20 is 30
    assert narrow is not None
    assert narrow.height_mm == 6.0


def test_parts_too_small_for_a_name_or_for_any_letter_are_told(tmp_path: Path) -> None:
    blanks = (disc(6.0, "pin"), disc(14.0, "stud"), disc(120.0, "plug"))
    layout = Layout(
        plate(500.0, 300.0),
        tuple(Placement(b, 50.0 + 120 * i, 150.0, 0.0) for i, b in enumerate(blanks)),
    )
    told = write_sheet_dxf(layout, cutting(), tmp_path / "s.dxf")
    assert told == (
        "no room to mark the name in letters of 4 mm, the number alone: stud",
        "no room to mark name or number in letters of 4 mm: pin",
    )
    done = sheet_cuts(layout, cutting()).parts
    marked = sheet_marks(done, cutting()).parts
    said = {}
    for part, marks in zip(done, marked, strict=True):
        name = part.placement.blank.name
        said[name] = [words.text for words in marks.words], len(marks.strokes)
        number = len(word_strokes(str(part.number), (0.0, 0.0), 6.0))
        if name == "plug":
            assert said[name] == ([f"plug {part.number}"], 2 + 1 + 2 + 2 + number)
        elif name == "stud":
            assert said[name] == ([f"{part.number}."], number + 1)  # the dot tells 6 from 9
        else:
            assert said[name] == ([], 0)  # nor would words to read go on 6 mm
    assert write_sheet_dxf(layout, cutting(mark_names=False), tmp_path / "s.dxf") == ()


@pytest.mark.parametrize("version", ["R2000", "R12"])
def test_strokes_and_words_can_be_left_out(tmp_path: Path, version: str) -> None:
    layout = Layout(plate(500.0, 300.0), (Placement(NAMED, 200.0, 150.0, 40.0),))
    seen: dict[tuple[bool, bool], tuple[int, int]] = {}
    for names in (True, False):
        for texts in (True, False):
            cut = cutting(mark_names=names, text_marks=texts, dxf_version=version)
            write_sheet_dxf(layout, cut, tmp_path / "s.dxf")
            space = ezdxf.readfile(tmp_path / "s.dxf").modelspace()
            words = [e for e in space.query("TEXT") if e.dxf.text == "hub 1"]
            seen[names, texts] = (len(space.query('*[layer=="mark"]')), len(words))
    strokes = 2 + 2 + 2 + 1  # of h, u, b and 1
    assert seen == {
        (True, True): (strokes, 1),
        (True, False): (strokes, 0),
        (False, True): (0, 1),
        (False, False): (0, 0),
    }


def test_strokes_stand_where_their_words_do() -> None:
    marks = marks_of(NAMED, cutting(), 150.0, 90.0)
    label = marks.words[-1]
    assert label.text == "hub 1"
    middle = shapely.box(*shapely.MultiLineString(marks.strokes).bounds).centroid
    assert middle.distance(shapely.Point(label.at)) < label.height_mm / 2
    tall = shapely.MultiLineString(marks.strokes).bounds
    assert tall[2] - tall[0] == pytest.approx(label.height_mm)  # turned by 90 degrees


@pytest.mark.parametrize("process", ["plasma", "laser"])
def test_words_keep_off_holes_that_are_drilled(process: Any) -> None:
    """The sheet knows a drilled hole by its centre alone; it is smaller than the least hole."""
    cut = cutting(process=process, least_hole_mm=12.0)
    drilled = tuple(Circle((x, 0.0), 5.5) for x in (-40.0, -20.0, 0.0, 20.0, 40.0))
    whole = Blank("bar", "extra", 6.0, strip(120.0, 40.0).outline, ())
    bar = Blank("bar", "extra", 6.0, whole.outline, tuple(_shifted(c) for c in drilled))
    marks = marks_of(without_small_holes(bar, cut), cut, 0.0)
    assert sum(isinstance(mark, MarkPoint) for mark in marks.marks) == 5
    strokes = shapely.MultiLineString(marks.strokes)
    assert not strokes.is_empty
    for mark in marks.marks:
        assert isinstance(mark, MarkPoint)
        assert shapely.Point(mark.at).distance(strokes) >= 5.5 + cut.kerf_mm / 2 + 1


@pytest.mark.parametrize("letters", range(3, 24, 2))
def test_words_keep_clear_of_the_edge_of_a_drilled_hole(letters: int) -> None:
    """A bar of 40 mm with a hole of 20 mm to drill in its middle: 4 mm of steel about it."""
    bar = replace(strip(200.0, 40.0), marks=(MarkPoint((100.0, 20.0)),))
    word = "H" * letters
    place = text_place(bar, word, clear_mm=4.0, drilled_mm=20.0)
    assert place is not None
    strokes = word_strokes(word, place.at, place.height_mm, place.turn_deg)
    assert shapely.MultiLineString(strokes).distance(shapely.Point(100.0, 20.0)) >= 14.0 - 0.01


def _shifted(hole: Circle) -> Circle:
    return Circle((hole.centre[0] + 60.0, 20.0), hole.radius_mm)


@pytest.mark.parametrize("kind", ["extra", "gauge", "disc"])
@pytest.mark.parametrize("mark_names", [True, False])
def test_words_of_ones_own_parts_are_marked_as_high_as_there_is_room(
    kind: str, mark_names: bool
) -> None:
    """A word of 30 mm in capitals on a strip 20 mm high, whose edge keeps it 1.75 mm off."""
    words = (MarkText((30.0, 10.0), "GO", 30.0), MarkText((90.0, 10.0), "IN", 5.0))
    blank = replace(strip(120.0, 20.0), kind=kind, marks=words)
    cut = cutting(mark_names=mark_names)
    found = marks_of(blank, cut, turn=30.0)
    marked = kind == "extra" or (kind == "gauge" and mark_names)
    tall = {p.text: p for p in found.words}
    assert set(tall) >= {"GO", "IN"}  # to read, too
    strokes = [shapely.LineString(s) for s in found.strokes]
    small = word_strokes("IN", tall["IN"].at, 5.0, 30.0)
    assert all(s in found.strokes for s in small) == marked
    assert all(room_for(blank, cut, 150.0, 30.0).buffer(1e-6).covers(one) for one in strokes)
    large = word_strokes("GO", tall["GO"].at, 15.0, 30.0)
    assert all(s in found.strokes for s in large) == marked


def test_words_without_room_are_told() -> None:
    words = (MarkText((60.0, 10.0), "GO", 6.0), MarkText((118.0, 10.0), "OUT", 6.0))
    blank = replace(strip(120.0, 20.0), kind="extra", name="own", marks=words)
    layout = Layout(plate(300.0, 100.0), (Placement(blank, 20.0, 20.0, 0.0),))
    done = sheet_marks(sheet_cuts(layout, cutting()).parts, cutting())
    assert done.warnings == ("own: no room on the steel to mark its words in letters of 4 mm: OUT",)


def test_words_too_low_or_too_many_are_told_in_one_short_line() -> None:
    low = tuple(MarkText((x, 10.0), "B7", 2.5) for x in (20.0, 60.0, 90.0))
    tight = tuple(MarkText((118.0, 10.0), "W" * 80, 6.0) for _ in range(12))
    blank = replace(strip(120.0, 20.0), kind="extra", name="own", marks=(*low, *tight))
    layout = Layout(plate(300.0, 100.0), (Placement(blank, 20.0, 20.0, 0.0),))
    done = sheet_marks(sheet_cuts(layout, cutting()).parts, cutting())
    *_, first, second = done.warnings
    assert first == (
        "own: words drawn lower than 4 mm, the least that is marked, are left out: B7, B7, B7"
    )
    assert "no room on the steel" in second
    assert second.endswith("and 7 more")
    assert len(second) < 500
