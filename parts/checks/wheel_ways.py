"""Ways to a better wheel, line or wagon: keys of a job with other values, the smallest first."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from platewheel.parts.base.plates import thicker_plates
from platewheel.parts.setting.setting import Setting

Keys = Mapping[str, Any]
Way = Callable[[Setting], Iterator[Keys]]
MOST_STEPS = 16
SLOWER_KM_H = 0.5
EASIER = 1.1  # of a radius, at each step
MOST_EASED = 2.0  # of the curve that is there: a longer one asks for other land
MOST_CROWN_MM = 1000.0
SHORTER_MM, LARGER_MM, WIDER_MM = 50.0, 10.0, 5.0
FLATTER_PERCENT = 0.25


def slower(setting: Setting) -> Iterator[Keys]:
    """Less speed."""
    speed = SLOWER_KM_H * (math.ceil(setting.wagon.max_speed_km_h / SLOWER_KM_H) - 1)
    while speed >= SLOWER_KM_H:
        yield {"wagon.max_speed_km_h": speed}
        speed -= SLOWER_KM_H


def easier_curve(setting: Setting) -> Iterator[Keys]:
    """A tightest curve of a larger radius, in whole metres: one that the same land may hold."""
    radius = setting.track.min_curve_radius_m
    most = MOST_EASED * radius
    while radius < most:
        radius = float(max(math.floor(radius) + 1, math.floor(EASIER * radius)))
        yield {"track.min_curve_radius_m": radius}


def shorter_wheelbase(setting: Setting) -> Iterator[Keys]:
    """Axles nearer together."""
    base = SHORTER_MM * (math.ceil(setting.wagon.wheelbase_mm / SHORTER_MM) - 1)
    while base >= SHORTER_MM:
        yield {"wagon.wheelbase_mm": base}
        base -= SHORTER_MM


def longer_wheelbase(setting: Setting) -> Iterator[Keys]:
    """Axles further apart."""
    for step in range(1, MOST_STEPS):
        base = SHORTER_MM * math.floor(setting.wagon.wheelbase_mm / SHORTER_MM)
        yield {"wagon.wheelbase_mm": base + step * SHORTER_MM}


def flatter_line(setting: Setting) -> Iterator[Keys]:
    """A line less steep."""
    slope = setting.track.steepest_gradient_percent
    slope = FLATTER_PERCENT * (math.ceil(slope / FLATTER_PERCENT) - 1)
    while slope >= 0:
        yield {"track.steepest_gradient_percent": slope}
        slope -= FLATTER_PERCENT


def flatter_rail(setting: Setting) -> Iterator[Keys]:
    """Rail heads of a larger radius, then flat ones, 0."""
    crown = setting.track.rail_head_radius_mm
    if not crown:
        return
    while crown < MOST_CROWN_MM:
        crown = float(max(math.floor(crown) + 1, math.floor(EASIER * crown)))
        yield {"track.rail_head_radius_mm": crown}
    yield {"track.rail_head_radius_mm": 0.0}


def wider_head(setting: Setting) -> Iterator[Keys]:
    """Rails with a wider head."""
    for step in range(1, MOST_STEPS):
        yield {"track.rail_head_width_mm": setting.track.rail_head_width_mm + step * WIDER_MM}


def larger_wheel(setting: Setting) -> Iterator[Keys]:
    """A larger tread, its vents as far from it."""
    wheel = setting.wheel
    for step in range(1, MOST_STEPS):
        more = step * LARGER_MM
        keys = {"wheel.tread_diameter_mm": wheel.tread_diameter_mm + more}
        if wheel.vent_count:
            keys["wheel.vent_circle_mm"] = wheel.vent_circle_mm + more
        yield keys


def _more(name: str, step: float) -> Way:
    def way(setting: Setting) -> Iterator[Keys]:
        now = getattr(setting.wheel, name)
        whole = step * math.floor(now / step + 1e-9) if step > 0 else now
        for k in range(1, MOST_STEPS):
            value = round(whole + k * step, 6)
            if value > 0:
                yield {f"wheel.{name}": value}

    return way


def _thicker(name: str) -> Way:
    def way(setting: Setting) -> Iterator[Keys]:
        for plate in thicker_plates(getattr(setting.wheel, name)):
            yield {f"wheel.{name}": plate}

    return way


thicker_ring = _thicker("tread_thickness_mm")
thinner_ring = _more("tread_thickness_mm", -1.0)
thicker_disc = _thicker("disc_thickness_mm")
thicker_flange = _thicker("flange_thickness_mm")
thicker_root = _more("root_weld_mm", 1.0)
lower_flange = _more("flange_depth_mm", -1.0)
shorter_tube = _more("hub_tube_length_mm", -2.0)
longer_tube = _more("hub_tube_length_mm", 2.0)
thinner_beads = _more("weld_throat_mm", -0.5)


def insets(setting: Setting) -> Iterator[Keys]:
    """Discs further in, where a bead has no room outside of them; the tube as far out of them."""
    wheel = setting.wheel
    for more in range(1, MOST_STEPS):
        for sides in (("field",), ("gauge",), ("field", "gauge")):
            keys = {f"wheel.disc_{side}_inset_mm": _inset(setting, side) + more for side in sides}
            yield keys
            if wheel.has_tube:
                yield keys | {"wheel.hub_tube_length_mm": wheel.hub_tube_length_mm + 2 * more}


def _inset(setting: Setting, side: str) -> float:
    return float(getattr(setting.wheel, f"disc_{side}_inset_mm"))


def stronger_steel(setting: Setting) -> Iterator[Keys]:
    """Plates of a stronger steel."""
    for steel in ("S275", "S355"):
        if steel > setting.wheel.steel:
            yield {"wheel.steel": steel}


def fewer_years(setting: Setting) -> Iterator[Keys]:
    """Fewer years to last: new ones after them."""
    years = math.ceil(setting.use.years) - 1
    while years >= 1:
        yield {"use.years": float(years)}
        years -= 1


def more_widening(setting: Setting) -> Iterator[Keys]:
    """More gauge in the curve."""
    start = math.floor(setting.track.gauge_widening_mm)
    for step in range(1, 2 * MOST_STEPS):
        yield {"track.gauge_widening_mm": float(start + step)}


def truer_gauge(setting: Setting) -> Iterator[Keys]:
    """A truer track, half a millimetre at a time on both sides of the gauge."""
    less, more = setting.track.gauge_off_mm
    for step in range(1, MOST_STEPS):
        pair = (min(0.0, less + step / 2), max(0.0, more - step / 2))
        yield {"track.gauge_tolerance_mm": pair}
        if pair == (0.0, 0.0):
            return


def nearer_wheels(setting: Setting) -> Iterator[Keys]:
    """Less play, or more, by wheels further apart or nearer together; half a millimetre a step."""
    back = setting.back_to_back_mm
    for step in range(1, 2 * MOST_STEPS):
        for way in (1, -1):
            yield {"axle.back_to_back_mm": round(back + way * step / 2, 3)}
