"""Small parts in the holes of others: all told, none lost, spacing kept inside the hole."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.cut_order import cut_order
from platewheel.nesting.quick.part_in_part import guests_of, with_guests
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.layout import Layout, Placement, Wanted
from platewheel.nesting.verify.verify import faults
from platewheel.parts.geometry.outline import Circle
from tests.nesting.plates import assert_sound, cutting, disc, plate, strip

RING = disc(200.0, "ring", (Circle((10.0, 0.0), 60.0), Circle((-75.0, 0.0), 12.0)))


def laid(layouts: list[Layout] | tuple[Layout, ...]) -> Counter[str]:
    total: Counter[str] = Counter()
    for layout in layouts:
        for name, count in layout.counts.items():
            total[name] += count * layout.repeat
    return total


def test_the_largest_blank_that_a_hole_holds_lies_in_its_middle() -> None:
    """A disc of 108 lies in a hole of 120 with 6 all round, one of 109 does not."""
    wanted = [Wanted(RING, 3), Wanted(disc(107.9, "cap"), 2), Wanted(disc(109.0, "lid"), 5)]
    left, guests = guests_of(wanted, 6.0)
    assert [(w.blank.name, w.count) for w in left] == [("ring", 3), ("lid", 5)]
    (one,) = guests
    assert (one.holder, one.hole, one.count) == ("ring", 0, 2)
    assert one.parts == (Placement(wanted[1].blank, 10.0, 0.0, 0.0),)


def test_a_part_kept_to_the_rolling_direction_goes_in_no_hole_that_turns() -> None:
    along = Wanted(strip(60.0, 20.0), 4, "half")
    assert guests_of([Wanted(RING, 2), along], 6.0)[1] == []
    found = guests_of([Wanted(RING, 2, "half"), along], 6.0)[1]
    assert sum(one.count * one.counts["tread"] for one in found) == 4
    assert {part.rotation_deg % 180 for one in found for part in one.parts} == {0}


def test_a_repeated_plate_is_split_where_fewer_guests_are_wanted() -> None:
    sheet = plate(440.0, 230.0)
    rings = (Placement(RING, 110.0, 110.0, 0.0), Placement(RING, 320.0, 110.0, 90.0))
    _, guests = guests_of([Wanted(RING, 6), Wanted(disc(80.0, "cap"), 4)], 6.0)
    done, missing = with_guests([Layout(sheet, rings, 3)], guests)
    assert missing == []
    assert [(lay.repeat, lay.counts["cap"]) for lay in done] == [(2, 1), (1, 2)]
    for layout in done:
        assert list(faults(layout, 6.0, 10.0)) == []


def test_guests_without_a_holder_are_told() -> None:
    _, guests = guests_of([Wanted(RING, 2), Wanted(disc(80.0, "cap"), 2)], 6.0)
    done, missing = with_guests([], guests)
    assert done == []
    assert [(w.blank.name, w.count) for w in missing] == [("cap", 2)]


def test_holes_that_the_larger_blank_leaves_take_the_next() -> None:
    """The cap and a strip beside it; the other strip has a hole for itself."""
    wanted = [Wanted(RING, 4), Wanted(disc(50.0, "cap"), 1), Wanted(strip(90.0, 20.0), 2)]
    left, guests = guests_of(wanted, 6.0)
    assert [(w.blank.name, w.count) for w in left] == [("ring", 4)]
    assert [(dict(g.counts), g.hole, g.count) for g in guests] == [
        ({"cap": 1, "tread": 1}, 0, 1),
        ({"tread": 1}, 0, 1),
    ]
    done = nest(wanted, [plate(460.0, 440.0)], cutting(), effort="quick")
    assert len(done.layouts) == 1
    assert list(faults(done.layouts[0], 6.0, 10.0)) == []


def test_as_many_plates_as_need_be_are_told_apart() -> None:
    """A ring a plate, five plates, three caps: three plates with one, two without."""
    sheet = plate(230.0, 230.0)
    _, guests = guests_of([Wanted(RING, 5), Wanted(disc(80.0, "cap"), 3)], 6.0)
    done, missing = with_guests([Layout(sheet, (Placement(RING, 110.0, 110.0, 0.0),), 5)], guests)
    assert missing == []
    assert sorted((lay.counts["cap"], lay.repeat) for lay in done) == [(0, 2), (1, 3)]


BEST = {2: 2.0, 3: 2.1547005, 4: 2.4142136, 5: 2.7013016, 7: 3.0}


@pytest.mark.parametrize(("discs", "ratio"), BEST.items())
def test_a_round_hole_holds_as_many_discs_as_the_best_known_packing(
    discs: int, ratio: float
) -> None:
    """Radius of the circle over that of so many like ones in it: Graham et al., Discrete
    Mathematics 181, 1998 (from memory)."""
    radius, spacing = 20.0, 6.0
    hole = ratio * (radius + spacing / 2) + spacing / 2
    fewer = 5 if discs == 7 else discs - 1  # six need as much room as seven
    for more, held in ((0.01, discs), (-0.01, fewer)):
        ring = disc(2 * hole + 60, "ring", (Circle((5.0, -3.0), hole + more),))
        _, guests = guests_of([Wanted(ring, 1), Wanted(disc(2 * radius, "cap"), 20)], spacing)
        (one,) = guests
        assert one.counts["cap"] == held
        alone = Layout(plate(900.0, 900.0), (Placement(ring, 300.0, 300.0, 33.0),))
        (done,), _ = with_guests([alone], guests)
        assert list(faults(done, spacing, 10.0)) == []
        assert_sound(done, spacing, 10.0)


def test_guests_are_cut_before_their_host() -> None:
    _, guests = guests_of([Wanted(RING, 1), Wanted(disc(30.0, "cap"), 9)], 6.0)
    done, _ = with_guests(
        [Layout(plate(300.0, 300.0), (Placement(RING, 110.0, 110.0, 20.0),))], guests
    )
    names = [placement.blank.name for placement in cut_order(done[0], cutting())]
    assert names.count("cap") > 3
    assert names[-1] == "ring"


@settings(max_examples=12, deadline=None, derandomize=True)
@given(
    st.integers(1, 7), st.integers(0, 9), st.integers(0, 3), st.sampled_from([50.0, 107.0, 119.0])
)
def test_nothing_is_lost_and_nothing_lies_too_near(
    rings: int, caps: int, strips: int, diameter: float
) -> None:
    wanted = [
        Wanted(RING, rings),
        Wanted(disc(diameter, "cap"), caps),
        Wanted(strip(90.0, 20.0), strips),
    ]
    done = nest(wanted, [plate(460.0, 440.0)], cutting(), effort="quick")
    assert done.unplaced == ()
    assert laid(done.layouts) == Counter({w.blank.name: w.count for w in wanted if w.count})
    for layout in done.layouts:
        assert list(faults(layout, 6.0, 10.0)) == []
    if diameter < 110.0 and caps + strips <= rings:  # a hole for each: no plate but for rings
        bare = nest([wanted[0]], [plate(460.0, 440.0)], cutting(), effort="quick")
        assert sum(lay.repeat for lay in done.layouts) == sum(lay.repeat for lay in bare.layouts)
