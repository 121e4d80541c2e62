"""Bearings and bushes of the wheelset: static load, axial share, pressure and heat."""

from __future__ import annotations

from parts import bearing_life, bush_load
from parts.checks.result import CheckResult, judged
from parts.checks.setting import Setting
from parts.wheelset import Wheelset

STATIC_SAFETY = 1.5  # shocks, ISO 76 practice 1 to 2, from memory
AXIAL_SHARE = 0.5  # of C0 on a deep groove bearing, makers' guides, from memory
PRESSURE_N_MM2 = {  # most on the projected area at slow speed; all from memory, no source read
    "bronze": 14.0,
    "iron": 5.0,
    "polymer": 7.0,
    "hardwood": 14.0,
}


def bearing_static(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Static safety C0 / P0 of a ball bearing under load, shock and the whole flange push."""
    id, title = "bearing-static", "Static safety of the bearings"
    if made.bearing is None:
        return None
    load, push = setting.wheel_load_n, setting.use.lateral_share * setting.wheel_load_n
    arm = made.bearing_centres_mm if made.turning else setting.wheel.hub_tube_length_mm
    radial = load + push * setting.wheel.tread_radius_mm / (arm or setting.wheel.tread_width_mm)
    p0 = bearing_life.static_load_n(radial, push)
    return judged(
        id,
        title,
        1000 * made.bearing.c0_kn / p0,
        STATIC_SAFETY,
        "",
        "ISO 76, C0 / P0; least safety from memory",
        at_most=False,
        good=f"{made.bearing.name} is not dented by shocks",
        bad=f"shocks dent {made.bearing.name}: take a larger bearing",
    )


def bearing_axial(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Push of the curve along the axle against what a deep groove bearing takes."""
    id, title = "bearing-axial", "Push along the axle on one bearing"
    if made.bearing is None:
        return None
    return judged(
        id,
        title,
        setting.use.lateral_share * setting.wheel_load_n,
        AXIAL_SHARE * 1000 * made.bearing.c0_kn,
        "N",
        "makers' guides: at most half of C0 on a deep groove bearing, from memory",
        at_most=True,
        good=f"{made.bearing.name} takes the push of the curves; held on one side it must be fixed",
        bad=f"the curves push {made.bearing.name} out: a larger bearing, or a thrust washer",
    )


def bush_pressure(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Mean pressure of the wheel load with shock on a plain bush."""
    id, title = "bush-pressure", "Pressure on the bushes"
    if made.bush is None:
        return None
    bush = made.bush
    return judged(
        id,
        title,
        bush_load.bush_pressure_n_mm2(setting.wheel_load_n, bush.bore_mm, bush.length_mm),
        PRESSURE_N_MM2[bush.material],
        "N/mm2",
        "F / (d L); limits from memory",
        at_most=True,
        good=f"{bush.material} carries it; the edge load of a curve is not in it",
        bad=f"{bush.material} is crushed: a longer bush, a thicker axle or another material",
    )


def bush_heat(setting: Setting, made: Wheelset) -> CheckResult | None:
    """p v of a plain bush at full speed, mean load without shock."""
    id, title = "bush-pv", "Pressure x rubbing speed of the bushes"
    if made.bush is None:
        return None
    bush, wheel = made.bush, setting.wheel
    mean = setting.static_wheel_load_n * setting.wagon.load_unevenness
    turns = bush_load.turns_per_min(setting.wagon.max_speed_km_h, wheel.tread_diameter_mm)
    limit, source = bush_load.PV_LIMITS[bush.material]
    return judged(
        id,
        title,
        bush_load.bush_pressure_n_mm2(mean, bush.bore_mm, bush.length_mm)
        * bush_load.rubbing_speed_m_s(bush.bore_mm, turns),
        limit,
        "N/mm2 m/s",
        source,
        at_most=True,
        good="greased, the bush stays cool",
        bad="the bush runs hot: slower, a longer bush, bronze, or ball bearings",
    )


CHECKS = (bearing_static, bearing_axial, bush_pressure, bush_heat)
