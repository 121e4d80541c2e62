"""Steps on a wheel's dimensions: margins that move as the published formulas say."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings

from platewheel.parts.base.plates import PLATES_MM
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import run_checks
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.propose.dimension_steps import (
    DIMENSIONS,
    dimension_steps,
    not_stepped,
    stepped,
)
from platewheel.parts.propose.sensitivity import (
    FOR_RATING,
    Moved,
    Sensitivity,
    Shift,
    best_help,
    sensitivity,
)
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.setting.wagon import WagonSpec
from platewheel.parts.wheel.assembly import wheel_mass_kg
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.wheels import plain_wheel, valid_wheels

TRACK = TrackSpec(
    gauge_mm=457.0, rail_head_width_mm=25.0, min_curve_radius_m=12.0, flangeway_depth_mm=30.0
)
WAGON = WagonSpec(
    tare_kg=160.0, payload_kg=500.0, wheelbase_mm=600.0, load_unevenness=1.25, shock_factor=1.5
)


def setting(**changes: Any) -> Setting:
    return Setting(
        wheel=plain_wheel(**changes), track=TRACK, wagon=WAGON, use=UseSpec(lateral_share=0.4)
    )


@pytest.fixture(scope="module")
def found() -> Sensitivity:
    return sensitivity(setting())


def moved(found: Sensitivity, key: str, way: str = "up") -> Moved:
    return next(m for m in found.moves if (m.step.key, m.step.way) == (key, way))


def test_every_dimension_is_stepped_both_ways(found: Sensitivity) -> None:
    asked = [(m.step.key, m.step.way) for m in found.moves]
    assert asked == [(key, way) for key in DIMENSIONS for way in ("up", "down")]
    assert set(DIMENSIONS) <= set(WheelSpec.model_fields)


@pytest.mark.parametrize(
    ("key", "was", "up", "down"),
    [
        ("tread_diameter_mm", 300.0, 330.0, 270.0),
        ("flange_angle_deg", 70.0, 72.0, 68.0),
        ("disc_thickness_mm", 6.0, 8.0, 5.0),
        ("disc_thickness_mm", 6.35, 8.0, 6.0),  # a quarter of an inch lies between two plates
        ("disc_thickness_mm", PLATES_MM[0], 1.5, None),
        ("tread_thickness_mm", PLATES_MM[-1], None, 40.0),
    ],
)
def test_steps_are_small_and_of_plates_that_are_sold(
    key: str, was: float, up: float | None, down: float | None
) -> None:
    assert (stepped(key, was, "up"), stepped(key, was, "down")) == (up, down)


@settings(max_examples=15)
@given(valid_wheels())
def test_a_step_changes_its_dimension_and_its_followers_alone(wheel: WheelSpec) -> None:
    before = wheel.model_dump()
    for step in dimension_steps(wheel):
        assert (step.wheel is None) == bool(step.refused)
        if step.wheel:
            after = step.wheel.model_dump()
            changed = {key for key in before if before[key] != after[key]}
            assert changed == {step.key, *(one.key for one in step.follows)}
            room = [w.bore_radius_mm(w.disc_field_inset_mm) for w in (wheel, step.wheel)]
            edges = [
                r - (w.vent_circle_mm + w.vent_diameter_mm) / 2
                for r, w in zip(room, (wheel, step.wheel), strict=True)
            ]
            if wheel.vent_count:  # the vent keeps its distance from the ring wall
                assert edges[1] == pytest.approx(edges[0], abs=1e-4)


def test_a_wheel_that_cannot_be_made_is_told() -> None:
    narrow = sensitivity(setting(disc_field_inset_mm=1.0))
    refused = moved(narrow, "disc_field_inset_mm", "down")
    assert refused.mass_by_kg is None
    assert "from 0 up to 300" in refused.step.refused
    crowded = sensitivity(setting(disc_field_inset_mm=22.0, disc_gauge_inset_mm=25.5))
    assert "two discs do not collide" in moved(crowded, "disc_thickness_mm").step.refused


def test_dimensions_that_a_wheel_has_not_are_named() -> None:
    bare = plain_wheel(hub_tube_length_mm=0.0, hub_tube_outside_mm=0.0, vent_count=0)
    assert dict(not_stepped(bare)) == {
        "hub_tube_outside_mm": "no hub tube",
        "hub_tube_length_mm": "no hub tube",
        "vent_diameter_mm": "no vents",
    }


def test_flange_angle_moves_climbing_as_nadals_formula(found: Sensitivity) -> None:
    """Nadal: L/V = (tan a - mu) / (1 + mu tan a), as in TCRP Report 71 vol. 5, from memory. The
    friction is read off the limit of the wheel as it is; the steeper one must then agree."""
    climb = moved(found, "flange_angle_deg")
    shift = next(one for one in climb.shifts if one.check == "flange-climb")
    assert shift.before
    assert shift.after
    assert shift.before.limit
    assert shift.after.limit
    angles = [math.tan(math.radians(angle)) for angle in (70.0, 72.0)]
    reserve = 1.5
    before = shift.before.limit * reserve
    friction = (angles[0] - before) / (1 + before * angles[0])
    assert friction == pytest.approx(0.36, abs=1e-6)  # that of EN 14363
    limit = (angles[1] - friction) / (1 + friction * angles[1]) / reserve
    assert shift.after.limit == pytest.approx(limit, rel=1e-6)
    assert climb.points("flange-climb") == pytest.approx(
        100 * (shift.before.value or 0) * (1 / shift.before.limit - 1 / limit), rel=1e-6
    )


def test_flange_depth_uses_up_the_flangeway(found: Sensitivity) -> None:
    """A tenth of 15 mm deeper in a flangeway of 30 mm: plain geometry."""
    points = moved(found, "flange_depth_mm").points("flangeway-depth")
    assert points == pytest.approx(-100 * 1.5 / 30)


def test_thicker_discs_weigh_their_area_more(found: Sensitivity) -> None:
    """Two annuli of 2 mm more steel at 7.85 kg/dm3 (EN 1991-1-1, from memory), vents and the
    beads' small change within 2 %."""
    outside, hole = 284.0 - 2 * 0.5, 57.0 + 2 * 0.5
    area = math.pi / 4 * (outside**2 - hole**2 - 2 * 16.0**2)
    step = moved(found, "disc_thickness_mm")
    assert step.mass_by_kg == pytest.approx(2 * 2.0 * area * 7.85e-6, rel=0.02)


def test_shifts_are_those_of_the_checks_run_on_the_other_wheel(found: Sensitivity) -> None:
    step = moved(found, "tread_diameter_mm")
    assert step.step.wheel
    other = replace(setting(), wheel=step.step.wheel)
    after = {one.id: one for one in run_checks(other)}
    for one in found.checks:
        margin = after[one.id].margin
        if one.margin is not None and margin is not None and one.limit == after[one.id].limit:
            told = step.points(one.id)
            assert told == (pytest.approx(100 * (margin - one.margin)) if one.limit else told)
    assert step.mass_by_kg == pytest.approx(wheel_mass_kg(other.wheel) - found.mass_kg)


def test_tight_checks_are_the_least_margins_that_move(found: Sensitivity) -> None:
    tight = found.tightest(6)
    assert len(tight) == 6
    for check in tight:
        assert any(abs(m.points(check.id) or 0) > 0 for m in found.moves)
    for check in found.unmoved(6):
        assert all(abs(m.points(check.id) or 0) < 0.05 for m in found.moves)


def result(id: str, verdict: Any, margin: float) -> CheckResult:
    return CheckResult(id, id, 1.0, 1.0, "", verdict, "says", "source", margin)


def trial(mass_kg: float, points: float, *breaks: str) -> Moved:
    step = dimension_steps(plain_wheel())[0]
    good = Shift("a", points, result("a", "pass", 0.1), result("a", "pass", 0.1 + points / 100))
    bad = [Shift(b, -9.0, result(b, "pass", 0.0), result(b, "fail", -0.09)) for b in breaks]
    return Moved(step, mass_kg, (good, *bad))


@pytest.mark.parametrize(
    ("trials", "best"),
    [
        ([trial(1.0, 10.0), trial(2.0, 30.0)], 1),  # 15 a kg against 10
        ([trial(1.0, 10.0), trial(0.5, 9.0, "b")], 0),  # nothing else made worse
        ([trial(1.0, 10.0, "b")], 0),  # or, where there is no other, told with what it breaks
        ([trial(1.0, 10.0), trial(-0.1, 2.0)], 1),  # no mass at all
        ([trial(1.0, 30.0), trial(-0.1, 2.0)], 0),  # but not for next to nothing
        ([trial(1.0, -10.0)], None),
    ],
)
def test_best_help_is_the_gain_by_the_kilogram(trials: list[Moved], best: int | None) -> None:
    help = best_help(Sensitivity((), 10.0, None, tuple(trials), ()), "a")
    assert (help.moved if help else None) == (None if best is None else trials[best])


def test_rating_is_asked_for_the_wheel_and_the_dimensions_that_carry(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A stand-in analysis whose rated load is 100 N a mm of wall: the change shows it."""

    def rated(setting: Setting) -> Any:
        asked.append(setting)
        # a stand-in: so many N of the mean load, whatever twist and joints make of it
        of_mean = wheel_load_n(setting) / setting.static_wheel_load_n
        load = 100.0 * setting.wheel.tread_thickness_mm * of_mean
        return SimpleNamespace(least=SimpleNamespace(load_n=load))

    asked: list[Setting] = []
    monkeypatch.setattr("platewheel.parts.checks.run.rating_results", lambda setting, found: [])
    found = sensitivity(setting(), rated)
    assert found.rated_n == pytest.approx(800.0)
    made = [m for m in found.moves if m.step.key in FOR_RATING and m.step.wheel]
    line = [m for m in found.line_moves if m.step.wheel]
    assert len(asked) == 1 + len(made) + len(line)
    assert all(m.rated_by_n is not None for m in line)
    assert moved(found, "tread_thickness_mm").rated_by_n == 200.0
    assert moved(found, "tread_diameter_mm").rated_by_n is None
    assert moved(found, "tread_diameter_mm").points("rating-new") is None  # not known
