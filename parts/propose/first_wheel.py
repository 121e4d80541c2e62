"""A line and a wheel to start from, before anything is known but the gauge: proportions alone.

Nothing here is a rating: the checks judge what comes of it, and `propose` finds a better wheel.
The proportions are those of the tracks in our own tests (184 to 600 mm), no source, unless said.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from platewheel.parts.checks.galvanizing.plate_webs import WEBS
from platewheel.parts.propose.choices import followers

# outside diameters of tube, mm: EN 10220 series 1 and 2, from memory, with 57 of series 3
TUBES_MM = (
    26.9, 33.7, 42.4, 48.3, 57.0, 60.3, 76.1, 88.9, 101.6, 114.3, 139.7, 168.3, 219.1, 273.0,
    323.9, 355.6, 406.4, 457.0, 508.0,
)  # fmt: skip
TUBE_WALL_MM = 8.0  # at least, round the bore
TUBE_BEYOND_MM = 10.0  # longer than the tread is wide
INSET_MM = 8.0  # the default of both insets
THROAT_SHARE = 0.7  # of the thinnest plate: a fillet of its full thickness
LARGE_MM = 315.0  # limit deviations of a cut are wider above it: ISO 9013:2017
HALF_MM = 2  # steps of a throat to a millimetre


@dataclass(frozen=True)
class FirstLine:
    """Track and wagon that go with a gauge, mm, m and kg, to be changed by who knows better."""

    rail_head_width_mm: float
    min_curve_radius_m: float
    tare_kg: float
    payload_kg: float
    sheets_mm: tuple[float, ...]
    tread_diameter_mm: float


def first_line(gauge_mm: float) -> FirstLine:
    """What goes with a gauge from 100 to 2000 mm."""
    share = gauge_mm / 457
    return FirstLine(
        rail_head_width_mm=float(min(100, max(8, round(25 * share)))),
        min_curve_radius_m=float(max(2, round(12 * share))),
        tare_kg=5.0 * max(2, round(36 * share**2)),
        payload_kg=10.0 * max(5, round(25 * share)),
        sheets_mm=(5.0, 6.0) if gauge_mm < 300 else (6.0, 8.0),
        tread_diameter_mm=10.0 * round((70 + 0.5 * gauge_mm) / 10),
    )


def first_wheelbase_mm(gauge_mm: float, radius_m: float) -> float:
    """One and a half gauges, and a tenth of the tightest curve at most; from 100 mm up."""
    return max(100.0, 10.0 * math.floor(min(1.5 * gauge_mm, 100 * radius_m) / 10 + 0.5))


def first_bore_mm(gauge_mm: float, axle_load_kg: float) -> float:
    """Axle of the demo's proportions: bending moment as load times gauge, its cube root."""
    moment = axle_load_kg * gauge_mm / (215.0 * 457.0)
    return min(120.0, 5.0 * max(3, round(7 * math.cbrt(moment))))


def first_wheel(
    tread_diameter_mm: float,
    bore_mm: float,
    *,
    gauge_mm: float,
    rail_head_mm: float,
    sheets_mm: Sequence[float],
    roll_most_mm: float,
    process: str,
) -> dict[str, Any]:
    """Keys of [wheel] for a tread of this diameter from sheets of these thicknesses; not yet
    checked for being possible. The ring is the thickest that the roller takes and a 25th of the
    diameter allows, the discs the thinnest from a 50th up."""
    sheets = sorted(sheets_mm)
    bends = [t for t in sheets if t <= min(roll_most_mm, tread_diameter_mm / 25)]
    ring = bends[-1] if bends else sheets[0]
    disc = next((t for t in sheets if t >= max(4.0, tread_diameter_mm / 50)), sheets[-1])
    over_rail = rail_head_mm + 0.03 * gauge_mm + 15
    box = 2 * INSET_MM + 2 * disc + 12
    width = 10.0 * math.ceil(max(over_rail, box) / 10)
    throat = max(3.0, math.floor(HALF_MM * THROAT_SHARE * min(ring, disc)) / HALF_MM)
    tube = next((d for d in TUBES_MM if d >= bore_mm + 2 * TUBE_WALL_MM), 0.0)
    large = tread_diameter_mm > LARGE_MM
    fit = (0.75 if large else 0.5) if process == "laser" else (1.2 if large else 0.8)
    between = tread_diameter_mm - 2 * ring - (tube or bore_mm)
    values: dict[str, Any] = {
        "tread_diameter_mm": float(tread_diameter_mm),
        "tread_width_mm": width,
        "tread_thickness_mm": float(ring),
        "flange_depth_mm": float(min(30, max(8, round(0.033 * gauge_mm)))),
        "flange_angle_deg": 74.0,
        "flange_thickness_mm": float(ring),
        "disc_thickness_mm": float(disc),
        "hub_bore_mm": float(bore_mm),
        "hub_tube_outside_mm": tube,
        "hub_tube_length_mm": 0.0,
        "vent_count": 4,
        "vent_diameter_mm": float(max(4, min(20 if large else 16, math.floor(between / 5)))),
        "fit_clearance_mm": fit,
        "weld_throat_mm": throat,
        "root_weld_mm": float(ring),
    }
    base = {
        "hub_tube_length_mm": width + TUBE_BEYOND_MM if tube else 0.0,
        "tread_width_mm": width,
        "tread_taper_1_in": 0.0,
    }
    insets = {"disc_field_inset_mm": INSET_MM, "disc_gauge_inset_mm": INSET_MM}
    found = values | followers(base, values | insets)
    if "vent_circle_mm" in found:  # as far out as the steel beside a vent lets it be cut
        web = WEBS[process][0] * disc
        room = tread_diameter_mm - 2 * ring - 2 * fit - values["vent_diameter_mm"] - 2 * web
        found["vent_circle_mm"] = min(found["vent_circle_mm"], float(math.floor(room)))
    return found
