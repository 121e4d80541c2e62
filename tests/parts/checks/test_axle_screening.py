"""The wheelset's checks asked of a setting say what they say of the wheelset made of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.axle_screening import CHECKS, wheelset_made
from platewheel.parts.checks.run_wheelset import run_wheelset_checks
from platewheel.parts.propose.choices import Choices, Ring
from platewheel.parts.propose.sifting import sifted
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.wheelset.assembly import wheelset
from tests.parts.settings import demo_setting

ONE = Choices(
    diameter=(300.0,),
    ring=(Ring("bar", 60.0, 8.0),),
    flange=(8.0,),
    depth=(15.0,),
    angle=(70.0,),
    disc=(6.0,),
    inset=(8.0,),
    fit=(0.75,),
    throat=(3.0, 4.0),
    root=(8.0,),
    vents=((4, 16.0),),
    segments=(1,),
)


def test_same_results_as_of_the_wheelset() -> None:
    setting = demo_setting()
    asked = [result for check in CHECKS if (result := check(setting)) is not None]
    direct = run_wheelset_checks(setting, wheelset(setting))
    assert sorted(asked, key=lambda r: r.id) == sorted(direct, key=lambda r: r.id)


def test_a_wheelset_that_cannot_be_made_fails_once_and_says_why() -> None:
    """Frame bearings nearer than the wheels between them."""
    setting = demo_setting()
    setting = replace(setting, axle=AxleSpec(frames="outside", bearing_centres_mm=300))
    with pytest.raises(SpecError):
        wheelset(setting)
    results = [result for check in CHECKS if (result := check(setting)) is not None]
    assert [(result.id, result.verdict) for result in results] == [("wheelset-made", "fail")]
    assert "bearing_centres_mm" in results[0].says


def test_a_wheelset_that_can_be_made_gives_no_fault() -> None:
    assert wheelset_made(demo_setting()) is None


def test_screening_asks_the_axle_too() -> None:
    """A load that the axle cannot bear for ever leaves no wheel, and the sieve names the check."""
    setting = demo_setting()
    heavy = setting.wagon.model_copy(update={"payload_kg": 900.0})
    found = sifted(replace(setting, wagon=heavy), ONE, CHECKS)
    assert not found.wheels.count
    assert found.sieves[-1].check == "axle_fatigue_safety"
    assert sifted(setting, ONE, CHECKS).wheels.count
