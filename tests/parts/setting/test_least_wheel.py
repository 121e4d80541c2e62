"""The wheel at its least metal."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from platewheel.parts.base.faults import SpecError
from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.least_wheel import eaten, least_wheel, losses
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.wheel.assembly import wheel_mass_kg, wheel_parts, wheel_sections
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.checks.settings import setting_of
from tests.parts.wheels import WHEELS, valid_wheels


def of(wheel: WheelSpec, rust_mm: float | None = 0.0, tolerance: Any = "by standard") -> Setting:
    return replace(
        setting_of(),
        wheel=wheel,
        finish=FinishSpec(coating="painted", corrosion_mm=rust_mm),
        shop=ShopSpec(thickness_tolerance=tolerance),
    )


def of_keys(rust_mm: float = 0.0, **keys: Any) -> WheelSpec:
    return least_wheel(of(setting_of(wheel=keys).wheel, rust_mm)).wheel


def test_measured_plates_without_rust_are_the_wheel_itself() -> None:
    setting = of(WHEELS["plain"], tolerance="nominal")
    assert least_wheel(setting) is setting


def test_tolerance_of_the_plain_wheel() -> None:
    """Ring 8 of sheet, flange and discs 6, tube 57 on a bore of 35: 11 mm of wall, an eighth off
    its inside. What is not a thickness stays."""
    setting = of(WHEELS["plain"])
    least = least_wheel(setting).wheel
    changed = {
        key: value
        for key, value in least.model_dump().items()
        if value != getattr(setting.wheel, key, None)
    }
    assert changed.pop("lost_mm") == pytest.approx(1.375)
    assert changed == pytest.approx(
        {
            "tread_thickness_mm": 7.5,
            "flange_thickness_mm": 5.6,
            "disc_thickness_mm": 5.6,
            "hub_bore_mm": 37.75,
        }
    )
    assert least_wheel(setting) == replace(setting, wheel=least)


def test_a_ring_is_as_thin_as_what_it_is_made_of() -> None:
    assert of_keys(tread_from="bar").tread_thickness_mm == 7.5
    assert of_keys(tread_from="pipe").tread_thickness_mm == 7.0
    assert of_keys(tread_from="sheet", tread_thickness_mm=6.0).tread_thickness_mm == 5.6


def test_rust_by_faces() -> None:
    """0.2 mm: twice off discs and flange, once off ring and tube; insets grow by it, and a bead's
    throat and leg lose it off their face."""
    keys = {"wheel": WHEELS["plain"], "tolerance": "nominal"}
    before, least = WHEELS["plain"], least_wheel(of(**keys, rust_mm=0.2)).wheel
    assert before.disc_thickness_mm - least.disc_thickness_mm == pytest.approx(0.4)
    assert before.flange_thickness_mm - least.flange_thickness_mm == pytest.approx(0.4)
    assert before.tread_thickness_mm - least.tread_thickness_mm == pytest.approx(0.2)
    assert least.hub_bore_mm - before.hub_bore_mm == pytest.approx(0.4)
    assert least.disc_field_inset_mm - before.disc_field_inset_mm == pytest.approx(0.2)
    assert least.disc_gauge_inset_mm - before.disc_gauge_inset_mm == pytest.approx(0.2)
    assert before.weld_throat_mm - least.weld_throat_mm == pytest.approx(0.2)
    assert before.root_weld_mm - least.root_weld_mm == pytest.approx(0.2 * math.sqrt(2))
    assert (least.tread_diameter_mm, least.hub_tube_outside_mm) == (300, 57)


def test_bare_steel_rusts_for_the_years() -> None:
    setting = replace(of(WHEELS["plain"]), finish=FinishSpec(coating="bare", site="coast"))
    rusted = {loss.kind.name: loss.rust_mm for loss in losses(setting)}  # 20 years by default
    assert rusted == pytest.approx(
        {"tread": 1.12, "disc": 2.24, "flange": 2.24, "hub-tube": 1.12}, abs=0.01
    )


def test_no_steel_is_stronger_for_having_lost_metal() -> None:
    """Ring of 16.4 mm, 15.8 at the least: S235 stays at the 225 of more than 16 mm."""
    thick = setting_of(wheel={"tread_thickness_mm": 16.4}).wheel
    least = least_wheel(of(thick)).wheel
    assert least.tread_thickness_mm == pytest.approx(15.8)
    assert least.grade.fy_n_mm2(least.tread_thickness_mm) == 225
    assert thick.grade.fy_n_mm2(15.8) == 235


@pytest.mark.parametrize("thickness", [16.0, 40.0])
def test_a_plate_at_the_end_of_a_band_stays_in_it(thickness: float) -> None:
    keys = {"tread_diameter_mm": 600.0, "tread_thickness_mm": thickness, "vent_circle_mm": 400.0}
    wheel = setting_of(wheel=keys | {"hub_tube_length_mm": 0.0}).wheel
    least = least_wheel(of(wheel)).wheel
    strength = wheel.grade.fy_n_mm2(thickness)
    assert least.grade.fy_n_mm2(least.tread_thickness_mm) == strength


@pytest.mark.parametrize(
    ("rust", "keys", "names"),
    [
        (1.4, {}, "hub disc's 6 mm"),
        (1.2, {"weld_throat_mm": 2.0}, "weld_throat_mm = 2"),
        (1.0, {"root_weld_mm": 2.5}, "root_weld_mm = 2.5"),
    ],
)
def test_too_little_left_is_refused(rust: float, keys: dict[str, float], names: str) -> None:
    """Less than half of a plate, a throat or a leg; a little less rust is let be."""
    wheel = setting_of(wheel=keys).wheel
    assert names in eaten(of(wheel, rust))
    with pytest.raises(SpecError, match=r"finish\.corrosion_mm"):
        least_wheel(of(wheel, rust))
    assert not eaten(of(wheel, 0.75 * rust))
    assert least_wheel(of(wheel, 0.75 * rust)).wheel.disc_thickness_mm >= 3


@pytest.mark.parametrize("name", WHEELS)
def test_it_is_lighter_and_a_wheel_still(name: str) -> None:
    """Every part that is not made larger by the ring's wider bore, and the whole; and the spec's
    own rules still hold."""
    setting = of(WHEELS[name], 0.1)
    least = least_wheel(setting).wheel
    assert wheel_mass_kg(least) < wheel_mass_kg(setting.wheel)
    for before, after in zip(wheel_parts(setting.wheel), wheel_parts(least), strict=True):
        assert after.volume_mm3 < before.volume_mm3, before.name
    WheelSpec(**{key: value for key, value in least.model_dump().items() if key != "lost_mm"})


@given(valid_wheels(), st.floats(0, 0.3), st.sampled_from(["by standard", "coil", "nominal"]))
@settings(max_examples=60)
def test_least_is_never_more(wheel: WheelSpec, rust: float, tolerance: str) -> None:
    setting = of(wheel, rust, tolerance)
    assume(not eaten(setting))
    least = least_wheel(setting).wheel
    for loss in losses(setting):
        left = loss.kind.thickness_mm(least)
        assert left <= loss.thickness_mm + 1e-9
        assert left >= 0.5 * loss.thickness_mm - 1e-9
        assert left == pytest.approx(loss.least_mm)
    assert least.weld_throat_mm <= wheel.weld_throat_mm
    assert least.root_weld_mm <= wheel.root_weld_mm
    assert wheel_sections(least)
