"""Does a yawed axle pass the tightest curve: the room its flanges need, and the least flare."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.trying import tried
from platewheel.parts.loads.travel import travel_mm
from platewheel.parts.setting.setting import Setting

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

LEAST_ANGLE_DEG, WASHER_DEG = 45.0, 90.0  # the range that the wheel's spec allows
STEPS = 50  # between two of them the room may be 0.001 mm more than at either
FINE_STEPS = 400  # what is left then is a ten-millionth of a millimetre
GEOMETRY = (
    "plain geometry of a flared flange in a curve, sharp rail corner (less room than a round)"
)


def sagitta_mm(chord_mm: float, radius_mm: float) -> float:
    """Versine of a chord, exact: R - sqrt(R2 - (C/2)2); the usual C2 / (8 R) falls short in
    tight curves. Raises: ValueError for a chord above 2 R. Source: plain geometry.

    Written as (C/2)2 / (R + sqrt(R2 - (C/2)2)), the same without loss of digits.
    """
    half = chord_mm / 2
    return half**2 / (radius_mm + math.sqrt(radius_mm**2 - half**2))


def rail_top_reach_mm(tread_radius_mm: float, below_mm: float) -> float:
    """How far before and behind the axle a circle `below_mm` larger than the tread dips under
    the rail top: sqrt((r + y)2 - r2). Source: plain geometry."""
    return math.sqrt(below_mm * (2 * tread_radius_mm + below_mm))


def radial_error(wheelbase_mm: float, curve_radius_mm: float) -> float:
    """Yaw of each axle of a rigid wheelbase that lies square in a curve, radians: asin(L / 2R).

    Raises: ValueError for a wheelbase above 2 R. Source: plain geometry.
    """
    return math.asin(wheelbase_mm / (2 * curve_radius_mm))


def lateral_room_mm(
    tread_radius_mm: float,
    flange_depth_mm: float,
    flange_angle: float,
    yaw: float,
    curve_radius_mm: float,
) -> float:
    """Room beside the outer rail that a yawed, flared flange needs beyond an unyawed one; mm.

    Largest over x from 0 to the tip's reach of: x tan(yaw), less the flare y cot(delta) at the
    circle that reaches x, plus the rail's own bend towards the flange. Angles in radians.
    Source: plain geometry.
    """
    import numpy as np

    r, flare, turned = tread_radius_mm, 1 / math.tan(flange_angle), math.tan(yaw)

    def room(x: NDArray[np.float64]) -> NDArray[np.float64]:
        below = x * x / (np.hypot(r, x) + r)  # of the circle that is at the rail top at x
        # the versine of a chord of 2 x, as `sagitta_mm`
        bend = x * x / (curve_radius_mm + np.sqrt(curve_radius_mm**2 - x * x))
        return np.asarray(x * turned - below * flare + bend)

    reach = rail_top_reach_mm(r, flange_depth_mm)
    coarse = np.linspace(0.0, reach, STEPS + 1)
    best = int(room(coarse).argmax())  # one top between its two neighbours
    fine = np.linspace(coarse[max(best - 1, 0)], coarse[min(best + 1, STEPS)], FINE_STEPS + 1)
    return max(float(room(fine).max()), 0.0)


def fits_curve(setting: Setting) -> bool:
    """Whether the yaw stays below 45 degrees; past it the wheelbase and curve make no sense."""
    chord = setting.wagon.wheelbase_mm / (2000 * setting.track.min_curve_radius_m)
    return chord < 1 and axle_yaw(setting) < math.pi / 4


def axle_yaw(setting: Setting) -> float:
    """Most yaw of an axle in the tightest curve, radians: that of the rigid wheelbase, and the
    skew until the leading outer and the trailing inner flange bear, travel / L."""
    wheelbase = setting.wagon.wheelbase_mm
    skew = max(travel_mm(setting), 0.0) / wheelbase
    return radial_error(wheelbase, 1000 * setting.track.min_curve_radius_m) + skew


def room_needed_mm(setting: Setting, flange_angle_deg: float, yaw: float) -> float:
    """`lateral_room_mm` of this wheel in its tightest curve, with another flange angle or yaw."""
    wheel, curve = setting.wheel, 1000 * setting.track.min_curve_radius_m
    angle = math.radians(flange_angle_deg)
    return lateral_room_mm(wheel.tread_radius_mm, wheel.flange_depth_mm, angle, yaw, curve)


def room_given_mm(setting: Setting) -> float:
    """Play on each side of a new axle in the widened gauge where it is tightest, rounding of the
    rail left out."""
    return (setting.play_mm + setting.track.gauge_widening_mm - setting.tight_mm) / 2


def steepest_clear_deg(setting: Setting) -> float | None:
    """Least flare, that is greatest flange angle, that clears with play and yaw kept as they
    are; 90 when a flat washer clears, None when no angle from 45 does."""
    if not fits_curve(setting):
        return None
    yaw, given = axle_yaw(setting), room_given_mm(setting)
    low, high = LEAST_ANGLE_DEG, WASHER_DEG
    if room_needed_mm(setting, high, yaw) <= given:
        return high
    if room_needed_mm(setting, low, yaw) > given:
        return None
    while high - low > 1e-5:
        middle = (low + high) / 2
        clears = room_needed_mm(setting, middle, yaw) <= given
        low, high = (middle, high) if clears else (low, middle)
    return low


def curve_room(setting: Setting) -> CheckResult:
    """Room that the flange needs on its side, wagon fully skewed; fails when it jams unskewed.

    Skewing spends play that the limit counts again: a result on the safe side, so only a warning
    as long as the axle still passes without skew.
    """
    id, title, given = "curve-room", "Room for the yawed flange, each side", room_given_mm(setting)
    if not fits_curve(setting):
        says = "the wheelbase does not fit the curve: shorten it or ease the curve"
        return CheckResult(id, title, None, given, "mm", "fail", says, GEOMETRY, at_most=True)
    yaw, angle = axle_yaw(setting), setting.wheel.flange_angle_deg
    need, washer = room_needed_mm(setting, angle, yaw), room_needed_mm(setting, WASHER_DEG, yaw)
    square = radial_error(setting.wagon.wheelbase_mm, 1000 * setting.track.min_curve_radius_m)
    jams = room_needed_mm(setting, angle, square) > given
    steepest = steepest_clear_deg(setting)
    most = None  # flaring takes play and rides further up the corner: the angle is tried
    if steepest is not None:
        least = math.floor(10 * steepest) / 10
        most = tried(curve_room, setting, "wheel.flange_angle_deg", least, -0.5)
    flare = (
        "no flare clears"
        if most is None
        else "any flare clears"
        if steepest == WASHER_DEG
        else f"wheel.flange_angle_deg = {most:g} or less clears"
    )
    wider = tried(
        curve_room,
        setting,
        "track.gauge_widening_mm",
        math.ceil(10 * (setting.track.gauge_widening_mm + 2 * (need - given))) / 10,
        0.5,
    )
    widen = f"track.gauge_widening_mm = {wider:g}, or " if wider else ""
    step = 10.0 * max(1, round(setting.wagon.wheelbase_mm / 500))
    shorter = step * (math.ceil(setting.wagon.wheelbase_mm / step) - 1)
    base = tried(curve_room, setting, "wagon.wheelbase_mm", shorter, -step)
    nearer = f"wagon.wheelbase_mm = {base:g}" if base else "less wheelbase"
    washer_says = f"a flat, unflared flange would need {washer:.1f} mm; {flare}"
    return judged(
        id,
        title,
        need,
        given,
        "mm",
        f"{GEOMETRY}; yaw asin(L / 2R) + travel / L; half of play and widening, less both "
        "tolerances, to each side",
        at_most=True,
        good=f"the axle passes at {math.degrees(yaw):.1f} deg of yaw; {washer_says}",
        bad=("the axle jams" if jams else "both flanges of an axle grind when the wagon skews")
        + f": {widen}{nearer}; {washer_says}",
        bad_verdict="fail" if jams else "warn",
    )


def middle_axle(setting: Setting) -> CheckResult | None:
    """Room for the axles between the outer two, evenly spaced in one rigid frame."""
    axles, wheelbase = setting.wagon.axles, setting.wagon.wheelbase_mm
    if axles < 3:
        return None
    radius, given = 1000 * setting.track.min_curve_radius_m, 2 * room_given_mm(setting)
    id, title = "middle-axle", "Offset of a middle axle from the outer two"
    source = "versine of the wheelbase, exact, by plain geometry"
    if wheelbase >= 2 * radius:
        says = "the wheelbase does not fit the curve: shorten it or ease the curve"
        return CheckResult(id, title, None, given, "mm", "fail", says, source, at_most=True)
    spacing = 0.0 if axles % 2 else wheelbase / (axles - 1)  # of the two nearest the middle
    offset = sagitta_mm(wheelbase, radius) - sagitta_mm(spacing, radius)
    return judged(
        id,
        title,
        offset,
        given,
        "mm",
        source,
        at_most=True,
        good="all axles of one rigid frame find room between the rails",
        bad=f"in one rigid frame the middle axle lacks {at_least(offset - given)} mm: give it that "
        "much side play, or put the axles in bogies, or track.gauge_widening_mm = "
        f"{at_least(setting.track.gauge_widening_mm + offset - given)}",
        bad_verdict="fail" if axles == 3 else "warn",
    )


CHECKS = (curve_room, middle_axle)
