"""What thickness the rating took, as it is told."""

from __future__ import annotations

from dataclasses import replace

from platewheel.parts.checks.strength.plate_tolerance import plate_tolerance
from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.shop import ShopSpec
from tests.parts.settings import demo_setting


def test_the_demo_is_told_its_plates() -> None:
    result = plate_tolerance(demo_setting())
    assert result.verdict == "pass"
    assert result.value == 5.6  # the discs
    assert result.says == (
        "rated with tread ring 7.5 mm (EN 10058), hub disc 5.6 mm (EN 10029, class A), flange "
        "7.5 mm (EN 10029, class A), hub tube 7.44 mm (EN 10210, EN 10255, an eighth of the "
        "wall): measure yours, and send back what is thinner"
    )


def test_rust_is_not_asked_of_the_dealer() -> None:
    """Bare inland for 15 years: 0.24 mm a face, off the plates that were bought."""
    setting = demo_setting()
    shop = ShopSpec(**setting.shop.model_dump() | {"thickness_tolerance": "nominal"})
    result = plate_tolerance(replace(setting, shop=shop, finish=FinishSpec(coating="bare")))
    assert "hub disc 6 mm (as measured)" in result.says
    assert result.says.endswith("; 0.24 mm of each face is left to rust")
    assert result.value is not None
    assert round(result.value, 2) == 5.53
