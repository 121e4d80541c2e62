"""Wheels of the study of vents: the demo, garden and quarry wheels with other vents and discs."""

from __future__ import annotations

from dataclasses import dataclass, replace

from platewheel.parts.setting.setting import Setting

PUSH = 0.4  # of the load, on the flange


@dataclass(frozen=True)
class VentCase:
    """Vents in a job's wheel; `disc_mm` 0 keeps its discs."""

    job: str
    count: int
    diameter_mm: float
    circle_mm: float
    disc_mm: float = 0.0


CASES = {
    "8x60": VentCase("demo", 8, 60.0, 175.0),
    "5x92": VentCase("demo", 5, 92.0, 170.0),
    "4x92": VentCase("demo", 4, 92.0, 172.0),
    "4x16": VentCase("demo", 4, 16.0, 252.0),
    "4x16-rim": VentCase("demo", 4, 16.0, 258.0),
    "6x50": VentCase("demo", 6, 50.0, 170.0),
    "6x70": VentCase("demo", 6, 70.0, 170.0),
    "3x80": VentCase("demo", 3, 80.0, 170.0),
    "12x30": VentCase("demo", 12, 30.0, 170.0),
    "4x40-rim": VentCase("demo", 4, 40.0, 225.0),
    "5x40-hub": VentCase("demo", 5, 40.0, 120.0),
    "8x60-thick": VentCase("demo", 8, 60.0, 175.0, 10.0),
    "6x50-thin": VentCase("demo", 6, 50.0, 170.0, 4.0),
    "16x20": VentCase("demo", 16, 20.0, 200.0),
    "8x40-rim": VentCase("demo", 8, 40.0, 215.0),
    "4x60": VentCase("demo", 4, 60.0, 170.0),
    "garden-6x40": VentCase("garden", 6, 40.0, 108.0),
    "quarry-6x76": VentCase("quarry", 6, 76.0, 220.0),
}


def with_vents(setting: Setting, case: VentCase) -> Setting:
    """A job's setting with the case's vents and discs."""
    changes = {
        "vent_count": case.count,
        "vent_diameter_mm": case.diameter_mm,
        "vent_circle_mm": case.circle_mm,
    }
    if case.disc_mm:
        changes["disc_thickness_mm"] = case.disc_mm
    return replace(setting, wheel=setting.wheel.model_copy(update=changes))
