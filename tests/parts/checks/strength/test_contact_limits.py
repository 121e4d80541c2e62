"""Pressure on the rail: the tables row by row, tapered treads, crowns, and where each turns."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from scipy.special import ellipe, ellipk

from platewheel.parts.checks.strength.contact import (
    crane_limit_n_mm2,
    crane_wheel_load_n,
    crane_wheel_pressure,
    hertz_of_crane_n_mm2,
    speed_factor,
    tread_pressure,
    tread_pressure_crowned,
    turns_per_min,
)
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.wagon import WagonSpec
from tests.parts.checks.settings import setting_of
from tests.parts.checks.strength.limits import most_load_n

E_STAR = 210e3 / (2 * (1 - 0.3**2))  # steel on steel: closed form
TURNS = (5, 10, 16, 20, 31.5, 50, 80, 100, 125, 160, 200)  # FEM 1.001, c1; from memory
FACTORS = (1.17, 1.13, 1.09, 1.06, 1.0, 0.94, 0.87, 0.82, 0.77, 0.72, 0.66)


def line_pressure(load: float, length: float, radius: float) -> float:
    """Cylinder on a flat: p^2 = P E* / (pi l R). Source: Hertz, closed form."""
    return math.sqrt(load * E_STAR / (math.pi * length * radius))


@pytest.mark.parametrize(
    ("strength", "limit"),
    [
        (330, 2.8), (360, 2.8), (409.9, 2.8), (410, 3.528), (489.9, 3.528), (490, 4.48),
        (499.9, 4.48), (500, 5.0), (599.9, 5.0), (600, 5.6), (699.9, 5.6), (700, 6.5),
        (799.9, 6.5), (800, 7.2), (1200, 7.2),
    ],
)  # fmt: skip
def test_limit_of_each_strength(strength: float, limit: float) -> None:
    """DIN 15070 below 500 N/mm2, FEM 1.001 from there; both from memory. DIN: 5.6 c1."""
    assert crane_limit_n_mm2(strength) == limit
    assert crane_limit_n_mm2(415) == pytest.approx(5.6 * 0.63)
    assert crane_limit_n_mm2(495) == pytest.approx(5.6 * 0.8)


def test_weaker_steel_than_the_table_is_refused() -> None:
    with pytest.raises(ValueError, match=r"found 329; allowed: from 330$"):
        crane_limit_n_mm2(329)


def test_speed_factor_is_linear_between_the_rows() -> None:
    """numpy's interpolation of the same rows, flat below the first; none above the last."""
    assert speed_factor(5) == 1.17
    for turns in np.linspace(0.1, 200, 400):
        assert speed_factor(turns) == pytest.approx(np.interp(turns, TURNS, FACTORS), abs=1e-12)
    for turns, factor in zip(TURNS, FACTORS, strict=True):
        assert speed_factor(turns) == pytest.approx(factor, abs=1e-12)
    assert speed_factor(200.001) is None


@pytest.mark.parametrize("pressure", [2.8, 5.0, 7.2])
def test_a_mean_pressure_stands_for_a_hertz_pressure(pressure: float) -> None:
    """p b D as the load of a line contact: 0.418 sqrt(P E / (b R)) squared is 0.35 E p."""
    load = crane_wheel_load_n(pressure, 37.0, 290.0)
    assert load == pytest.approx(pressure * 37 * 290)
    hertz = line_pressure(load, 37.0, 145.0)
    assert hertz_of_crane_n_mm2(pressure) == pytest.approx(hertz, rel=2e-3)


def test_turns_of_a_wheel() -> None:
    """7.2 km/h is 2 m/s: 120 m a minute over pi 0.4 m; 1 km/h 16.67 m."""
    assert turns_per_min(7.2, 400) == pytest.approx(120 / (math.pi * 0.4), rel=1e-12)
    assert turns_per_min(1.0, 400) == pytest.approx(1000 / 60 / (math.pi * 0.4), rel=1e-12)


TAPERED: dict[str, Any] = {"tread_taper_1_in": 20.0, "steel": "S275"}


def test_a_tapered_tread_presses_with_its_least_radius() -> None:
    """1 in 20 over 60 mm takes 3 mm off the radius of 150 mm at the field edge; 36 mm head less
    corners of 3 mm. S275 up to 16 mm: 275 N/mm2, EN 10025-2."""
    result = tread_pressure(setting_of(7e3, wheel=TAPERED))
    assert result is not None
    assert result.value == pytest.approx(line_pressure(7e3, 30, 147), rel=1e-9)
    assert result.limit == pytest.approx(4 * 275 / math.sqrt(3))
    assert (
        result.says == "the tread keeps its shape on 30 mm of rail head, once worn in to the head"
    )
    crane = crane_wheel_pressure(setting_of(7e3, wheel=TAPERED))
    assert crane is not None
    assert crane.value == pytest.approx(7e3 / (30 * 294))
    turns = 6e6 / 60 / (math.pi * 294)
    assert crane.limit == pytest.approx(3.528 * np.interp(turns, TURNS, FACTORS))


def test_only_a_tapered_tread_or_a_crown_has_to_wear_in() -> None:
    flat, crowned = setting_of(7e3), setting_of(7e3, track={"rail_head_radius_mm": 300.0})
    for setting, worn in ((flat, False), (crowned, True)):
        result = tread_pressure(setting)
        assert result is not None
        assert ("once worn in" in result.says) == worn


def test_half_a_millimetre_of_flat_is_a_flat() -> None:
    """A head of 6.5 mm with corners of 3 mm: 0.5 mm under a line."""
    narrow = {"rail_head_width_mm": 6.5}
    result = tread_pressure(setting_of(100.0, track=narrow))
    assert result is not None
    assert result.value == pytest.approx(line_pressure(100.0, 0.5, 150.0))
    crane = crane_wheel_pressure(setting_of(100.0, track=narrow))
    assert crane is not None
    assert crane.value == pytest.approx(100 / (0.5 * 300))
    assert tread_pressure_crowned(setting_of(100.0, track=narrow)) is None


def test_where_the_tread_fails() -> None:
    """Line pressure meets 4 fy / sqrt 3 at P = pi l R (4 fy)^2 / (3 E*)."""
    most = math.pi * 30 * 150 * (4 * 235) ** 2 / 3 / E_STAR
    assert most_load_n(lambda load: tread_pressure(setting_of(load))) == pytest.approx(most)
    result = tread_pressure(setting_of(1.65 * most))
    assert result is not None
    assert result.verdict == "fail"


def ellipse(load: float, flat_mm: float, round_mm: float) -> tuple[float, float]:
    """Half axes, the long one along the flatter of two crossed cylinders, by scipy's integrals:
    B / A = ((a/b)^2 E - K) / (K - E) and a^3 = 3 P E / (2 pi (b/a)^2 (A + B) E*).

    Source: Johnson, Contact Mechanics, 4.2, from memory.
    """
    big, small = 1 / (2 * round_mm), 1 / (2 * flat_mm)
    low, high = 1e-6, 1.0
    for _ in range(80):
        b_over_a = (low + high) / 2
        e2 = 1 - b_over_a**2
        k, e = ellipk(e2), ellipe(e2)
        too_long = (e / b_over_a**2 - k) / (k - e) > big / small
        low, high = (b_over_a, high) if too_long else (low, b_over_a)
    a = (3 * load * e / (2 * math.pi * b_over_a**2 * (big + small) * E_STAR)) ** (1 / 3)
    return a, a * b_over_a


@pytest.mark.parametrize("crown", [60.0, 100.0, 400.0, 1000.0])
@pytest.mark.parametrize("width_share", [0.2, 0.3, 0.9, 1.1])
def test_a_crown_wider_pressed_than_its_head_is_no_better_than_a_line(
    crown: float, width_share: float
) -> None:
    """Across the rail the ellipse has its long axis if the crown is flatter than the wheel; on a
    head narrower than that the line's pressure is the least."""
    a, b = ellipse(40e3, max(crown, 150.0), min(crown, 150.0))
    head = width_share * 2 * (a if crown > 150 else b)
    track = {"rail_head_width_mm": max(head, 3.0), "rail_corner_radius_mm": 0.0}
    result = tread_pressure_crowned(setting_of(40e3, track=track | {"rail_head_radius_mm": crown}))
    assert result is not None
    expected = 3 * 40e3 / (2 * math.pi * a * b)
    if head < 2 * (a if crown > 150 else b):
        expected = max(expected, line_pressure(40e3, max(head, 3.0), 150.0))
    assert result.value == pytest.approx(expected, rel=1e-6)
    limit = 4.7 * 235 / math.sqrt(3)
    assert result.limit == pytest.approx(limit)
    too_much = 100 - 100 * limit / expected
    assert (f"falls by {too_much:.0f} %" in result.says) == (too_much > 0)


def test_the_sharpest_crown_and_the_narrowest_flat_are_judged() -> None:
    """A crown of 1 mm; and 0.5 mm of flat under a crown, where the line has the say."""
    sharp = setting_of(10.0, track={"rail_head_radius_mm": 1.0})
    result = tread_pressure_crowned(sharp)
    assert result is not None
    a, b = ellipse(10.0, 150.0, 1.0)
    assert result.value == pytest.approx(3 * 10 / (2 * math.pi * a * b), rel=1e-6)
    slim = {"rail_head_width_mm": 6.5, "rail_head_radius_mm": 400.0}
    result = tread_pressure_crowned(setting_of(9e3, track=slim))
    assert result is not None
    assert result.value == pytest.approx(line_pressure(9e3, 0.5, 150.0))


def test_a_crown_and_a_tapered_tread() -> None:
    """The wheel's radius at the field edge, 147 mm; a light load keeps the shape."""
    track = {"rail_head_radius_mm": 100.0}
    result = tread_pressure_crowned(setting_of(50.0, wheel=TAPERED, track=track))
    assert result is not None
    a, b = ellipse(50.0, 147.0, 100.0)
    assert result.value == pytest.approx(3 * 50 / (2 * math.pi * a * b), rel=1e-6)
    assert result.verdict == "pass"
    assert result.says == "tread and rail keep their shape on a crown of 100 mm"


def loaded(tare_kg: float, payload_kg: float, unevenness: float, speed_km_h: float) -> Setting:
    wagon = WagonSpec(
        tare_kg=tare_kg,
        payload_kg=payload_kg,
        axles=3,
        wheelbase_mm=600.0,
        load_unevenness=unevenness,
        max_speed_km_h=speed_km_h,
    )
    plain = setting_of()
    return Setting(wheel=plain.wheel, track=plain.track, wagon=wagon)


def test_mean_load_of_a_crane_wheel() -> None:
    """Empty wheel 900 x 9.81 / 6 = 1471.5 N; loaded 4500 kg x 1.3: 9564.75 N; mean of once the
    least and twice the greatest 6867 N, no shock; S235, 360 N/mm2: 2.8."""
    result = crane_wheel_pressure(loaded(900.0, 3600.0, 1.3, 3.0))
    assert result is not None
    assert result.value == pytest.approx((1471.5 + 2 * 9564.75) / 3 / (30 * 300))
    turns = 3e6 / 60 / (math.pi * 300)
    assert result.limit == pytest.approx(2.8 * np.interp(turns, TURNS, FACTORS))


def test_beyond_the_turns_of_the_rule_is_told() -> None:
    result = crane_wheel_pressure(loaded(900.0, 3600.0, 1.3, 13.0))
    assert result is not None
    assert result.verdict == "not-assessed"
    turns = 13e6 / 60 / (math.pi * 300)  # 229.9
    assert f"the rule ends at 200 turns a minute and wagon.max_speed_km_h gives {turns:.0f};" in (
        result.says
    )


def test_how_much_wider_a_head_is_told() -> None:
    """30 kN on 30 x 300 mm: 3.333 N/mm2 over 2.8 x the factor at 106.1 turns a minute, 0.8078:
    1.474, rounded up."""
    result = crane_wheel_pressure(setting_of(30e3))
    assert result is not None
    told = "the tread wears fast: 1.48 times wider rail head or larger wheel, "
    assert (
        result.says == told + "track.rail_head_width_mm = 53.1 or wheel.tread_diameter_mm = 442.2"
    )
