"""The wagon on its track: pushed by people, rolling away, held and stopped by brakes.

Tipping in the curve is judged in speed.py.
"""

from __future__ import annotations

import math

from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.use import MOST_PUSH_N
from platewheel.parts.wagon.braking import (
    BRAKE_RESERVE,
    STOP_S,
    adhesion_share,
    steepest_braked_percent,
    stoppable_speed_km_h,
)
from platewheel.parts.wagon.numbers import WagonNumbers, journal_of, wagon_numbers
from platewheel.parts.wagon.pushing import HSE, MAN_START_N, people


def _numbers(setting: Setting) -> WagonNumbers:
    return wagon_numbers(setting, *journal_of(setting))


def pushers(setting: Setting) -> CheckResult:
    """People that the loaded wagon asks for, against those whom `use.push_force_n` stands for."""
    found = _numbers(setting)
    there = setting.use.push_force_n / MAN_START_N
    where = (
        "up the steepest gradient" if found.push_worst == "gradient" else "in the tightest curve"
    )
    needed = people(found.push_worth_people)
    load = setting.wagon.payload_kg - found.gross_kg * (1 - there / found.push_worth_people)
    push = math.ceil(MAN_START_N * needed)
    hauled = f" and set use.push_force_n = {push}" if push <= MOST_PUSH_N else ""
    lighter = f"wagon.payload_kg = {math.floor(load)}, " if load >= 1 else ""
    return judged(
        "pushers",
        "People to push the loaded wagon",
        found.push_worth_people,
        there,
        "people",
        f"{HSE}; resistance by the crane formula, handbook; curve by plain kinematics",
        at_most=True,
        good=f"worst {where}: {needed} to push; women, long or frequent pushes: more",
        bad=f"worst {where}: {needed} needed; {lighter}ease it, use bearings that roll, or haul "
        f"with a winch or locomotive{hauled}",
        bad_verdict="warn",
    )


def roll_away(setting: Setting) -> CheckResult:
    """Steepest gradient against the one on which an unbraked wagon rolls away."""
    found = _numbers(setting)
    limit = found.roll_away_percent
    fall = f"{10 * limit:.1f} mm in 1 m"
    return judged(
        "roll-away",
        "Gradient on which the unbraked wagon rolls away",
        found.gradient_percent,
        limit,
        "%",
        "plain statics: gradient = least rolling resistance, crane formula with clean rails and "
        "easy bearings, from memory; a knock or wind starts it on less",
        at_most=True,
        good=f"it rolls away from a fall of {fall}: measure, and scotch every wagon that stands",
        bad=f"it rolls away from a fall of {fall}: brakes on every wagon, scotches under wheels "
        "when it stands, a catch point or stop block at the foot, or a line no steeper, "
        f"track.steepest_gradient_percent = {at_most(limit, 2)}",
        bad_verdict="warn",
    )


def brake_adhesion(setting: Setting) -> CheckResult:
    """Braking force over weight, downhill from full speed, against what greasy rails take.

    It fails where brakes on every axle cannot even hold the wagon; it warns where they cannot
    stop it in time.
    """
    found, wagon, track = _numbers(setting), setting.wagon, setting.track
    slope, grip = track.steepest_gradient_percent, setting.use.friction_low
    limit = adhesion_share(grip, slope) / BRAKE_RESERVE
    held = found.holding_axles is not None
    speed = stoppable_speed_km_h(limit, slope)
    axles = (
        f"{found.stopping_axles} of {so_many(wagon.axles, 'axle')}"
        if wagon.axles > 1
        else "the axle"
    )
    if held and speed >= 0.1:
        cure = f"wagon.max_speed_km_h = {math.floor(10 * speed) / 10:g} there, or sand the rails"
    else:
        steepest = math.floor(10 * steepest_braked_percent(grip)) / 10
        cure = f"no more than {steepest:g} % is held: ease the gradient, or lower by rope"
    each = "; loose wheels need a block on each" if setting.axle.wheels_on_axle == "loose" else ""
    return judged(
        "brake-adhesion",
        "Braking from full speed on the steepest gradient, over weight",
        found.stopping_share,
        limit,
        "",
        f"plain dynamics, use.friction_low over {BRAKE_RESERVE:g}; stop within the way of "
        f"{STOP_S:g} s at full speed, both by common practice, no source; load moved forward "
        "left out",
        at_most=True,
        good=f"brakes on {axles}, {found.stopping_n:.0f} N at the rail, stop it in "
        f"{found.stop_distance_m:.0f} m{each}",
        bad="wheels slide with brakes on every axle"
        + ("" if held else " and it cannot even be held")
        + f"; {cure}{each}",
        bad_verdict="warn" if held else "fail",
    )


CHECKS = (pushers, roll_away, brake_adhesion)
