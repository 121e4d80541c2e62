"""A wheel unlike the plain one in every size, so that no two could be taken for each other."""

from __future__ import annotations

from typing import Any

# discs 5 mm at z = 9 to 14 and 53 to 58 of 65: middles at 11.5 and 55.5, spacing 44
ODD: dict[str, Any] = {
    "tread_diameter_mm": 311.0,
    "tread_width_mm": 65.0,
    "tread_thickness_mm": 7.0,
    "disc_thickness_mm": 5.0,
    "disc_field_inset_mm": 9.0,
    "disc_gauge_inset_mm": 7.0,
    "hub_bore_mm": 33.0,
    "hub_tube_outside_mm": 55.0,
    "hub_tube_length_mm": 75.0,
    "steel": "S275",
}
