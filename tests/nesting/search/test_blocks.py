"""Strips side by side in blocks: what is a strip, how large blocks are, what a plate forces."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.quick.bound import plate_bounds
from platewheel.nesting.search.most_kits import laid_of, trimmed
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.layout import Layout, Placement, Wanted
from platewheel.nesting.stock.shared_lines import still_shared
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, moved, polygon
from tests.nesting.plates import cutting, disc, on_plate, plate, sector, strip, tapered

KERF = 1.5


def common(spacing_mm: float = 6.0, margin_mm: float = 10.0, **more: object) -> Cutting:
    return cutting(spacing_mm, margin_mm, kerf_in_path=True, common_lines=True, **more)


def pairs(layouts: tuple[Layout, ...]) -> int:
    return sum(len(layout.shared) * layout.repeat for layout in layouts)


def assert_a_kerf_apart(layout: Layout, spacing_mm: float = 6.0) -> None:
    """By the reference: those that share a line, and no others."""
    shapes = [on_plate(p) for p in layout.placements]
    near = {frozenset(pair) for pair in layout.shared}
    for i, shape in enumerate(shapes):
        for j in range(i):
            gap = shape.distance(shapes[j])
            if frozenset((i, j)) in near:
                assert gap == pytest.approx(KERF, abs=1e-5)
            else:
                assert gap >= spacing_mm - 2e-3


def test_twelve_strips_lie_in_one_block() -> None:
    """12 x 60 and 11 kerfs of 1.5: 736.5 mm side by side; on 700 mm across, in two blocks."""
    got = nest([Wanted(strip(915.0, 60.0), 12)], [plate(2500.0, 1250.0)], common(), effort="quick")
    (layout,) = got.layouts
    assert pairs(got.layouts) == 11
    assert_a_kerf_apart(layout)
    x0, y0, x1, y1 = Layout(layout.sheet, layout.placements).placements[0].blank.bounds
    assert (x1 - x0, y1 - y0) == (915.0, 60.0)
    shapes = [on_plate(p).bounds for p in layout.placements]
    sides = sorted(max(s[k + 2] for s in shapes) - min(s[k] for s in shapes) for k in (0, 1))
    assert sides == pytest.approx([736.5, 915.0])
    narrow = nest(
        [Wanted(strip(915.0, 60.0), 12)], [plate(2000.0, 700.0)], common(), effort="quick"
    )
    assert not narrow.unplaced
    assert pairs(narrow.layouts) == 10


@pytest.mark.parametrize("lead_mm", [0.0, 5.0])
def test_strips_with_holes_are_cut_from_one_end_to_the_other(lead_mm: float) -> None:
    """From side to side the torch would go 1 + 2 + ... + 11 times the pitch of 61.5 mm, 4 m, over
    strips that are loose; along the row it goes some 11 times a strip's half length."""
    drilled = replace(strip(120.0, 60.0), holes=(Circle((60.0, 30.0), 10.0),))
    cut = common(lead_in_mm=lead_mm)
    got = nest([Wanted(drilled, 12)], [plate(2500.0, 1250.0)], cut, effort="quick")
    (layout,) = got.layouts
    assert layout.shared == tuple((k, k + 1) for k in range(11))
    parts = sheet_cuts(layout, cut).parts
    ways = [math.dist(a.cuts[-1].end, b.cuts[0].begin) for a, b in itertools.pairwise(parts)]
    assert max(ways) < math.hypot(120.0, 2 * 61.5)
    plain = nest([Wanted(strip(120.0, 60.0), 12)], [plate(2500.0, 1250.0)], cut, effort="quick")
    assert plain.layouts[0].shared[:3] == ((5, 6), (5, 4), (6, 7))


def test_without_the_key_no_line_is_shared() -> None:
    plain = cutting(kerf_in_path=True)
    got = nest([Wanted(strip(915.0, 60.0), 12)], [plate(2500.0, 1250.0)], plain, effort="quick")
    assert pairs(got.layouts) == 0


@pytest.mark.parametrize(
    ("blank", "count"),
    [
        (strip(200.0, 40.0), 3),
        (strip(40.0, 200.0), 3),
        (strip(100.0, 100.0), 3),
        (Blank("slanting", "extra", 6.0, moved(strip(200.0, 40.0).outline, 7.0, 9.0, 31.0)), 3),
        (Blank("clockwise", "extra", 6.0, polygon([(0, 0), (0, 40), (200, 40), (200, 0)])), 3),
        (Blank("leaning", "extra", 6.0, polygon([(0, 0), (200, 0), (210, 40), (10, 40)])), 0),
        (Blank("trapeze", "extra", 6.0, polygon([(0, 0), (200, 0), (190, 40), (10, 40)])), 0),
        (Blank("nearly", "extra", 6.0, polygon([(0, 0), (200, 0), (200.001, 40), (0, 40)])), 0),
        (tapered(200.0, 40.0, 900.0), 0),
        (sector(60.0, 80.0, 120.0), 0),
        (disc(100.0), 0),
        (strip(200.0, 2.9), 0),  # 2.9 and two kerfs are less than the spacing of 6
        (strip(200.0, 3.1), 3),
    ],
    ids=lambda one: getattr(one, "name", None),
)
def test_rectangles_alone_share_lines(blank: Blank, count: int) -> None:
    got = nest([Wanted(blank, 4)], [plate(1000.0, 600.0)], common(), effort="quick")
    assert not got.unplaced
    assert pairs(got.layouts) == count
    for layout in got.layouts:
        assert_a_kerf_apart(layout)


def test_blocks_give_way_where_plates_have_no_room() -> None:
    """Room for 3, 3 and 4 strips one spacing apart: blocks of 4, or of 2, do not make ten."""
    width = {n: n * 40.0 + (n - 1) * 6.0 + 20.0 for n in (3, 4)}
    stock = [plate(220.0, width[3], count=2), plate(220.0, width[4], count=1)]
    got = nest([Wanted(strip(200.0, 40.0), 10)], stock, common(), effort="quick")
    assert not got.unplaced
    assert sum(laid_of(got.layouts).values()) == 10
    got = nest([Wanted(strip(200.0, 40.0), 11)], stock, common(), effort="quick")
    assert [(w.blank.name, w.count) for w in got.unplaced] == [("tread", 1)]


def test_what_fits_no_plate_is_told_as_strips() -> None:
    got = nest([Wanted(strip(900.0, 40.0), 5)], [plate(500.0, 500.0)], common(), effort="quick")
    assert [(w.blank.name, w.count) for w in got.unplaced] == [("tread", 5)]
    stock = [plate(220.0, 101.5, count=1)]  # two strips and a kerf, margins off
    got = nest([Wanted(strip(200.0, 40.0), 5)], stock, common(), effort="quick")
    assert [(w.blank.name, w.count) for w in got.unplaced] == [("tread", 3)]
    assert pairs(got.layouts) == 1


def test_a_blank_may_bear_the_name_of_a_block() -> None:
    odd = disc(100.0, "tread, 4 side by side")
    wanted = [Wanted(strip(200.0, 40.0), 4), Wanted(odd, 2)]
    got = nest(wanted, [plate(1000.0, 600.0)], common(), effort="quick")
    assert laid_of(got.layouts) == {"tread": 4, odd.name: 2}
    assert pairs(got.layouts) == 3


def test_pairs_that_are_left_when_strips_are_taken_off() -> None:
    got = nest([Wanted(strip(200.0, 40.0), 6)], [plate(1000.0, 600.0)], common(), effort="quick")
    (layout,) = got.layouts
    (less,) = trimmed([layout], {"tread": 4})
    assert len(less.placements) == 4
    assert len(less.shared) == 3  # from one side of the block
    assert_a_kerf_apart(less)
    kept = [layout.placements[k] for k in (5, 0, 1, 3)]
    shared = still_shared(layout, kept)
    assert {frozenset(pair) for pair in shared} == {frozenset((1, 2))}
    assert_a_kerf_apart(Layout(layout.sheet, tuple(kept), shared=shared))


def test_a_bound_counts_with_strips_a_kerf_apart() -> None:
    """Ten strips 40 wide go on 413.5 mm with kerfs of 1.5 between, by spacings of 6 on two."""
    stock = [plate(220.0, 433.5)]
    got = nest([Wanted(strip(200.0, 40.0), 10)], stock, common(), effort="quick")
    (bound,) = plate_bounds(got.layouts, stock, common())
    assert (bound.used, bound.least) == (1, 1)
    plain = nest([Wanted(strip(200.0, 40.0), 10)], stock, cutting(), effort="quick")
    (bound,) = plate_bounds(plain.layouts, stock, cutting())
    assert (bound.used, bound.least) == (2, 2)


@settings(max_examples=30, deadline=None)
@given(
    length=st.floats(60.0, 900.0),
    width=st.floats(2.0, 150.0),
    count=st.integers(1, 20),
    discs=st.integers(0, 4),
    turns=st.sampled_from(["any", "half", "quarter", "fixed"]),
)
def test_all_are_laid_and_each_pair_a_kerf_apart(
    length: float, width: float, count: int, discs: int, turns: str
) -> None:
    wanted = [Wanted(strip(length, width), count, turns), Wanted(disc(120.0), discs)]  # type: ignore[arg-type]
    got = nest(wanted, [plate(1000.0, 600.0)], common(), effort="quick")
    assert not got.unplaced
    assert laid_of(got.layouts) == {w.blank.name: w.count for w in wanted if w.count}
    for layout in got.layouts:
        assert_a_kerf_apart(layout)
        assert all(isinstance(p, Placement) and p.blank in (wanted[0].blank, wanted[1].blank)
                   for p in layout.placements)  # fmt: skip
