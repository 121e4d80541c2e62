"""Mass of plate: 7.85 kg per m2 and mm, as steel dealers list it (usisteels.com, nan-steel.com)."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.wheel.assembly import wheel_parts
from platewheel.parts.wheel.part import Part
from tests.parts.wheels import plain_wheel


def part(name: str, **changes: float) -> Part:
    return next(p for p in wheel_parts(plain_wheel(**changes)) if p.name == name)


@pytest.mark.parametrize(
    ("thickness_mm", "kg_per_m2"),
    [
        (3, 23.55),
        (5, 39.25),
        (6, 47.10),
        (8, 62.80),
        (10, 78.50),
        (12, 94.20),
        (16, 125.6),
        (20, 157),
    ],
)
def test_plate_by_thickness(thickness_mm: float, kg_per_m2: float) -> None:
    """Tread strip of each thickness: its mass over its area."""
    tread = part("tread", tread_diameter_mm=400.0, tread_thickness_mm=thickness_mm)
    assert tread.blank is not None
    assert tread.mass_kg / (tread.blank.area_mm2 * 1e-6) == pytest.approx(kg_per_m2, rel=1e-9)


def test_density_in_pounds_per_cubic_inch() -> None:
    """usisteels.com: 0.2836 lb per cubic inch; pound and inch by definition."""
    pounds = DENSITY_KG_MM3 * 25.4**3 / 0.45359237
    assert pounds == pytest.approx(0.2836, abs=0.00005)


def test_disc_of_300_by_6() -> None:
    """Plain geometry with 7.85 kg per m2 and mm: 3.3293 kg, the hub hole too small to count."""
    disc = part(
        "disc",
        tread_diameter_mm=300 + 2 * 8 + 2 * 0.5,
        disc_thickness_mm=6.0,
        hub_bore_mm=0.01,
        hub_tube_length_mm=0.0,
        vent_count=0,
    )
    assert disc.mass_kg == pytest.approx(3.3293, abs=0.00005)
    assert disc.mass_kg == pytest.approx(math.pi * 0.15**2 * 6 * 7.85, rel=1e-6)
