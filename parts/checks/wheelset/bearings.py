"""Bearings and bushes of the wheelset: life, static load, axial share, pressure and heat.

In a frame one bearing takes its wheel's load and, through the axle, a share of the push's moment.
In a loose wheel the two bearings of the hub take that moment as a couple between them.
"""

from __future__ import annotations

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.disc_load import overturning_n_mm
from platewheel.parts.checks.strength.hub_strength import edge_pressure_n_mm2
from platewheel.parts.loads.spectrum import spectrum
from platewheel.parts.loads.wheel_load import (
    heavy_load_n,
    side_force_n,
    wheel_load_n,
)
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset import bearing_life, bush_load
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.bearing_table import Bearing

STATIC_SAFETY = 1.5  # shocks, ISO 76 practice 1 to 2, from memory
# of C0 along a deep groove bearing, makers' guides, from memory
AXIAL_SHARE = 0.5
LIGHT_AXIAL_SHARE, LIGHT_BORE_MM = 0.25, 12.0  # of the lightest series, and up to this bore
# an insert: of C0, and of C what its set screws hold on the axle; SKF catalogue, Y-bearings
INSERT_AXIAL_SHARE, SCREWS_SHARE = 0.25, 0.2
PRESSURE_N_MM2 = {  # most on the projected area at slow speed; all from memory, no source read
    "bronze": 14.0,
    "iron": 5.0,
    "polymer": 7.0,
    "hardwood": 14.0,
}


def most_loaded_n(setting: Setting, made: Wheelset) -> float:
    """Radial load of the bearing that has most at a joint, the flange pushed. Plain statics."""
    light = max(2 * setting.static_wheel_load_n - heavy_load_n(setting), 0.0)
    return radial_n(made, wheel_load_n(setting), light, overturning_n_mm(setting))


def radial_n(made: Wheelset, load: float, light: float, moment: float) -> float:
    """Radial load of the more loaded bearing of a wheel with `load` and a moment across, N mm;
    `light` is the other wheel of its axle, N."""
    if made.turning:  # the other wheel heavy too, or light and without shock: a lever inside
        lever = made.contact_spacing_mm / made.bearing_centres_mm
        uneven = (load + light) / 2 + lever * (load - light) / 2
        return max(load, uneven) + moment / made.bearing_centres_mm
    near, far = (z for z in made.bearing_z_mm if z > 0)
    outer = load * (made.contact_spacing_mm / 2 - near) / (far - near)
    couple = moment / (far - near)
    return max(abs(load - outer), abs(outer)) + couple  # pushed either way


def _mean_load_n(setting: Setting, made: Wheelset, c0_n: float) -> float:
    """Cubic mean, over the turns of the spectrum, of the equivalent load; every load as heavy as
    at a joint (safe). Raises: ValueError beyond the bearing's table.

    Source: ISO 281 practice for loads that vary, makers' catalogues, from memory.
    """
    blocks, radius = spectrum(setting), setting.wheel.tread_radius_mm
    total = sum(block.turns for block in blocks)
    cubes = 0.0
    for block in blocks:
        if block.struck_n == 0 and block.side_n == 0:
            continue
        radial = radial_n(made, block.struck_n, 0.0, block.side_n * radius)
        load = bearing_life.equivalent_load_n(radial, block.side_n, c0_n)
        cubes += block.turns / total * load**3
    return float(cubes ** (1 / 3))


def bearing_years(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Life of the bearing that has most of the load and the whole flange push."""
    id, title = "bearing-life", "Life of the axle's bearings"
    if made.bearing is None:
        return None
    source = "ISO 281, L10 = (C / P)^3, cubic mean of the loads along the way"
    try:
        load = _mean_load_n(setting, made, 1000 * made.bearing.c0_kn)
    except ValueError as error:
        says = f"the push is beyond the bearing's table ({error}); take a larger bearing"
        years = setting.use.years
        return CheckResult(id, title, None, years, "years", "fail", says, source, at_most=False)
    turns = bearing_life.life_turns(1000 * made.bearing.c_kn, load)
    way = bearing_life.life_km(turns, 2 * setting.wheel.tread_radius_mm)
    larger = "a larger bearing" if made.turning else "a larger bearing, or a longer hub"
    return judged(
        id,
        title,
        bearing_life.life_years(way, setting.use.km_per_year),
        setting.use.years,
        "years",
        source,
        at_most=False,
        good=f"{made.bearing.name} runs {way:.0f} km; dirt and water end it sooner",
        bad=f"{made.bearing.name} runs {way:.0f} km only; take {larger}",
        bad_verdict="warn",
    )


def bearing_static(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Static safety C0 / P0 of a ball bearing under load, shock and the whole flange push."""
    id, title = "bearing-static", "Static safety of the bearings"
    if made.bearing is None:
        return None
    p0 = bearing_life.static_load_n(most_loaded_n(setting, made), side_force_n(setting))
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


def _most_push_n(bearing: Bearing) -> tuple[float, str]:
    """What a bearing takes along its axle, N, and by what rule."""
    if bearing.kind == "insert":
        screws = SCREWS_SHARE * 1000 * bearing.c_kn
        most = min(INSERT_AXIAL_SHARE * 1000 * bearing.c0_kn, screws)
        return most, (
            f"makers' catalogues of inserts: at most {INSERT_AXIAL_SHARE:g} of C0, and "
            f"{SCREWS_SHARE:g} of C on set screws"
        )
    light = bearing.lightest or bearing.bore_mm <= LIGHT_BORE_MM
    share = LIGHT_AXIAL_SHARE if light else AXIAL_SHARE
    return share * 1000 * bearing.c0_kn, (
        f"makers' guides: at most {share:g} of C0 on this deep groove bearing, from memory"
    )


def bearing_axial(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Push of the curve along the axle against what a ball bearing takes, and of an insert what
    its set screws hold."""
    id, title = "bearing-axial", "Push along the axle on one bearing"
    if made.bearing is None:
        return None
    most, source = _most_push_n(made.bearing)
    return judged(
        id,
        title,
        side_force_n(setting),
        most,
        "N",
        source,
        at_most=True,
        good=f"{made.bearing.name} takes the push of the curves; held on one side it must be fixed",
        bad=f"the curves push {made.bearing.name} out: a larger bearing, or a thrust washer",
    )


def bush_pressure(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Mean pressure with shock on a plain bush, in a frame with its share of the push."""
    id, title = "bush-pressure", "Pressure on the bushes"
    if made.bush is None:
        return None
    bush = made.bush
    load = most_loaded_n(setting, made) if made.turning else wheel_load_n(setting)
    return judged(
        id,
        title,
        bush_load.bush_pressure_n_mm2(load, bush.bore_mm, bush.length_mm),
        PRESSURE_N_MM2[bush.material],
        "N/mm2",
        "F / (d L); limits from memory",
        at_most=True,
        good=f"{bush.material} carries it; in a loose wheel see the edges too",
        bad=f"{bush.material} is crushed: a longer bush, a thicker axle or another material",
    )


def bush_edge(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Pressure at the end of a loose wheel's bush, the flange pushed: the wheel tilts on it."""
    id, title = "bush-edge", "Pressure at the ends of a loose wheel's bush"
    if made.bush is None or made.turning:
        return None
    bush = made.bush
    off = abs(made.hub_centres_mm - made.contact_spacing_mm) / 2
    moment = overturning_n_mm(setting) + wheel_load_n(setting) * off
    return judged(
        id,
        title,
        edge_pressure_n_mm2(wheel_load_n(setting), moment, bush.bore_mm, bush.length_mm),
        PRESSURE_N_MM2[bush.material],
        "N/mm2",
        "linear along the bush, F / (d L) + 6 M / (d L2); limits from memory",
        at_most=True,
        good=f"{bush.material} stands the tilt of the wheel in curves",
        bad="curves wear the bush's ends wide and the wheel wobbles: a longer hub and bush, or "
        "renew it in time",
        bad_verdict="warn",
    )


def bush_heat(setting: Setting, made: Wheelset) -> CheckResult | None:
    """p v of a plain bush at full speed, the heaviest wheel at rest."""
    id, title = "bush-pv", "Pressure x rubbing speed of the bushes"
    if made.bush is None:
        return None
    bush, wheel = made.bush, setting.wheel
    mean = heavy_load_n(setting)
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


CHECKS = (bearing_years, bearing_static, bearing_axial, bush_pressure, bush_edge, bush_heat)
