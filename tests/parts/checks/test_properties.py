"""What holds for the checks of any wheel: sane results, and more steel or weld never hurts."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from scipy.special import ellipe, ellipk

from platewheel.parts.checks.galvanizing import (
    hollows,
)
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import CHECKS, RUNNING
from platewheel.parts.checks.strength import (
    contact,
    disc_buckling,
    flange_strength,
    hub_strength,
    weld_size,
    weld_strength,
)
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.hertz import _elliptic, contact_modulus_n_mm2, point_half_axes_mm
from platewheel.parts.wheel.welds import missing_beads
from tests.parts.checks.settings import any_settings, setting_of

SOME = settings(
    max_examples=80,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
Check = Callable[[Setting], CheckResult | None]


@SOME
@given(any_settings())
def test_any_wheel_gets_sane_results(setting: Setting) -> None:
    made = [check(setting) for check in CHECKS if check not in RUNNING]
    results = [result for result in made if result is not None]
    assert len({result.id for result in results}) == len(results)
    for result in results:
        assert result.says[-1] != ".", result.id
        if result.verdict == "not-assessed":
            assert result.value is None
            assert result.margin is None
            continue
        assert result.value is not None
        assert result.limit is not None
        assert result.margin is not None
        assert all(math.isfinite(x) for x in (result.value, result.limit, result.margin)), result
        assert (result.margin >= -1e-9) == (result.verdict == "pass"), result


@SOME
@given(any_settings())
def test_sealed_means_no_vents(setting: Setting) -> None:
    """No wheel with vents through a closed box is called sealed, none without them is passed."""
    inside = hollows.closed_hollows(setting.wheel)
    closed = setting.wheel.has_tube and not missing_beads(setting.wheel)
    if setting.wheel.vent_count == 0:
        assert not any(hollow.vented for hollow in inside)
        assert inside or not closed
    elif setting.wheel.has_tube and not setting.wheel.first_disc_both_sides:
        box = max(inside, key=lambda hollow: hollow.volume_mm3, default=None)
        assert box is None or box.vented


def margin(check: Check, setting: Setting) -> float:
    result = check(setting)
    assert result is not None
    assert result.margin is not None
    return result.margin


sizes = st.tuples(st.floats(2, 16), st.floats(2, 16)).map(sorted)
loads = st.floats(100, 50_000)


@pytest.mark.parametrize(
    ("key", "check"),
    [
        ("weld_throat_mm", weld_strength.rim_weld),
        ("weld_throat_mm", weld_strength.tube_weld),
        ("weld_throat_mm", weld_size.throat_least),
        ("root_weld_mm", flange_strength.root_weld_strength),
        ("flange_thickness_mm", flange_strength.flange_bending),
        ("flange_thickness_mm", flange_strength.root_weld_strength),
        ("tread_thickness_mm", flange_strength.root_weld_strength),
        ("tread_thickness_mm", disc_buckling.disc_rim_stress),
        ("tread_thickness_mm", disc_buckling.disc_buckling),
        ("disc_thickness_mm", hub_strength.bore_pressure),
    ],
)
@settings(SOME, max_examples=40)
@given(sizes, loads)
def test_more_never_hurts(key: str, check: Check, pair: list[float], load: float) -> None:
    less, more = pair
    base = {"disc_field_inset_mm": 4.0, "disc_gauge_inset_mm": 4.0, "hub_tube_length_mm": 70.0}
    thin, thick = (setting_of(load, wheel=base | {key: size}) for size in (less, more))
    assert margin(check, thick) >= margin(check, thin) - 1e-9


@settings(SOME, max_examples=40)
@given(st.tuples(st.floats(36, 67), st.floats(36, 67)).map(sorted), loads)
def test_a_thicker_tube_never_hurts(pair: list[float], load: float) -> None:
    """Bore 35, walls up to 16 mm, where the yield strength is one."""
    thin, thick = (setting_of(load, wheel={"hub_tube_outside_mm": outside}) for outside in pair)
    check = hub_strength.hub_tube_bending
    assert margin(check, thick) >= margin(check, thin) - 1e-9


@SOME
@given(sizes, st.floats(20, 500), st.floats(2, 16), st.floats(10, 200))
def test_thicker_webs_carry_more(
    pair: list[float], height: float, flange: float, width: float
) -> None:
    less, more = (disc_buckling.patch_resistance_n(t, height, flange, width, 235) for t in pair)
    assert more >= less * (1 - 1e-9)


STRENGTH = (
    contact.tread_pressure,
    contact.crane_wheel_pressure,
    weld_strength.rim_weld,
    weld_strength.tube_weld,
    flange_strength.flange_bending,
    flange_strength.root_weld_strength,
    disc_buckling.disc_rim_stress,
    disc_buckling.disc_buckling,
    hub_strength.hub_tube_bending,
    hub_strength.bore_pressure,
)


@pytest.mark.parametrize("check", STRENGTH)
@settings(SOME, max_examples=30)
@given(st.tuples(loads, loads).map(sorted))
def test_more_load_never_helps(check: Check, pair: list[float]) -> None:
    light, heavy = (setting_of(load) for load in pair)
    assert margin(check, heavy) <= margin(check, light) + 1e-9
    if wheel_load_n(heavy) > 1.01 * wheel_load_n(light):
        assert margin(check, heavy) < margin(check, light)


@SOME
@given(st.floats(0, 0.999999))
def test_elliptic_integrals(parameter: float) -> None:
    """SciPy's complete elliptic integrals."""
    first, second = _elliptic(parameter)
    assert first == pytest.approx(ellipk(parameter), rel=1e-10)
    assert second == pytest.approx(ellipe(parameter), rel=1e-10)


@SOME
@given(st.floats(1, 1000), st.floats(1, 1000), loads)
def test_ellipse_solves_both_curvatures(r1: float, r2: float, load: float) -> None:
    """Johnson 4.25, 4.26: each curvature from p, a, b and the integrals of SciPy."""
    modulus = contact_modulus_n_mm2()
    a, b = point_half_axes_mm(load, r1, r2, modulus)
    p = 3 * load / (2 * math.pi * a * b)
    m = 1 - (b / a) ** 2
    assume(m > 1e-6)  # nearly round: the difference of the integrals loses its digits
    k, e = ellipk(m), ellipe(m)
    slack = p / modulus * b / (a * a * m) * (k - e)
    steep = p / modulus * b / (a * a * m) * ((a / b) ** 2 * e - k)
    assert slack == pytest.approx(1 / (2 * max(r1, r2)), rel=1e-6)
    assert steep == pytest.approx(1 / (2 * min(r1, r2)), rel=1e-6)
