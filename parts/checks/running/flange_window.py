"""The flange angle's window: flatter climbs the rail, steeper grinds in the curve."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.running.climb import (
    RESERVE,
    expected_share,
    least_angle,
    nadal_limit,
)
from platewheel.parts.checks.running.curve import (
    LEAST_ANGLE_DEG,
    WASHER_DEG,
    axle_yaw,
    fits_curve,
    room_given_mm,
    room_needed_mm,
    steepest_clear_deg,
)
from platewheel.parts.checks.trying import tried
from platewheel.parts.loads.flange_contact import LOW_SHARE, attack, lowest_contact
from platewheel.parts.setting.setting import Setting

SOURCE = (
    "Nadal's formula with its reserve for the least angle, plain geometry of the yawed axle for "
    "the greatest, which clears and touches with its face; play and yaw kept as they are"
)


@dataclass(frozen=True)
class FlangeWindow:
    """Flange angles that neither climb nor grind, degrees. `least_deg` may lie above 90 (every
    flange climbs); `greatest_deg` is 90 where a flat washer clears, None where nothing does."""

    least_deg: float
    greatest_deg: float | None

    @property
    def is_open(self) -> bool:
        """Whether any angle does both."""
        return self.greatest_deg is not None and self.least_deg <= self.greatest_deg

    @property
    def says(self) -> str:
        """The window in words."""
        if self.greatest_deg is None:
            return "no flange angle clears in the curve: more play, an easier curve, a low flange"
        if self.least_deg > WASHER_DEG:
            return "every flange angle climbs: less speed, more cant, an easier curve or less push"
        low, high = math.ceil(10 * self.least_deg) / 10, math.floor(10 * self.greatest_deg) / 10
        if not self.is_open:
            return f"from {low:g} deg it does not climb, but only to {high:g} deg it clears"
        return f"from {low:g} to {high:g} deg it neither climbs nor grinds"


def flange_window(setting: Setting) -> FlangeWindow:
    """Window of this setting. Raises: ValueError for a wheelbase that does not fit the curve."""
    share, friction = expected_share(setting), setting.use.friction_high
    least = math.degrees(least_angle(RESERVE * share, friction))
    clear = steepest_clear_deg(setting)
    return FlangeWindow(least, None if clear is None else min(clear, steepest_touch_deg(setting)))


def steepest_touch_deg(setting: Setting) -> float:
    """Greatest flange angle that touches the rail with its face and not with its lowest part, yaw
    kept as it is; 45 where not even that does."""
    depth, yaw = LOW_SHARE * setting.wheel.flange_depth_mm, attack(setting)

    def touches(angle_deg: float) -> bool:
        found = lowest_contact(setting, math.radians(angle_deg), yaw)
        return found.down_mm <= depth

    low, high = LEAST_ANGLE_DEG, WASHER_DEG
    if touches(high):
        return high
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if touches(middle) else (low, middle)
    return low


def climb_margin(setting: Setting, flange_angle_deg: float) -> float:
    """Relative margin to the climb limit at this angle: 1 - L/V / limit, -inf without limit."""
    limit = nadal_limit(math.radians(flange_angle_deg), setting.use.friction_high) / RESERVE
    return 1 - expected_share(setting) / limit if limit > 0 else -math.inf


def clearance_margin(setting: Setting, flange_angle_deg: float) -> float:
    """Relative margin to the room in the curve at this angle: 1 - needed / given."""
    given = room_given_mm(setting)
    need = room_needed_mm(setting, flange_angle_deg, axle_yaw(setting))
    return 1 - need / given if given > 0 else -math.inf


def touch_margin(setting: Setting, flange_angle_deg: float) -> float:
    """Relative margin of where a flange of this angle touches to the lowest it may."""
    lowest = lowest_contact(setting, math.radians(flange_angle_deg))
    return 1 - lowest.down_mm / (LOW_SHARE * setting.wheel.flange_depth_mm)


def window_check(setting: Setting) -> CheckResult:
    """Distance of the flange angle from the nearer edge of its window; inside is positive."""
    id, title = "flange-window", "Flange angle inside its window"
    if not fits_curve(setting):
        says = "the wheelbase does not fit the curve: shorten it or ease the curve"
        return CheckResult(id, title, None, 0.0, "deg", "fail", says, SOURCE, at_most=False)
    window, angle = flange_window(setting), setting.wheel.flange_angle_deg
    if window.greatest_deg is None:
        return CheckResult(id, title, None, 0.0, "deg", "warn", window.says, SOURCE, at_most=False)
    inside = angle - window.least_deg
    if window.greatest_deg < WASHER_DEG:  # at 90 the window ends, but nothing grinds
        inside = min(inside, window.greatest_deg - angle)
    # another angle has another play and travel: it is tried
    steeper = angle < window.least_deg
    edge = math.ceil(10 * window.least_deg) if steeper else math.floor(10 * window.greatest_deg)
    found = tried(
        window_check, setting, "wheel.flange_angle_deg", edge / 10, 0.5 if steeper else -0.5
    )
    cure = (
        f"wheel.flange_angle_deg = {found:g}"
        if found
        else "no angle alone does, as play goes with the flare"
    )
    return judged(
        id,
        title,
        inside,
        0.0,
        "deg",
        SOURCE,
        at_most=False,
        good=window.says,
        bad=f"{angle:g} deg is {-inside:.1f} deg outside: {window.says}; {cure}",
        bad_verdict="warn",
    )


CHECKS = (window_check,)
