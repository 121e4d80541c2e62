"""Checks of the wheelset: more load is worse, and the life falls with its cube."""

from dataclasses import replace

from platewheel.parts.checks.wheelset import axle_bending as checks
from platewheel.parts.checks.wheelset.bearings import bearing_years
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.wheelset.assembly import wheelset
from tests.parts.settings import demo_setting

DEMO = replace(demo_setting(), axle=AxleSpec())
HEAVY = replace(DEMO, wagon=DEMO.wagon.model_copy(update={"payload_kg": 20000.0}))


def test_load_bends_and_wears() -> None:
    light, heavy = wheelset(DEMO), wheelset(HEAVY)
    bent, broken = checks.axle_bending(DEMO, light), checks.axle_bending(HEAVY, heavy)
    assert (broken.value or 0) > 3 * (bent.value or 0) > 0
    assert broken.verdict == "fail"
    long, short = bearing_years(DEMO, light), bearing_years(HEAVY, heavy)
    assert long is not None
    assert short is not None
    assert short.value is None or short.value < (long.value or 0) / 27
