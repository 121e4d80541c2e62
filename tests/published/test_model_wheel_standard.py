"""Sums of the 7.5 in gauge wheel standard (inches; documentine.com), through our own formulas.

Back-to-back 7.125; flange 0.156 wide when new, 0.117 when worn; flangeway from 0.257; wheel
check from 7.242; wheel gauge from 7.359.
"""

from __future__ import annotations

import pytest

from platewheel.parts.checks.running.crossings import check_gauge_mm, check_span_mm, wheel_check_mm
from platewheel.parts.checks.running.play import (
    LEAST_BEARING_SHARE,
    free_play_mm,
    wheel_gauge_mm,
)
from platewheel.parts.checks.running.rough_track import least_depth_mm
from platewheel.parts.setting.usual_clearance import least_play_mm

INCH = 25.4
BACK, NEW, WORN, FLANGEWAY = 7.125, 0.156, 0.117, 0.257


def test_wheel_check() -> None:
    """Printed: 7.242, back-to-back and the worn flange."""
    assert wheel_check_mm(BACK * INCH, WORN * INCH) / INCH == pytest.approx(7.242, abs=1e-9)


def test_wheel_gauge() -> None:
    """Printed: 7.359, back-to-back and two worn flanges."""
    assert wheel_gauge_mm(BACK * INCH, WORN * INCH) / INCH == pytest.approx(7.359, abs=1e-9)


def test_play_of_new_wheels() -> None:
    """7.5 - (7.125 + 2 x 0.156) = 0.063; what IBLS leaves is nearly that."""
    play = free_play_mm(7.5 * INCH, BACK * INCH, NEW * INCH) / INCH
    assert play == pytest.approx(0.063, abs=1e-9)
    assert play * INCH == pytest.approx(least_play_mm(7.5 * INCH), rel=0.02)


def test_span_passes_between_the_backs() -> None:
    """7.5 - 2 x 0.257 = 6.986, below 7.125."""
    span = check_span_mm(7.5 * INCH, FLANGEWAY * INCH, FLANGEWAY * INCH) / INCH
    assert span == pytest.approx(6.986, abs=1e-9)
    assert span < BACK


def test_worn_wheels_clear_the_nose_at_the_least_flangeway() -> None:
    """Printed flangeway 0.257 and wheel check 7.242: 7.5 - 0.257 = 7.243 leaves 0.001."""
    room = check_gauge_mm(7.5 * INCH, FLANGEWAY * INCH) - wheel_check_mm(BACK * INCH, WORN * INCH)
    assert room / INCH == pytest.approx(0.001, abs=1e-9)


def test_least_depth_at_this_gauge_is_the_printed_one() -> None:
    """Printed: flange height 0.187 or more when new."""
    assert least_depth_mm(7.5 * INCH) / INCH == pytest.approx(0.187)
    assert 0 < LEAST_BEARING_SHARE <= 1
