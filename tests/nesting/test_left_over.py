"""What is left of a plate: free of parts by exact gaps, and ready for the next job's file."""

from __future__ import annotations

import tomllib

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.gaps import loop_gap
from nesting.layout import Layout, Placement, Sheet, sheets_of
from nesting.left_over import (
    CELL_MM,
    LEAST_SIDE_MM,
    LeftOver,
    largest_block,
    left_over,
    offcuts_toml,
)
from nesting.stock import Offcut
from parts.outline import Loop, area_mm2, contains, polygon, segments
from tests.nesting.plates import disc, offcut, plate, sector, steel, strip

CLEAR = 3.0
NOTCHED = offcut(
    "notched",
    [(0.0, 0.0), (803.0, 0.0), (803.0, 250.0), (350.0, 250.0), (350.0, 602.0), (0.0, 602.0)],
    (((500.0, 100.0), (540.0, 100.0), (520.0, 140.0)),),
)
BLANKS = [disc(90.0), strip(300.0, 40.0), sector(100.0, 120.0, 330.0), sector(90.0, 110.0, 100.0)]


def rectangle(kept: LeftOver) -> Loop:
    x0, y0, x1, y1 = kept.x0_mm, kept.y0_mm, kept.x1_mm, kept.y1_mm
    return polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


def assert_free(kept: LeftOver, clear_mm: float) -> None:
    loop = rectangle(kept)
    corners = [segment.start for segment in segments(loop)]
    for placement in kept.layout.placements:
        # buffers of the search are drawn as polygons: some micrometres short at corners
        assert loop_gap(loop, placement.outline) >= clear_mm - 0.02
        assert not contains(loop, segments(placement.outline)[0].start)
        assert not contains(placement.outline, corners[0])


def shapely_box(kept: LeftOver):
    from shapely import box

    return box(kept.x0_mm, kept.y0_mm, kept.x1_mm, kept.y1_mm)


places = st.tuples(
    st.sampled_from(BLANKS),
    st.floats(0, 800),
    st.floats(0, 600),
    st.integers(0, 11).map(lambda n: 30.0 * n),
)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(
    st.lists(places, min_size=1, max_size=4),
    st.sampled_from([plate(803.0, 602.0), NOTCHED]),
    st.sampled_from([1.0, CLEAR, 8.0]),
)
def test_rectangle_is_free_and_on_the_plate(placed, sheet: Sheet, clear_mm: float) -> None:
    kept = left_over(Layout(sheet, tuple(Placement(*one) for one in placed)), clear_mm)
    if kept is None:
        return
    assert_free(kept, clear_mm)
    assert steel(sheet).buffer(1e-9).covers(shapely_box(kept))
    assert min(kept.x1_mm - kept.x0_mm, kept.y1_mm - kept.y0_mm) >= LEAST_SIDE_MM
    assert kept.area_mm2 == pytest.approx(area_mm2(rectangle(kept)))


def test_nearly_all_that_can_be_kept_is_kept() -> None:
    """A strip along the left edge: free from x = 10 + 40 + 3 on, less at most two cells."""
    layout = Layout(plate(803.0, 602.0), (Placement(strip(582.0, 40.0), 50.0, 10.0, 90.0),))
    kept = left_over(layout, CLEAR)
    assert kept is not None
    assert 53 <= kept.x0_mm <= 53 + 2 * CELL_MM
    assert (kept.y0_mm, kept.x1_mm, kept.y1_mm) == (0.0, 803.0, 602.0)


def test_largest_of_two_rests_is_taken() -> None:
    """A wall of strips at x = 300: 300 mm to its left, 460 mm to its right."""
    layout = Layout(plate(803.0, 602.0), (Placement(strip(602.0, 40.0), 340.0, 0.0, 90.0),))
    kept = left_over(layout, CLEAR)
    assert kept is not None
    assert kept.x0_mm >= 343


def test_no_piece_below_the_least_side_is_kept() -> None:
    """A strip 40 mm wide with 3 mm clear along the lower edge, and one cell lost at most."""
    for rest, found in ((LEAST_SIDE_MM - 1, False), (LEAST_SIDE_MM + CELL_MM, True)):
        laid = Placement(strip(880.0, 40.0), 10.0, 10.0, 0.0)
        kept = left_over(Layout(plate(900.0, 53 + rest), (laid,)), CLEAR)
        assert (kept is not None) == found


def test_an_empty_plate_is_kept_whole() -> None:
    kept = left_over(Layout(plate(900.0, 402.0), ()), CLEAR)
    assert kept is not None
    assert kept.area_mm2 == pytest.approx(900 * 402)


@pytest.mark.parametrize("seed", range(30))
def test_largest_block_against_trying_all(seed: int) -> None:
    rng = np.random.default_rng(seed)
    rows, columns = rng.integers(1, 9, 2)
    free = rng.random((rows, columns)) < rng.choice([0.3, 0.7, 0.9])
    i, j, ni, nj = largest_block(free)
    most = max(
        (
            (b - a) * (d - c)
            for a in range(rows)
            for b in range(a + 1, rows + 1)
            for c in range(columns)
            for d in range(c + 1, columns + 1)
            if free[a:b, c:d].all()
        ),
        default=0,
    )
    assert ni * nj == most
    assert free[i : i + ni, j : j + nj].all()
    assert 0 <= i <= i + ni <= rows
    assert 0 <= j <= j + nj <= columns


def kept_of(repeat: int, x1_mm: float = 403.7) -> LeftOver:
    layout = Layout(plate(803.0, 602.0), (), repeat)
    return LeftOver(layout, 100.0, 50.0, x1_mm, 300.0)


def test_toml_has_one_offcut_for_each_plate_cut() -> None:
    tables = tomllib.loads(offcuts_toml([kept_of(2), kept_of(1, 500.0)], "my-wheels"))["offcut"]
    offcuts = [Offcut(**table) for table in tables]
    assert len({piece.name for piece in offcuts}) == 3
    sheets = sheets_of([], offcuts)
    sizes = [(sheet.length_mm, sheet.width_mm) for sheet in sheets]
    assert sizes == [pytest.approx(size) for size in ((303.7, 250), (303.7, 250), (400, 250))]
    assert {(piece.steel, piece.thickness_mm) for piece in offcuts} == {("S235", 6.0)}


def test_toml_keeps_the_steel_of_the_plate() -> None:
    layout = Layout(plate(803.0, 602.0, steel="S355"), ())
    text = offcuts_toml([LeftOver(layout, 0.0, 0.0, 300.0, 200.0)], "job")
    (table,) = tomllib.loads(text)["offcut"]
    assert Offcut(**table).steel == "S355"


def test_toml_of_the_longest_job_name_can_be_read_by_the_next_job() -> None:
    """A job's name may have 60 characters; so may an offcut's."""
    tables = tomllib.loads(offcuts_toml([kept_of(12)], 60 * "w"))["offcut"]
    offcuts = [Offcut(**table) for table in tables]
    assert len({piece.name for piece in offcuts}) == 12


def test_nothing_kept_is_still_toml() -> None:
    assert tomllib.loads(offcuts_toml([], "job")) == {}
