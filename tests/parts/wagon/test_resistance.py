"""Resistance: what must hold of the formula, and curves and slopes a second way."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.parts.wagon.resistance import (
    PLAIN,
    ROLLING,
    curve_factor,
    force_n,
    gradient_share,
    least_factor,
    running_factor,
    setting_curve_factor,
)
from tests.parts.checks.running.settings import running_setting


@settings(max_examples=25)
@given(tread=st.floats(100, 1000), share=st.floats(0.02, 0.5))
def test_bigger_wheels_and_thinner_journals_roll_easier(tread: float, share: float) -> None:
    journal = share * tread
    for bearing in (PLAIN, ROLLING):
        here = running_factor(tread, journal, bearing)
        assert running_factor(1.1 * tread, journal, bearing) < here
        assert running_factor(tread, 1.1 * journal, bearing) > here
        assert least_factor(tread, journal, bearing) < here
    assert running_factor(tread, journal, ROLLING) < running_factor(tread, journal, PLAIN)


def test_force_is_the_work_of_a_metre() -> None:
    """Second way: lifting work and rubbing work along a 3-4-5 slope, 75 %."""
    assert force_n(100, 0.01, 75) == pytest.approx(981 * (3 / 5 + 0.01 * 4 / 5))
    assert gradient_share(75) == pytest.approx(0.6)


def test_curve_of_loose_fixed_and_single_axles() -> None:
    """600 mm wheelbase, spacing 625 mm, 10 m radius, friction 0.5, no taper."""
    fixed = setting_curve_factor(running_setting())
    loose = setting_curve_factor(running_setting(wheels_on_axle="loose"))
    assert loose == pytest.approx(0.5 * 0.3 / 10)
    assert fixed == pytest.approx(0.5 * (0.3 + 0.3125) / 10)
    assert setting_curve_factor(running_setting(wheels_on_axle="loose", axles=1)) == 0


def test_curve_is_of_the_size_of_protopapadakis() -> None:
    """mu (0.72 s + 0.47 L) / R, from memory: within a quarter for common wagons."""
    for spacing, base in ((625, 600), (625, 900), (1500, 3000)):
        theirs = 0.25 * (0.72 * spacing + 0.47 * base) / 20000
        ours = curve_factor(0.25, spacing / 40000, base, 20)
        assert 0.75 < ours / theirs < 1.25
