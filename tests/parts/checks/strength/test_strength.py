"""Welds, flange, discs and hub under load: closed forms by hand, and what makes them fail."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.checks.strength.disc_buckling import (
    critical_force_n,
    disc_buckling,
    disc_rim_stress,
    loaded_length_mm,
    patch_resistance_n,
)
from platewheel.parts.checks.strength.flange_strength import (
    flange_bending,
    groove_throat_mm,
    needed_throat_mm,
    root_weld_strength,
    strip_stress_n_mm2,
)
from platewheel.parts.checks.strength.hub_strength import (
    bore_pressure,
    edge_pressure_n_mm2,
    hub_tube_bending,
    tube_modulus_mm3,
)
from platewheel.parts.checks.strength.weld_size import throat_least, throat_most
from platewheel.parts.checks.strength.weld_strength import (
    fillet_throat_mm,
    rim_force_n_mm,
    rim_weld,
    tube_force_n_mm,
    tube_weld,
)
from tests.parts.checks.settings import setting_of

LOOSE: dict[str, Any] = {"wheels_on_axle": "loose"}


def test_rim_weld_under_radial_load_alone() -> None:
    """Middle of the rail under the gauge disc: whole load, over 3.25 (30 x 8^3 / 12 / 6)^(1/3)."""
    setting = setting_of(track={"rail_head_width_mm": 22.0}, use={"lateral_share": 0.0}, axle=LOOSE)
    spread = 3.25 * (30 * 8**3 / 12 / 6) ** (1 / 3)
    assert rim_force_n_mm(setting) == pytest.approx(1.5 * 10e3 / spread)
    result = rim_weld(setting)
    assert result.value == pytest.approx(3.0)
    assert result.limit == pytest.approx(1.5 * 10e3 / spread / 207.8, rel=1e-3)


def test_rim_weld_in_three_directions() -> None:
    """Sideways H / (2 pi d) + H R / (2 pi d^2 / 4), around T (d / 2) / (2 pi d^3 / 4), d = 284."""
    setting = setting_of(track={"rail_head_width_mm": 22.0})
    radial = 10e3 / (3.25 * (30 * 8**3 / 12 / 6) ** (1 / 3))
    axial = 4e3 / (2 * math.pi * 284) + 4e3 * 150 / (math.pi * 284**2 / 2)
    around = 0.5 * 10e3 * 150 * 142 / (math.pi * 284**3 / 2)
    assert rim_force_n_mm(setting) == pytest.approx(1.5 * math.hypot(radial, axial, around))


def test_tube_weld_takes_the_worse_way() -> None:
    """Tube 57, spacing 38: by the couple (F + H R / 38) / (pi 57); by bending H R / (pi 57^2/2)."""
    setting = setting_of(track={"rail_head_width_mm": 22.0}, axle=LOOSE)
    couple = (10e3 + 4e3 * 150 / 38) / (math.pi * 57)
    sideways = 4e3 / (2 * math.pi * 57)
    bending = sideways + 4e3 * 150 / (math.pi * 57**2 / 2)
    worse = max(math.hypot(couple, sideways), math.hypot(10e3 / (math.pi * 57), bending))
    assert tube_force_n_mm(setting) == pytest.approx(1.5 * worse)
    assert tube_weld(setting_of(wheel={"hub_tube_length_mm": 0.0})) is None


def test_welds_fail_under_load_and_without_room() -> None:
    assert rim_weld(setting_of(5e3)).verdict == "pass"
    assert rim_weld(setting_of(30e3)).verdict == "fail"
    flush = setting_of(wheel={"disc_gauge_inset_mm": 0.0})
    assert fillet_throat_mm(flush, "disc") == 0
    assert rim_weld(flush).verdict == "fail"
    assert "weld_throat_mm" in rim_weld(flush).says
    short = setting_of(wheel={"hub_tube_length_mm": 44.0})  # ends flush with the discs
    result = tube_weld(short)
    assert result is not None
    assert result.verdict == "fail"
    half = setting_of(wheel={"disc_field_inset_mm": 2.0, "weld_throat_mm": 4.0})
    leg = 4 * math.sqrt(2)
    assert fillet_throat_mm(half, "disc") == pytest.approx(2 * leg / math.hypot(2, leg))


def test_root_throat_solves_its_equation() -> None:
    for force, moment in ((50.0, 400.0), (50.0, 0.0), (0.0, 300.0)):
        a = needed_throat_mm(force, moment, 207.8)
        assert force / a + 6 * moment / a**2 == pytest.approx(207.8)


@pytest.mark.parametrize(
    ("legs", "angle", "throat"),
    [
        ((4.0, 4.0), 90.0, 4 / math.sqrt(2)),
        ((5.0, 5.0), 60.0, 5 * math.cos(math.radians(30))),
        ((3.0, 4.0), 90.0, 2.4),
        ((3.0, 60.0), 60.0, 3.0),
    ],
)
def test_throat_of_a_groove(legs: tuple[float, float], angle: float, throat: float) -> None:
    """Plain triangles: distance of the root from the face."""
    assert groove_throat_mm(*legs, math.radians(angle)) == pytest.approx(throat)


def test_flange_strip() -> None:
    """1 kN at 10 mm on 40 x 5: 6 x 1000 x 10 / (40 x 25) = 60 N/mm2; washer 15 deep, lever 7.5."""
    assert strip_stress_n_mm2(1e3, 10, 40, 5) == pytest.approx(60)
    washer = flange_bending(setting_of(wheel={"flange_angle_deg": 90.0}))
    assert washer.value == pytest.approx(6 * 4e3 * 7.5 / (35 * 36))
    assert washer.limit == pytest.approx(235 / 1.5)
    # without friction a face at 45 degrees is pushed square with sqrt 2 the force, sqrt 2 the lever
    flat = flange_bending(setting_of(wheel={"flange_angle_deg": 45.0}))
    lever = 7.5 * math.sqrt(2)
    assert flat.value == pytest.approx(6 * 4e3 * math.sqrt(2) * lever / ((20 + 2 * lever) * 36))


def test_flange_fails_under_load_and_says_a_thickness_that_passes() -> None:
    result = flange_bending(setting_of(20e3))
    assert result.verdict == "fail"
    needed = float(result.says.split("flange_thickness_mm = ")[1].split(" ")[0])
    thick = {"flange_thickness_mm": needed}
    assert flange_bending(setting_of(20e3, wheel=thick)).verdict == "pass"
    thin = {"flange_thickness_mm": needed - 0.2}
    assert flange_bending(setting_of(20e3, wheel=thin)).verdict == "fail"


def test_root_bead_says_a_leg_that_passes() -> None:
    load = 5e3
    small = setting_of(load, wheel={"root_weld_mm": 3.0, "flange_thickness_mm": 8.0})
    result = root_weld_strength(small)
    assert result.verdict == "fail"
    leg = float(result.says.split("root_weld_mm = ")[1].split(",")[0])
    better = setting_of(load, wheel={"root_weld_mm": leg, "flange_thickness_mm": 8.0})
    assert root_weld_strength(better).verdict == "pass"


def test_patch_load_by_hand() -> None:
    """k pi^2 E / (12 (1 - nu^2)) is 0.9 k E within 0.5 %; a stocky web squashes at fy l t / 1.1."""
    plate = 3.5 * math.pi**2 * 210e3 / (12 * (1 - 0.3**2))
    assert critical_force_n(6, 120) == pytest.approx(plate * 6**3 / 120, rel=5e-3)
    length = loaded_length_mm(6, 6, 24)
    assert length == pytest.approx(2 * 6 * (1 + 2))
    assert patch_resistance_n(6, 120, 6, 24, 235) == pytest.approx(235 * 36 * 6 / 1.1)
    slender = patch_resistance_n(1, 1000, 6, 4, 235)
    squash, critical = 235 * 36.0, 0.9 * 3.5 * 210e3 / 1000
    assert slender == pytest.approx(0.5 * math.sqrt(squash * critical) / 1.1)


def test_discs_fail_under_load() -> None:
    setting = setting_of(track={"rail_head_width_mm": 22.0})
    spread = 3.25 * (30 * 8**3 / 12 / 6) ** (1 / 3)
    assert disc_rim_stress(setting).value == pytest.approx(10e3 / (spread * 6))
    assert disc_rim_stress(setting).verdict == "pass"
    assert disc_rim_stress(setting_of(60e3)).verdict == "fail"
    thin = {"disc_thickness_mm": 1.0}
    assert disc_buckling(setting_of(2e3)).verdict == "pass"
    result = disc_buckling(setting_of(6e3, wheel=thin))
    assert result.verdict == "fail"
    needed = float(result.says.split("disc_thickness_mm = ")[1].split(",")[0])
    assert disc_buckling(setting_of(6e3, wheel={"disc_thickness_mm": needed})).verdict == "pass"


def test_hub() -> None:
    """Solid bar 32: pi 32^3 / 32; edge pressure 1000/(20 x 50) + 6 x 10^4/(20 x 50^2) = 2.2."""
    assert tube_modulus_mm3(32, 0) == pytest.approx(math.pi * 32**2)
    assert edge_pressure_n_mm2(1e3, 1e4, 20, 50) == pytest.approx(2.2)
    result = hub_tube_bending(setting_of())
    assert result is not None
    w = math.pi / 32 * (57**4 - 35**4) / 57
    assert result.value == pytest.approx(4e3 * 150 / w)
    thin = hub_tube_bending(setting_of(wheel={"hub_tube_outside_mm": 37.0}))
    assert thin is not None
    assert thin.verdict == "fail"
    needed = float(thin.says.split("hub_tube_outside_mm = ")[1].split(" ")[0])
    better = hub_tube_bending(setting_of(wheel={"hub_tube_outside_mm": needed}))
    assert better is not None
    assert better.verdict == "pass"
    assert hub_tube_bending(setting_of(wheel={"hub_tube_length_mm": 0.0})) is None


def test_bore_pressure() -> None:
    """Limit 0.6 fy, EN 1993-1-8, 3.13.2."""
    assert bore_pressure(setting_of()).limit == pytest.approx(0.6 * 235)
    assert bore_pressure(setting_of()).value == pytest.approx(
        edge_pressure_n_mm2(10e3, 600e3, 35, 70)
    )
    bare = setting_of(wheel={"hub_tube_length_mm": 0.0}, track={"rail_head_width_mm": 22.0})
    assert bore_pressure(bare).value == pytest.approx((10e3 + 600e3 / 38) / (35 * 6))
    assert bore_pressure(setting_of(60e3, wheel={"hub_tube_length_mm": 0.0})).verdict == "fail"


def test_a_tube_beyond_the_strength_table_is_not_assessed() -> None:
    wheel = {"tread_diameter_mm": 600.0, "hub_tube_outside_mm": 340.0, "vent_circle_mm": 500.0}
    result = hub_tube_bending(setting_of(wheel=wheel))
    assert result is not None
    assert result.verdict == "not-assessed"
    assert "tube's wall" in result.says


def test_size_of_fillets() -> None:
    assert throat_least(setting_of()).verdict == "pass"
    assert throat_least(setting_of(wheel={"weld_throat_mm": 2.5})).verdict == "warn"
    assert throat_most(setting_of()).limit == pytest.approx(4.2)  # discs of 6 mm
    assert throat_most(setting_of(wheel={"weld_throat_mm": 4.5})).verdict == "warn"
