"""NMRA S-3.2 and S-4.2 (2010), 1 in and 3/4 in scales, mm, through our own formulas.

Read in the standards: gauge 120.7 to 124.7 and 88.9 to 91.6, check gauge from 116.4 and 85.1, span
to 112.5 and 81.6, flangeway to 5.59 and 4.60, back to back from 112.7 and 81.8, flange to 3.96 and
3.18.
"""

from __future__ import annotations

import pytest

from platewheel.parts.checks.running.crossings import check_gauge_mm, check_span_mm, wheel_check_mm

ONE_INCH = (120.7, 116.4, 112.5, 5.59, 112.7, 3.96)
THREE_QUARTERS = (88.9, 85.1, 81.6, 4.60, 81.8, 3.18)


@pytest.mark.parametrize("scale", [ONE_INCH, THREE_QUARTERS])
def test_their_least_check_gauge_has_a_flangeway_below_their_greatest(
    scale: tuple[float, ...],
) -> None:
    gauge, check, span, flangeway, back, flange = scale
    need = gauge - check  # at most this off the rail
    assert check_gauge_mm(gauge, need) == pytest.approx(check)
    assert need < flangeway
    # S = C - Fx: with their greatest flangeway the span is below what they allow, and that below
    # their least back-to-back
    assert check_span_mm(gauge, need, flangeway) < span < back
    # K most at most C least: their greatest flange on their least back-to-back just goes
    assert wheel_check_mm(back, flange) == pytest.approx(check, abs=0.3)
