"""The rating: limits that hold together, and what must never go the wrong way."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.loads.spectrum import spectrum
from platewheel.parts.rating.detail import cycles_of
from platewheel.parts.rating.miner import damage
from platewheel.parts.rating.rate import Rating, least_place_mm, rate
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.turn import angles, von_mises
from tests.parts.checks.settings import setting_of

COARSE = 6.0  # mm, for speed


@given(st.floats(0, 300), st.floats(-300, 300), st.floats(0, 100))
def test_von_mises(pull: float, along: float, shear: float) -> None:
    """Plane stress: s1^2 - s1 s2 + s2^2 + 3 tau^2; equal on all sides: nothing."""
    plane = np.array([pull, along, 0.0, shear, 0.0, 0.0]).reshape(1, 6, 1)
    squared = pull**2 - pull * along + along**2 + 3 * shear**2
    assert von_mises(plane)[0, 0] == pytest.approx(math.sqrt(squared), abs=1e-9)
    even = np.array([pull, pull, pull, 0.0, 0.0, 0.0]).reshape(1, 6, 1)
    assert von_mises(even)[0, 0] == pytest.approx(0.0, abs=1e-9)


def rated(wear_mm: float = 0.0, load_n: float = 3000.0, **wheel: Any) -> Rating:
    return rate(setting_of(load_n, wheel=wheel), worn_mm=wear_mm, size_mm=COARSE)[0]


def load(rating: Rating, name: str) -> float:
    return next(limit.load_n for limit in rating.limits if limit.name == name)


@pytest.fixture(scope="module")
def plain() -> Rating:
    return rated()


def test_least_limit_governs(plain: Rating) -> None:
    loads = [limit.load_n for limit in plain.limits]
    assert loads == sorted(loads)
    assert plain.load_n == min(limit.load_n for limit in plain.limits if limit.judged) > 0
    assert [limit.name for limit in plain.beside] == ["weld roots, full range"]
    assert len({limit.name for limit in plain.limits}) == len(loads) >= 7
    assert all(limit.where and limit.by for limit in plain.limits)


def shaken(setting: Setting, shock: float) -> Setting:
    wagon = setting.wagon.model_copy(update={"shock_factor": shock})
    return replace(setting, wagon=wagon)


@pytest.mark.parametrize("shock", [1.0, 1.5])
def test_loads_that_fatigue_allows_last_the_life_asked_for(shock: float) -> None:
    """All loads in proportion: twice the mass, half the share that is allowed of it; with no more
    than is allowed the damage is 1."""
    setting = shaken(setting_of(3000.0), shock)
    rating, response = rate(setting, size_mm=COARSE)
    crack = min(rating.lasting, key=lambda one: one.share)
    blocks = spectrum(carrying(setting, crack.share))
    cycles = cycles_of(crack.detail, blocks, angles(response))
    done = damage(cycles, crack.detail.fat_n_mm2, setting.fatigue_factor).sum(axis=1)
    assert done.max() == pytest.approx(1.0, rel=1e-3)
    assert setting.turns_in_life == pytest.approx(10_000e6 / (math.pi * 300))


def carrying(setting: Setting, share: float) -> Setting:
    """The wagon so laden, nothing of it payload, that every load is this much of what it was."""
    tare = setting.wagon.tare_kg * share
    return replace(setting, wagon=setting.wagon.model_copy(update={"tare_kg": tare}))


def test_more_wall_is_stronger() -> None:
    """Static strength of the plates, wall 4 to 8 mm."""
    ratings = [rated(tread_thickness_mm=wall) for wall in (4.0, 6.0, 8.0)]
    loads = [load(rating, "static strength") for rating in ratings]
    assert loads == sorted(loads)
    assert loads[1] > 1.2 * loads[0]  # a bent plate: with the wall's square, less what it spreads


def test_stronger_steel_raises_static_limits_alone(plain: Rating) -> None:
    """Static: in proportion to fy; fatigue of welds does not know the grade (IIW)."""
    strong = rated(steel="S355")
    for name in ("static strength", "vent holes"):
        assert load(strong, name) / load(plain, name) == pytest.approx(355 / 235)
    for name in ("weld toes", "weld roots", "opened weld roots", "flange stiffness"):
        assert load(strong, name) == pytest.approx(load(plain, name), rel=1e-9)


def test_worn_is_never_above_new(plain: Rating) -> None:
    """Thinner ring: the plates, the welds that hold it and the flange on it all have less help."""
    worn = rated(2.0)
    for name in ("static strength", "vent holes", "weld throats", "flange stiffness"):
        assert load(worn, name) < load(plain, name) * 1.001
    assert worn.worn_mm == 2.0


def test_longer_life_allows_less(plain: Rating) -> None:
    """Fatigue falls with the years by the S-N curve, nothing else moves."""
    setting = setting_of(3000.0, use={"years": 80.0})
    long, _ = rate(setting, size_mm=COARSE)
    for limit in plain.limits:
        ratio = load(long, limit.name) / limit.load_n
        if limit.damage is not None:
            assert 4 ** (-1 / 3) - 1e-9 <= ratio <= 4 ** (-1 / 5) + 1e-9
        else:
            assert ratio == pytest.approx(1.0, rel=1e-9)


def test_no_push_no_flange_limit() -> None:
    """Without lateral force the flange is not pushed, and nothing is rated lower for it but
    what a push relieves, by a little."""
    calm, _ = rate(
        setting_of(3000.0, use={"lateral_share": 0.0}, track={"cant_mm": 100.0}), size_mm=COARSE
    )
    pushed = rated()
    assert "flange stiffness" not in {limit.name for limit in calm.limits}
    for limit in calm.limits:
        assert limit.load_n >= 0.98 * load(pushed, limit.name)


def test_a_gap_of_nothing_is_no_jump() -> None:
    """A hundredth of fit clearance changes no limit by a twentieth: same bead, same load."""
    tight, close = rated(fit_clearance_mm=0.0), rated(fit_clearance_mm=0.01)
    for limit in close.limits:
        assert load(tight, limit.name) == pytest.approx(limit.load_n, rel=0.05), limit


def test_patch_stays_on_the_rail() -> None:
    """Flange against rail: patch middle half a head from the gauge edge; play moves it off."""
    setting = setting_of(3000.0, track={"gauge_widening_mm": 0.0})
    furthest = least_place_mm(setting, 20.0)
    assert furthest == pytest.approx(60.0 - 36.0 / 2 - setting.play_mm)
