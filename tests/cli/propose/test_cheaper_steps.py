"""From the cheapest finalist on: cheaper steps are taken while a full rating confirms them."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from platewheel.cli.job.job import Job
from platewheel.cli.propose.cheaper_steps import IN_FULL, MOST_STEPS, cheaper_steps
from platewheel.cli.propose.wanted import Wanted, job_choices
from platewheel.cli.schema.propose import ProposalRow
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec
from tests.cli.propose import rows
from tests.cli.propose.easy_job import JOB

NEAR = {"tread_diameter_mm": 280.0, "vent_circle_mm": 232.0, "flange_depth_mm": 12.0}
WHEEL = JOB.wheel.model_copy(update={**NEAR, "flange_angle_deg": 72.0, "flange_segments": 1})
RATED_N = 1.02 * JOB.setting.static_wheel_load_n
CHOICES = job_choices(JOB, Wanted(280, 280, 20))


def by_thickness(settings: Sequence[Setting]) -> list[dict[str, float]]:
    """In place of the stress analysis: anything thinner than WHEEL is too weak, depth is free."""
    return [{"thumb": RATED_N * _thinnest(one.wheel)} for one in settings]


def _thinnest(wheel: WheelSpec) -> float:
    sizes = ("tread_thickness_mm", "flange_thickness_mm", "disc_thickness_mm")
    keys = (*sizes, "weld_throat_mm", "root_weld_mm")
    return min(getattr(wheel, key) / getattr(WHEEL, key) for key in keys)


def laid(wheel: WheelSpec, estimate: float) -> ProposalRow:
    load = JOB.setting.static_wheel_load_n
    more = {"rated_n": RATED_N, "load_n": load, "governs": "thumb", "warnings": ["Depth: look"]}
    return rows.laid(wheel, estimate, **more)


def depth(row: ProposalRow) -> float:
    return float(row.wheel["flange_depth_mm"])


def test_cheaper_steps_are_taken_until_one_is_warned_of(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        "platewheel.cli.propose.cheaper_steps.finalist",
        lambda one, cost, _: laid(one.wheel, cost),
    )
    first, left_out = cheaper_steps(JOB, CHOICES, laid(WHEEL, 120.0), by_thickness)
    assert depth(first) == 10  # 12, 11, 10; a check warns of 9
    assert first.cost_estimate < 120
    assert left_out == []
    rows = {(row.key, row.becomes): row for row in first.changes}
    assert rows["flange_depth_mm", "9"].warns == ["Flange depth"]
    assert rows["flange_depth_mm", "11"].cost > 0


def test_what_fails_in_full_is_not_taken_and_told(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[float] = []

    def full(one: Job, cost: float, reserve: float) -> ProposalRow | str:
        asked.append(one.wheel.flange_depth_mm)
        return (
            laid(one.wheel, cost)
            if one.wheel.flange_depth_mm > 10
            else "10 deep is left out: cracks"
        )

    monkeypatch.setattr("platewheel.cli.propose.cheaper_steps.finalist", full)
    first, left_out = cheaper_steps(JOB, CHOICES, laid(WHEEL, 120.0), by_thickness)
    assert depth(first) == 11
    assert asked == [11, 10]
    assert left_out == ["10 deep is left out: cracks"]
    rows = {(row.key, row.becomes): row for row in first.changes}
    assert rows["flange_depth_mm", "10"].fails == [IN_FULL]


@pytest.mark.parametrize("what", [{"cost_per_wheel": 130.0}, {"warnings": ["Vents: look"]}])
def test_dearer_on_the_plates_or_newly_warned_is_not_taken(
    monkeypatch: pytest.MonkeyPatch, what: dict[str, object]
) -> None:
    def full(one: Job, cost: float, reserve: float) -> ProposalRow:
        return laid(one.wheel, cost).model_copy(update=what)

    monkeypatch.setattr("platewheel.cli.propose.cheaper_steps.finalist", full)
    first, left_out = cheaper_steps(JOB, CHOICES, laid(WHEEL, 120.0), by_thickness)
    assert depth(first) == 12
    assert left_out == []


def test_no_more_are_tried_than_said(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[WheelSpec] = []

    def full(one: Job, cost: float, reserve: float) -> ProposalRow:
        asked.append(one.wheel)
        return laid(one.wheel, cost)

    monkeypatch.setattr("platewheel.cli.propose.cheaper_steps.finalist", full)
    deep = laid(WHEEL.model_copy(update={"flange_depth_mm": 25.0}), 120.0)
    first, _ = cheaper_steps(JOB, CHOICES, deep, by_thickness)
    assert [wheel.flange_depth_mm for wheel in asked] == [20, 17, 15, 13, 12, 11]
    assert len(asked) == MOST_STEPS
    assert depth(first) == 11
