"""The picture shows what the cutting file holds: read back as SVG, areas and places compared."""

from __future__ import annotations

import math
import re
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import pytest

from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.nesting.files.dxf_entities import (
    add_path,
    add_strokes,
    add_text,
    new_drawing,
    save,
)
from platewheel.nesting.files.write_dxf import write_blank_dxf, write_sheet_dxf
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText
from platewheel.parts.geometry.outline import Arc, Circle, Line, area_mm2, bounds
from tests.nesting.plates import cutting, disc, plate, sector, strip, tapered

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+\.?\d*")


def drawn(path: Path, title: str = "a picture") -> ElementTree.Element:
    return ElementTree.fromstring(dxf_picture(path, title))


def path_area(data: str) -> float:
    """Area of a closed path of M, L and A, by the meaning of the arc flags.

    Source: SVG 1.1, 8.3.8: sweep flag 1 draws in the direction of growing angle, y downwards;
    the large flag takes the arc of more than half a turn.
    """
    total, first, here = 0.0, (0.0, 0.0), (0.0, 0.0)
    for letter, rest in re.findall(r"([MLAZ])([^MLAZ]*)", data):
        values = [float(n) for n in NUMBER.findall(rest)]
        there = first if letter == "Z" else (values[-2], values[-1])
        if letter == "M":
            first = here = there
            continue
        total += (here[0] * there[1] - there[0] * here[1]) / 2
        if letter == "A":
            radius, large, sweep = values[0], values[3], values[4]
            half = math.asin(min(1.0, math.dist(here, there) / 2 / radius))
            turn = 2 * (math.pi - half if large else half)
            total += (1 if sweep else -1) * radius**2 * (turn - math.sin(turn)) / 2
        here = there
    return abs(total)


def shapes(root: ElementTree.Element, kind: str) -> list[ElementTree.Element]:
    return list(root.iter(f"{SVG}{kind}"))


BLANKS = {
    "strip": strip(300.0, 40.0),
    "third": sector(60.0, 75.0, 110.0),
    "cone": sector(60.0, 75.0, 338.0),
    "half": sector(60.0, 75.0, 180.0),
    "tapered": tapered(300.0, 40.0, 900.0),
}


@pytest.mark.parametrize("name", BLANKS)
def test_outline_in_the_picture_encloses_the_blank(tmp_path: Path, name: str) -> None:
    write_blank_dxf(BLANKS[name], tmp_path / "b.dxf")
    (path,) = shapes(drawn(tmp_path / "b.dxf"), "path")
    # three decimals are drawn: 0.5 micrometre along the whole outline
    expected = area_mm2(BLANKS[name].outline)
    assert path_area(path.attrib["d"]) == pytest.approx(expected, rel=1e-4)


def test_circles_are_where_the_file_has_them_with_y_upwards(tmp_path: Path) -> None:
    blank = disc(100.0, holes=(Circle((20.0, 30.0), 8.0),))
    write_blank_dxf(blank, tmp_path / "b.dxf")
    found = {
        (float(c.attrib["cx"]), float(c.attrib["cy"]), float(c.attrib["r"]))
        for c in shapes(drawn(tmp_path / "b.dxf"), "circle")
    }
    assert found == {(0.0, 0.0, 50.0), (20.0, -30.0, 8.0)}


def frame(root: ElementTree.Element) -> tuple[float, float, float, float]:
    x, y, wide, high = map(float, root.attrib["viewBox"].split())
    return x, y, x + wide, y + high


def test_frame_holds_plate_and_parts(tmp_path: Path) -> None:
    layout = Layout(
        plate(500.0, 300.0),
        (
            Placement(disc(100.0), 80.0, 80.0, 0.0),
            Placement(BLANKS["cone"], 300.0, 150.0, 90.0),
        ),
    )
    write_sheet_dxf(layout, cutting(lead_in_mm=4.0), tmp_path / "s.dxf")
    root = drawn(tmp_path / "s.dxf")
    x0, y0, x1, y1 = frame(root)
    assert x0 < 0
    assert x1 > 500
    assert y0 < -300  # y runs downwards in the picture
    assert y1 > 0
    for text in shapes(root, "text"):
        assert y0 < float(text.attrib["y"]) < y1
    # edge, two outlines (the disc's begun at its lead), and an open line for each lead
    data = [p.attrib["d"] for p in shapes(root, "path")]
    areas = sorted(path_area(d) for d in data if d.endswith("Z"))
    expected = [area_mm2(BLANKS["cone"].outline), math.pi * 50**2, 150000.0]
    assert areas == pytest.approx(expected, rel=1e-4)
    assert len(data) == 5


def test_marks_are_drawn(tmp_path: Path) -> None:
    marks = (
        MarkPoint((10.0, 5.0)),
        Line((20.0, 5.0), (40.0, 5.0)),
        Arc((60.0, 10.0), 8.0, 30.0, 270.0),
        MarkText((80.0, 20.0), "seam", 6.0, 90.0),
    )
    blank = Blank("strip", "tread", 6.0, BLANKS["strip"].outline, marks=marks)
    write_blank_dxf(blank, tmp_path / "b.dxf")
    root = drawn(tmp_path / "b.dxf")
    data = [p.attrib["d"] for p in shapes(root, "path")]
    assert any(d == "M20.000 -5.000L40.000 -5.000" for d in data)
    (arc,) = (d for d in data if "A" in d)
    numbers = [float(n) for n in NUMBER.findall(arc)]
    at = [
        (60 + 8 * math.cos(math.radians(a)), -10 - 8 * math.sin(math.radians(a))) for a in (30, 300)
    ]
    assert numbers == pytest.approx([*at[0], 8, 8, 0, 1, 0, *at[1]], abs=1e-3)
    (text,) = (t for t in shapes(root, "text") if t.text == "seam")
    assert text.attrib["transform"] == "rotate(-90.00 80.00 -20.00)"
    assert len([d for d in data if "v6" in d]) == 1  # the punch mark


@pytest.mark.parametrize("name", ['<b> & "co"', "a'b"])
def test_words_cannot_break_the_picture(tmp_path: Path, name: str) -> None:
    layout = Layout(plate(300.0, 200.0, name=name), (Placement(disc(99.0), 90.0, 90.0, 0.0),))
    write_sheet_dxf(layout, cutting(), tmp_path / "s.dxf")
    root = drawn(tmp_path / "s.dxf", name)
    assert root.attrib["aria-label"] == name
    (title,) = shapes(root, "title")
    assert title.text == name
    assert any(t.text and t.text.startswith(name) for t in shapes(root, "text"))


def test_outlines_lie_under_their_holes(tmp_path: Path) -> None:
    """Painted in order: a hole drawn before its outline would be covered by it."""
    write_blank_dxf(disc(100.0, holes=(Circle((0.0, 0.0), 8.0),)), tmp_path / "b.dxf")
    radii = [float(c.attrib["r"]) for c in shapes(drawn(tmp_path / "b.dxf"), "circle")]
    assert radii == [50.0, 8.0]


def test_whole_blank_is_in_the_frame(tmp_path: Path) -> None:
    for name, blank in BLANKS.items():
        write_blank_dxf(blank, tmp_path / f"{name}.dxf")
        x0, y0, x1, y1 = frame(drawn(tmp_path / f"{name}.dxf"))
        left, low, right, top = bounds(blank.outline)
        assert x0 < left
        assert right < x1
        assert y0 < -top
        assert -low < y1


@pytest.mark.parametrize("version", ["R2000", "R12"])
def test_both_versions_look_the_same(tmp_path: Path, version: str) -> None:
    layout = Layout(
        plate(500.0, 300.0),
        (Placement(disc(100.0), 80.0, 80.0, 0.0), Placement(BLANKS["cone"], 300.0, 150.0, 90.0)),
    )
    more = {"lead_in_mm": 4.0, "lead_out_mm": 3.0, "lead_shape": "arc"}
    write_sheet_dxf(layout, cutting(dxf_version=version, **more), tmp_path / "s.dxf")
    root = drawn(tmp_path / "s.dxf")
    data = [p.attrib["d"] for p in shapes(root, "path")]
    areas = sorted(path_area(d) for d in data if d.endswith("Z"))
    expected = [area_mm2(BLANKS["cone"].outline), math.pi * 50**2, 150000.0]
    assert areas == pytest.approx(expected, rel=1e-4)
    arcs = [d for d in data if d.count("A") == 1 and "L" not in d]
    assert len(arcs) == 4  # a quarter turn in and one out, of each part
    words = {t.text for t in shapes(root, "text")}
    assert {"disc 1", "flange 2"} <= words


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("lead_in_mm", [0.0, 4.0])
@pytest.mark.parametrize("tabs", [1, 2, 3, 5])
def test_parts_with_tabs_are_filled_whole_and_drawn_open(
    tmp_path: Path, version: str, lead_in_mm: float, tabs: int
) -> None:
    """Each part's area but for the slivers between its tabs' chords and arcs."""
    parts = [disc(100.0), BLANKS["strip"], BLANKS["cone"], BLANKS["third"]]
    at = [(80.0, 80.0), (150.0, 20.0), (300.0, 190.0), (430.0, 180.0)]
    layout = Layout(
        plate(500.0, 300.0),
        tuple(Placement(b, x, y, 0.0) for b, (x, y) in zip(parts, at, strict=True)),
    )
    cut = cutting(tab_count=tabs, lead_in_mm=lead_in_mm, dxf_version=version)
    write_sheet_dxf(layout, cut, tmp_path / "s.dxf")
    data = [p.attrib["d"] for p in shapes(drawn(tmp_path / "s.dxf"), "path")]
    filled = sorted(path_area(d) for d in data if d.endswith("Z"))
    wanted = sorted([*(area_mm2(b.outline) for b in parts), 150000.0])
    assert filled == pytest.approx(wanted, rel=2e-3)
    edges = [d for d in data if not d.endswith("Z")]
    leads = len(ezdxf.readfile(tmp_path / "s.dxf").modelspace().query('*[layer=="lead"]'))
    cuts = (tabs + (1 if lead_in_mm else 0)) * len(parts)
    assert len(edges) == cuts + leads


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("turn", [0.0, 77.0])
def test_words_that_are_marked_and_written_are_drawn_once(
    tmp_path: Path, version: str, turn: float
) -> None:
    """As words; without those, as the strokes that are marked, other marks in both."""
    bend = Line((10.0, 5.0), (290.0, 5.0))
    blank = Blank("jig", "extra", 6.0, BLANKS["strip"].outline, marks=(bend,))
    layout = Layout(plate(500.0, 500.0), (Placement(blank, 120.0, 60.0, turn),))
    strokes = {True: 0, False: 2 + 3 + 2 + 1}  # of j, i, g and 1, dots counted
    for texts, count in strokes.items():
        write_sheet_dxf(layout, cutting(text_marks=texts, dxf_version=version), tmp_path / "s.dxf")
        root = drawn(tmp_path / "s.dxf")
        open_lines = [p for p in shapes(root, "path") if not p.attrib["d"].endswith("Z")]
        assert len(open_lines) == count + 1
        assert [t.text for t in shapes(root, "text")].count("jig 1") == texts


def test_strokes_beyond_the_words_are_drawn(tmp_path: Path) -> None:
    """Words at 45 degrees, strokes on them, further along their line, and beside it."""
    drawing = new_drawing("R2000")
    space = drawing.modelspace()
    add_path(space, BLANKS["strip"].outline, "cut-outline")
    add_text(space, "jig 1", (100.0, 20.0), 6.0, 45.0, centred=True)
    seen = {(105.0, 25.0): False, (130.0, 50.0): True, (70.0, -10.0): True, (107.0, 13.0): True}
    for x, y in seen:
        add_strokes(space, (((x, y), (x + 1, y + 1)),), "mark")
    save(drawing, tmp_path / "s.dxf")
    data = " ".join(p.attrib["d"] for p in shapes(drawn(tmp_path / "s.dxf"), "path"))
    assert {at: f"M{at[0]:.3f} {-at[1]:.3f}L" in data for at in seen} == seen


def test_pieces_to_keep_are_dashed_with_their_words_inside(tmp_path: Path) -> None:
    layout = Layout(plate(500.0, 300.0), (Placement(disc(100.0), 80.0, 80.0, 0.0),))
    write_sheet_dxf(layout, cutting(), tmp_path / "s.dxf")
    wide = [(150.0, 10.0), (480.0, 10.0), (480.0, 110.0), (150.0, 110.0)]
    tall = [(20.0, 140.0), (60.0, 140.0), (60.0, 290.0), (20.0, 290.0)]
    svg = dxf_picture(tmp_path / "s.dxf", "t", [(wide, "330 x 100 mm"), (tall, "150 x 40 <mm>")])
    root = ElementTree.fromstring(svg)
    (dashed,) = [g for g in shapes(root, "g") if "stroke-dasharray" in g.attrib]
    assert len(list(dashed)) == 2
    for text, ring in (("330 x 100 mm", wide), ("150 x 40 <mm>", tall)):
        (word,) = [t for t in shapes(root, "text") if t.text == text]
        x, y = float(word.attrib["x"]), -float(word.attrib["y"])
        high = float(word.attrib["font-size"])
        far = 0.6 * high * len(text) / 2  # a plain font's letters: from memory
        across = "rotate(-90" in word.attrib["transform"]
        dx, dy = (high / 2, far) if across else (far, high / 2)
        assert min(p[0] for p in ring) < x - dx < x + dx < max(p[0] for p in ring)
        assert min(p[1] for p in ring) < y - dy < y + dy < max(p[1] for p in ring)


def test_the_cuts_of_the_grid_are_drawn_broken(tmp_path: Path) -> None:
    layout = Layout(plate(500.0, 300.0), (Placement(disc(100.0), 80.0, 80.0, 0.0),))
    write_sheet_dxf(layout, cutting(skeleton_piece_mm=200.0), tmp_path / "s.dxf")
    (broken,) = [
        g for g in shapes(drawn(tmp_path / "s.dxf"), "g") if "stroke-dasharray" in g.attrib
    ]
    assert len(list(broken)) >= 2


@pytest.mark.parametrize("tabs", [0, 2])
def test_a_part_in_a_hole_is_painted_upon_it(tmp_path: Path, tabs: int) -> None:
    """What is painted later hides what lies below: the large before the small within it."""
    ring = disc(200.0, "ring", holes=(Circle((0.0, 0.0), 80.0),))
    inner = disc(120.0, "inner", holes=(Circle((0.0, 0.0), 40.0),))
    parts = [disc(50.0, "nut"), inner, ring]
    layout = Layout(plate(300.0, 300.0), tuple(Placement(p, 150.0, 150.0, 0.0) for p in parts))
    write_sheet_dxf(layout, cutting(tab_count=tabs, text_marks=False), tmp_path / "s.dxf")
    painted = []
    for group in drawn(tmp_path / "s.dxf").iter(f"{SVG}g"):
        look = group.attrib["style"].split(";")[0]
        data = [path.attrib.get("d", "") for path in group.iter(f"{SVG}path")]
        painted += [(look, path_area(d)) for d in data if d.endswith("Z")]
    across = [area for _, area in painted[1:]]  # after the plate
    wanted = [math.pi * r**2 for r in (100.0, 80.0, 60.0, 40.0, 25.0)]
    assert across == pytest.approx(wanted, rel=0.06)  # tabs are straight
    steel, bare = "fill:#c9d3da", "fill:#f4f4f1"
    assert [look for look, _ in painted[1:]] == [steel, bare, steel, bare, steel]
