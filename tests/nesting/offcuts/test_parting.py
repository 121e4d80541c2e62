"""Cuts that part what is kept: by a polygon library each piece comes free as it is told, no part
is touched, and nothing is cut twice or along the plate's own edge."""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.offcuts import parting
from platewheel.nesting.offcuts.parting import Parting, partings
from platewheel.nesting.offcuts.remnant import (
    Remnant,
    _whole_mm,
    clear_distance_mm,
    rectangle,
    remnants,
    slug_hole,
)
from platewheel.nesting.stock.layout import Layout, NestingError, Placement
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, polygon
from tests.nesting.plates import cutting, disc, offcut, on_plate, plate, sector, steel, strip

KERF = 1.7
L_SHAPED = offcut(
    "l", [(0.0, 0.0), (903.5, 0.0), (903.5, 250.0), (350.4, 250.0), (350.4, 602.0), (0.0, 602.0)]
)
SLANTED = offcut(
    "slanted",
    [(0.0, 0.0), (800.0, 0.0), (903.4, 455.5), (300.0, 602.0), (0.0, 602.0)],
    (((500.0, 100.0), (540.0, 100.0), (520.0, 140.0)),),
)
BLANKS = [disc(90.0), strip(300.0, 40.0), sector(100.0, 120.0, 330.0), sector(90.0, 110.0, 100.0)]
places = st.tuples(st.sampled_from(BLANKS), st.floats(0, 900), st.floats(0, 600), st.floats(0, 360))


def layouts(*sheets: Any) -> st.SearchStrategy[Layout]:
    return st.builds(
        lambda placed, sheet: Layout(sheet, tuple(Placement(*one) for one in placed)),
        st.lists(places, max_size=6),
        st.sampled_from(sheets),
    )


UPRIGHT = layouts(plate(803.0, 602.5), L_SHAPED)
ANY = layouts(plate(803.0, 602.5), L_SHAPED, SLANTED)


def shape_of(piece: Remnant) -> shapely.Polygon:
    return shapely.Polygon(piece.corners, piece.holes)


def line_of(run: Parting) -> shapely.LineString:
    return shapely.LineString([*run.middle, run.middle[0]] if run.closed else run.middle)


def pieces_after(layout: Layout, runs: tuple[Parting, ...], kerf_mm: float) -> list[Any]:
    """What the plate falls into when the runs alone are cut."""
    burnt = [line_of(run).buffer(kerf_mm / 2 + 1e-6, 32) for run in runs]
    return list(shapely.get_parts(steel(layout.sheet).difference(shapely.union_all(burnt))))


def freed(piece: Remnant, left: list[Any]) -> shapely.Polygon:
    (found,) = [one for one in left if one.contains(shape_of(piece).representative_point())]
    return found


@settings(max_examples=40, deadline=None, derandomize=True)
@given(UPRIGHT, st.sampled_from([0.2, KERF, 6.0]), st.sampled_from([60.0, 150.0]))
def test_each_rectangle_comes_free_as_it_is_told(
    layout: Layout, kerf_mm: float, least_mm: float
) -> None:
    """Within 0.01 mm of its corners in offcuts.toml, on plates with level and upright sides."""
    kept = remnants(layout, cutting(20.0, 20.0, kerf_mm=kerf_mm, least_offcut_mm=least_mm))
    left = pieces_after(layout, partings(layout, kept, kerf_mm), kerf_mm)
    for piece in kept:
        assert freed(piece, left).hausdorff_distance(shape_of(piece)) < 0.01
    assert len(left) >= len(kept)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(ANY, st.sampled_from(["rectangle", "real"]), st.sampled_from([0.0, KERF, 6.0]))
def test_each_piece_comes_free_but_for_inward_corners(
    layout: Layout, kind: str, kerf_mm: float
) -> None:
    """Beside an inward corner, and where the plate's edge is met aslant, steel stays that the
    round torch does not reach; elsewhere the outline holds within 0.01 mm."""
    rules = cutting(20.0, 20.0, kerf_mm=kerf_mm, offcut_outline=kind, least_offcut_mm=100.0)
    kept = remnants(layout, rules)
    wide = max(kerf_mm, 0.01)
    left = pieces_after(layout, partings(layout, kept, kerf_mm), wide)
    for piece in kept:
        shape, found = shape_of(piece), freed(piece, left)
        assert found.covers(shape.buffer(-0.01))
        spare = found.difference(shape.buffer(0.01))
        corners = shapely.MultiPoint([p for ring in (piece.corners, *piece.holes) for p in ring])
        torch_ends = shapely.union_all([corners, steel(layout.sheet).boundary])
        assert spare.difference(torch_ends.buffer(5 * kerf_mm + 1.0)).is_empty
        assert spare.difference(shape.buffer(0.75 * kerf_mm + 1.5)).is_empty


@settings(max_examples=40, deadline=None, derandomize=True)
@given(ANY, st.sampled_from(["rectangle", "real"]), st.sampled_from([0.2, KERF, 6.0]))
def test_no_part_is_touched_and_nothing_cut_twice(
    layout: Layout, kind: str, kerf_mm: float
) -> None:
    """A web stands beside each part's kerf; runs lie in the plate but for gaps narrower than the
    kerf, no two of them along one another, and their ends at its edge or in a run before."""
    rules = cutting(20.0, 20.0, kerf_mm=kerf_mm, offcut_outline=kind, least_offcut_mm=100.0)
    runs = partings(layout, remnants(layout, rules), kerf_mm)
    parts = shapely.union_all([on_plate(placement) for placement in layout.placements])
    whole = steel(layout.sheet)
    for i, run in enumerate(runs):
        line = line_of(run)
        if layout.placements:
            assert line.distance(parts) >= kerf_mm + 1.0 - 2e-3
        gaps = shapely.get_parts(line.difference(whole.buffer(1e-6)))
        assert all(gap.length < kerf_mm for gap in gaps)
        assert line.intersection(whole.boundary.buffer(1e-6)).length < 0.1
        before = [line_of(other) for other in runs[:i] if other.piece != run.piece]
        for other in before:
            assert line.intersection(other.buffer(0.01)).length < 0.05
        if not run.closed:
            edges = shapely.union_all([whole.boundary, *before])
            for end in (run.middle[0], run.middle[-1]):
                assert edges.distance(shapely.Point(end)) < 0.01


@settings(max_examples=25, deadline=None, derandomize=True)
@given(ANY, st.sampled_from(["rectangle", "real"]))
def test_scrap_lies_on_the_left_and_the_edge_is_the_piece(layout: Layout, kind: str) -> None:
    rules = cutting(20.0, 20.0, kerf_mm=KERF, offcut_outline=kind, least_offcut_mm=100.0)
    for run in partings(layout, remnants(layout, rules), KERF):
        shape = shape_of(run.piece)
        ends = itertools.pairwise([*run.middle, run.middle[0]] if run.closed else run.middle)
        for (ax, ay), (bx, by) in ends:
            length = math.hypot(bx - ax, by - ay)
            if length < 10.0:
                continue
            x, y = (ax + bx) / 2, (ay + by) / 2
            right = shapely.Point(x + (by - ay) / length, y - (bx - ax) / length)
            assert shape.covers(right)  # 1 mm to the right, the kerf ends at 0.85
        inner = run.edge if run.closed else run.edge[1:-1]
        corners = {corner for ring in (run.piece.corners, *run.piece.holes) for corner in ring}
        assert set(inner) <= corners
        assert len(set(run.edge)) == len(run.edge)


def test_a_rest_at_the_plates_end_is_parted_by_one_straight_cut() -> None:
    layout = Layout(plate(2500.0, 1250.0), (Placement(disc(1000.0), 520.0, 600.0, 0.0),))
    piece = rectangle(layout, (1600.0, 0.0, 2500.0, 1250.0))
    (run,) = partings(layout, (piece,), KERF)
    assert run.middle == ((1599.15, 0.0), (1599.15, 1250.0))  # upwards: the scrap on the left
    assert run.edge == ((1600.0, 0.0), (1600.0, 1250.0))
    assert not run.closed


def toothed(pitch: float) -> Layout:
    """A plate of 400 x 300 with teeth below, 20 mm deep, as wide as the gaps between them."""
    starts = [k * pitch for k in range(round(400 / pitch))]
    gaps = [
        (a + x * pitch, y)
        for a in starts
        for x, y in ((0.25, 0), (0.25, 20), (0.75, 20), (0.75, 0))
    ]
    return Layout(offcut("t", [(0, 0), *gaps, (400.0, 0.0), (400.0, 300.0), (0.0, 300.0)]), ())


@pytest.mark.parametrize(("pitch", "count"), [(0.8, 1), (3.2, 1), (4.0, 51), (8.0, 26)])
def test_gaps_narrower_than_the_kerf_are_run_over(pitch: float, count: int) -> None:
    """Gaps of 1.6 mm are, of 2 mm not: then each tooth of the 200 mm is a cut of its own."""
    layout = toothed(pitch)
    piece = rectangle(layout, (200.0, 20.0, 400.0, 300.0))
    runs = partings(layout, (piece,), KERF)
    assert len(runs) == count
    assert {run.edge[0][1] for run in runs} == {20.0}
    assert freed(piece, pieces_after(layout, runs, KERF)).area == pytest.approx(200 * 280, rel=1e-3)


@pytest.mark.parametrize(("x", "begin"), [(199.5, 200.1), (199.9, 200.1), (201.0, 201.0)])
def test_a_run_that_begins_hardly_before_a_corner_does_not_go_back(x: float, begin: float) -> None:
    """A notch 30 mm wide from x on, below a piece whose corner is at (200, 20): its edge would
    begin left of that and run back."""
    notch = [(x, 0.0), (x, 20.0), (x + 30.0, 20.0), (x + 30.0, 0.0)]
    edge = [(0.0, 0.0), *notch, (500.0, 0.0), (500.0, 300.0), (0.0, 300.0)]
    layout = Layout(offcut("n", edge), ())
    piece = rectangle(layout, (200.0, 20.0, 500.0, 300.0))
    long, short = sorted(partings(layout, (piece,), KERF), key=lambda run: len(run.edge))
    assert long.edge == ((500.0, 20.0), (x + 30.0, 20.0))
    assert short.edge == (pytest.approx((begin, 20.0)), (200.0, 20.0), (200.0, 300.0))
    assert short.middle[0] == pytest.approx((begin, 20.0 - KERF / 2))


def test_two_pieces_side_by_side_share_one_cut() -> None:
    """A wall along the top; two rectangles below it a kerf apart: one cut below the wall, and one
    between that runs from it to the plate's edge."""
    wall = (Placement(strip(1000.0, 40.0), 0.0, 460.0, 0.0),)
    layout = Layout(plate(1000.0, 500.0), wall)
    both = [rectangle(layout, (0.0, 0.0, 600.0, 450.0))]
    both.append(rectangle(layout, (600.0 + KERF, 0.0, 1000.0, 450.0)))
    first, second = partings(layout, both, KERF)
    assert first.middle == ((0.0, 450.85), (600.85, 450.85), (600.85, 0.0))
    assert second.middle[-1] == (1000.0, 450.85)
    assert second.middle[0] == pytest.approx((600.85, 450.85), abs=0.01)
    assert len(second.middle) == 2
    assert len(pieces_after(layout, (first, second), KERF)) == 3


def test_rectangles_of_one_plate_lie_a_kerf_apart() -> None:
    """A step: the two rectangles below and beside it meet along 300 mm, the kerf between them."""
    layout = Layout(plate(1000.0, 700.0), (Placement(strip(500.0, 350.0), 500.0, 350.0, 0.0),))
    kept = remnants(layout, cutting(kerf_mm=KERF, least_offcut_mm=300.0))
    assert len(kept) == 2
    (ax, _, bx, _), (cx, _, dx, _) = (piece.bounds for piece in kept)
    assert max(ax, cx) - min(bx, dx) == pytest.approx(KERF)
    runs = partings(layout, kept, KERF)
    assert len(pieces_after(layout, runs, KERF)) == 3


def test_no_two_cuts_run_into_each_other() -> None:
    """A part's side ends the second rectangle 3 mm beside the first: moved on to a web's width."""
    layout = Layout(plate(1000.0, 500.0), ())
    first = (0.0, 0.0, 400.0, 500.0)
    near = _whole_mm((403.0, 0.0, 900.2, 300.0), layout, [first], KERF)
    assert near == (405.0, 0.0, 900.0, 300.0)  # 400 + two kerfs of 1.7 and a web of 1
    beside = _whole_mm((400.0 + KERF, 0.0, 900.2, 300.0), layout, [first], KERF)
    assert beside == (401.7, 0.0, 900.0, 300.0)


def test_real_pieces_that_nearly_meet_are_moved_apart() -> None:
    """A disc of 600 over a neck that narrows slowly: what is 300 wide to its left and right ends
    half a millimetre apart."""
    layout = Layout(plate(1200.0, 900.0), (Placement(disc(600.0), 600.0, 536.8, 0.0),))
    rules = cutting(kerf_mm=KERF, offcut_outline="real", least_offcut_mm=300.0)
    one, other = remnants(layout, rules)
    apart = shape_of(one).distance(shape_of(other))
    assert clear_distance_mm(rules, 6.0) <= apart < clear_distance_mm(rules, 6.0) + 2.0
    assert len(pieces_after(layout, partings(layout, (one, other), KERF), KERF)) >= 3


def test_a_real_piece_keeps_the_plates_slanted_side() -> None:
    """A strip across the slanted end: the piece beside it is bounded by that end itself."""
    layout = Layout(SLANTED, (Placement(strip(480.0, 40.0), 420.0, 300.0, 0.0),))
    sides = shapely.MultiLineString(
        [[(800.0, 0.0), (903.4, 455.5)], [(903.4, 455.5), (300.0, 602.0)]]
    )
    rules = cutting(kerf_mm=KERF, offcut_outline="real", least_offcut_mm=100.0)
    corners = [point for piece in remnants(layout, rules) for point in piece.corners]
    gaps = [sides.distance(shapely.Point(point)) for point in corners]
    assert sum(gap < 1e-9 for gap in gaps) >= 3
    assert not [gap for gap in gaps if 1e-9 <= gap < 1.0]


def test_a_whole_plate_is_not_cut() -> None:
    layout = Layout(SLANTED, ())
    whole = Remnant(layout, SLANTED.corners, SLANTED.holes)
    assert partings(layout, (whole,), KERF) == ()


def test_what_falls_out_of_a_hole_is_not_cut_and_kept_once() -> None:
    """A frame round a hole of 800 x 350: two squares of 300 would lie in its one slug."""
    hole = polygon([(50.0, 50.0), (850.0, 50.0), (850.0, 400.0), (50.0, 400.0)])
    square = polygon([(0.0, 0.0), (900.0, 0.0), (900.0, 450.0), (0.0, 450.0)])
    frame = Blank("frame", "extra", 6.0, square, (hole,))
    layout = Layout(plate(900.0, 450.0), (Placement(frame, 0.0, 0.0, 0.0),))
    (piece,) = remnants(layout, cutting(least_offcut_mm=300.0))
    assert slug_hole(piece) is not None
    assert partings(layout, (piece,), KERF) == ()
    wall = Placement(strip(340.0, 20.0), 460.0, 55.0, 90.0)
    split = Layout(layout.sheet, (*layout.placements, wall))
    assert len(remnants(split, cutting(least_offcut_mm=300.0))) == 1


def test_a_part_in_the_midst_of_a_real_piece_is_cut_out_with_its_web() -> None:
    layout = Layout(plate(1000.0, 800.0), (Placement(disc(200.0), 500.0, 400.0, 0.0),))
    kept = remnants(layout, cutting(offcut_outline="real", kerf_mm=KERF))
    (run,) = partings(layout, kept, KERF)
    assert run.closed
    assert set(run.edge) == set(kept[0].holes[0])
    assert shapely.LinearRing(run.middle).is_ccw


def test_a_sharp_corner_is_cut_off_and_told_once() -> None:
    """Corners of 45 degrees: the run is cut off there, no further than a kerf from the corner."""
    layout = Layout(plate(1000.0, 800.0), ())
    corners = ((100.0, 100.0), (500.0, 100.0), (500.0, 500.0))
    (run,) = partings(layout, (Remnant(layout, corners),), 6.0)
    assert set(run.edge) == set(corners)
    assert len(run.edge) == 3
    far = max(shapely.Polygon(corners).distance(shapely.Point(p)) for p in run.middle)
    assert far <= 6.0 * 1.2


def test_a_piece_that_would_hang_on_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    layout = Layout(plate(1000.0, 800.0), (Placement(disc(100.0), 900.0, 400.0, 0.0),))
    piece = rectangle(layout, (0.0, 0.0, 500.0, 800.0))
    shorter = (Parting(((500.85, 0.0), (500.85, 790.0)), (), False, piece),)
    monkeypatch.setattr(parting, "_round", lambda *_: iter(shorter))
    with pytest.raises(NestingError, match="would not come free"):
        partings(layout, (piece,), KERF)


def test_pieces_of_other_layouts_are_left_alone() -> None:
    one = Layout(plate(1000.0, 800.0), ())
    other = Layout(plate(1000.0, 900.0), ())
    assert partings(one, (rectangle(other, (0.0, 0.0, 500.0, 900.0)),), KERF) == ()


def test_round_hole_of_a_part_is_met() -> None:
    ring = disc(700.0, holes=(Circle((0.0, 0.0), 300.0),))
    layout = Layout(plate(800.0, 800.0), (Placement(ring, 400.0, 400.0, 0.0),))
    kept = remnants(layout, cutting(least_offcut_mm=300.0))
    assert [slug_hole(piece) is not None for piece in kept] == [True]
