"""The screening finds what asking every wheel would find."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import replace

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.run import CHECKS
from platewheel.parts.making.quantities import rim_beads_kg, tread_kg
from platewheel.parts.propose.choices import AXES, Choices, Ring, wheel_values
from platewheel.parts.propose.never_passed import never_passed, running_choices
from platewheel.parts.propose.rate_until_known import prices
from platewheel.parts.propose.screening import Check, asked, first_wheels, widened
from platewheel.parts.propose.sifting import first_of, middle_of, sifted, sifted_at_last
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import weld_mass_kg
from platewheel.parts.wheel.hub_disc import disc_room_mm2
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.settings import demo_setting

SMALL = Choices(
    diameter=(240.0, 280.0, 300.0),
    ring=(Ring("bar", 60.0, 8.0), Ring("sheet", 50.0, 6.0), Ring("pipe", 60.0, 8.0, 273.0)),
    flange=(6.0, 8.0),
    depth=(8.0, 12.0, 15.0),
    angle=(70.0,),
    disc=(6.0,),
    inset=(8.0, 12.0),
    fit=(0.75,),
    throat=(3.0, 4.0),
    root=(6.0, 8.0),
    vents=((4, 16.0),),
    segments=(1, 3),
)


def brute_force(
    setting: Setting,
    choices: Choices,
    asked_checks: set[str],
    checks: Sequence[Check] = CHECKS,
) -> list[WheelSpec]:
    """Wheels that pass, one by one, by the checks that the screening asked; those that are warned
    of are left where any is not."""
    wheels = []
    axes = (*AXES, "segments")
    for places in itertools.product(*(range(len(getattr(choices, axis))) for axis in axes)):
        chosen = dict(zip(axes, places, strict=True))
        own = choices.ring[chosen["ring"]].diameter_mm
        if own is not None and own != choices.diameter[chosen["diameter"]]:
            continue
        try:
            wheels.append(WheelSpec(**wheel_values(setting.wheel.model_dump(), choices, chosen)))
        except SpecError:
            continue
    for check in checks:
        if check.__name__ not in asked_checks:
            continue
        found = [check(replace(setting, wheel=wheel)) for wheel in wheels]
        verdicts = [result.verdict if result else "pass" for result in found]
        worst = {"fail"} if set(verdicts) <= {"warn", "fail"} else {"fail", "warn"}
        wheels = [w for w, verdict in zip(wheels, verdicts, strict=True) if verdict not in worst]
    return wheels


def test_screening_is_brute_force() -> None:
    setting = demo_setting()
    found = sifted(setting, SMALL)
    left = {
        WheelSpec(**found.wheels.values(row)).model_dump_json() for row in range(found.wheels.count)
    }
    assert 0 < len(left) < SMALL.wheels
    good = brute_force(setting, SMALL, {sieve.check for sieve in found.sieves})
    assert left == {wheel.model_dump_json() for wheel in good}


def small(setting: Setting) -> CheckResult:
    """Warns below 300 mm."""
    d, words = setting.wheel.tread_diameter_mm, {"good": "good", "bad": "bad"}
    return judged("small", "S", d, 300, "mm", "-", at_most=False, bad_verdict="warn", **words)


def large(setting: Setting) -> CheckResult:
    """Fails above 290 mm."""
    d, words = setting.wheel.tread_diameter_mm, {"good": "good", "bad": "bad"}
    return judged("large", "L", d, 290, "mm", "-", at_most=True, **words)


def never(setting: Setting) -> CheckResult:
    """Fails for every wheel."""
    width, words = setting.wheel.tread_width_mm, {"good": "good", "bad": "bad"}
    return judged("never", "N", width, 1, "mm", "-", at_most=True, **words)


def test_wheels_that_are_warned_of_are_kept_where_no_other_is_left() -> None:
    """One check warns below 300 mm, another fails from 300 on: the warning has to be borne."""

    setting = demo_setting()
    assert sifted(setting, SMALL, (small, large)).wheels.count == 0
    found = sifted_at_last(setting, SMALL, (small, large))
    assert {SMALL.diameter[at] for at in found.wheels.places["diameter"]} == {240.0, 280.0}
    assert not any(sieve.warned for sieve in found.sieves)
    strict = sifted_at_last(setting, SMALL, (small,))
    assert {SMALL.diameter[at] for at in strict.wheels.places["diameter"]} == {300.0}
    assert [sieve.warned > 0 for sieve in strict.sieves if sieve.check == "small"] == [True]
    assert sifted_at_last(setting, SMALL, (large, small, never)).wheels.count == 0


def test_an_answer_is_that_of_the_wheel_itself() -> None:
    wheels = first_wheels(demo_setting().wheel, SMALL)
    for axis in ("flange", "depth", "angle", "disc", "inset", "fit", "throat"):
        wheels = widened(wheels, axis)
    for question in (tread_kg, rim_beads_kg, lambda wheel: disc_room_mm2(wheel, 6.0)):
        answers = asked(wheels, question, question)
        assert answers is not None
        for row in range(0, wheels.count, 7):
            wheel = WheelSpec.model_construct(**wheels.values(row))
            assert answers[row] == pytest.approx(question(wheel))
    assert asked(wheels, weld_mass_kg, weld_mass_kg) is None  # root and segments are not chosen


def test_settling_keeps_one_wheel_of_each_kind() -> None:
    wheels = widened(first_wheels(demo_setting().wheel, SMALL), "depth")
    assert set(first_of(wheels, "depth").places["depth"]) == {0}
    assert set(middle_of(wheels, "depth").places["depth"]) == {1}
    assert first_of(wheels, "depth").count == wheels.count // 3


def test_price_is_the_sum_of_its_parts() -> None:
    found = sifted(demo_setting(), SMALL).wheels
    total = prices(found, (tread_kg, rim_beads_kg))
    wheel = WheelSpec(**found.values(0))
    assert total[0] == pytest.approx(tread_kg(wheel) + rim_beads_kg(wheel))


def test_a_track_too_twisted_says_so() -> None:
    setting = demo_setting()
    track = setting.track.model_copy(update={"twist_mm_per_m": 60.0})
    bog = replace(setting, track=track)
    assert running_choices(setting, SMALL)
    assert not running_choices(bog, SMALL)
    assert [result.id for result in never_passed(bog, SMALL)] == ["twist-lift"]
