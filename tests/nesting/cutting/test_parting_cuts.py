"""Parting cuts in the cutting file: their place, their leads, their order, their time."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import ezdxf
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.cut_time import plate_work
from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.cutting.parting_cuts import parting_cuts
from platewheel.nesting.cutting.scrap import scrap
from platewheel.nesting.files.write_dxf import write_sheet_dxf
from platewheel.nesting.geometry.gaps import segment_gap
from platewheel.nesting.offcuts.file import offcut_names
from platewheel.nesting.offcuts.remnant import Remnant, rectangle, remnants
from platewheel.nesting.offcuts.skeleton import kept_rings, skeleton_lines
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.outline import Line
from tests.nesting.plates import cutting, disc, faceted, on_plate, plate, sector, steel, strip

KERF = 1.7
REST = Layout(
    plate(2500.0, 1250.0),
    tuple(
        Placement(disc(280.0), 160.0 + 290 * i, 160.0 + 310 * j, 0.0)
        for i in range(4)
        for j in range(4)
    ),
)
HEMMED = Layout(  # a rectangle in the midst of four strips touches no edge
    plate(900.0, 900.0),
    (
        Placement(strip(880.0, 40.0), 10.0, 10.0, 0.0),
        Placement(strip(880.0, 40.0), 10.0, 850.0, 0.0),
        Placement(strip(780.0, 40.0), 50.0, 60.0, 90.0),
        Placement(strip(780.0, 40.0), 890.0, 60.0, 90.0),
    ),
)
BLANKS = [disc(90.0), strip(300.0, 40.0), sector(100.0, 120.0, 330.0), sector(90.0, 110.0, 100.0)]


@st.composite
def apart(draw: st.DrawFn) -> Layout:
    """Parts in cells of 330 mm, turned any way, so that none overlap."""
    cells = draw(st.sets(st.tuples(st.integers(0, 3), st.integers(0, 2)), max_size=8))
    placed = []
    for i, j in sorted(cells):
        blank = draw(st.sampled_from(BLANKS[:1] + BLANKS[2:]))
        turn = draw(st.floats(0, 360))
        placed.append(Placement(blank, 170.0 + 330 * i, 170.0 + 330 * j, turn))
    return Layout(plate(1603.0, 1001.0), tuple(placed))


def rules(**more: Any) -> Any:
    return cutting(20.0, 20.0, **({"kerf_mm": KERF, "least_offcut_mm": 150.0} | more))


def space_of(path: Path) -> Any:
    return ezdxf.readfile(path).modelspace()


def test_a_rest_at_the_end_is_one_line_from_edge_to_edge_without_a_lead(tmp_path: Path) -> None:
    """By the kerf in the path or not: on the piece's edge, or half a kerf before it."""
    piece = rectangle(REST, (1500.0, 0.0, 2500.0, 1250.0))
    for in_path, at in ((False, 1500.0), (True, 1500.0 - KERF / 2)):
        cut = rules(lead_in_mm=4.0, kerf_in_path=in_path)
        write_sheet_dxf(REST, cut, tmp_path / "s.dxf", (piece,), (("job K7PA-1",),))
        (line,) = space_of(tmp_path / "s.dxf").query('*[layer=="offcut"]')
        assert line.dxftype() == "LWPOLYLINE"
        assert not line.closed
        assert list(line.get_points("xy")) == [(at, 0.0), (at, 1250.0)]


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("shape", ["line", "arc"])
def test_a_closed_cut_has_its_lead_in_the_scrap(tmp_path: Path, version: str, shape: str) -> None:
    cut = rules(lead_in_mm=6.0, lead_shape=shape, dxf_version=version, kerf_in_path=True)
    kept = remnants(HEMMED, cut)
    assert len(kept) == 1
    assert write_sheet_dxf(HEMMED, cut, tmp_path / "s.dxf", kept) == ()
    entities = list(space_of(tmp_path / "s.dxf"))
    (at,) = [i for i, e in enumerate(entities) if e.dxf.layer == "offcut"]
    lead = entities[at - 1]
    assert lead.dxf.layer == "lead"
    (run,) = parting_cuts(HEMMED, cut, kept).cuts
    assert run.closed
    assert run.lead_in is not None
    assert run.lead_in.end == pytest.approx(run.path[0].start)
    pierce = shapely.Point(run.lead_in.start)
    own = shapely.Polygon(kept[0].corners)
    assert own.distance(pierce) == pytest.approx(6.0 + KERF / 2)
    parts = shapely.union_all([on_plate(p) for p in HEMMED.placements])
    assert parts.distance(pierce) >= KERF + 1.0


def test_a_lead_keeps_off_its_own_piece_and_is_shorter_for_it() -> None:
    """No room but in a slot 12 mm wide: a lead of 8 would end 4 from its far side, one of 6 does
    not come nearer to that than to its own."""
    low, high = 54.4, 845.6
    slot = ((444.0, high), (444.0, 200.0), (456.0, 200.0), (456.0, high))
    corners = ((low, low), (high, low), (high, high), *slot[::-1], (low, high))
    (cut,) = parting_cuts(HEMMED, rules(lead_in_mm=8.0), (Remnant(HEMMED, corners),)).cuts
    assert cut.lead_in is not None
    assert cut.lead_in.length_mm == pytest.approx(6.0)
    assert 444.0 < cut.lead_in.start[0] < 456.0


def test_leads_of_parts_are_kept_clear_of() -> None:
    """Strips so near the plate's edge that their leads lie on the other side, each in the middle:
    where the lead of the piece between them would be."""
    strips = (
        Placement(strip(894.0, 40.0), 3.0, 3.0, 0.0),
        Placement(strip(894.0, 40.0), 3.0, 857.0, 0.0),
        Placement(strip(808.0, 40.0), 43.0, 46.0, 90.0),
        Placement(strip(808.0, 40.0), 897.0, 46.0, 90.0),
    )
    layout = Layout(plate(900.0, 900.0), strips)
    cut = rules(lead_in_mm=6.0)
    (run,) = parting_cuts(layout, cut, remnants(layout, cut)).cuts
    laid = [c.lead_in for part in sheet_cuts(layout, cut).parts for c in part.cuts if c.lead_in]
    assert len(laid) == 4
    assert run.lead_in is not None
    assert min(segment_gap(run.lead_in, lead) for lead in laid) >= KERF + 1.0


@pytest.mark.parametrize(("clear_mm", "near"), [(4.0, True), (5.0, False)])
def test_a_lead_pierces_clear_of_the_kerfs_of_parts(clear_mm: float, near: bool) -> None:
    """Above 12 mm lie between piece and strip: a pierce 6 mm off the piece is 6 mm off
    the strip, 4.5 off its kerf. Below are 150 mm."""
    piece = rectangle(HEMMED, (80.0, 200.0, 820.0, 838.0))
    cut = rules(lead_in_mm=6.0, pierce_clear_mm=clear_mm)
    (run,) = parting_cuts(HEMMED, cut, (piece,)).cuts
    assert run.lead_in is not None
    x, y = run.lead_in.start
    assert (y > 838.0) == near
    parts = shapely.union_all([on_plate(p) for p in HEMMED.placements])
    assert parts.distance(shapely.Point(x, y)) - KERF >= clear_mm


def test_a_lead_without_room_is_told() -> None:
    """The kept piece as near to the strips as their kerfs let it be: told, and cut all the same."""
    piece = rectangle(HEMMED, (54.4, 54.4, 845.6, 845.6))
    done = parting_cuts(HEMMED, rules(lead_in_mm=8.0), (piece,))
    assert done.warnings == (
        "no room for a lead-in of 8 mm: the cut round the offcut at (54.4, 54.4)",
    )
    assert [cut.lead_in for cut in done.cuts] == [None]
    assert parting_cuts(HEMMED, rules(), (piece,)).warnings == ()


@settings(max_examples=25, deadline=None, derandomize=True)
@given(apart(), st.sampled_from(["rectangle", "real"]), st.sampled_from([0.0, 5.0]))
def test_the_lines_of_a_file_part_what_is_kept(layout: Layout, kind: str, lead_mm: float) -> None:
    """The torch path itself, leads too: the kept pieces come free whole, no part is touched, and
    the cuts through the grid end in the parting kerf."""
    cut = rules(kerf_in_path=True, offcut_outline=kind, lead_in_mm=lead_mm, skeleton_piece_mm=300.0)
    kept = remnants(layout, cut)
    done = parting_cuts(layout, cut, kept)
    lines = []
    for one in done.cuts:
        corners = [one.path[0].start, *(side.end for side in one.path)]
        lines.append(shapely.LineString(corners))
        assert bool(one.lead_in) == (one.closed and lead_mm > 0)
        if one.lead_in:
            lines.append(shapely.LineString([one.lead_in.start, one.lead_in.end]))
    burnt = shapely.union_all([line.buffer(KERF / 2, 16) for line in lines])
    left = shapely.get_parts(steel(layout.sheet).difference(burnt))
    parts = [on_plate(placement) for placement in layout.placements]
    if parts:
        assert shapely.union_all(parts).distance(burnt) >= KERF - 2e-3  # their kerfs stay whole
    grid = skeleton_lines(layout, cut, kept_rings(layout, kept))
    for piece in kept:
        shape = shapely.Polygon(piece.corners, piece.holes)
        (found,) = [one for one in left if one.contains(shape.representative_point())]
        assert found.covers(shape.buffer(-0.01))
        assert found.difference(shape.buffer(1.5 * KERF)).area < 1.0
        for line in grid:
            assert shape.distance(as_string(line)) >= KERF / 2 - 1e-6
            assert as_string(line).intersection(burnt).length <= 3 * KERF


def as_string(line: Line) -> shapely.LineString:
    return shapely.LineString([line.start, line.end])


def test_cuts_through_the_grid_come_free_at_the_parting_kerf() -> None:
    """Grid above, kept piece below: each cut across runs into the middle of the kerf between."""
    layout = Layout(plate(1000.0, 900.0), ())
    cut = rules(skeleton_piece_mm=400.0)
    kept = (rectangle(layout, (0.0, 0.0, 1000.0, 500.0)),)
    across = [
        line
        for line in skeleton_lines(layout, cut, kept_rings(layout, kept))
        if line.start[0] == line.end[0]
    ]
    assert len(across) == 2
    for line in across:
        assert min(line.start[1], line.end[1]) == pytest.approx(500.0 + KERF / 2)


def test_order_and_name_in_the_file(tmp_path: Path) -> None:
    """After all parts, before the grid; the name stands inside the piece, on the layer of words."""
    cut = rules(skeleton_piece_mm=500.0, lead_in_mm=4.0)
    kept = remnants(REST, cut)
    names = offcut_names(kept, "job")
    write_sheet_dxf(REST, cut, tmp_path / "s.dxf", kept, names)
    layers = [e.dxf.layer for e in space_of(tmp_path / "s.dxf")]
    places = {one: [i for i, layer in enumerate(layers) if layer == one] for one in set(layers)}
    assert max(places["cut-outline"]) < min(places["offcut"])
    assert max(places["offcut"]) < min(places["skeleton"])
    texts = {e.dxf.text: e for e in space_of(tmp_path / "s.dxf").query("TEXT")}
    for piece, (name,) in zip(kept, names, strict=True):
        assert texts[name].dxf.layer == "text"
        at = shapely.Point(texts[name].get_placement()[1].vec2)
        assert shapely.Polygon(piece.corners).contains(at)


def test_parting_cuts_are_cut_pierced_and_travelled_to() -> None:
    """One cut of 1250 across: its length, one start, and at 2 m a minute its time."""
    cut = rules(cut_speed_mm_per_min=2000.0, pierce_s=0.9, rapid_mm_per_min=10000.0)
    kept = (rectangle(REST, (1500.0, 0.0, 2500.0, 1250.0)),)
    bare, parted = plate_work(REST, cut), plate_work(REST, cut, kept=kept)
    assert parted.cut_length_mm - bare.cut_length_mm == pytest.approx(1250.0)
    assert parted.pierces - bare.pierces == 1
    way = parted.rapid_length_mm - bare.rapid_length_mm
    assert way > 0
    hours = (1250 / 2000 + way / 10000) / 60 + 0.9 / 3600
    assert parted.hours - bare.hours == pytest.approx(hours)
    other = Layout(plate(2500.0, 1250.0), ())
    assert plate_work(other, cut, kept=kept).cut_length_mm == 0


def test_only_what_is_parted_is_taken_off_the_scrap() -> None:
    """By default nothing below 300 mm: 299 is scrap, 300 is kept, two pieces of 300 each."""
    for width, count in ((299.0, 0), (300.0, 1)):
        layout = Layout(plate(1000.0, width), ())
        kept = remnants(layout, cutting())
        assert len(kept) == count
        assert scrap([layout], kept).scrap_percent_after_offcuts == 100.0 * (1 - count)


def test_parts_of_the_test_do_not_overlap() -> None:
    shapes = [faceted(p.outline, 1e-2) for p in REST.placements]
    assert math.isclose(shapely.union_all(shapes).area, sum(s.area for s in shapes), rel_tol=1e-9)
