"""Flangeway gauges: a tongue that must go in, and one that must not; also for check rails."""

from __future__ import annotations

import math

from platewheel.parts.checks.running.curve import fits_curve
from platewheel.parts.checks.running.points import check_flangeway_mm, crossing_flangeway_mm
from platewheel.parts.gauges.edge import Bite, Stop, bite_mm, closed
from platewheel.parts.gauges.gauge import (
    LEAST_STEP_MM,
    Gauge,
    Measure,
    Stuff,
    gauge_blank,
    label,
    refuse,
)
from platewheel.parts.setting.setting import Setting

NAME, NUMBER = "gauge-flangeway", 5
CHECK_NAME, CHECK_NUMBER = "gauge-check-rail", 6
BODY_MM = 80.0  # between the tongues, to hold
SHOULDER_MM = 12.0  # on either rail


def flangeway_limits_mm(setting: Setting) -> tuple[float, float]:
    """Least and most flangeway beside a crossing's nose, to the tenth inside.
    Raises: SpecError where the wheelbase does not fit the curve."""
    return _inside(setting, crossing_flangeway_mm(setting))


def check_rail_limits_mm(setting: Setting) -> tuple[float, float]:
    """The same of a check rail."""
    return _inside(setting, check_flangeway_mm(setting))


def _inside(setting: Setting, limits: tuple[float, float]) -> tuple[float, float]:
    if not fits_curve(setting):
        raise refuse(
            "flangeway",
            "a wheelbase that fits the tightest curve",
            "a shorter wagon.wheelbase_mm or a larger track.min_curve_radius_m",
        )
    least, most = limits
    return math.ceil(10 * least - 1e-9) / 10, math.floor(10 * most + 1e-9) / 10


def flangeway_gauge(setting: Setting, stuff: Stuff) -> Gauge:
    """For flangeways at crossings and road crossings. Raises: SpecError as `_gauge`."""
    return _gauge(
        setting,
        stuff,
        (NUMBER, NAME, "flangeway"),
        (setting.flangeway_mm, "flangeway_mm"),
        flangeway_limits_mm(setting),
        "where it enters, the tread falls into the gap before the crossing's nose",
    )


def check_rail_gauge(setting: Setting, stuff: Stuff) -> Gauge | None:
    """For check rails opposite crossings; None without any. Raises: SpecError as `_gauge`."""
    asked = setting.track.check_rail_flangeway_mm
    if asked is None:
        return None
    return _gauge(
        setting,
        stuff,
        (CHECK_NUMBER, CHECK_NAME, "check rail"),
        (asked, "check_rail_flangeway_mm"),
        check_rail_limits_mm(setting),
        "where it enters, the check rail no longer holds the other flange off the crossing's nose",
    )


def _gauge(
    setting: Setting,
    stuff: Stuff,
    called: tuple[int, str, str],
    asked: tuple[float, str],
    limits: tuple[float, float],
    entered: str,
) -> Gauge:
    """Two tongues as long as the flange is deep, tread worn. Raises: SpecError where the flangeway
    asked for is not between the two widths, or these are too near together."""
    (number, name, title), (width, key), (go, most) = called, asked, limits
    if most - go < LEAST_STEP_MM - 1e-9:
        raise refuse(
            "flangeway",
            f"a greatest flangeway {LEAST_STEP_MM:g} mm or more over the least; here a {title} "
            f"needs {go:g} and may have {most:g}",
            "look at the checks of crossings",
        )
    if not go <= width <= most:
        raise refuse(
            "flangeway",
            f"a flangeway that its own gauge takes: from {go:g} to {most:g} mm, not {width:g}",
            "look at the checks of crossings",
            {f"track.{key}": min(max(width, go), most)},
        )
    long = setting.wheel.flange_depth_mm + setting.use.wear_allowance_mm
    bite, half = bite_mm(stuff, long, go), most / 2 + SHOULDER_MM
    left, right = -BODY_MM / 2, BODY_MM / 2
    no_go: list[Stop] = [
        (right, -half),
        (right, -most / 2),
        Bite((right + bite, -most / 2)),
        (right + long, -most / 2),
        (right + long, most / 2),
        (right + bite, most / 2),
        Bite((right, most / 2)),
        (right, half),
    ]
    goes: list[Stop] = [
        (left, half),
        (left, go / 2),
        Bite((left - bite, go / 2)),
        (left - long, go / 2),
        (left - long, -go / 2),
        (left - bite, -go / 2),
        Bite((left, -go / 2)),
        (left, -half),
    ]
    quarter, wide = BODY_MM / 4, 0.45 * BODY_MM
    marks = [
        label((0.0, half / 2), f"No. {number} {title}", 2 * wide, half / 2),
        label((-quarter, -half / 2), f"GO {go:.1f}", wide, half / 2),
        label((quarter, -half / 2), f"NO GO {most:.1f}", wide, half / 2),
    ]
    return Gauge(
        number,
        f"{title} gauge",
        gauge_blank(name, stuff, closed([*no_go, *goes]), marks),
        (
            Measure("go, least", go),
            Measure("no-go, greatest", most),
            Measure("length of the tongues", long),
        ),
        "Push the GO tongue into the flangeway, square to the rail, all along it: it goes in until "
        "its shoulders lie on the rails, or flangeway or depth is too small. The NO GO tongue "
        f"enters nowhere: {entered}.",
    )
