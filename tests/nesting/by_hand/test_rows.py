"""Rows and columns by hand: nothing lost, straight cuts free every blank and touch none."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.by_hand.cell import cells_of
from platewheel.nesting.by_hand.plan import rows_plan
from platewheel.nesting.by_hand.straight_cuts import parted, require_clear
from platewheel.nesting.by_hand.usable import usable
from platewheel.nesting.cutting.hand_work import hand_work
from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.nesting.offcuts.remnant import remnants
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, NestingError, Placement, Sheet, Wanted
from platewheel.nesting.verify.verify import faults
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Circle, bounds, polygon

HAND = Cutting(process="hand")


def disc(size: float, name: str = "disc") -> Blank:
    return Blank(name, "disc", 6.0, Circle((0.0, 0.0), size / 2))


def strip(long: float, wide: float, name: str = "strip") -> Blank:
    return Blank(name, "tread", 6.0, polygon([(0, 0), (long, 0), (long, wide), (0, wide)]))


def sheet(long: float, wide: float) -> Sheet:
    return Sheet(f"{wide:g} x {long:g}", 6.0, long, wide, None, 0.0)


def test_three_discs_in_a_row_by_hand() -> None:
    """Worked by hand: margin 15, discs of 100, 15 apart: cuts half way, at 122.5 and 237.5, on the
    whole millimetre beside; then what is left, 352.5 from the left."""
    done, left = rows_plan([Wanted(disc(100.0), 3)], [sheet(800.0, 130.0)], HAND)
    (layout,) = done
    assert not left
    cuts = parted(layout, HAND.model_copy(update={"least_offcut_mm": 100.0})).cuts
    assert [(cut.axis, cut.line_mm, cut.whole) for cut in cuts] == [
        (0, 122.0, True),
        (0, 238.0, True),
        (0, 352.0, True),
    ]
    work = hand_work(layout, HAND)
    assert work.straight_mm == pytest.approx(2 * 130)
    assert work.curved_mm == pytest.approx(3 * math.pi * 100)
    # 800 mm2 a minute in 6 mm: 133 mm a minute, half of it round
    assert work.minutes == pytest.approx((260 + 2 * 300 * math.pi) / (800 / 6))
    assert work.discs == 1  # 260 + 942 mm of 6 mm are 7214 mm2
    (kept,) = remnants(layout, HAND.model_copy(update={"least_offcut_mm": 100.0}))
    assert kept.bounds == pytest.approx((353.0, 0.0, 800.0, 130.0))


def test_strips_lie_a_kerf_apart_and_straight_cuts_finish_them() -> None:
    (layout,) = nest([Wanted(strip(500.0, 60.0), 4)], [sheet(600.0, 400.0)], HAND).layouts
    cuts = parted(layout, HAND).cuts
    work = hand_work(layout, HAND)
    assert work.curved_mm == 0
    # every edge is a straight cut: its length is that of the cuts alone
    assert work.straight_mm == pytest.approx(sum(cut.line.length_mm for cut in cuts))
    pieces = [piece for piece in parted(layout, HAND).pieces if piece.placements]
    assert [len(piece.placements) for piece in pieces] == [1, 1, 1, 1]
    for piece in pieces:
        assert piece.box == pytest.approx(bounds(piece.placements[0].outline))
    shared = {cut.middle_mm for cut in cuts}
    assert {15.0 + 62 * k + 61 for k in range(3)} <= shared  # between two, in the middle


def test_sectors_stand_in_a_stack_at_the_spacing() -> None:
    blank = Blank("flange", "flange", 8.0, annular_sector(150.0, 170.0, 120.0))
    stack = [c for c in cells_of(Wanted(blank, 9), 15.0, 2.0) if c.count == 3]
    assert stack
    for cell in stack:
        one, two, _ = (p.outline for p in cell.placements(0.0, 0.0))
        assert 15.0 - 1e-6 <= loop_gap(one, two) < 15.6
        assert bounds(one)[:2] == pytest.approx((0.0, 0.0))


SIZES = st.integers(40, 320).map(float)
BLANKS = st.one_of(
    st.builds(disc, SIZES),
    st.builds(strip, SIZES, SIZES),
    st.builds(
        lambda r, w, s: Blank("arc", "extra", 6.0, annular_sector(r, r + w, s)),
        SIZES,
        st.integers(10, 60).map(float),
        st.integers(20, 170).map(float),
    ),
)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(BLANKS, st.integers(1, 9)), min_size=1, max_size=3),
    st.sampled_from([(1000.0, 600.0), (700.0, 1300.0)]),
)
def test_every_plan_is_sound(wanted: list[tuple[Blank, int]], size: tuple[float, float]) -> None:
    group = [
        Wanted(Blank(f"{b.name}{i}", b.kind, 6.0, b.outline), n) for i, (b, n) in enumerate(wanted)
    ]
    layouts, left = rows_plan(group, [sheet(*size)], HAND)
    made = {item.blank.name: 0 for item in group}
    for layout in layouts:
        assert not list(faults(layout, 15.0, 15.0, kerf_mm=2.0))
        for name, count in layout.counts.items():
            made[name] += count * layout.repeat
        require_clear(layout, HAND)
        pieces = parted(layout, HAND).pieces
        assert sum(len(piece.placements) for piece in pieces) == len(layout.placements)
        for piece in pieces:  # what lies in a piece lies in it whole
            for placement in piece.placements:
                x0, y0, x1, y1 = bounds(placement.outline)
                assert max(piece.box[0] - x0, piece.box[1] - y0) < 0.01
                assert max(x1 - piece.box[2], y1 - piece.box[3]) < 0.01
            round_ones = {p.blank.name for p in piece.placements if isinstance(p.outline, Circle)}
            assert not round_ones or len(piece.placements) == 1
    over = {item.blank.name: item.count for item in left}
    assert all(made[w.blank.name] + over.get(w.blank.name, 0) == w.count for w in group)
    assert not left  # each fits a plate


def test_an_offcut_with_a_hole_and_a_corner_off() -> None:
    """The largest upright rectangle beside the hole; the rest keeps its own edges."""
    edge = ((0.0, 0.0), (900.0, 0.0), (900.0, 420.0), (520.0, 420.0), (520.0, 700.0), (0.0, 700.0))
    hole = ((120.0, 120.0), (220.0, 120.0), (220.0, 220.0), (120.0, 220.0))
    piece = Sheet("corner", 6.0, 900.0, 700.0, 1, 0.0, edge=edge, holes=(hole,))
    assert usable(piece, 15.0) == pytest.approx((235.0, 15.0, 885.0, 405.0))
    (layout,), left = rows_plan([Wanted(disc(280.0), 2)], [piece], HAND)
    assert not left
    kept = remnants(layout, HAND)
    assert kept
    for one in kept:
        assert 0 < one.area_mm2 < piece.area_mm2
        assert all(x <= 520.0 or y <= 420.0 for x, y in one.corners)


def test_a_cut_through_a_blank_is_refused() -> None:
    """Two discs that stand apart as boxes, a spacing told that is not there."""
    near = tuple(Placement(disc(100.0), x, 70.0, 0.0) for x in (70.0, 171.0))
    layout = Layout(sheet(400.0, 200.0), near)
    require_clear(layout, HAND.model_copy(update={"kerf_mm": 0.5}))
    with pytest.raises(NestingError, match="straight cut 1 runs into disc"):
        require_clear(layout, HAND)
