"""One step away: what it would change, and what speaks against it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from platewheel.cli.propose.changes import MOST_PAIRS, TOO_WEAK, Changes
from platewheel.cli.propose.wanted import Wanted, job_choices
from platewheel.cli.schema.propose import ChangeRow
from platewheel.cli.words.proposal import against
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_mass_kg
from platewheel.parts.wheel.spec import WheelSpec
from tests.cli.propose.easy_job import JOB

NEAR = {"tread_diameter_mm": 280.0, "vent_circle_mm": 232.0, "flange_depth_mm": 10.0}
WHEEL = JOB.wheel.model_copy(update={**NEAR, "flange_angle_deg": 72.0, "flange_segments": 1})
NOW = replace(JOB, wheel=WHEEL)
RATED_N = 1.02 * JOB.setting.static_wheel_load_n


def by_flange(settings: Sequence[Setting]) -> list[dict[str, float]]:
    """In place of the stress analysis: a flange of 8 mm carries what it must, and in proportion."""
    return [{"flange": RATED_N / 2 * one.wheel.flange_thickness_mm / 8} for one in settings]


@pytest.fixture(scope="module")
def rows() -> dict[tuple[str, str], ChangeRow]:
    choices = job_choices(JOB, Wanted(260, 300, 20))
    found = Changes(JOB, choices, NOW, RATED_N, by_flange).rows()
    return {(row.key, row.becomes): row for row, _ in found}


def test_a_step_tells_what_would_warn(rows: dict[tuple[str, str], ChangeRow]) -> None:
    shallow = rows["flange_depth_mm", "9"]
    assert shallow.fails == []
    assert shallow.warns == ["Flange depth"]
    assert against(shallow) == "warns: Flange depth"
    assert shallow.cost < 0


def test_a_step_that_would_be_too_weak_fails(rows: dict[tuple[str, str], ChangeRow]) -> None:
    thin = rows["flange_thickness_mm", "6"]
    assert TOO_WEAK in thin.fails
    assert thin.rating_percent == pytest.approx(-25)
    assert against(thin).startswith("fails: ")
    assert rows["flange_depth_mm", "11"].fails == []
    assert rows["flange_depth_mm", "11"].rating_percent == pytest.approx(0)


def test_a_step_must_leave_the_reserve() -> None:
    """Rated at 1.02 of the load, a step that changes no flange leaves 1 % and not 3 %."""
    choices = job_choices(JOB, Wanted(260, 300, 20))
    for reserve, fails in ((0.01, []), (0.03, [TOO_WEAK])):
        found = Changes(JOB, choices, NOW, RATED_N, by_flange, reserve).rows()
        deep = next(row for row, _ in found if (row.key, row.becomes) == ("flange_depth_mm", "11"))
        assert deep.fails == fails


def test_no_step_repeats_what_warns_already(rows: dict[tuple[str, str], ChangeRow]) -> None:
    own = job_warnings(WHEEL)
    assert own  # else this shows nothing
    assert not any(own & set(row.warns) for row in rows.values())


def test_masses_and_costs_are_differences(rows: dict[tuple[str, str], ChangeRow]) -> None:
    deep = rows["flange_depth_mm", "11"]
    other = WHEEL.model_copy(update={"flange_depth_mm": 11.0})
    assert deep.mass_kg == pytest.approx(wheel_mass_kg(other) - wheel_mass_kg(WHEEL))
    assert deep.cost > 0
    inset = rows["disc_field_inset_mm and disc_gauge_inset_mm", "10"]
    assert inset.cost == 0  # not the noise of summing


def job_warnings(wheel: WheelSpec) -> set[str]:
    from platewheel.cli.job.wheelset import job_checks

    checks = job_checks(replace(JOB, wheel=wheel))
    return {check.title for check in checks if check.verdict == "warn"}


def by_flange_and_depth(settings: Sequence[Setting]) -> list[dict[str, float]]:
    """In place of the stress analysis: a thinner flange costs half of the strength, which a deeper
    one gives back."""
    shares = [
        (0.5 if one.flange_thickness_mm < 8 else 1.0) * (2.0 if one.flange_depth_mm > 10 else 1.0)
        for one in (setting.wheel for setting in settings)
    ]
    return [{"thumb": RATED_N * share} for share in shares]


def test_steps_that_help_only_together_are_tried_together() -> None:
    """A thinner flange is too weak and a deeper one dearer; both are cheaper and strong enough."""
    choices = job_choices(JOB, Wanted(280, 280, 20))
    small = WHEEL.model_copy(update={"root_weld_mm": 6.0})  # whose legs fit a thinner flange too
    found = Changes(JOB, choices, replace(JOB, wheel=small), RATED_N, by_flange_and_depth).rows()
    rows = {row.key: (row, made) for row, made in found if row.key != "flange_depth_mm"}
    alone, _ = rows["flange_thickness_mm"]
    assert alone.fails == [TOO_WEAK]
    both, made = rows["flange_thickness_mm with flange_depth_mm"]
    assert (both.was, both.becomes) == ("8, 10", "6, 11")
    assert both.fails == both.warns == []
    assert both.cost < 0
    assert both.rating_percent == pytest.approx(0)
    assert (made.flange_thickness_mm, made.flange_depth_mm) == (6.0, 11.0)
    pairs = [row for row, _ in found if " with " in row.key]
    assert 0 < len(pairs) <= MOST_PAIRS
    assert [row.cost for row in pairs] == sorted(row.cost for row in pairs)
    assert not any(row.fails or row.warns for row in pairs)


def test_what_one_step_is_warned_of_another_may_mend() -> None:
    """The legs of a root weld of 8 mm do not fit a ring of 6 mm; those of 6 mm do."""
    choices = job_choices(JOB, Wanted(280, 280, 20))
    found = Changes(JOB, choices, NOW, RATED_N, by_flange).rows()
    rows = {(row.key, row.becomes): row for row, _ in found}
    assert rows["tread_thickness_mm", "6"].warns == ["Leg that fits the root weld"]
    both = rows["tread_thickness_mm with root_weld_mm", "6, 6"]
    assert both.warns == []
    assert both.cost < rows["tread_thickness_mm", "6"].cost


def test_the_least_limit_rates_a_step() -> None:
    """Where a limit that no step touches is the least, a thinner flange changes nothing."""

    def two(settings: Sequence[Setting]) -> list[dict[str, float]]:
        return [limit | {"other": 0.3 * RATED_N} for limit in by_flange(settings)]

    choices = job_choices(JOB, Wanted(260, 300, 20))
    found = Changes(JOB, choices, NOW, RATED_N, two).rows()
    thin = next(row for row, _ in found if (row.key, row.becomes) == ("flange_thickness_mm", "6"))
    assert thin.rating_percent == pytest.approx(0)
