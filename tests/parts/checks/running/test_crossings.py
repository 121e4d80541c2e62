"""Crossings: an axle laid out between rails, check rails and a nose, piece by piece."""

from __future__ import annotations

import pytest

from platewheel.parts.checks.running.crossings import (
    check_gauge,
    check_span,
    crossing_gap,
    flangeway_depth,
    flangeway_width,
)
from tests.parts.checks.running.settings import running_setting


@pytest.mark.parametrize("flangeway_mm", [15.0, 18.0, 20.0, 32.0])
@pytest.mark.parametrize("back_mm", [550.0, 565.0, 572.0])
def test_the_nose_is_safe_when_the_back_bears_first(flangeway_mm: float, back_mm: float) -> None:
    """Second way: push the axle over until one flange's back bears on the check rail, and see
    whether the other's face has got past the running edge of the nose, at the gauge."""
    setting = running_setting(check_rail_flangeway_mm=flangeway_mm, back_to_back_mm=back_mm)
    face = flangeway_mm + back_mm + setting.flange_reach_mm
    assert (check_gauge(setting).verdict == "pass") == (face <= 600)


def test_advice_on_the_check_rail_holds() -> None:
    assert check_gauge(running_setting()) is None  # no guarded crossing told of
    result = check_gauge(running_setting(check_rail_flangeway_mm=32.0))
    assert result.verdict == "warn"
    off_rail = float(result.says.split("put it ")[1].split()[0])
    assert check_gauge(running_setting(check_rail_flangeway_mm=off_rail)).verdict == "pass"
    assert check_gauge(running_setting(check_rail_flangeway_mm=off_rail + 0.2)).verdict == "warn"


def test_backs_over_two_check_rails() -> None:
    assert check_span(running_setting()).verdict == "pass"
    narrow = check_span(running_setting(back_to_back_mm=530.0, flangeway_mm=32.0))
    assert (narrow.verdict, narrow.limit) == ("fail", 536)
    assert check_span(running_setting(back_to_back_mm=530.0, flangeway_mm=35.0)).verdict == "pass"


def test_flange_in_the_flangeway() -> None:
    """Reach 11.10 mm and 2 x 68.74 mm x tan(asin(600 / 20000)) = 4.13 mm: 15.22 mm."""
    result = flangeway_width(running_setting())
    assert result is not None
    assert result.value == pytest.approx(15.22, abs=0.01)
    narrow = flangeway_width(running_setting(flangeway_mm=14.0))
    assert narrow is not None
    assert narrow.verdict == "fail"
    assert flangeway_width(running_setting(min_curve_radius_m=1.0, wheelbase_mm=3000.0)) is None


def test_depth_of_the_flangeway() -> None:
    unknown = flangeway_depth(running_setting())
    assert (unknown.verdict, unknown.value) == ("not-assessed", None)
    assert "track.flangeway_depth_mm" in unknown.says
    assert flangeway_depth(running_setting(flangeway_depth_mm=16.0)).verdict == "pass"
    shallow = running_setting(flangeway_depth_mm=16.0, wear_allowance_mm=1.5)
    assert flangeway_depth(shallow).verdict == "fail"


def test_tread_over_the_gap() -> None:
    """60 mm of tread less 10 of play less 32 of flangeway leave 18 mm; 12.5 mm are asked."""
    assert crossing_gap(running_setting()).value == pytest.approx(18)
    assert crossing_gap(running_setting(flangeway_mm=40.0)).verdict == "warn"
