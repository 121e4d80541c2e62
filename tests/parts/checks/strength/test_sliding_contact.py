"""Treads that slide in curves: the shakedown limit by friction, on flat heads and on crowns."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.strength.contact import (
    sliding_pressure,
    tread_pressure,
    tread_pressure_crowned,
)
from platewheel.parts.checks.trying import advice_tried
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.running.settings import running_setting
from tests.parts.checks.settings import setting_of

E_STAR = 210e3 / (2 * (1 - 0.3**2))  # steel on steel
K = 235 / math.sqrt(3)  # S235


def at(load_n: float, friction: float, **track: float) -> Setting:
    return setting_of(load_n, use={"friction_high": friction}, track=track or None)


@pytest.mark.parametrize(("friction", "share"), [(0.3, 2.89), (0.4, 2.5), (0.5, 2.0)])
def test_a_flat_head_by_hand(friction: float, share: float) -> None:
    """Line of 30 mm, radius 150: p^2 = P E* / (pi l R); the limit falls with the friction."""
    most = (share * K) ** 2 * math.pi * 30 * 150 / E_STAR
    for load, verdict in ((0.999 * most, "pass"), (1.001 * most, "warn")):
        result = sliding_pressure(at(load, friction))
        assert result is not None
        assert result.limit == pytest.approx(share * K)
        assert result.verdict == verdict


def test_the_load_told_is_enough() -> None:
    heavy = running_setting(payload_kg=9000.0, friction_high=0.5)
    with advice_tried():
        result = sliding_pressure(heavy)
    assert result is not None
    load = float(result.says.split("payload_kg = ")[1])
    for payload, verdict in ((load, "pass"), (1.02 * load, "warn")):
        then = sliding_pressure(running_setting(payload_kg=payload, friction_high=0.5))
        assert then is not None
        assert then.verdict == verdict
    assert "grease the rails" in result.says


def test_a_crown_has_the_limit_of_a_spot() -> None:
    setting = at(3e3, 0.2, rail_head_radius_mm=300.0)
    crowned, result = tread_pressure_crowned(setting), sliding_pressure(setting)
    assert crowned is not None
    assert result is not None
    assert result.value == crowned.value
    assert result.limit == pytest.approx(3.7 * K)


def test_it_is_never_milder_than_free_rolling() -> None:
    for friction in (0.21, 0.35, 0.7):
        free, sliding = tread_pressure(at(5e3, friction)), sliding_pressure(at(5e3, friction))
        assert free is not None
        assert sliding is not None
        assert sliding.value == free.value
        assert (sliding.limit or 0) < (free.limit or 0)
