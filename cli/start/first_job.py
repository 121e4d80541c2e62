"""A whole job made of what was answered so far: what is not, goes with what is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from platewheel.parts.base.units import MM_PER_INCH
from platewheel.parts.propose.first_wheel import (
    first_bore_mm,
    first_line,
    first_wheel,
    first_wheelbase_mm,
)
from platewheel.parts.wheel.spec import WheelSpec

SHEETS = "stock.thickness_mm"  # a list: a row of [[stock]] each, all of one size
SIZE = "stock.size"  # width and length, mm
TREAD = "wheel.tread_diameter_mm"  # None: left to `propose`
UNITS = "paper.units"
MM_PER_FOOT = 12 * MM_PER_INCH
KG_PER_LB = 0.45359237  # exactly, by the international yard and pound agreement of 1959
KM_PER_MILE = 5280 * MM_PER_FOOT / 1e6
VENT_MM = WheelSpec.model_fields["vent_diameter_mm"].default
PLACES = 4  # a converted value is rounded to; 0.1 um in a length
FIXED: dict[str, Any] = {
    UNITS: "mm",
    "job.name": "my-wheels",
    "job.wheels": 8,
    "track.gauge_mm": 457.0,
    "track.steepest_gradient_percent": 0.0,
    "wagon.axles": 2,
    "wagon.max_speed_km_h": 8.0,
    "use.km_per_year": 500.0,
    "use.consequence": "low",
    "shop.roll_most_thickness_mm": 8.0,
    "shop.roll_diameter_mm": 80.0,
    "cutting.process": "plasma",
    "finish.coating": "galvanized",
    "wheel.seam": "dressed",
    SIZE: (1250.0, 2500.0),
    TREAD: None,
}
INCH: dict[str, Any] = {  # the like in round figures of a shop that works in inches
    UNITS: "inch",
    "track.gauge_mm": 18 * MM_PER_INCH,
    "wagon.max_speed_km_h": 5 * KM_PER_MILE,
    "use.km_per_year": 300 * KM_PER_MILE,
    "shop.roll_most_thickness_mm": 0.375 * MM_PER_INCH,
    "shop.roll_diameter_mm": 3 * MM_PER_INCH,
    SIZE: (48 * MM_PER_INCH, 96 * MM_PER_INCH),
}
INCH_STEPS = {  # to which a start is rounded there
    "track.rail_head_width_mm": 0.125 * MM_PER_INCH,
    "track.min_curve_radius_m": MM_PER_FOOT / 1000,
    "wagon.tare_kg": 10 * KG_PER_LB,
    "wagon.payload_kg": 10 * KG_PER_LB,
    "wagon.wheelbase_mm": MM_PER_INCH,
    "wheel.hub_bore_mm": 0.125 * MM_PER_INCH,
    SHEETS: MM_PER_INCH / 16,
}


def starts(answered: Mapping[str, Any]) -> dict[str, Any]:
    """A value for each question: as answered, or what goes with the answers."""
    inch = answered.get(UNITS) == "inch"
    values = FIXED | ({k: rounded(v) for k, v in INCH.items()} if inch else {}) | dict(answered)

    def start(path: str, value: Any) -> None:
        if path not in answered:
            step = INCH_STEPS[path] if inch else 0.0
            values[path] = _stepped(value, step) if step else value

    gauge = values["track.gauge_mm"]
    line = first_line(gauge)
    start("track.min_curve_radius_m", line.min_curve_radius_m)
    start("track.rail_head_width_mm", line.rail_head_width_mm)
    start("wagon.tare_kg", line.tare_kg)
    start("wagon.payload_kg", line.payload_kg)
    start("wagon.wheelbase_mm", first_wheelbase_mm(gauge, values["track.min_curve_radius_m"]))
    start(SHEETS, line.sheets_mm)
    mass = values["wagon.tare_kg"] + values["wagon.payload_kg"]
    start("wheel.hub_bore_mm", first_bore_mm(gauge, mass / values["wagon.axles"]))
    return values


def tread_mm(values: Mapping[str, Any]) -> float:
    """The diameter wanted, or one that goes with the gauge."""
    if values[TREAD] is not None:
        return float(values[TREAD])
    return first_line(values["track.gauge_mm"]).tread_diameter_mm


def table_of(answered: Mapping[str, Any]) -> dict[str, Any]:
    """The job as the table that a job file parses to; not yet checked."""
    values = starts(answered)
    table: dict[str, Any] = {}
    for path, value in values.items():
        section, key = path.split(".")
        if section not in ("stock", "wheel", "paper"):
            table.setdefault(section, {})[key] = value
    width, length = values[SIZE]
    table["stock"] = [
        {"thickness_mm": mm, "width_mm": width, "length_mm": length} for mm in values[SHEETS]
    ]
    table["wheel"] = first_wheel(
        tread_mm(values),
        values["wheel.hub_bore_mm"],
        gauge_mm=values["track.gauge_mm"],
        rail_head_mm=values["track.rail_head_width_mm"],
        sheets_mm=values[SHEETS],
        roll_most_mm=values["shop.roll_most_thickness_mm"],
        process=values["cutting.process"],
    ) | {"seam": values["wheel.seam"]}
    if table["wheel"]["vent_diameter_mm"] == VENT_MM:
        del table["wheel"]["vent_diameter_mm"]
    if values[UNITS] == "inch":
        table["paper"] = {"units": "inch", "size": "Letter"}
    return table


def rounded(value: Any) -> Any:
    """A converted number, or several, without the dust of its sum."""
    if isinstance(value, tuple):
        return tuple(rounded(one) for one in value)
    return round(value, PLACES) if isinstance(value, float) else value


def _stepped(value: Any, step: float) -> Any:
    if isinstance(value, tuple):
        return tuple(_stepped(one, step) for one in value)
    return round(step * max(1, round(value / step)), PLACES)
