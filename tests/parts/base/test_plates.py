"""Plates as they are sold, metric and in inches (25.4 mm, the yard agreement of 1959)."""

from __future__ import annotations

import pytest

from platewheel.parts.base.plates import bar_width_from, plate_from, thicker_plates


@pytest.mark.parametrize(
    ("least", "like", "sold"),
    [(6.2, 6.0, 8.0), (6.0, 6.0, 6.0), (7.1, 6.35, 25.4 * 5 / 16), (60.0, 6.0, 60.0)],
)
def test_the_thinnest_that_is_thick_enough(least: float, like: float, sold: float) -> None:
    assert plate_from(least, like) == pytest.approx(sold, abs=1e-4)


def test_thicker_ones() -> None:
    assert thicker_plates(6.0)[:3] == (8.0, 10.0, 12.0)
    assert thicker_plates(6.35)[:2] == pytest.approx((7.9375, 9.525))
    assert thicker_plates(12.7)[0] == pytest.approx(15.875)


def test_flat_bar_is_sold_in_steps() -> None:
    """2 1/4 in are 57.15 mm: the next in quarters of an inch is 2 1/2, no 60."""
    assert bar_width_from(60.3, 60.0) == 70.0
    assert bar_width_from(60.0, 60.0) == 60.0
    assert bar_width_from(57.5, 57.15) == pytest.approx(63.5)
    assert bar_width_from(400.0, 60.0) == 400.0
