"""Bearings and bushes: uneven wheels, light series, lean by kind, what a shoulder may be."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.parts.base.faults import Fault
from platewheel.parts.checks.wheelset.axle_turning import axle_slope
from platewheel.parts.checks.wheelset.bearings import bearing_axial, bush_pressure, most_loaded_n
from platewheel.parts.loads.wheel_load import heavy_load_n, side_force_n, wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import wheelset, wheelset_faults
from platewheel.parts.wheelset.iso_fits import fit
from tests.parts.settings import demo_setting

DEMO = demo_setting()
LOAD = wheel_load_n(DEMO)


def with_axle(**keys: object) -> Setting:
    return replace(DEMO, axle=type(DEMO.axle)(**(DEMO.axle.model_dump() | keys)))


def faults_of(**keys: object) -> dict[str, Fault]:
    return {fault.key: fault for fault in wheelset_faults(with_axle(**keys))}


def test_the_wheel_over_an_inside_bearing_tips_the_light_one_up() -> None:
    """Balance about the far bearing, wheels on 482, bearings on 150: heavy at a joint, light
    at rest; the side force adds H r / 150."""
    setting = with_axle(
        frames="inside", bearing="bush", bearing_centres_mm=150.0, bush_length_mm=18
    )
    light = 2 * DEMO.static_wheel_load_n - heavy_load_n(DEMO)
    by_balance = (LOAD * (75 + 241) - light * (241 - 75)) / 150
    found = most_loaded_n(setting, wheelset(setting))
    assert found == pytest.approx(by_balance + side_force_n(DEMO))
    pressure = bush_pressure(setting, wheelset(setting))
    assert pressure is not None
    assert pressure.value == pytest.approx(found / (40 * 18))


def test_outside_bearings_have_most_with_both_wheels_heavy() -> None:
    made = wheelset(DEMO)
    push = side_force_n(DEMO) * 150 / made.bearing_centres_mm
    assert most_loaded_n(DEMO, made) == pytest.approx(LOAD + push)


@pytest.mark.parametrize(("name", "share"), [("6008", 0.25), ("6208", 0.5), ("6308", 0.5)])
def test_the_lightest_series_takes_half_the_push(name: str, share: float) -> None:
    setting = with_axle(bearing="deep-groove", bearing_name=name)
    made = wheelset(setting)
    found = bearing_axial(setting, made)
    assert found is not None
    assert made.bearing is not None
    assert found.limit == pytest.approx(1000 * share * made.bearing.c0_kn)


def test_lean_by_what_the_bearing_bears() -> None:
    limits = {
        kind: axle_slope(setting, wheelset(setting)).limit
        for kind in ("insert", "deep-groove", "bush")
        for setting in [with_axle(bearing=kind)]
    }
    assert limits["insert"] == pytest.approx(8.7)
    assert limits["deep-groove"] == pytest.approx(3)
    assert limits["bush"] == pytest.approx(1000 * fit(40, "F8", "h6")[0] / 60)


def test_a_ball_bearing_is_tight_on_a_bar_of_one_diameter_too() -> None:
    made = wheelset(with_axle(bearing="deep-groove"))
    assert len(made.steps) == 1
    shafts = {place: shaft for place, _, _, shaft in made.fits}
    assert shafts["bearing on axle"] == shafts["wheel on axle"] == "k6"


def test_a_shoulder_against_a_ball_bearing() -> None:
    """6009: 45 x 75, so at most 45 + 0.3 x 30 = 54 on its inner ring, and 1 mm of chamfer."""
    inside = {"frames": "inside", "bearing": "deep-groove", "bearing_name": "6009"}
    assert wheelset(with_axle(**inside, body_diameter_mm=54.0)).fillet_mm == 1
    high = faults_of(**inside, body_diameter_mm=80.0)["axle.body_diameter_mm"]
    assert "54.0 mm against 6009" in high.allowed
    wide = faults_of(**inside, body_diameter_mm=54.0, shoulder_fillet_mm=2.0)
    assert "chamfer of 6009" in wide["axle.shoulder_fillet_mm"].allowed
    assert not faults_of(**(inside | {"frames": "outside", "bearing_name": "6008"}))


def test_a_bush_larger_than_the_tables_is_refused() -> None:
    """Outside frames: 40 in 180 leaves 70 of wall; a loose wheel's bush is within its hub."""
    big = replace(
        with_axle(bearing="bush", bush_wall_mm=40.0),
        wheel=DEMO.wheel.model_copy(update={"hub_bore_mm": 115.0, "hub_tube_outside_mm": 140.0}),
    )
    faults = {fault.key: fault for fault in wheelset_faults(big)}
    assert "at most 32.5 mm on 115" in faults["axle.bush_wall_mm"].allowed
    loose = replace(
        with_axle(wheels_on_axle="loose", bearing="bush", retention="collar", bush_wall_mm=40.0),
        wheel=DEMO.wheel.model_copy(update={"hub_bore_mm": 190.0, "hub_tube_outside_mm": 215.0}),
    )
    assert [fault.key for fault in wheelset_faults(loose)] == ["wheel.hub_bore_mm"]
    fine = replace(big, axle=big.axle.model_copy(update={"bush_wall_mm": 5.0}))
    assert not wheelset_faults(fine)
    assert fit(125, "H7", "p6") == pytest.approx((-0.068, -0.003))
