"""Steps on track, wagon and axle: each changes its key alone, and no gain is told that is none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.propose.dimension_steps import dimension_steps
from platewheel.parts.propose.line_steps import LINE_KEYS, line_steps, with_value
from platewheel.parts.propose.sensitivity import (
    Moved,
    Sensitivity,
    Shift,
    line_help,
    points_of,
    sensitivity,
)
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.way import WaySpec
from tests.parts.settings import demo_setting

RADIUS = "track.min_curve_radius_m"


@pytest.fixture(scope="module")
def found() -> Sensitivity:
    return sensitivity(demo_setting())


def moved(found: Sensitivity, key: str, way: str) -> Moved:
    return next(m for m in found.line_moves if (m.step.key, m.step.way) == (key, way))


def keys_of(setting: Setting) -> dict[str, object]:
    sections = ("wheel", "track", "wagon", "use", "axle", "shop", "finish")
    specs = {name: getattr(setting, name).model_dump() for name in sections}
    return {f"{name}.{key}": value for name, keys in specs.items() for key, value in keys.items()}


def test_each_step_changes_its_key_alone() -> None:
    setting = demo_setting()
    before = keys_of(setting)
    steps = line_steps(setting)
    assert [(s.key, s.way) for s in steps] == [(k, w) for k in LINE_KEYS for w in ("up", "down")]
    for step in steps:
        assert step.setting is not None
        after = keys_of(step.setting)
        assert {key for key in before if before[key] != after[key]} == {step.key}
        assert after[step.key] == step.becomes
        assert (step.becomes > step.was) == (step.way == "up")


def test_a_step_down_ends_at_nothing() -> None:
    setting = demo_setting()
    level = {"twist_mm_per_m": 0.4, "joint_step_mm": 0.0}
    flat = replace(setting, track=setting.track.model_copy(update=level))
    down = {step.key: step.becomes for step in line_steps(flat) if step.way == "down"}
    assert down["track.twist_mm_per_m"] == 0
    assert "track.joint_step_mm" not in down


def test_what_the_line_does_not_take_is_refused_with_its_reason() -> None:
    """A rigid wheelbase lies in curves from L / sqrt 2; a curve described may not be tighter than
    the tightest."""
    setting = demo_setting()
    tight = with_value(with_value(setting, "wagon.wheelbase_mm", 2000.0), RADIUS, 1.45)
    steps = {(step.key, step.way): step for step in line_steps(tight)}
    assert steps["wagon.wheelbase_mm", "up"].setting is None
    assert "wheelbase of 2200 mm" in steps["wagon.wheelbase_mm", "up"].refused
    described = replace(setting, way=(WaySpec(share=0.2, radius_m=12.0),))
    with pytest.raises(SpecError, match="radius_m"):
        with_value(described, RADIUS, 15.0)


def test_payload_moves_the_push_over_a_joint_as_statics_says(found: Sensitivity) -> None:
    """W tan(angle): 610 kg of 660 need 610/660 of the push, on the same wheel and joint."""
    was = next(one for one in found.checks if one.id == "joint-push")
    assert was.value is not None
    assert was.limit is not None
    points = moved(found, "wagon.payload_kg", "down").points("joint-push")
    assert points == pytest.approx(100 * was.value / was.limit * (1 - 610 / 660), rel=1e-6)


def test_more_play_opens_the_tightest_gauge_by_as_much(found: Sensitivity) -> None:
    """Back to back from 423.0 to 422.0: 1.05 mm more of a least of 2."""
    points = moved(found, "axle.back_to_back_mm", "down").points("play-least")
    assert points == pytest.approx(100 * (demo_setting().back_to_back_mm - 422.0) / 2, abs=1e-6)


def result(room: float, limit: float) -> CheckResult:
    """A value at most a limit, with so much room."""
    margin = room / abs(limit) if limit else room
    return CheckResult("a", "a", limit - room, limit, "mm", "pass", "says", "source", margin)


@pytest.mark.parametrize(
    ("before", "after", "points"),
    [
        ((2.0, 10.0), (3.0, 10.0), 10.0),  # the limit stays: the margin itself
        ((2.0, 10.0), (1.8, 5.0), None),  # a larger share of less room is no gain
        ((2.0, 10.0), (3.0, 12.0), 5.0),  # 25 % of 12 is told, not 1 mm more of 10
        ((2.0, 10.0), (5.0, 11.0), 25.4545),
        ((2.0, 10.0), (1.0, 12.0), -11.6667),  # of two losses the larger
        ((2.0, 10.0), (2.2, 20.0), None),  # more room, but a smaller share
        ((0.5, 0.0), (0.6, 0.0), None),  # against 0 there is no share
    ],
)
def test_a_margin_that_grows_with_its_limit_is_told_as_the_lesser_gain(
    before: tuple[float, float], after: tuple[float, float], points: float | None
) -> None:
    told = points_of(result(*before), result(*after))
    assert told == (None if points is None else pytest.approx(points, abs=1e-3))


def test_a_check_that_comes_or_goes_is_no_gain() -> None:
    one = result(2.0, 10.0)
    assert points_of(None, one) is None
    assert points_of(one, None) is None


def test_the_help_of_the_line_breaks_nothing(found: Sensitivity) -> None:
    steps = line_steps(demo_setting())
    good, bad = result(2.0, 10.0), replace(result(-1.0, 10.0), id="b", verdict="fail")
    shift = Shift("a", 10.0, good, result(3.0, 10.0))
    more = Shift("a", 20.0, good, result(4.0, 10.0))
    broken = Shift("b", -30.0, replace(good, id="b"), bad)
    moves = (Moved(steps[0], 0.0, (shift,)), Moved(steps[1], 0.0, (more, broken)))
    both = Sensitivity((), 10.0, None, (), (), moves)
    assert line_help(both, "a") == moves[0]
    assert line_help(both, "b") is None
    of_wheel = Moved(dimension_steps(demo_setting().wheel)[0], 1.0, (more,))
    assert line_help(Sensitivity((), 10.0, None, (of_wheel,), ()), "a") is None
    assert line_help(found, "joint-push") is not None
