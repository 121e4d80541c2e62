"""What a sheet's file holds beside plain closed cuts: versions, arc leads, tabs, words, grid."""

from __future__ import annotations

import itertools
import math
from pathlib import Path
from typing import Any

import ezdxf
import pytest
import shapely

from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.files.write_dxf import write_blank_dxf, write_sheet_dxf
from platewheel.nesting.offcuts.remnant import rectangle
from platewheel.nesting.offcuts.skeleton import skeleton_lines
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.outline import area_mm2
from tests.nesting.plates import NAMED, SLOT, cutting, disc, plate, sector, strip

VERSIONS = {"R2000": "AC1015", "R12": "AC1009"}  # source: DXF reference, $ACADVER
LAYOUT = Layout(
    plate(500.0, 300.0),
    (
        Placement(disc(120.0, "slotted", holes=(SLOT,)), 80.0, 80.0, 20.0),
        Placement(sector(60.0, 80.0, 250.0), 240.0, 190.0, 40.0),
        Placement(strip(180.0, 30.0), 200.0, 40.0, 0.0),
        Placement(NAMED, 420.0, 150.0, 90.0),
    ),
)


def space_of(path: Path) -> Any:
    drawing = ezdxf.readfile(path)
    audit = drawing.audit()
    assert not audit.errors
    assert not audit.fixes
    return drawing.modelspace()


def outline_of(entity: Any) -> list[tuple[float, float, float]]:
    """Corners and bulges of either kind of polyline."""
    if entity.dxftype() == "LWPOLYLINE":
        return [tuple(point) for point in entity.get_points("xyb")]
    return [(*v.dxf.location.vec2, v.dxf.get("bulge", 0.0)) for v in entity.vertices]


def closed(entity: Any) -> bool:
    return entity.closed if entity.dxftype() == "LWPOLYLINE" else entity.is_closed


def facts(path: Path) -> list[tuple[str, str, list[float]]]:
    """Kind, layer and numbers of every entity, the two kinds of polyline alike."""
    found = []
    for e in space_of(path):
        kind = e.dxftype().replace("LWPOLYLINE", "POLYLINE")
        numbers: list[float] = []
        if kind == "POLYLINE":
            numbers = [float(closed(e)), *itertools.chain(*outline_of(e))]
        elif kind == "CIRCLE":
            numbers = [e.dxf.center.x, e.dxf.center.y, e.dxf.radius]
        elif kind == "LINE":
            numbers = [*e.dxf.start.vec2, *e.dxf.end.vec2]
        elif kind == "ARC":
            numbers = [*e.start_point.vec2, *e.end_point.vec2, e.dxf.radius]
        elif kind == "TEXT":
            numbers = [*e.get_placement()[1].vec2, e.dxf.height, e.dxf.rotation]
        found.append((kind, e.dxf.layer, numbers))
    return found


def texts(path: Path) -> list[str]:
    return [e.dxf.text for e in space_of(path).query("TEXT")]


FULL = {
    "lead_in_mm": 4.0,
    "lead_out_mm": 3.0,
    "lead_shape": "arc",
    "tab_count": 2,
    "skeleton_piece_mm": 150.0,
}


@pytest.mark.parametrize("more", [{}, FULL], ids=["plain", "full"])
def test_both_versions_hold_the_same(tmp_path: Path, more: dict) -> None:
    for version, code in VERSIONS.items():
        path = tmp_path / f"{version}.dxf"
        write_sheet_dxf(LAYOUT, cutting(dxf_version=version, **more), path)
        assert ezdxf.readfile(path).dxfversion == code
    kinds = {e.dxftype() for e in space_of(tmp_path / "R12.dxf")}
    assert "LWPOLYLINE" not in kinds
    assert "POLYLINE" in kinds
    new, old = facts(tmp_path / "R2000.dxf"), facts(tmp_path / "R12.dxf")
    assert old.pop()[0:2] == ("TEXT", "text") if not more else True  # the unit
    if more:
        new = [one for one in new if one[1] != "text"]
        old = [one for one in old if one[1] != "text"]
    assert [one[:2] for one in old] == [one[:2] for one in new]
    for a, b in zip(old, new, strict=True):
        assert a[2] == pytest.approx(b[2], abs=1e-6)


def test_the_old_version_says_its_unit_in_words(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    """R12 has no $INSUNITS (source: DXF reference, header variables: since R2000)."""
    write_sheet_dxf(LAYOUT, cutting(dxf_version="R12"), tmp_path / "s.dxf")
    write_blank_dxf(NAMED, tmp_path / "b.dxf", "R12")
    assert "$INSUNITS" not in (tmp_path / "s.dxf").read_text()
    assert "all sizes in mm" in texts(tmp_path / "s.dxf")
    assert any("all sizes in mm" in text for text in texts(tmp_path / "b.dxf"))
    assert not caplog.records  # nothing for the terminal


@pytest.mark.parametrize("version", VERSIONS)
def test_written_twice_the_files_are_the_same(tmp_path: Path, version: str) -> None:
    for name in ("one", "two"):
        sheet_cuts.cache_clear()
        write_sheet_dxf(LAYOUT, cutting(dxf_version=version, **FULL), tmp_path / name)
        write_blank_dxf(NAMED, tmp_path / f"blank-{name}", version)
    assert (tmp_path / "one").read_bytes() == (tmp_path / "two").read_bytes()
    assert (tmp_path / "blank-one").read_bytes() == (tmp_path / "blank-two").read_bytes()


@pytest.mark.parametrize("version", VERSIONS)
def test_a_reader_that_shares_no_code_sees_the_same_areas(tmp_path: Path, version: str) -> None:
    """GDAL's DXF reader, through pyogrio; its chords of 4 degrees lose (4 deg)^2 / 6 = 8e-4."""
    import pyogrio

    write_sheet_dxf(LAYOUT, cutting(dxf_version=version, lead_in_mm=4.0), tmp_path / "s.dxf")
    _, _, shapes, fields = pyogrio.raw.read(tmp_path / "s.dxf")
    named = zip(fields[0], shapely.from_wkb(shapes), strict=True)
    areas = [shapely.Polygon(s).area for layer, s in named if layer == "cut-outline"]
    wanted = [area_mm2(p.blank.outline) for p in LAYOUT.placements]
    assert sorted(areas) == pytest.approx(sorted(wanted), rel=1e-3)


def ends(entity: Any) -> tuple[tuple[float, float], tuple[float, float]]:
    """Start and end as run: an ARC counter-clockwise."""
    kind = entity.dxftype()
    if kind == "LINE":
        return tuple(entity.dxf.start.vec2), tuple(entity.dxf.end.vec2)
    if kind == "ARC":
        return tuple(entity.start_point.vec2), tuple(entity.end_point.vec2)
    points = outline_of(entity)
    return points[0][:2], points[0 if closed(entity) else -1][:2]


@pytest.mark.parametrize("shape", ["line", "arc"])
@pytest.mark.parametrize("tabs", [0, 3])
def test_each_cut_stands_between_its_leads(tmp_path: Path, shape: str, tabs: int) -> None:
    cut = cutting(lead_in_mm=4.0, lead_out_mm=3.0, lead_shape=shape, tab_count=tabs)
    assert write_sheet_dxf(LAYOUT, cut, tmp_path / "s.dxf") == ()
    run = [
        e
        for e in space_of(tmp_path / "s.dxf")
        if e.dxf.layer in ("lead", "cut-hole", "cut-outline")
    ]
    joints = 0
    for one, after in itertools.pairwise(run):
        is_lead = [e.dxf.layer == "lead" for e in (one, after)]
        if is_lead[0] != is_lead[1] and math.dist(ends(one)[1], ends(after)[0]) < 1e-6:
            joints += 1
    closed_cuts = 2 + (0 if tabs else 4)  # the slot, the hub's hole, and the outlines
    # a closed cut has two leads; an outline with tabs three more cuts, with a lead-in each
    assert joints == 2 * closed_cuts + (4 * (2 + 3) if tabs else 0)
    pieces = [e for e in run if e.dxf.layer == "cut-outline"]
    assert len(pieces) == 4 * (tabs + 1)
    assert all(closed(e) == (tabs == 0) for e in pieces)


def test_tabs_are_told_with_the_width_of_steel_and_the_kerf(tmp_path: Path) -> None:
    for in_path in (False, True):
        cut = cutting(tab_count=2, tab_width_mm=1.5, kerf_in_path=in_path)
        write_sheet_dxf(LAYOUT, cut, tmp_path / "s.dxf")
        said = " | ".join(texts(tmp_path / "s.dxf"))
        assert "2 tabs to a part: the lines are open there by 1.5 mm of steel and the kerf" in said


def test_the_grid_is_cut_up_last_and_keeps_off_what_is_kept(tmp_path: Path) -> None:
    cut = cutting(skeleton_piece_mm=120.0)
    kept = rectangle(LAYOUT, (300.0, 60.0, 340.0, 90.0))
    write_sheet_dxf(LAYOUT, cut, tmp_path / "s.dxf", (kept,))
    entities = [e for e in space_of(tmp_path / "s.dxf") if e.dxf.layer != "text"]
    lines = [e for e in entities if e.dxf.layer == "skeleton"]
    assert lines
    assert entities[-len(lines) :] == lines
    assert len(lines) == len(skeleton_lines(LAYOUT, cut, (kept.corners,)))
    write_sheet_dxf(LAYOUT, cutting(), tmp_path / "s.dxf")
    assert not [e for e in space_of(tmp_path / "s.dxf") if e.dxf.layer == "skeleton"]


def test_each_part_bears_its_name_and_its_number_once(tmp_path: Path) -> None:
    write_sheet_dxf(LAYOUT, cutting(), tmp_path / "s.dxf")
    done, said = sheet_cuts(LAYOUT, cutting()), texts(tmp_path / "s.dxf")
    for part in done.parts:
        assert said.count(f"{part.placement.blank.name} {part.number}") == 1
    assert sorted(part.number for part in done.parts) == [1, 2, 3, 4]
    assert "hub" not in said  # its own name has given way to name and number
    assert "d 120.0" in said


def test_words_can_be_left_out(tmp_path: Path) -> None:
    write_sheet_dxf(LAYOUT, cutting(text_marks=False), tmp_path / "s.dxf")
    said = texts(tmp_path / "s.dxf")
    assert len(said) == 2  # the lines below the sheet
    assert "300 x 500" in said[0]


def test_the_name_of_a_kept_piece_is_marked_on_it_in_strokes(tmp_path: Path) -> None:
    """Before anything is cut; without `mark_names` it is there to read alone."""
    kept, names = rectangle(LAYOUT, (300.0, 60.0, 340.0, 90.0)), [("yard K7PA-1",)]
    piece = shapely.box(300.0, 60.0, 340.0, 90.0)
    for marked in (True, False):
        strokes = []
        for told in ((), names):
            cut = cutting(mark_names=marked)
            write_sheet_dxf(LAYOUT, cut, tmp_path / "s.dxf", (kept,), told)
            entities = list(space_of(tmp_path / "s.dxf"))
            marks = [e for e in entities if e.dxf.layer == "mark" and e.dxftype() == "LWPOLYLINE"]
            strokes.append([tuple(e.get_points("xy")) for e in marks])
            first_cut = next(i for i, e in enumerate(entities) if e.dxf.layer.startswith("cut"))
            assert all(entities.index(e) < first_cut for e in marks)
        own = [shapely.LineString(points) for points in strokes[1] if points not in strokes[0]]
        assert (len(own) >= 6) == marked  # one stroke a letter at least
        assert all(piece.covers(line) for line in own)
        said = [e.dxf.text for e in entities if e.dxftype() == "TEXT"]
        assert any(words.endswith("K7PA-1") for words in said)
