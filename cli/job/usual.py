"""What sizes are usual, and which other unit would make an odd one so.

What is usual is our judgement of light field railways from miniature to colliery, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.meant import middling, slips
from platewheel.parts.base.spec_model import Spec, unit_of

USUAL: dict[str, tuple[float, float]] = {
    "track.gauge_mm": (110, 1100),
    "track.rail_head_width_mm": (6, 75),
    "track.rail_corner_radius_mm": (0.5, 15),
    "track.min_curve_radius_m": (1.5, 500),
    "wagon.tare_kg": (5, 10000),
    "wagon.payload_kg": (10, 20000),
    "wagon.wheelbase_mm": (150, 5000),
    "wagon.centre_of_gravity_mm": (60, 2000),
    "wheel.tread_diameter_mm": (75, 1000),
    "wheel.tread_width_mm": (15, 160),
    "wheel.tread_thickness_mm": (3, 30),
    "wheel.flange_depth_mm": (3, 40),
    "wheel.flange_thickness_mm": (2.5, 25),
    "wheel.disc_thickness_mm": (2.5, 25),
    "wheel.hub_bore_mm": (9, 150),
    "wheel.vent_diameter_mm": (6, 80),
    "wheel.weld_throat_mm": (1.5, 12),
    "cutting.part_spacing_mm": (1, 40),
    "cutting.kerf_mm": (0.1, 5),
    "gauges.thickness_mm": (1, 30),
    "stock.thickness_mm": (1.5, 60),
    "stock.width_mm": (100, 3500),
    "stock.length_mm": (300, 13000),
    "bar.width_mm": (15, 300),
    "bar.thickness_mm": (2.5, 60),
    "bar.length_mm": (500, 13000),
    "pipe.outside_mm": (60, 1100),
    "pipe.wall_mm": (2.5, 40),
    "pipe.length_mm": (300, 13000),
    "round.diameter_mm": (9, 150),
    "round.length_mm": (300, 13000),
    "extra.thickness_mm": (1, 60),
}


@dataclass(frozen=True)
class Odd:
    """A number beside the usual, and what it would be otherwise: `100, if 10 is in cm`."""

    key: str
    value: float
    low: float
    high: float
    near: str

    def fault(self) -> Fault:
        """Told beside faults that it may be the cause of."""
        key = self.key.rpartition(".")[2]
        allowed = f"{self.low:g} to {self.high:g} is usual"
        return Fault(self.key, self.value, allowed, f"write {key} = {self.near}")


def odd_units(
    table: Mapping[str, Any], kinds: Mapping[str, type[Spec]], repeated: Collection[str]
) -> Iterator[Odd]:
    """The numbers of a job's sections that are usual in another unit alone."""
    for place, (low, high) in USUAL.items():
        name, key = place.split(".")
        given, field = table.get(name, ()), kinds[name].model_fields[key]
        for i, row in enumerate(given if isinstance(given, list) else [given]):
            value = row.get(key) if isinstance(row, dict) else None
            if type(value) not in (int, float) or not value or low <= value <= high:
                continue
            near = [
                f"{number:g}, if {value:g} {why}"
                for number, why in slips(key, field, value, unit_of(key), middling(low, high))
                if low <= number <= high
            ]
            if near:
                path = f"{name}[{i}].{key}" if name in repeated else place
                yield Odd(path, value, low, high, ", or ".join(near))
