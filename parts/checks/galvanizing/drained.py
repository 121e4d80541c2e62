"""How much zinc a hung wheel keeps, in its box and on an inset disc, and the tilt that keeps least.

The wheel hangs with its axle level or tilted, one vent of each disc lowest. Zinc stands in the box
up to the edge of the lower disc's vent, and before the upper disc up to the ring's edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.wheel.hub_disc import SIDES, Side, disc_z_mm
from platewheel.parts.wheel.spec import WheelSpec

LIQUID_KG_MM3 = 6.6e-6  # zinc at 450 degC, from memory
TILTS_DEG = tuple(range(0, 50, 5))  # steeper than 45 degrees a wheel does not hang


@dataclass(frozen=True)
class Kept:
    """Zinc that a wheel keeps, kg: in the box, and outside before the upper disc."""

    tilt_deg: float
    down: Side
    box_kg: float
    disc_kg: float

    @property
    def all_kg(self) -> float:
        return self.box_kg + self.disc_kg


def best_tilt(spec: WheelSpec) -> Kept:
    """The tilt that keeps least, the smallest of equals; less than 10 g are none.

    Of sides that keep as much the field side goes down, so that no zinc runs to the flange's foot.
    """
    tilts = (kept(spec, tilt, down) for tilt in TILTS_DEG for down in SIDES)
    return min(tilts, key=lambda one: (round(one.all_kg, 2), one.tilt_deg))


def kept(spec: WheelSpec, tilt_deg: float, down: Side) -> Kept:
    """What stays with the axle tilted so far from level, this side down.

    Source: circular segments of a level surface, plain geometry; a tapered ring as a cylinder.
    """
    slope = math.tan(math.radians(tilt_deg))
    radius = spec.bore_radius_mm(0.0)
    below_vent = max(radius - (spec.vent_circle_mm + spec.vent_diameter_mm) / 2, 0.0)
    width = disc_z_mm(spec, "gauge")[0] - disc_z_mm(spec, "field")[1]
    inset = spec.disc_field_inset_mm if down == "gauge" else spec.disc_gauge_inset_mm
    box = _wedge_mm3(radius, below_vent, slope, width)
    before = _wedge_mm3(radius, min(inset * slope, below_vent), slope, inset)
    return Kept(tilt_deg, down, box * LIQUID_KG_MM3, before * LIQUID_KG_MM3)


def _wedge_mm3(radius_mm: float, deep_mm: float, slope: float, long_mm: float) -> float:
    """Of a lying cylinder, the part below a level that is `deep_mm` above its lowest line at one
    end and sinks by `slope` to the other."""
    from scipy.integrate import quad

    end = min(long_mm, deep_mm / slope) if slope else long_mm
    return float(quad(lambda z: segment_mm2(radius_mm, deep_mm - slope * z), 0.0, end)[0])


def segment_mm2(radius_mm: float, deep_mm: float) -> float:
    """Area of a circular segment so deep. Source: plain geometry."""
    up = min(max(deep_mm, 0.0), 2 * radius_mm)
    return radius_mm**2 * math.acos(1 - up / radius_mm) - (radius_mm - up) * math.sqrt(
        max(2 * radius_mm * up - up**2, 0.0)
    )
