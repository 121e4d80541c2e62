"""Limit deviations of thermal cuts: ISO 9013 as tabulated by a cutting shop (modulusmetal.com)."""

from __future__ import annotations

import pytest

from platewheel.parts.checks.making.tolerance import limit_deviation_mm


@pytest.mark.parametrize(
    ("tolerance_class", "thickness", "size", "deviation"),
    [
        (1, 6, 20, 0.25),
        (1, 6, 300, 0.30),
        (1, 8, 900, 0.45),
        (1, 12, 1500, 0.65),
        (2, 6, 100, 0.9),
        (2, 6, 300, 1.1),
        (2, 6, 922, 1.2),
        (2, 10, 200, 1.4),
        (2, 15, 2000, 3.0),
    ],
)
def test_limits(tolerance_class: int, thickness: float, size: float, deviation: float) -> None:
    assert limit_deviation_mm(tolerance_class, thickness, size) == deviation


@pytest.mark.parametrize(("thickness", "size"), [(3, 100), (16, 100), (6, 9), (6, 2001)])
def test_nothing_outside_the_table(thickness: float, size: float) -> None:
    assert limit_deviation_mm(2, thickness, size) is None
