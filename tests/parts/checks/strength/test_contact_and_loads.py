"""Pressure on the rail, and how the load reaches the discs: by hand."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.strength.contact import (
    crane_wheel_pressure,
    speed_factor,
    tread_pressure,
    tread_pressure_crowned,
    turns_per_min,
)
from platewheel.parts.checks.strength.disc_load import (
    greatest_disc_share,
    overturning_n_mm,
    slip_torque_n_mm,
    spread_length_mm,
)
from platewheel.parts.loads.wheel_load import side_force_n
from platewheel.parts.stress.hertz import (
    contact_modulus_n_mm2,
    line_pressure_n_mm2,
    point_half_axes_mm,
)
from tests.parts.checks.settings import setting_of

K_S235 = 235 / math.sqrt(3)


def test_pressure_on_a_flat_head() -> None:
    """10 kN, 36 mm head with corners of 3, wheel 300: 285.7 N/mm2, derived by hand (0.418 form)."""
    result = tread_pressure(setting_of())
    assert result is not None
    assert result.value == pytest.approx(285.7, abs=0.1)
    assert result.limit == pytest.approx(4 * K_S235)
    assert result.verdict == "pass"
    assert tread_pressure_crowned(setting_of()) is None


def test_pressure_fails_at_its_limit() -> None:
    """Pressure goes with the root of the load; the limit is met at (4 k / 285.7)^2 x 10 kN."""
    most = (4 * K_S235 / 285.7) ** 2 * 10e3
    below, above = (tread_pressure(setting_of(share * most)) for share in (0.99, 1.01))
    assert below is not None
    assert above is not None
    assert (below.verdict, above.verdict) == ("pass", "fail")


def test_a_crowned_head_warns_of_flattening() -> None:
    """Elliptical contact: far above line contact, a warning because it flattens by itself."""
    setting = setting_of(track={"rail_head_radius_mm": 100.0})
    result, line = tread_pressure_crowned(setting), tread_pressure(setting)
    assert result is not None
    assert line is not None
    assert result.verdict == "warn"
    a, b = point_half_axes_mm(10e3, 150, 100, contact_modulus_n_mm2())
    assert result.value == pytest.approx(3 * 10e3 / (2 * math.pi * a * b))
    assert result.limit == pytest.approx(4.7 * K_S235)
    assert "flatten" in result.says
    assert line.verdict == "pass"


def test_a_slight_crown_is_never_better_than_the_flat_head() -> None:
    """The ellipse of a 1 m crown is wider than a 12 mm head: the line's pressure rules."""
    narrow = {"rail_head_width_mm": 12.0, "rail_corner_radius_mm": 1.0}
    result = tread_pressure_crowned(setting_of(track=narrow | {"rail_head_radius_mm": 1000.0}))
    assert result is not None
    assert result.value is not None
    assert result.value >= line_pressure_n_mm2(10e3, 10, 300, contact_modulus_n_mm2()) - 1e-9


def test_a_round_head_is_a_crown_of_its_corner() -> None:
    track = {"rail_head_width_mm": 20.0, "rail_corner_radius_mm": 10.0}
    assert tread_pressure(setting_of(track=track)) is None
    assert crane_wheel_pressure(setting_of(track=track)) is None
    result = tread_pressure_crowned(setting_of(track=track))
    given = tread_pressure_crowned(setting_of(track={"rail_head_radius_mm": 10.0}))
    assert result is not None
    assert given is not None
    assert result.value == pytest.approx(given.value)


def test_crane_wheel_pressure() -> None:
    """Tare only: (P + 2 P) / 3 / (30 x 300); 6 km/h on 300 mm is 100 / (pi 0.3) turns a minute."""
    assert turns_per_min(6, 300) == pytest.approx(100 / (math.pi * 0.3))
    result = crane_wheel_pressure(setting_of())
    assert result is not None
    assert result.value == pytest.approx(10e3 / 9000)
    assert result.limit is not None
    assert 2.8 * 0.77 < result.limit < 2.8 * 0.82  # between 125 and 100 turns a minute
    heavy = crane_wheel_pressure(setting_of(21e3))
    assert heavy is not None
    assert heavy.verdict == "warn"


def test_crane_rule_ends_with_its_table() -> None:
    assert speed_factor(1.0) == pytest.approx(1.17)
    assert speed_factor(31.5) == pytest.approx(1.0)
    assert speed_factor(201) is None
    result = crane_wheel_pressure(setting_of(speed_km_h=20))
    assert result is not None
    assert result.verdict == "not-assessed"
    assert result.value is None
    assert "wagon.max_speed_km_h" in result.says


def test_lateral_force_moment_and_slip() -> None:
    setting = setting_of(use={"lateral_share": 0.4, "friction_high": 0.5})
    assert side_force_n(setting) == pytest.approx(4e3)
    assert overturning_n_mm(setting) == pytest.approx(4e3 * 150)
    assert slip_torque_n_mm(setting) == pytest.approx(0.5 * 10e3 * 150)
    assert slip_torque_n_mm(setting_of(axle={"wheels_on_axle": "loose"})) == 0


@pytest.mark.parametrize(
    ("head", "share"),
    [
        (60.0, 0.5 + 8 / 38),  # rail under the middle; 8 mm of play takes it 8 mm to the field
        (22.0, 1.0),  # middle of the rail under the gauge disc, z = 49
        (6.0, 1 + 8 / 38),  # z = 57, outside the pair
    ],
)
def test_lever_rule(head: float, share: float) -> None:
    """Plain wheel: discs' middles at z = 11 and 49, tread 60 wide."""
    assert greatest_disc_share(setting_of(track={"rail_head_width_mm": head})) == pytest.approx(
        share
    )


def test_widened_gauge_takes_the_rail_further_out() -> None:
    """Rail under the middle, 8 mm of play and 10 mm of widening to the field."""
    track = {"rail_head_width_mm": 60.0, "gauge_widening_mm": 10.0}
    assert greatest_disc_share(setting_of(track=track)) == pytest.approx(0.5 + 18 / 38)


def test_spread_length() -> None:
    """EN 1993-6 form by hand: I = 30 x 6^3 / 12 = 540, t 6: 3.25 x 90^(1/3) = 14.56 mm."""
    assert spread_length_mm(540, 6) == pytest.approx(14.56, abs=0.01)
