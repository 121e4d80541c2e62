"""Lines that strips share are cut once: by what a torch leaves of the plate, every strip is as
drawn; less is cut, by just the shared lines; each strip is cut after the one it begins in.

The torch is played by a polygon library (shapely) on the paths that ezdxf reads from the file.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.nesting.cutting.cut_order import cut_order
from platewheel.nesting.cutting.cut_time import plate_work
from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.files.asked import asked_of
from platewheel.nesting.files.write_dxf import write_sheet_dxf
from platewheel.nesting.geometry.open_cuts import chained
from platewheel.nesting.offcuts.remnant import remnants
from platewheel.nesting.proof.cuts import prove_cuts
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.layout import Layout, Placement, Wanted
from platewheel.nesting.stock.shared_lines import lines_saved, rows_of
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry.outline import Circle, moved_point
from tests.nesting.plates import cutting, disc, plate, strip

KERF, LEAD = 1.7, 4.0


def cut(spacing_mm: float = 6.0, margin_mm: float = 10.0, **more: object) -> Cutting:
    about: dict = {"kerf_mm": KERF, "lead_in_mm": LEAD, "common_lines": True} | more
    about |= {"kerf_in_path": True, "text_marks": False, "mark_names": False}
    return cutting(spacing_mm, margin_mm, **about)


def laid(
    wanted: list[Wanted], by: Cutting, length: float = 2500.0, width: float = 1250.0
) -> Layout:
    got = nest(wanted, [plate(length, width)], by, effort="quick")
    assert not got.unplaced
    return got.layouts[0]


def freed(file: Path, kerf_mm: float, sheet: shapely.Polygon) -> list[shapely.Polygon]:
    """What a torch of that kerf leaves of the plate, its rim and the grid left out."""
    drawing = ezdxf.readfile(file)
    paths = []
    for entity in drawing.modelspace().query('*[layer=="cut-outline" | layer=="cut-hole"]'):
        line = ezdxf.path.make_path(entity)
        paths.append(shapely.LineString([(p.x, p.y) for p in line.flattening(1e-5)]))
    gone = shapely.union_all([p.buffer(kerf_mm / 2, quad_segs=64) for p in paths])
    pieces = shapely.get_parts(sheet.difference(gone))
    inner = [p for p in pieces if p.distance(sheet.exterior) > 1.0]
    return [p for p in inner if p.area > 20.0]  # not the specks between two rounded corners


def sizes(piece: shapely.Polygon) -> list[float]:
    x0, y0, x1, y1 = piece.bounds
    return sorted((x1 - x0, y1 - y0))


@pytest.mark.parametrize("version", ["R2000", "R12"])
def test_twelve_strips_take_less_cut_and_come_out_as_drawn(tmp_path: Path, version: str) -> None:
    """12 strips of 915 x 60: 11 lines of 915 mm less, and 11 leads of 4 mm; pierces stay."""
    wanted = [Wanted(strip(915.0, 60.0), 12)]
    once, apart = cut(dxf_version=version), cut(dxf_version=version, common_lines=False)
    shared, single = laid(wanted, once), laid(wanted, apart)
    work, before = plate_work(shared, once), plate_work(single, apart)
    assert before.cut_length_mm - work.cut_length_mm == pytest.approx(11 * (915 + LEAD))
    assert work.cut_length_mm == pytest.approx(
        12 * (2 * 975 + math.pi * KERF) - 11 * 915 + LEAD
    )  # corners are rounds of half the kerf
    assert work.pierces == before.pierces == 12
    assert lines_saved([shared]) == (11, pytest.approx(11 * 915.0))
    kept = tuple(remnants(shared, once))
    assert kept
    assert write_sheet_dxf(shared, once, tmp_path / "s.dxf", kept) == ()
    assert prove_cuts(tmp_path / "s.dxf", asked_of(shared, once, kept)) == []
    pieces = freed(tmp_path / "s.dxf", KERF, shapely.box(0, 0, 2500, 1250))
    assert len(pieces) == 12
    for piece in pieces:
        assert sizes(piece) == pytest.approx([60.0, 915.0], abs=1e-3)
        assert piece.area == pytest.approx(60.0 * 915.0, abs=0.05)


@settings(max_examples=15, deadline=None)
@given(
    length=st.floats(120.0, 700.0),
    width=st.floats(6.0, 119.0),
    count=st.integers(2, 9),
    kerf=st.floats(0.3, 3.0),
    lead=st.sampled_from([0.0, 3.0, 5.0]),
    turn=st.sampled_from(["any", "half", "fixed"]),
    apart=st.sampled_from([0.0, 200.0]),
    margin=st.sampled_from([4.0, 10.0]),
)
def test_any_strips_come_out_as_drawn(
    tmp_path_factory: pytest.TempPathFactory,
    length: float, width: float, count: int, kerf: float, lead: float, turn: str, apart: float,
    margin: float,
) -> None:  # fmt: skip
    by = cut(8.0, margin, kerf_mm=kerf, lead_in_mm=lead, heat_apart_mm=apart)
    wanted = [Wanted(strip(length, width), count, turn), Wanted(disc(90.0), 2)]  # type: ignore[arg-type]
    file = tmp_path_factory.mktemp("cut") / "s.dxf"
    for layout in nest(wanted, [plate(1200.0, 800.0)], by, effort="quick").layouts:
        write_sheet_dxf(layout, by, file)
        assert prove_cuts(file, asked_of(layout, by)) == []
        strips = [p for p in freed(file, kerf, shapely.box(0, 0, 1200, 800)) if p.area > 600.0]
        strips = [p for p in strips if sizes(p) != pytest.approx([90.0, 90.0], abs=0.01)]
        assert len(strips) == layout.counts["tread"]
        for piece in strips:
            assert sizes(piece) == pytest.approx([width, length], abs=2e-3)
            assert piece.area == pytest.approx(width * length, abs=0.1)


@pytest.mark.parametrize("apart", [0.0, 300.0])
def test_each_strip_comes_after_the_one_it_begins_in(apart: float) -> None:
    by = cut(heat_apart_mm=apart)
    layout = laid([Wanted(strip(500.0, 60.0), 9), Wanted(disc(200.0), 6)], by)
    order = list(cut_order(layout, by))
    numbers = {part.placement: part.number for part in sheet_cuts(layout, by).parts}
    assert len(layout.shared) == 8
    for a, b in layout.shared:
        first, then = layout.placements[a], layout.placements[b]
        assert order.index(first) < order.index(then)
        assert numbers[first] < numbers[then]


def test_a_block_is_cut_in_a_row_and_travel_keeps_off_its_strips() -> None:
    """From the middle strip on to either side in turn: each cut ends where the next begins."""
    by = cut()
    layout = laid([Wanted(strip(500.0, 60.0), 9), Wanted(disc(200.0), 2)], by)
    done = sheet_cuts(layout, by)
    numbers = [part.number for part in done.parts if part.placement.blank.name == "tread"]
    assert numbers == list(range(numbers[0], numbers[0] + 9))
    strips = [part for part in done.parts if part.placement.blank.name == "tread"]
    axis = 0 if strips[0].placement.rotation_deg % 180 == 0 else 1  # along the strips
    for here, after in itertools.pairwise(strips[1:]):
        assert here.cuts[0].end[axis] == pytest.approx(after.cuts[0].begin[axis])
    alone = laid([Wanted(strip(500.0, 60.0), 9)], by)
    assert sheet_cuts(alone, by).travels_over == 0
    assert all(part.loose for part in sheet_cuts(alone, by).parts)


def test_rows_are_in_the_order_of_their_pairs() -> None:
    assert rows_of(7, ((3, 4), (3, 2), (4, 5), (0, 1))) == [(0, 1), (3, 4, 2, 5), (6,)]
    assert rows_of(3, ()) == [(0,), (1,), (2,)]


def test_an_open_cut_is_drawn_as_a_part_of_its_own(tmp_path: Path) -> None:
    """A long strip's cut is open by most of a side, and no run between tabs."""
    by = cut()
    layout = laid([Wanted(strip(915.0, 60.0), 4)], by)
    write_sheet_dxf(layout, by, tmp_path / "s.dxf")
    open_cuts = [
        [(x, y, bulge) for x, y, bulge in entity.get_points("xyb")]
        for entity in ezdxf.readfile(tmp_path / "s.dxf").modelspace().query("LWPOLYLINE")
        if entity.dxf.layer == "cut-outline" and not entity.closed
    ]
    assert len(open_cuts) == 3
    assert list(chained(open_cuts)) == open_cuts
    picture = dxf_picture(tmp_path / "s.dxf", "plate")
    bodies = picture.split('<g style="fill:#c9d3da;stroke:none"')[1].split("</g>")[0]
    assert bodies.count("Z") == 3


def test_half_an_outline_between_tabs_is_not_taken_for_a_whole_one() -> None:
    """Two runs round a square with a tab in either side, each turned by half."""
    left = [(45.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 90.0, 0.0), (45.0, 90.0, 0.0)]
    right = [(48.0, 90.0, 0.0), (93.0, 90.0, 0.0), (93.0, 0.0, 0.0), (48.0, 0.0, 0.0)]
    assert list(chained([left, right])) == [[*left, *right]]


def test_a_run_that_comes_to_its_first_direction_elsewhere_is_not_whole() -> None:
    run = [(0, 0), (0, 10), (200, 10), (200, -20), (150, -20), (150, 0)]
    pieces = [[(float(x), float(y), 0.0) for x, y in way] for way in (run, [(140, 0), (5, 0)])]
    assert list(chained(pieces)) == [[*pieces[0], *pieces[1]]]


@pytest.mark.parametrize(
    ("size", "first", "by"),
    [
        ((502.0, 60.0), 0, {"margin_mm": 3.0}),  # both ends at the plate's edge
        ((300.0, 2.0), 0, {"spacing_mm": 5.2, "lead_in_mm": 1.7}),  # no room at an end
        ((300.0, 20.0), 1, {}),
    ],
)
def test_the_strip_cut_first_has_room_for_its_lead(
    tmp_path: Path, size: tuple[float, float], first: int, by: dict
) -> None:
    about = cut(**by)
    layout = laid([Wanted(strip(*size), 4, "half")], about, 508.0, 600.0)
    assert len(layout.shared) == 3
    assert layout.shared[0] == (first, first + 1)
    write_sheet_dxf(layout, about, tmp_path / "s.dxf")
    assert prove_cuts(tmp_path / "s.dxf", asked_of(layout, about)) == []


@pytest.mark.parametrize("turn", [0.0, 30.0, 90.0, 217.0])
def test_strips_with_holes_at_any_turn(tmp_path: Path, turn: float) -> None:
    """A strip's holes are cut before its open cut, which begins in the strip before it."""
    holed = replace(strip(200.0, 40.0), holes=(Circle((60.0, 20.0), 8.0),))
    placed = [
        Placement(holed, *moved_point((0.0, k * (40.0 + KERF)), 300.0, 300.0, turn), turn)
        for k in range(3)
    ]
    layout = Layout(plate(600.0, 600.0), tuple(placed), shared=((1, 2), (1, 0)))
    write_sheet_dxf(layout, cut(), tmp_path / "s.dxf")
    assert prove_cuts(tmp_path / "s.dxf", asked_of(layout, cut())) == []
    done = sheet_cuts(layout, cut())
    assert [part.placement for part in done.parts] == [placed[1], placed[2], placed[0]]
    assert [[one.layer for one in part.cuts] for part in done.parts] == 3 * [
        ["cut-hole", "cut-outline"]
    ]
    assert [part.cuts[1].closed for part in done.parts] == [True, False, False]
