"""Steel lost to the weather."""

from __future__ import annotations

import pytest

from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.rust import COAST_MM, INLAND_MM, bare_loss_mm, corrosion_mm


def test_first_year_and_the_slowing() -> None:
    """ISO 9223: C3 up to 50 um, C5 up to 200 um in the first year; ISO 9224, upper exponent of
    carbon steel: 20 years are 5.60 first years, from memory."""
    assert bare_loss_mm(INLAND_MM, 1) == 0.05
    assert bare_loss_mm(COAST_MM, 1) == 0.2
    assert bare_loss_mm(1.0, 20) == pytest.approx(5.60, abs=0.005)
    assert bare_loss_mm(1.0, 0) == 0


def test_after_20_years_it_goes_on_at_the_rate_reached() -> None:
    """ISO 9224: the slope of t^b at 20 years, 0.161 first years a year; no jump."""
    assert bare_loss_mm(1.0, 20.5) - bare_loss_mm(1.0, 19.5) == pytest.approx(0.161, abs=0.002)
    assert bare_loss_mm(1.0, 40) - bare_loss_mm(1.0, 30) == pytest.approx(1.61, abs=0.01)


@pytest.mark.parametrize(("rate", "years"), [(-0.1, 5.0), (0.1, -5.0)])
def test_less_than_nothing_is_refused(rate: float, years: float) -> None:
    with pytest.raises(ValueError, match="allowed: from 0"):
        bare_loss_mm(rate, years)


def test_which_finish_rusts() -> None:
    """Figures of the key's description: 0.28 mm inland, 1.1 mm on the coast in 20 years."""
    assert corrosion_mm(FinishSpec(coating="galvanized", site="coast"), 20) == 0
    assert corrosion_mm(FinishSpec(coating="painted", site="coast"), 20) == 0
    assert corrosion_mm(FinishSpec(coating="bare"), 20) == pytest.approx(0.28, abs=0.005)
    coast = corrosion_mm(FinishSpec(coating="bare", site="coast"), 20)
    assert coast == pytest.approx(1.12, abs=0.005)
    assert corrosion_mm(FinishSpec(coating="bare", site="coast", corrosion_mm=0.3), 20) == 0.3
    assert corrosion_mm(FinishSpec(coating="painted", corrosion_mm=0.3), 20) == 0.3
