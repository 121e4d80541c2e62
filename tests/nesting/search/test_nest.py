"""Whole nests: nothing dropped, nothing too near, offcuts first, the cheaper plan, repeats once."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.quick import no_fit
from platewheel.nesting.quick.no_fit_polygon import no_fit_polygon
from platewheel.nesting.search.nest import nest as lay
from platewheel.nesting.stock.layout import Layout, Nest, Sheet, Wanted, sheets_of
from platewheel.nesting.stock.stock import Stock
from platewheel.nesting.verify.verify import faults
from platewheel.parts.geometry.blank import Blank
from tests.nesting.plates import (
    assert_sound,
    cutting,
    disc,
    offcut,
    plate,
    sector,
    strip,
    tapered,
)


@pytest.fixture(scope="module", autouse=True)
def _regions_worked_out_once() -> Iterator[None]:
    """No-fit regions of the same pieces are kept between nests: the same work, done once."""
    known: dict[Any, Any] = {}

    def kept(fixed: Any, moving: Any, spacing_mm: float) -> Any:
        key = (*(tuple(tuple(map(tuple, p)) for p in side) for side in (fixed, moving)), spacing_mm)
        if key not in known:
            known[key] = no_fit_polygon(fixed, moving, spacing_mm)
        return known[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(no_fit, "no_fit_polygon", kept)
        yield


def nest(wanted: Sequence[Wanted], stock: Sequence[Sheet], cut: Any, seed: int = 0) -> Nest:
    return lay(wanted, stock, cut, seed, effort="quick")


def placed(done: Nest) -> Counter[str]:
    total: Counter[str] = Counter()
    for layout in done.layouts:
        for name, count in layout.counts.items():
            total[name] += count * layout.repeat
    return total


def used(done: Nest) -> Counter[str]:
    total: Counter[str] = Counter()
    for layout in done.layouts:
        total[layout.sheet.name] += layout.repeat
    return total


def assert_all_accounted_for(done: Nest, wanted: Sequence[Wanted]) -> None:
    left = Counter({w.blank.name: w.count for w in done.unplaced})
    assert placed(done) + left == Counter({w.blank.name: w.count for w in wanted if w.count})
    assert all(w.count > 0 for w in done.unplaced)


def assert_laid_well(done: Nest, spacing_mm: float, margin_mm: float) -> None:
    """By the verifier on true arcs, and by the reference."""
    for layout in done.layouts:
        assert layout.placements
        assert layout.repeat >= 1
        assert list(faults(layout, spacing_mm, margin_mm)) == []
        assert_sound(layout, spacing_mm, margin_mm)


def shape_of(layout: Layout) -> tuple[Sheet, frozenset[tuple[str, float, float, float]]]:
    spots = ((p.blank.name, p.x_mm, p.y_mm, p.rotation_deg) for p in layout.placements)
    return layout.sheet, frozenset(spots)


SECTORS = [
    sector(30.0, 42.0, 335.0),
    sector(50.0, 65.0, 165.0),
    sector(60.0, 72.0, 110.0),
    sector(70.0, 85.0, 80.0),
]
OFFCUTS = [
    offcut("corner", [(0.0, 0.0), (240.0, 0.0), (240.0, 90.0), (90.0, 90.0), (90.0, 200.0)]),
    offcut("wedge", [(0.0, 0.0), (220.0, 40.0), (200.0, 180.0), (10.0, 150.0)]),
    offcut(
        "holed",
        [(0.0, 0.0), (230.0, 0.0), (230.0, 160.0), (0.0, 160.0)],
        (((90.0, 60.0), (140.0, 50.0), (130.0, 100.0), (100.0, 110.0)),),
    ),
]
SPACING, MARGIN = 5.0, 8.0
counts = st.integers(0, 7)


@st.composite
def jobs(draw: st.DrawFn) -> tuple[list[Wanted], list[Sheet]]:
    """A disc, a strip, perhaps sectors and a tapered strip, on small plates and offcuts."""
    wanted = [
        Wanted(disc(draw(st.sampled_from([24.0, 51.3, 80.0]))), draw(counts)),
        Wanted(strip(draw(st.sampled_from([75.5, 140.0, 400.0])), 22.5), draw(counts)),
    ]
    if draw(st.booleans()):
        wanted.append(Wanted(draw(st.sampled_from(SECTORS)), draw(counts)))
    if draw(st.booleans()):
        wanted.append(Wanted(tapered(120.0, 25.0, 600.0, "bent"), draw(counts)))
    sizes = st.sampled_from([(200.0, 150.0), (283.7, 120.0), (160.0, 97.0), (300.0, 200.0)])
    stock = [
        plate(
            *draw(sizes),
            name=f"size {i}",
            count=draw(st.none() | st.integers(0, 2)),
            price=draw(st.sampled_from([0.0, 20.0, 31.0])),
        )
        for i in range(draw(st.integers(0, 2)))
    ]
    stock += draw(st.lists(st.sampled_from(OFFCUTS), max_size=2, unique_by=lambda o: o.name))
    return wanted, stock


@settings(max_examples=22, deadline=None, derandomize=True)
@given(jobs(), st.integers(0, 3))
def test_any_job(job: tuple[list[Wanted], list[Sheet]], seed: int) -> None:
    wanted, stock = job
    cut = cutting(SPACING, MARGIN)
    done = nest(wanted, stock, cut, seed)
    assert_all_accounted_for(done, wanted)
    assert_laid_well(done, SPACING, MARGIN)
    for sheet in stock:  # plates to hand last
        if sheet.count is not None:
            assert used(done)[sheet.name] <= sheet.count
    shapes = [shape_of(layout) for layout in done.layouts]
    assert len(set(shapes)) == len(shapes)  # repeats told once
    if any(sheet.count is None and not sheet.is_offcut for sheet in stock):
        # with sheets without end, all that is left over is too large for each of them
        endless = [s for s in stock if s.count is None]
        for item in done.unplaced:
            x0, y0, x1, y1 = item.blank.bounds
            room = [
                (s.length_mm - 2 * MARGIN >= x1 - x0 and s.width_mm - 2 * MARGIN >= y1 - y0)
                for s in endless
            ]
            assert not any(room)


@settings(max_examples=5, deadline=None, derandomize=True)
@given(jobs(), st.integers(0, 3), st.randoms(use_true_random=False))
def test_same_job_same_nest_in_any_order(
    job: tuple[list[Wanted], list[Sheet]], seed: int, rng: random.Random
) -> None:
    wanted, stock = job
    cut = cutting(SPACING, MARGIN)
    done = nest(wanted, stock, cut, seed)
    assert nest(wanted, stock, cut, seed) == done
    mixed = rng.sample(wanted, len(wanted))
    again = nest(mixed, rng.sample(stock, len(stock)), cut, seed)
    assert placed(again) == placed(done)
    assert used(again) == used(done)


def test_nothing_wanted_and_nothing_to_hand() -> None:
    assert nest([], [plate(200.0, 200.0)], cutting()) == Nest(())
    assert nest([Wanted(disc(50.0), 0)], [plate(200.0, 200.0)], cutting()) == Nest(())
    lone = Wanted(disc(50.0), 3)
    assert nest([lone], [], cutting()) == Nest((), (lone,))


def test_each_thickness_goes_on_its_own_plate() -> None:
    thick = Sheet("thick", 8.0, 300.0, 200.0, None, 0.0)
    eight = Blank("strip-8", "tread", 8.0, strip(200.0, 40.0).outline)
    five = Blank("strip-5", "tread", 5.0, strip(200.0, 40.0).outline)
    wanted = [Wanted(disc(50.0), 2), Wanted(eight, 1), Wanted(five, 1)]
    done = nest(wanted, [plate(300.0, 200.0), thick], cutting())
    assert {lay.sheet.thickness_mm: lay.counts for lay in done.layouts} == {
        6.0: {"disc": 2},
        8.0: {"strip-8": 1},
    }
    assert done.unplaced == (Wanted(five, 1),)


def test_a_disc_goes_in_the_mouth_of_a_whole_cone_where_it_must() -> None:
    """One plate that just holds the cone; the disc has no other place than inside it."""
    cone, inner = sector(40.0, 55.0, 335.0), disc(64.0)
    only = plate(131.0, 131.0, count=1)
    done = nest([Wanted(inner, 1), Wanted(cone, 1)], [only], cutting())
    assert done.unplaced == ()
    (layout,) = done.layouts
    assert layout.counts == {"disc": 1, "flange": 1}
    assert_laid_well(done, 6.0, 10.0)


def test_too_large_a_part_is_left_over_and_the_others_are_laid() -> None:
    wanted = [Wanted(disc(181.0, "large"), 2), Wanted(disc(180.0), 2)]
    done = nest(wanted, [plate(200.0, 200.0)], cutting())
    assert placed(done) == {"disc": 2}
    assert done.unplaced == (Wanted(wanted[0].blank, 2),)


@pytest.mark.parametrize(("length_mm", "width_mm"), [(320.0, 60.0), (60.0, 320.0)])
def test_a_strip_just_as_long_as_plate_less_margins_is_laid(
    length_mm: float, width_mm: float
) -> None:
    done = nest([Wanted(strip(300.0, 40.0), 1)], [plate(length_mm, width_mm)], cutting())
    assert placed(done) == {"tread": 1}
    short = [plate(length_mm - 0.01, width_mm - 0.01)]
    assert not nest([Wanted(strip(300.0, 40.0), 1)], short, cutting()).layouts


def test_two_strips_and_their_spacing_fill_a_plate_just_as_wide() -> None:
    """2 x 40 + 6 + 2 x 10 = 106."""
    done = nest([Wanted(strip(300.0, 40.0), 2)], [plate(320.0, 106.0)], cutting())
    assert [lay.repeat for lay in done.layouts] == [1]


def test_offcuts_are_used_first_and_once_each() -> None:
    stock = [plate(400.0, 400.0, price=1.0), *OFFCUTS]
    done = nest([Wanted(disc(60.0), 14)], stock, cutting())
    assert {o.name for o in OFFCUTS} <= set(used(done))
    assert all(used(done)[o.name] == 1 for o in OFFCUTS)
    assert placed(done) == {"disc": 14}
    few = nest([Wanted(disc(60.0), 1)], stock, cutting())
    assert set(used(few)) < {o.name for o in OFFCUTS}


def test_the_same_plate_is_told_once_with_its_number() -> None:
    """One 180 mm disc to a plate of 200: seven alike."""
    done = nest([Wanted(disc(180.0), 7)], [plate(200.0, 200.0)], cutting())
    assert [(lay.repeat, len(lay.placements)) for lay in done.layouts] == [(7, 1)]


def test_limited_plates_are_not_exceeded_and_the_rest_is_left_over() -> None:
    done = nest([Wanted(disc(180.0), 7)], [plate(200.0, 200.0, count=3)], cutting())
    assert used(done) == {"200 x 200": 3}
    assert [w.count for w in done.unplaced] == [4]


@pytest.mark.parametrize(
    ("small", "large", "chosen"),
    [
        (30.0, 50.0, {"large": 1}),  # two discs on one large plate, or on two small ones
        (20.0, 50.0, {"small": 2}),
        (0.0, 0.0, {"large": 1}),  # no prices: less plate
    ],
)
def test_the_cheaper_size_is_taken(small: float, large: float, chosen: dict[str, int]) -> None:
    stock = [
        plate(200.0, 200.0, name="small", price=small),
        # 2 mm, a grid step and the room of facets, more than 2 x 180 + 6 + 2 x 10
        plate(388.0, 200.0, name="large", price=large),
    ]
    done = nest([Wanted(disc(180.0), 2)], stock, cutting())
    assert used(done) == chosen


def test_the_rest_goes_on_a_cheap_small_plate() -> None:
    """Five discs: two large plates of two, and the last on a small one."""
    stock = [
        plate(200.0, 200.0, name="small", price=30.0),
        plate(388.0, 200.0, name="large", price=50.0),
    ]
    done = nest([Wanted(disc(180.0), 5)], stock, cutting())
    assert used(done) == {"large": 2, "small": 1}


def test_prices_count_only_where_every_size_has_one() -> None:
    """One disc goes on the small plate of unknown price, not on a dear plate 25 times as large:
    square millimetres are not compared with money."""
    stock = [
        plate(300.0, 300.0, name="small", price=0.0),
        plate(1500.0, 1500.0, name="large", price=300.0),
    ]
    done = nest([Wanted(disc(180.0), 1)], stock, cutting())
    assert used(done) == {"small": 1}


def test_two_entries_of_one_size_are_counted_apart() -> None:
    """Two plates in the shop and three more to buy, same size: five discs go on five plates."""
    tables = [
        Stock(thickness_mm=6.0, width_mm=200.0, length_mm=200.0, count=2, price=10.0),
        Stock(thickness_mm=6.0, width_mm=200.0, length_mm=200.0, count=3, price=12.0),
    ]
    done = nest([Wanted(disc(180.0), 5)], sheets_of(tables, []), cutting())
    assert done.unplaced == ()
    assert sorted((lay.sheet.price, lay.repeat) for lay in done.layouts) == [(10.0, 2), (12.0, 3)]


def test_layouts_know_their_scrap() -> None:
    done = nest([Wanted(strip(300.0, 40.0), 1)], [plate(320.0, 60.0)], cutting())
    (layout,) = done.layouts
    assert layout.parts_area_mm2 == pytest.approx(12000)
    assert layout.scrap_percent == pytest.approx(37.5)  # 1 - 12000 / 19200
