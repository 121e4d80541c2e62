"""Wear gauge: three edges that condemn a worn wheel, by flange depth, thickness, hollow tread."""

from __future__ import annotations

import math

from platewheel.parts.gauges.edge import Bite, Stop, bite_mm, closed
from platewheel.parts.gauges.gauge import (
    CALIPER,
    KERF,
    LEAST_STEP_MM,
    Gauge,
    Measure,
    Stuff,
    gauge_blank,
    label,
    refuse,
)
from platewheel.parts.gauges.limits import most_depth_mm, most_hollow_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.wear import HOLLOW_SHARE, least_plate_mm
from platewheel.parts.wheel.spec import WheelSpec

NAME, NUMBER = "gauge-wear", 4
LEG_MM = 10.0  # wide, behind the flange
PAST_MM = 4.0  # of the leg past the flange's inmost point
CLEAR_MM = 3.0  # over the tip where the leg hangs, and before the root
BODY_MM = 20.0  # between the two notches
TONGUE_MM = 8.0  # wide, into the hollow
CORNER_MM = 2.0  # off the corner that points at the root
PLACES = 0.3, 0.6  # of the tread, between which the tongue is
HEIGHT_SHARE = 1 / 4  # of the flange depth: where the rail's corner wears the flange


def nose_mm(wheel: WheelSpec) -> tuple[float, float]:
    """How far from the new root, along the axle, the face of a flange at its least thickness
    stands, and how high above the tread: the nose reaches there. Worn square to the face."""
    high = HEIGHT_SHARE * wheel.flange_depth_mm
    worn = wheel.flange_thickness_mm - least_plate_mm(wheel)
    return high / math.tan(wheel.flange_angle) + worn / math.sin(wheel.flange_angle), high


def stands_mm(wheel: WheelSpec) -> float:
    """How far the foot stands off the tread when the nose stands on a new flange."""
    nose, high = nose_mm(wheel)
    return min(nose * math.tan(wheel.flange_angle), wheel.flange_depth_mm) - high


def height_mm(setting: Setting) -> float:
    """From the lower tread line to the upper, where they meet the root; the left end is as long as
    the tread is wide, at least."""
    slot = setting.wheel.flange_depth_mm + CLEAR_MM
    return max(most_depth_mm(setting) + slot + BODY_MM, setting.wheel.tread_width_mm)


def wear_gauge(setting: Setting, stuff: Stuff) -> Gauge:
    """Below: foot and ledge at the greatest flange depth. Above, in mirror image: foot, a nose
    that stands on a flange thick enough, and a leg along its back, which does not wear. At the
    left end: a straight edge with a tongue of the greatest hollow. Raises: SpecError for limits
    or a notch that are too small to be cut."""
    wheel, reach = setting.wheel, setting.flange_reach_mm
    deep, hollow = most_depth_mm(setting), most_hollow_mm(setting)
    nose, high = nose_mm(wheel)
    if min(hollow, deep - wheel.flange_depth_mm) < LEAST_STEP_MM - 1e-9:
        deepest = math.ceil(10 * LEAST_STEP_MM / HOLLOW_SHARE) / 10
        needs = {
            "use.wear_allowance_mm": (setting.use.wear_allowance_mm, LEAST_STEP_MM),
            "wheel.flange_depth_mm": (wheel.flange_depth_mm, deepest),
        }
        raise refuse(
            "wear",
            f"limits at least {LEAST_STEP_MM:g} mm off a new wheel, not a hollow of {hollow:.2g} "
            f"and a flange {deep - wheel.flange_depth_mm:.2g} deeper",
            CALIPER,
            {key: least for key, (has, least) in needs.items() if has < least},
        )
    width, fall = wheel.tread_width_mm, math.tan(wheel.taper_half_angle)
    tongue, bite = min(TONGUE_MM, width / 6), bite_mm(stuff, PLACES[0] * width)
    slot = wheel.flange_depth_mm + CLEAR_MM
    inmost = wheel.flange_depth_mm - wheel.flange_thickness_mm * math.cos(wheel.flange_angle)
    leg = inmost - stands_mm(wheel) - PAST_MM  # it is behind a new flange, too
    small = min((reach - nose) / 2, high, math.inf if bite else hollow)
    if small < stuff.kerf_mm / 2 - 1e-9:
        finer = math.floor(20 * small + 1e-9) / 10
        raise refuse(
            "wear",
            f"notches that a kerf of {stuff.kerf_mm:g} mm goes into; here one has edges of "
            f"{small:.2f} mm",
            CALIPER,
            *([{KERF: finer}] if finer > 0 else []),
        )
    tall, right = height_mm(setting), reach + LEG_MM
    front = min(CLEAR_MM, width / 4)
    below: list[Stop] = [
        (CORNER_MM - width, (CORNER_MM - width) * fall),
        (-front, -front * fall),
        (-front, deep),
        (right, deep),
    ]
    above: list[Stop] = [
        (right, tall - leg),
        (reach, tall - leg),
        (reach, tall - slot),
        (nose, tall - slot),
        (nose, tall - high),
        (-front, tall - high),
        (-front, tall + front * fall),
        (-width, tall + width * fall),
    ]
    at = tongue_place_mm(setting) - width * fall
    end: list[Stop] = [
        (-width, at + tongue / 2 + bite),
        Bite((-width, at + tongue / 2)),
        (-width - hollow, at + tongue / 2),
        (-width - hollow, at - tongue / 2),
        (-width, at - tongue / 2),
        Bite((-width, at - tongue / 2 - bite)),
        (-width, CORNER_MM - width * fall),
    ]
    edge = closed([*below, *above, *end])
    middle, wide = (-width - front) / 2, 0.9 * (width - front)
    thick = least_plate_mm(wheel)
    lines = (f"No. {NUMBER} wear", f"thick {thick:.1f}", f"hollow {hollow:.1f}", f"deep {deep:.1f}")
    rows = tall / (len(lines) + 1)
    marks = [
        label((middle, tall - rows * (i + 1)), line, wide, rows) for i, line in enumerate(lines)
    ]
    return Gauge(
        NUMBER,
        "wear gauge",
        gauge_blank(NAME, stuff, edge, marks),
        (
            Measure("flange depth, greatest", deep),
            Measure("flange thickness, least", thick),
            Measure("notch, back of the flange to the nose", reach - nose),
            Measure("hollow of the tread, greatest", hollow),
        ),
        "In a plane through the axle, the wheel is condemned where (deep) the ledge lies on the "
        "flange and the foot stands off the tread, (thick) the leg hangs behind the flange, drawn "
        "up to its back, and the foot lies on the tread, or (hollow) the straight end, its cut "
        "corner at the root, lies on the tread at both sides of the tongue. Try it at four places "
        "round the wheel; the rules of your line come first.",
    )


def tongue_place_mm(setting: Setting) -> float:
    """From the root to the middle of the hollow: where the rail head lies when the axle runs in
    the middle, as far as the tread has room for the tongue."""
    width = setting.wheel.tread_width_mm
    middle = max(setting.play_mm, 0.0) / 2 + setting.track.rail_head_width_mm / 2
    return min(max(middle, PLACES[0] * width), PLACES[1] * width)
