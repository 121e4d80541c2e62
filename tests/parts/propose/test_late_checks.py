"""Checks asked of wheels in question: the answer is each wheel's own."""

from __future__ import annotations

from dataclasses import replace

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.run import CHECKS
from platewheel.parts.propose.late_checks import LateChecks
from platewheel.parts.propose.sifting import sifted
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.propose.test_sifting import SMALL
from tests.parts.settings import demo_setting


def thin_disc_on_wide_throat(setting: Setting) -> CheckResult | None:
    """Reads the disc always, the throat of thin discs alone."""
    wheel = setting.wheel
    if wheel.disc_thickness_mm > 5:
        return None
    words = ("thin", "Thin disc", wheel.weld_throat_mm, 3.0, "mm", "invented for this test")
    return judged(*words, at_most=True, good="good", bad="too wide")


def test_answers_are_those_of_each_wheel() -> None:
    setting = demo_setting()
    found = sifted(setting, SMALL)
    late = LateChecks(setting, found.wheels, CHECKS)
    told = [late.passes(row) for row in range(found.wheels.count)]
    for row, passes in enumerate(told):
        wheel = WheelSpec(**found.wheels.values(row))
        results = [check(replace(setting, wheel=wheel)) for check in CHECKS]
        assert passes == all(r is None or r.verdict != "fail" for r in results)
    assert len(late.known) < len(CHECKS) * found.wheels.count  # answers were shared


def test_what_a_check_reads_may_hang_on_the_wheel() -> None:
    """An answer of a thick disc, which reads less, must not serve thin ones."""
    setting = demo_setting()
    choices = replace(SMALL, disc=(6.0, 5.0), throat=(3.0, 4.0))
    wheels = sifted(setting, choices, checks=()).wheels
    late = LateChecks(setting, wheels, (thin_disc_on_wide_throat,))
    told = set()
    for row in range(wheels.count):
        values = wheels.values(row)
        try:
            WheelSpec(**values)
        except SpecError:
            assert not late.passes(row)
            continue
        fine = values["disc_thickness_mm"] > 5 or values["weld_throat_mm"] <= 3
        assert late.passes(row) == fine
        told.add((values["disc_thickness_mm"], values["weld_throat_mm"], fine))
    assert {fine for _, _, fine in told} == {True, False}
    assert len(told) == 4
