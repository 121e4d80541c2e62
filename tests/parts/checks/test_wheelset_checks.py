"""Checks of the wheelset: more load is worse, and what cannot be made is told."""

from dataclasses import replace

import pytest

from parts.axle_spec import AxleSpec
from parts.checks import wheelset_checks as checks
from parts.faults import Fault, SpecError
from tests.parts.settings import demo_setting

DEMO = replace(demo_setting(), axle=AxleSpec())
HEAVY = replace(DEMO, wagon=DEMO.wagon.model_copy(update={"payload_kg": 20000.0}))


def test_load_bends_and_wears() -> None:
    assert checks.axle_bending(HEAVY).value > 3 * checks.axle_bending(DEMO).value
    assert checks.axle_bending(HEAVY).verdict == "fail"
    light, heavy = checks.bearing_years(DEMO), checks.bearing_years(HEAVY)
    assert heavy.value is None or heavy.value < light.value / 27


def test_no_wheelset_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_: object) -> None:
        raise SpecError([Fault("diameter_mm", 99.0, "up to 35", "diameter_mm = 35")])

    monkeypatch.setattr(checks, "wheelset", refuse)
    for check in checks.CHECKS:
        result = check(DEMO)
        assert result.verdict == "not-assessed"
        assert "diameter_mm" in result.says
