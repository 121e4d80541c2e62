"""The wagon's figures together: worked by hand, and in order."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.wagon.numbers import journal_of, wagon_numbers
from tests.parts.checks.running.settings import running_setting


def test_worked_by_hand() -> None:
    """800 kg on 300 mm wheels and 35 mm rolling bearings: 0.0069167 x 7848 N = 54.3 N level;
    2 % adds 7848 x 0.019996 = 156.9 N; 8 km/h in 11.1 m takes 0.02265 of the weight."""
    loose = running_setting(steepest_gradient_percent=2.0, wheels_on_axle="loose")
    found = wagon_numbers(loose, 35, True)
    assert found.pull_level_n == pytest.approx(54.28, abs=0.01)
    assert found.start_level_n == pytest.approx(1.1 * 54.28, abs=0.02)
    assert found.pull_gradient_n == pytest.approx(54.27 + 156.93, abs=0.02)
    assert (found.people_level, found.people_gradient) == (1, 3)
    assert found.push_worst == "gradient"
    assert found.push_worth_people == pytest.approx(2.112, abs=0.001)
    assert found.stopping_share == pytest.approx(0.02265 + 0.019996, abs=2e-5)
    assert found.holding_n == pytest.approx(156.93, abs=0.01)
    assert (found.holding_axles, found.stopping_axles) == (1, 1)


def test_plain_bushes_start_harder_and_roll_away_later() -> None:
    rolling, plain = (wagon_numbers(running_setting(), 35, kind) for kind in (True, False))
    assert plain.start_level_n / plain.pull_level_n > rolling.start_level_n / rolling.pull_level_n
    assert plain.roll_away_percent > rolling.roll_away_percent
    assert plain.pull_level_n > rolling.pull_level_n


@pytest.mark.parametrize("journal", [0.0, -5.0, 300.0, float("nan")])
def test_journal_that_cannot_be_is_refused(journal: float) -> None:
    with pytest.raises(SpecError, match=r"journal_diameter_mm.*300 mm"):
        wagon_numbers(running_setting(), journal, True)


def test_journal_is_the_hub_bore() -> None:
    assert journal_of(running_setting(hub_bore_mm=30.0)) == (30.0, True)


def test_bushes_slide_on_the_axle_in_the_hub() -> None:
    """Loose wheels run on bushes unless told otherwise: 35 mm hub, two walls of 5 mm."""
    setting = running_setting(hub_bore_mm=35.0)
    loose = replace(setting, axle=AxleSpec(wheels_on_axle="loose"))
    assert journal_of(loose) == (25.0, False)
    rolling = wagon_numbers(setting, *journal_of(setting))
    plain = wagon_numbers(loose, *journal_of(loose))
    assert plain.start_level_n > 2 * rolling.start_level_n


def test_an_axle_that_cannot_be_made_counts_by_the_hub() -> None:
    setting = running_setting(hub_bore_mm=35.0)
    impossible = replace(setting, axle=AxleSpec(bearing_name="no such bearing"))
    assert journal_of(impossible) == (35.0, True)
