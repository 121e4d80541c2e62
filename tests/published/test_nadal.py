"""Nadal's limit against outside sources.

- Formula: Marquis & Greif, JRC2011-56064 (US DOT, 2011); TCRP Report 71 vol. 5, figure 2.1.
- 70 degrees and 0.36 give 1.2: criterion of EN 14363 at low speed (from memory).
- The table: worked out apart from this program, from the same formula.
"""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.running.climb import nadal_limit

FRICTIONS = (0.2, 0.25, 0.3, 0.36, 0.4, 0.5)
TABLE = {
    60: (1.138, 1.034, 0.942, 0.845, 0.787, 0.660),
    63: (1.266, 1.149, 1.046, 0.939, 0.875, 0.738),
    65: (1.361, 1.233, 1.122, 1.007, 0.939, 0.794),
    68: (1.522, 1.375, 1.248, 1.118, 1.043, 0.883),
    70: (1.644, 1.481, 1.342, 1.200, 1.118, 0.947),
    72: (1.781, 1.598, 1.444, 1.289, 1.200, 1.015),
    75: (2.022, 1.801, 1.619, 1.439, 1.337, 1.128),
}
CELLS = [
    (deg, friction, limit)
    for deg, row in TABLE.items()
    for friction, limit in zip(FRICTIONS, row, strict=True)
]


def test_low_speed_criterion() -> None:
    """EN 14363 (from memory): 1.2 for a flange of 70 degrees at friction 0.36."""
    assert nadal_limit(math.radians(70), 0.36) == pytest.approx(1.20, abs=0.0005)


@pytest.mark.parametrize(("deg", "friction", "limit"), CELLS)
def test_table(deg: int, friction: float, limit: float) -> None:
    """The family of curves of TCRP Report 71 vol. 5, figure 2.1, as numbers."""
    assert nadal_limit(math.radians(deg), friction) == pytest.approx(limit, abs=0.001)


@pytest.mark.parametrize("friction", [0.1, 0.36, 1.0])
def test_an_upright_flange_climbs_at_one_over_friction(friction: float) -> None:
    """Limit of the formula at 90 degrees: 1 / mu."""
    assert nadal_limit(math.pi / 2, friction) == pytest.approx(1 / friction)
