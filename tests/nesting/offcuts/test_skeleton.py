"""Cuts through the left-over grid: clear of parts, in steel, and all cut that can be."""

from __future__ import annotations

import itertools
import math

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.nesting.offcuts.skeleton import LEAST_CUT_MM, skeleton_lines
from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.parts.geometry.outline import Line, contains
from tests.nesting.plates import cutting, disc, faceted, offcut, plate, sector, steel, strip

CLEAR_MM = 1.5 + 1.0  # the kerf of `plates.cutting`, and a least web
SAG_MM = 1e-3
CORNER = offcut(
    "corner",
    [(0.0, 0.0), (900.0, 0.0), (900.0, 300.0), (500.0, 600.0), (0.0, 600.0)],
    holes=(((20.0, 20.0), (120.0, 20.0), (120.0, 60.0), (20.0, 60.0)),),
)
BLANKS = [disc(110.0), strip(120.0, 50.0), sector(50.0, 75.0, 150.0), sector(300.0, 380.0, 20.0)]


@st.composite
def layouts(draw: st.DrawFn) -> Layout:
    """Parts in some cells of a grid of 160 mm, turned any way: they may lie close, or overlap."""
    sheet: Sheet = draw(st.sampled_from([plate(900.0, 600.0), CORNER]))
    cells = draw(st.sets(st.tuples(st.integers(0, 4), st.integers(0, 2)), max_size=12))
    placed = [
        Placement(
            draw(st.sampled_from(BLANKS[:3])),
            120.0 + 160 * i,
            120.0 + 160 * j,
            draw(st.floats(0, 360)),
        )
        for i, j in sorted(cells)
    ]
    if draw(st.booleans()):
        placed.append(Placement(BLANKS[3], 0.0, 0.0, draw(st.floats(0, 70))))
    return Layout(sheet, tuple(placed))


def is_across(line: Line) -> bool:
    return line.start[0] == line.end[0]


def as_string(line: Line) -> shapely.LineString:
    return shapely.LineString([line.start, line.end])


@settings(max_examples=30, deadline=None, derandomize=True)
@given(layouts(), st.sampled_from([90.0, 200.0, 400.0]))
def test_no_cut_comes_near_a_part_or_leaves_the_plate(lay: Layout, size: float) -> None:
    lines = skeleton_lines(lay, cutting(skeleton_piece_mm=size))
    on_plate = steel(lay.sheet).buffer(1e-6)
    outlines = [placement.outline for placement in lay.placements]
    for line in lines:
        assert line.length_mm >= LEAST_CUT_MM
        assert on_plate.contains(as_string(line))
        for outline in outlines:
            assert loop_gap((line,), outline, 100.0) >= CLEAR_MM - 1e-6
            assert not contains(outline, line.start)
    shapes = shapely.union_all([faceted(outline, SAG_MM) for outline in outlines])
    far = shapely.distance(shapes, [as_string(line) for line in lines])
    assert not outlines or all(far >= CLEAR_MM - SAG_MM)  # by the polygon library


@settings(max_examples=30, deadline=None, derandomize=True)
@given(layouts(), st.sampled_from([120.0, 300.0]))
def test_all_scrap_on_a_cut_is_cut_but_for_short_webs(lay: Layout, size: float) -> None:
    """By the polygon library: what a line leaves of the free steel is shorter than a web."""
    lines = skeleton_lines(lay, cutting(skeleton_piece_mm=size))
    parts = [faceted(p.outline, 1e-2).buffer(CLEAR_MM + 0.02, 64) for p in lay.placements]
    inside = steel(lay.sheet).buffer(-0.01)  # a line may run along an edge: nothing to cut there
    free = inside.difference(shapely.union_all(parts))
    for across in (True, False):
        places = {line.start[0 if across else 1] for line in lines if is_across(line) == across}
        for at in places:
            ends = [(at, -1.0), (at, 2000.0)] if across else [(-1.0, at), (2000.0, at)]
            whole = shapely.LineString(ends).intersection(free)
            cut = [as_string(x) for x in lines if x.start[0 if across else 1] == at]
            rest = whole.difference(shapely.union_all(cut).buffer(1e-3))
            for piece in getattr(rest, "geoms", [rest]):
                assert piece.length <= LEAST_CUT_MM


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.floats(100, 3000), st.floats(100, 1500), st.floats(60, 2000))
def test_a_bare_plate_falls_into_pieces_of_the_size(
    length: float, width: float, size: float
) -> None:
    lines = skeleton_lines(Layout(plate(length, width), ()), cutting(skeleton_piece_mm=size))
    for across, extent, other in ((True, length, width), (False, width, length)):
        cuts = [line for line in lines if is_across(line) == across]
        assert all(math.isclose(line.length_mm, other) for line in cuts)
        places = sorted(line.start[0 if across else 1] for line in cuts)
        edges = [0.0, *places, extent]
        assert all(b - a <= size + 1e-9 for a, b in itertools.pairwise(edges))
        assert len(places) <= max(0, math.ceil(extent / size - 1e-9) - 1)  # and no more than that


def test_no_size_no_cuts() -> None:
    lay = Layout(plate(900.0, 600.0), (Placement(BLANKS[0], 200.0, 200.0, 0.0),))
    assert skeleton_lines(lay, cutting()) == ()
    assert skeleton_lines(lay, cutting(skeleton_piece_mm=900.0)) == ()


def test_a_piece_that_is_kept_is_not_cut() -> None:
    """The right half of a bare plate is kept: cuts end in the middle of the kerf round it."""
    keep = [(450.0, 0.0), (900.0, 0.0), (900.0, 600.0), (450.0, 600.0)]
    lay = Layout(plate(900.0, 600.0), ())
    for ring in (keep, keep[::-1]):  # listed either way round
        lines = skeleton_lines(lay, cutting(skeleton_piece_mm=250.0), [ring])
        reach = max(x for line in lines for x, _ in (line.start, line.end))
        assert math.isclose(reach, 450.0 - 1.5 / 2)
        assert any(is_across(line) for line in lines)


def test_a_cut_goes_where_it_finds_most_scrap() -> None:
    """Two columns of strips 4 mm apart, and a clear way beside them: the cut takes that."""
    placed = tuple(Placement(strip(150.0, 96.0), 10.0, 4.0 + 100 * j, 0.0) for j in range(6))
    lines = skeleton_lines(Layout(plate(300.0, 604.0), placed), cutting(skeleton_piece_mm=200.0))
    across = [line for line in lines if is_across(line)]
    assert len(across) == 1
    assert across[0].length_mm == 604.0


def test_a_cut_crosses_leads_and_runs_along_none() -> None:
    """Cuts of a bare plate lie at 300 and 600: a lead there that runs their way, within half a
    kerf, sends them on, one beside that or across does not."""
    lay = Layout(plate(900.0, 600.0), ())
    cut = cutting(skeleton_piece_mm=300.0)
    half = cut.kerf_mm / 2

    def places(*leads: Line) -> list[float]:
        lines = skeleton_lines(lay, cut, (), leads)
        return [line.start[0] for line in lines if is_across(line)]

    assert places() == [300.0, 600.0]
    for off, here in ((0.001, False), (half - 0.01, False), (half + 0.01, True)):
        for x in (300.0 - off, 300.0 + off):
            assert (300.0 in places(Line((x, 100.0), (x, 105.0)))) == here
    assert places(Line((295.0, 100.0), (305.0, 100.0))) == [300.0, 600.0]
    assert places(Line((298.0, 100.0), (302.0, 105.0))) == [300.0, 600.0]
    least = places(Line((300.0, 100.0), (300.0, 105.0)))[0]
    assert 180.0 <= least < 300.0 - half


def test_cuts_run_to_and_fro() -> None:
    """The torch does not travel back along each cut."""
    lines = skeleton_lines(Layout(plate(900.0, 600.0), ()), cutting(skeleton_piece_mm=300.0))
    across = [line for line in lines if is_across(line)]
    assert [line.start[1] for line in across] == [0.0, 600.0]
    assert lines[: len(across)] == tuple(across)
