"""Does the tread stand the rail's pressure? Closed forms, screening."""

from __future__ import annotations

import itertools
import math

from platewheel.parts.base.steel import E_N_MM2
from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.shakedown import line_shakedown, point_shakedown
from platewheel.parts.checks.trying import payload_that_passes
from platewheel.parts.loads.wheel_load import heavy_load_n, wheel_load_n
from platewheel.parts.setting.setting import GRAVITY, Setting
from platewheel.parts.stress.contact_patch import contact_length_mm, crown_radius_mm
from platewheel.parts.stress.hertz import (
    contact_modulus_n_mm2,
    line_pressure_n_mm2,
    point_half_axes_mm,
    point_pressure_n_mm2,
)

JOHNSON = "Johnson, Contact Mechanics (1985), ch. 9, from memory"
# tensile strength from, N/mm2 -> pressure P / (b D), N/mm2. Below 500: DIN 15070, 5.6 c1 with
# c1 0.5, 0.63, 0.8; from 500: FEM 1.001, table of PL. Both from memory.
CRANE_LIMITS: tuple[tuple[float, float], ...] = (
    (330, 2.8), (410, 3.528), (490, 4.48), (500, 5.0), (600, 5.6), (700, 6.5), (800, 7.2)
)  # fmt: skip
# turns a minute -> factor; FEM 1.001, speed factor c1 of rail wheels, from memory
SPEED_FACTORS: tuple[tuple[float, float], ...] = (
    (5, 1.17), (10, 1.13), (16, 1.09), (20, 1.06), (31.5, 1.0), (50, 0.94),
    (80, 0.87), (100, 0.82), (125, 0.77), (160, 0.72), (200, 0.66),
)  # fmt: skip


def tread_pressure(setting: Setting) -> CheckResult | None:
    """Hertz pressure along the flat of the head against the shakedown limit 4 k."""
    length = contact_length_mm(setting)
    if length <= 0:
        return None  # a round head: see tread_pressure_crowned
    spec = setting.wheel
    diameter = 2 * spec.outside_radius_mm(0.0)
    pressure = line_pressure_n_mm2(wheel_load_n(setting), length, diameter, contact_modulus_n_mm2())
    limit = 4 * spec.grade.fy_n_mm2(spec.tread_thickness_mm) / math.sqrt(3)
    payload = payload_that_passes(tread_pressure, setting)
    lighter = "" if payload is None else f"wagon.payload_kg = {payload}, "
    worn_in = (
        ", once worn in to the head" if spec.tread_taper_1_in or crown_radius_mm(setting) else ""
    )
    return judged(
        "tread-pressure",
        "Pressure of the tread on the rail",
        pressure,
        limit,
        "N/mm2",
        f"Hertz line contact; limit 4 k in free rolling, k = fy / sqrt 3: {JOHNSON}",
        at_most=True,
        good=f"the tread keeps its shape on {length:.3g} mm of rail head{worn_in}",
        bad=f"each pass rolls the tread out further: {lighter}a wider rail head or a stronger "
        "steel",
    )


def tread_pressure_crowned(setting: Setting) -> CheckResult | None:
    """Hertz pressure at the crown of a rounded head; above the limit it flattens first."""
    crown = crown_radius_mm(setting)
    if crown <= 0:
        return None
    spec, load = setting.wheel, wheel_load_n(setting)
    radius, modulus = spec.outside_radius_mm(0.0), contact_modulus_n_mm2()
    pressure = point_pressure_n_mm2(load, radius, crown, modulus)
    half_axes = point_half_axes_mm(load, radius, crown, modulus)
    across = half_axes[0] if crown > radius else half_axes[1]
    length = contact_length_mm(setting)
    if 0 < length < 2 * across:  # the ellipse is wider than the head: no less than a line
        pressure = max(pressure, line_pressure_n_mm2(load, length, 2 * radius, modulus))
    limit = 4.7 * spec.grade.fy_n_mm2(spec.tread_thickness_mm) / math.sqrt(3)
    return judged(
        "tread-pressure-crowned",
        "Pressure at the rail's crown",
        pressure,
        limit,
        "N/mm2",
        f"Hertz elliptical contact; limit 4.7 k in free rolling, k = fy / sqrt 3: {JOHNSON}",
        at_most=True,
        good=f"tread and rail keep their shape on a crown of {crown:g} mm",
        bad="tread and crown flatten and wear until the pressure falls by "
        f"{100 - 100 * limit / pressure:.0f} %: expect a hollow tread, or use flatter rail",
        bad_verdict="warn",
    )


def crane_limit_n_mm2(fu_n_mm2: float) -> float:
    """Allowed P / (b D) for a wheel's tensile strength. Raises: ValueError below 330 N/mm2."""
    found = [limit for strength, limit in CRANE_LIMITS if fu_n_mm2 >= strength]
    if not found:
        raise ValueError(f"fu_n_mm2: found {fu_n_mm2:g}; allowed: from {CRANE_LIMITS[0][0]}")
    return found[-1]


def crane_wheel_load_n(pressure_n_mm2: float, width_mm: float, diameter_mm: float) -> float:
    """Load that a mean pressure stands for, p b D. Source: FEM 1.001, rail wheels."""
    return pressure_n_mm2 * width_mm * diameter_mm


def hertz_of_crane_n_mm2(pressure_n_mm2: float) -> float:
    """Hertz pressure that a mean pressure stands for: sqrt(0.35 E p). Source: FEM 1.001."""
    return math.sqrt(0.35 * E_N_MM2 * pressure_n_mm2)


def turns_per_min(speed_km_h: float, diameter_mm: float) -> float:
    """Turns of a wheel rolling at this speed."""
    return speed_km_h * 1e6 / 60 / (math.pi * diameter_mm)


def speed_factor(turns: float) -> float | None:
    """Factor on the crane-wheel limit, linear between rows; None above the table's end."""
    if turns <= SPEED_FACTORS[0][0]:
        return SPEED_FACTORS[0][1]
    for (n0, c0), (n1, c1) in itertools.pairwise(SPEED_FACTORS):
        if turns <= n1:
            return c0 + (c1 - c0) * (turns - n0) / (n1 - n0)
    return None


def crane_wheel_pressure(setting: Setting) -> CheckResult | None:
    """Mean load (least + 2 x greatest) / 3 over head and diameter, as for crane wheels."""
    length, spec, wagon = contact_length_mm(setting), setting.wheel, setting.wagon
    if length <= 0:
        return None
    id, title = "crane-wheel-pressure", "Mean pressure as for a crane wheel"
    source = "FEM 1.001 / DIN 15070: P <= p b D, drive group factor 1; tables from memory"
    diameter = 2 * spec.outside_radius_mm(0.0)
    turns = turns_per_min(wagon.max_speed_km_h, diameter)
    factor = speed_factor(turns)
    if factor is None:
        says = (
            f"the rule ends at {SPEED_FACTORS[-1][0]} turns a minute and "
            f"wagon.max_speed_km_h gives {turns:.0f}; tread-pressure judges this wheel"
        )
        return CheckResult(id, title, None, None, "N/mm2", "not-assessed", says, source)
    least = wagon.tare_kg * GRAVITY / (2 * wagon.axles)
    most = heavy_load_n(setting)
    limit = crane_limit_n_mm2(spec.grade.fu_n_mm2) * factor
    value = (min(least, most) + 2 * most) / 3 / (length * diameter)
    return judged(
        id,
        title,
        value,
        limit,
        "N/mm2",
        source,
        at_most=True,
        good="the tread wears no faster than a crane wheel's",
        bad=f"the tread wears fast: {at_least(value / limit, 2)} times wider rail head or larger "
        "wheel, track.rail_head_width_mm = "
        f"{at_least(setting.track.rail_head_width_mm * value / limit)} or "
        f"wheel.tread_diameter_mm = {at_least(spec.tread_diameter_mm * value / limit)}",
        bad_verdict="warn",
    )


def sliding_pressure(setting: Setting) -> CheckResult | None:
    """The same pressure where the tread slides, as in a curve: less is borne for ever."""
    crowned = tread_pressure_crowned(setting)
    result = crowned or tread_pressure(setting)
    if result is None or result.value is None:
        return None
    friction = setting.use.friction_high
    share = point_shakedown(friction) if crowned else line_shakedown(friction)
    spec = setting.wheel
    limit = share * spec.grade.fy_n_mm2(spec.tread_thickness_mm) / math.sqrt(3)
    payload = payload_that_passes(sliding_pressure, setting)
    lighter = "" if payload is None else f", or wagon.payload_kg = {payload}"
    return judged(
        "tread-sliding",
        "Pressure of the tread that slides in curves",
        result.value,
        limit,
        "N/mm2",
        f"shakedown map of rolling with sliding, {share:.2g} k at friction {friction:g}: {JOHNSON}",
        at_most=True,
        good="the treads keep their skin where they slide",
        bad="where wheels slide in curves the treads' skin creeps and flakes: grease the rails "
        f"there{lighter}",
        bad_verdict="warn",
    )


CHECKS = (tread_pressure, tread_pressure_crowned, sliding_pressure, crane_wheel_pressure)
