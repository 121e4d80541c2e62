"""Does the hub stand the load: bending of the tube, pressure in the bore? Screening."""

from __future__ import annotations

import math

from platewheel.parts.base.steel import THICKEST_MM
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.disc_load import (
    LOAD_FACTOR,
    disc_spacing_mm,
    greatest_disc_share,
    overturning_n_mm,
)
from platewheel.parts.checks.trying import tried
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.setting.setting import Setting


def tube_modulus_mm3(outside_mm: float, bore_mm: float) -> float:
    """Section modulus of a round tube: pi (D^4 - d^4) / (32 D)."""
    return math.pi * (outside_mm**4 - bore_mm**4) / (32 * outside_mm)


def edge_pressure_n_mm2(
    load_n: float, moment_n_mm: float, diameter_mm: float, length_mm: float
) -> float:
    """Greatest pressure on a bore's projected area, linear along it: F/(d l) + 6 M/(d l^2)."""
    return load_n / (diameter_mm * length_mm) + 6 * moment_n_mm / (diameter_mm * length_mm**2)


def hub_tube_bending(setting: Setting) -> CheckResult | None:
    """Tube bent by the whole overturning moment, as if the axle held it at one end."""
    spec = setting.wheel
    if not spec.has_tube:
        return None
    id, title = "hub-tube-bending", "Bending stress of the hub tube"
    source = "beam theory, whole moment of the lateral force on the tube alone; limit fy / 1.5"
    modulus = tube_modulus_mm3(spec.hub_tube_outside_mm, spec.hub_bore_mm)
    stress = overturning_n_mm(setting) / modulus
    wall = (spec.hub_tube_outside_mm - spec.hub_bore_mm) / 2
    if wall > THICKEST_MM:
        says = (
            f"no yield strength is listed for a tube's wall of {wall:g} mm, only up to "
            f"{THICKEST_MM:g} mm"
        )
        return CheckResult(id, title, None, None, "N/mm2", "not-assessed", says, source)
    limit = spec.grade.fy_n_mm2(wall) / LOAD_FACTOR
    share = stress / limit
    grown = math.ceil(spec.hub_tube_outside_mm)
    while tube_modulus_mm3(grown, spec.hub_bore_mm) < share * modulus:
        grown += 1
    needed = tried(hub_tube_bending, setting, "wheel.hub_tube_outside_mm", grown, 1)
    cure = "less push on the flange"
    if needed:
        cure = f"wheel.hub_tube_outside_mm = {needed:g} or more"
    return judged(
        id,
        title,
        stress,
        limit,
        "N/mm2",
        source,
        at_most=True,
        good=f"the tube's wall is used to {100 * share:.0f} %",
        bad=f"the tube bends: {cure}",
    )


def bore_pressure(setting: Setting) -> CheckResult:
    """Pressure of axle or bush in the bore; without a tube, on the edge of one disc."""
    spec, moment = setting.wheel, overturning_n_mm(setting)
    if spec.has_tube:
        load, length = wheel_load_n(setting), spec.hub_tube_length_mm
        pressure = edge_pressure_n_mm2(load, moment, spec.hub_bore_mm, length)
        key, other = "hub_tube_length_mm", "less load"
        now = spec.hub_tube_length_mm
    else:
        load = greatest_disc_share(setting) * wheel_load_n(setting)
        load += moment / disc_spacing_mm(setting)
        pressure = load / (spec.hub_bore_mm * spec.disc_thickness_mm)
        key, other = "disc_thickness_mm", "a hub tube"
        now = spec.disc_thickness_mm
    limit = 0.6 * spec.grade.fy_n_mm2(spec.disc_thickness_mm)
    least = math.ceil(10 * now * pressure / limit) / 10
    needed = tried(bore_pressure, setting, f"wheel.{key}", least, 0.5)
    cure = f"wheel.{key} = {needed:g}, or {other}" if needed else other
    return judged(
        "bore-pressure",
        "Pressure in the hub bore",
        pressure,
        limit,
        "N/mm2",
        "EN 1993-1-8:2005, 3.13.2 (pins that can be taken out, 0.6 fy); linear along the bore",
        at_most=True,
        good="the bore keeps its shape; what turns in it is judged by its own bearing limits",
        bad=f"the bore is hammered wide: {cure}",
    )


CHECKS = (hub_tube_bending, bore_pressure)
