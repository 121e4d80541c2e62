"""The most whole kits on too few plates: counts that areas and hand packing give, nothing cut
twice, and what is cut once laid first."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.search.most_kits import Kits, laid_of, most_kits, trimmed
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.layout import Layout, Sheet, Wanted
from platewheel.parts.geometry.blank import Blank
from tests.nesting.plates import assert_sound, cutting, disc, offcut, plate, strip

SPACING, MARGIN = 5.0, 8.0
CUT = cutting(SPACING, MARGIN)


def silent(text: str) -> None:
    pass


def found(
    kit: list[Wanted], once: list[Wanted], wanted: int, stock: list[Sheet]
) -> tuple[Kits, Kits]:
    """From a nest of all that failed, and from nothing."""
    every = [*(Wanted(w.blank, w.count * wanted) for w in kit), *once]
    done = nest(every, stock, CUT, effort="quick")
    assert done.unplaced
    looks = [
        most_kits(kit, once, wanted, known, stock, CUT, 0, silent, "quick")
        for known in (done.layouts, ())
    ]
    return looks[0], looks[1]


def assert_kits(kits: Kits, kit: list[Wanted], once: list[Wanted]) -> None:
    counts = Counter({w.blank.name: w.count * kits.count for w in kit})
    counts.update({w.blank.name: w.count for w in once})
    assert laid_of(kits.layouts) == +counts
    for layout in kits.layouts:
        assert_sound(layout, SPACING, MARGIN)


def test_strips_fill_two_plates_to_the_last() -> None:
    """Rows of 22 mm and 5 between: 4 go on 124 - 2 x 8 mm, and no fifth by area either."""
    kit = [Wanted(strip(180.0, 22.0), 2)]
    stock = [plate(200.0, 124.0, count=2)]
    for kits in found(kit, [], 7, stock):
        assert kits.count == 4  # 8 strips
        assert_kits(kits, kit, [])


def test_the_scarcer_blank_of_a_kit_sets_the_number() -> None:
    """A plate holds two of the wide strips, whatever else: three kits find one plate of them."""
    kit = [Wanted(strip(180.0, 60.0, "wide"), 1), Wanted(disc(20.0), 1)]
    for kits in found(kit, [], 3, [plate(200.0, 190.0, count=1)]):
        assert kits.count == 2
        assert_kits(kits, kit, [])


def test_what_is_cut_once_is_laid_first() -> None:
    kit = [Wanted(strip(180.0, 22.0), 2)]
    once = [Wanted(strip(180.0, 22.0, "own"), 1)]
    for kits in found(kit, once, 4, [plate(200.0, 124.0, count=2)]):
        assert kits.count == 3  # 6 of the 7 places that are left
        assert_kits(kits, kit, once)


def test_without_room_for_what_is_cut_once_there_is_no_kit() -> None:
    kit, once = [Wanted(disc(20.0), 1)], [Wanted(strip(400.0, 22.0, "own"), 1)]
    stock = [plate(200.0, 124.0, count=1)]
    assert most_kits(kit, once, 3, (), stock, CUT, 0, silent, "quick") == Kits(0, ())


@settings(max_examples=12, deadline=None)
@given(
    width=st.sampled_from([24.0, 51.3, 70.0]),
    length=st.sampled_from([75.5, 140.0]),
    each=st.integers(1, 3),
    plates=st.integers(1, 3),
    with_offcut=st.booleans(),
)
def test_kits_are_whole_sound_and_one_more_finds_no_room(
    width: float, length: float, each: int, plates: int, with_offcut: bool
) -> None:
    kit = [Wanted(disc(width), each), Wanted(strip(length, 22.5), 1)]
    stock: list[Sheet] = [plate(200.0, 150.0, count=plates)]
    if with_offcut:
        stock.append(offcut("corner", [(0, 0), (160, 0), (160, 60), (60, 60), (60, 120), (0, 120)]))
    wanted = 60
    kits = most_kits(kit, [], wanted, (), stock, CUT, 0, silent, "quick")
    assert kits.count < wanted
    assert_kits(kits, kit, [])
    for sheet in stock:
        taken = sum(lay.repeat for lay in kits.layouts if lay.sheet is sheet)
        assert taken <= (sheet.count or 0)
    more = [Wanted(w.blank, w.count * (kits.count + 1)) for w in kit]
    assert nest(more, stock, CUT, effort="quick").unplaced
    assert kits.nests <= 4 * kits.count.bit_length() + 6


@pytest.mark.parametrize("kept", [0, 1, 5, 6, 11])
def test_trimming_leaves_just_what_is_counted(kept: int) -> None:
    blank: Blank = disc(40.0)
    done = nest([Wanted(blank, 11)], [plate(120.0, 160.0)], CUT, effort="quick")
    assert sum(layout.repeat for layout in done.layouts) > 1
    less: tuple[Layout, ...] = trimmed(done.layouts, {"disc": kept})
    assert laid_of(less)["disc"] == kept
    assert all(layout.placements for layout in less)
