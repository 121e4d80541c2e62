"""Filling one plate: first free spots, pockets, whole kits."""

from __future__ import annotations

import itertools
import random
from collections import Counter

import pytest

from platewheel.nesting.geometry.facets import TOLERANCE_MM
from platewheel.nesting.quick.fill import Plate
from platewheel.nesting.quick.no_fit import NoFit, variants
from platewheel.nesting.quick.pattern import fill_kits, fill_most, top_up
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.verify.verify import faults
from platewheel.parts.geometry.blank import Blank
from tests.nesting.plates import assert_sound, disc, offcut, plate, sector, strip, tapered

SPACING, MARGIN = 6.0, 10.0
DISC, STRIP, THIRD = disc(60.0), strip(150.0, 20.0), sector(60.0, 75.0, 110.0)


def fits(step_mm: float = 1.0) -> NoFit:
    return NoFit(SPACING, step_mm)


def counts(done: Plate) -> Counter[str]:
    return Counter(p.blank.name for p in done.placements)


def assert_good(done: Plate) -> None:
    layout = Layout(done.sheet, tuple(done.placements))
    assert not list(faults(layout, SPACING, MARGIN))
    assert_sound(layout, SPACING, MARGIN)


def test_strips_go_from_the_left_as_close_as_allowed() -> None:
    """Plate one strip high: 3 x 150 + 2 x 6 + 2 x 10 = 482 mm long, exactly."""
    done = Plate(plate(482.0, 40.0), [STRIP], MARGIN, fits())
    assert [done.lay(STRIP) for _ in range(4)] == [True] * 3 + [False]
    assert [p.x_mm for p in done.placements] == pytest.approx([10, 166, 322])
    assert_good(done)


def test_discs_go_from_the_left_with_no_more_lost_than_grid_and_facets() -> None:
    """Discs one high, 66 mm apart at best: a step of the grid and two facets more at worst."""
    done = Plate(plate(1000.0, 80.0), [DISC], MARGIN, fits())
    while done.lay(DISC):
        pass
    xs = [p.x_mm for p in done.placements]
    assert xs[0] == pytest.approx(40)
    pitches = [b - a for a, b in itertools.pairwise(xs)]
    assert min(pitches) >= 66
    assert max(pitches) < 66 + 1 + 2 * TOLERANCE_MM
    assert {p.y_mm for p in done.placements} == {40.0}
    assert_good(done)


@pytest.mark.parametrize("short_mm", [0.0, 0.01])
def test_a_strip_as_long_as_the_plate_less_its_margins_is_laid(short_mm: float) -> None:
    done = Plate(plate(170.0 - short_mm, 40.0 - short_mm), [STRIP], MARGIN, fits())
    assert done.lay(STRIP) == (short_mm == 0.0)


def test_a_strip_is_turned_where_it_goes_only_so() -> None:
    done = Plate(plate(40.0, 170.0), [STRIP], MARGIN, fits())
    assert done.lay(STRIP)
    assert done.placements[0].rotation_deg == 90
    assert_good(done)


@pytest.mark.parametrize(
    ("blank", "turns"),
    [
        (DISC, 1),
        (STRIP, 2),
        (THIRD, 12),
        (tapered(200.0, 30.0, 900.0), 4),
    ],
)
def test_turns_tried(blank: Blank, turns: int) -> None:
    found = [variant.rotation_deg for variant in variants(blank)]
    assert found == [i * (180 // 2 if turns == 2 else 360 // turns) for i in range(turns)]


def test_disc_goes_inside_the_mouth_of_a_cone_where_there_is_no_other_room() -> None:
    """The plate just holds the cone: 2 x 55 + 2 x 10 = 130 mm square."""
    cone, inner = sector(40.0, 55.0, 330.0), disc(64.0, "inner")
    done = Plate(plate(131.0, 131.0), [cone, inner], MARGIN, fits())
    assert done.lay(cone)
    assert done.lay(inner)
    one, other = done.placements
    assert (one.x_mm, one.y_mm) == pytest.approx((other.x_mm, other.y_mm), abs=2.1)
    assert_good(done)
    assert not done.lay(inner)


def test_offcut_notch_and_hole_are_kept_clear() -> None:
    sheet = offcut(
        "l",
        [(0.0, 0.0), (300.0, 0.0), (300.0, 100.0), (160.0, 100.0), (160.0, 220.0), (0.0, 220.0)],
        (((60.0, 60.0), (100.0, 60.0), (80.0, 110.0)),),
    )
    done = Plate(sheet, [DISC], MARGIN, fits())
    laid = sum(done.lay(DISC) for _ in range(20))
    assert 4 <= laid < 20
    assert_good(done)


def test_copy_is_filled_apart_from_its_original() -> None:
    done = Plate(plate(300.0, 200.0), [DISC], MARGIN, fits())
    done.lay(DISC)
    twin = done.copy()
    twin.lay(DISC)
    assert (len(done.placements), len(twin.placements)) == (1, 2)
    done.lay(DISC)
    assert done.placements == twin.placements


def test_put_lays_where_another_plate_had_it() -> None:
    blanks = [THIRD, DISC, strip(97.3, 21.7)]
    one = Plate(plate(300.0, 200.0), blanks, MARGIN, fits())
    for blank in blanks * 2:
        one.lay(blank)
    other = Plate(plate(300.0, 200.0), blanks, MARGIN, fits())
    for placement in one.placements:
        other.put(placement)
    assert other.placements == one.placements
    assert len(one.placements) >= 4
    for blank in blanks:  # and what is still free is the same
        assert one.lay(blank) == other.lay(blank)
    assert other.placements == one.placements


def test_whole_kits_only() -> None:
    """Kit of two discs and a strip; the plate's count of each is a multiple of the kit's."""
    kit = ((DISC, 2), (STRIP, 1))
    held, done = fill_kits(plate(400.0, 250.0), kit, 100, MARGIN, fits(), 10, random.Random(0))
    assert held >= 3
    assert counts(done) == {"disc": 2 * held, "tread": held}
    assert_good(done)


def test_no_more_kits_than_asked() -> None:
    kit = ((DISC, 2), (STRIP, 1))
    held, done = fill_kits(plate(400.0, 250.0), kit, 2, MARGIN, fits(), 10, random.Random(0))
    assert held == 2
    assert counts(done) == {"disc": 4, "tread": 2}


def test_a_kit_larger_than_the_plate_is_not_laid_in_part() -> None:
    kit = ((DISC, 9), (STRIP, 1))
    held, done = fill_kits(plate(180.0, 90.0), kit, 5, MARGIN, fits(), 4, random.Random(0))
    assert held == 0
    assert not done.placements


def test_fill_most_takes_all_where_all_go_and_never_more() -> None:
    wanted = [(DISC, 3), (STRIP, 2)]
    done = fill_most(plate(400.0, 250.0), wanted, MARGIN, fits(), 5, random.Random(0))
    assert counts(done) == {"disc": 3, "tread": 2}
    assert_good(done)


def test_fill_most_goes_on_with_small_parts_where_large_ones_no_longer_go() -> None:
    """Room for one 100 mm disc and a row of 20 mm ones; a 300 mm disc goes nowhere."""
    huge, large, small = disc(300.0, "huge"), disc(100.0, "large"), disc(20.0, "small")
    wanted = [(huge, 1), (large, 2), (small, 3)]
    done = fill_most(plate(150.0, 120.0), wanted, MARGIN, fits(), 6, random.Random(0))
    assert counts(done) == {"large": 1, "small": 3}
    assert_good(done)


def test_top_up_stops_at_the_counts_given() -> None:
    done = Plate(plate(400.0, 250.0), [DISC, STRIP], MARGIN, fits())
    top_up(done, [(DISC, 2), (STRIP, 1)])
    assert counts(done) == {"disc": 2, "tread": 1}
    top_up(done, [(DISC, 1000)])
    assert 2 < counts(done)["disc"] < 1000
    assert_good(done)
