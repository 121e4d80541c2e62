"""Steady curving against the balance of forces, written out wheel by wheel."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from platewheel.parts.loads.curving import Curving, curving

LENGTHS = st.floats(200, 3000)


def forces(found: Curving, base: float, axles: int, spacing: float, loose: bool) -> list[float]:
    """What is left of lateral force and of moment about the leading axle, friction x load = 1.

    Every wheel slides square to its arm from the friction centre; the leading outer flange is
    pushed inwards, the trailing inner one outwards.
    """
    across = found.inner_push - found.push
    turning = found.inner_push * base
    for i in range(axles):
        place = base * i / (axles - 1)
        for side in (1.0, -1.0):
            arm = (found.friction_centre_mm - place, 0.0 if loose else side * spacing / 2)
            length = math.hypot(*arm)
            outwards, along = arm[0] / length, -arm[1] / length
            across += outwards
            turning += outwards * place + along * side * spacing / 2
    return [across, turning]


@given(LENGTHS, st.integers(2, 5), st.floats(100, 2000), st.floats(0, 60), st.floats(1e3, 1e6))
def test_forces_balance(base: float, axles: int, spacing: float, travel: float, r: float) -> None:
    for loose in (False, True):
        found = curving(base, axles, spacing, travel, r, loose=loose)
        assume(
            all(abs(found.friction_centre_mm - base * i / (axles - 1)) > 1e-6 for i in range(axles))
        )
        left = forces(found, base, axles, spacing, loose)
        if found.inner_push > 0:  # both flanges: lateral force and moment
            assert left[0] == pytest.approx(0.0, abs=1e-6)
            assert left[1] == pytest.approx(0.0, abs=1e-5 * base)
        else:  # free: the flange's push balances the moment about the friction centre
            moment = left[1] - found.friction_centre_mm * left[0]
            assert moment == pytest.approx(0.0, abs=2e-3 * base)


@given(LENGTHS, st.floats(100, 2000), st.floats(1e3, 1e6))
def test_free_frames_are_in_balance_across(base: float, spacing: float, r: float) -> None:
    """Where the push is least its lateral force balances as well: Heumann's place is the true one
    (the minimum of moment / q has moment = q x lateral force)."""
    found = curving(base, 2, spacing, 1e9, r, loose=False)
    across, _ = forces(found, base, 2, spacing, False)
    assert across == pytest.approx(0.0, abs=1e-3)


def test_examples_by_hand() -> None:
    """Rails 0.64 m apart; wheelbase m, radius m -> yaw mrad, push, trailing push over friction x
    load, flanges both touching with 10 mm between them; and free. By hand from Porter's and
    Heumann's equations."""
    for base, radius, yaw, push, inner in (
        (0.6, 10, 47, 3.24, 2.36), (0.8, 10, 53, 2.73, 2.33), (0.8, 20, 33, 2.87, 1.93),
        (1.0, 10, 60, 2.47, 2.26),
    ):  # fmt: skip
        found = curving(1000 * base, 2, 640.0, 10.0, 1000 * radius, loose=False)
        assert 1000 * found.attack == pytest.approx(yaw, abs=0.6)
        assert (found.push, found.inner_push) == pytest.approx((push, inner), abs=0.006)
    for base, push, centre in ((0.6, 3.09, 0.85), (0.8, 2.85, 0.97), (1.0, 2.69, 1.13)):
        found = curving(1000 * base, 2, 640.0, 1e9, 1e6, loose=False)
        assert found.push == pytest.approx(push, abs=0.006)
        assert found.friction_centre_mm == pytest.approx(1000 * centre, abs=6)
        assert found.inner_push == 0.0


@pytest.mark.parametrize("travel", [2.0, 1e9])
def test_loose_wheels_push_twice_their_friction(travel: float) -> None:
    found = curving(800.0, 2, 640.0, travel, 10_000.0, loose=True)
    assert (found.push, found.across, found.net) == pytest.approx((2.0, 1.0, 1.0), rel=1e-6)


def test_more_play_turns_the_frame_further_until_it_is_free() -> None:
    found = [curving(800.0, 2, 640.0, s, 12_000.0, loose=False) for s in (0.0, 5.0, 10.0, 1e3)]
    centres = [one.friction_centre_mm for one in found]
    assert centres[:3] == pytest.approx([400.0, 475.0, 550.0])
    assert centres[3] > 800.0
    assert [one.inner_push > 0 for one in found] == [True, True, True, False]


def test_one_axle_slides_across_as_it_likes() -> None:
    found = curving(800.0, 1, 640.0, 5.0, 12_000.0, loose=False)
    assert (found.push, found.across, found.net) == (2.0, 1.0, 1.0)


def test_a_frame_far_shorter_than_its_gauge_still_has_a_least_push() -> None:
    found = curving(50.0, 2, 1500.0, 20.0, 100_000.0, loose=False)
    assert found.friction_centre_mm > 50.0
    assert found.inner_push == 0.0  # the leading flange alone guides it
