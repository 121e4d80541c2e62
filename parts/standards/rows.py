"""The standards of one railway: sizes of track, points and wheel that go together.

Each has its least and most, what the job has, and what it follows from in symbols of track
standards: G gauge, B back to back, T flange from root to back, K = B + T, Fc and Fx flangeway at
check rail and crossing, C = G - Fc, S = C - Fx, N tread width, D flange depth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.checks.running.crossings import (
    check_gauge_mm,
    check_rail_mm,
    check_span_mm,
    least_back_mm,
    most_wheel_check_mm,
)
from platewheel.parts.checks.running.curve import fits_curve
from platewheel.parts.checks.running.flange_window import flange_window
from platewheel.parts.checks.running.play import LEAST_BEARING_SHARE
from platewheel.parts.checks.running.points import (
    check_flangeway_mm,
    crossing_flangeway_mm,
    least_wheel_check_mm,
    off_nose_mm,
    open_way_mm,
)
from platewheel.parts.checks.running.rough_track import (
    DEPTH_LEFT_SHARE,
    MOST_DROP_MM,
    climbed_step_mm,
    least_depth_mm,
)
from platewheel.parts.loads.travel import corner_ride_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.wear import (
    flange_wear_mm,
    least_flange_mm,
    most_depth_mm,
    most_hollow_mm,
)

# whose least and most are what tolerances make of them, not bounds that follow from others
SPREAD = frozenset({"gauge", "gauge_curve", "back_to_back", "over_flanges", "wheel_check", "play"})


@dataclass(frozen=True)
class Standard:
    """One size; `key` names it in `published.py`. `has` is the job's, `least` and `most` what goes
    with all the others; None where there is none. `unit` as printed."""

    part: str
    key: str
    symbol: str
    name: str
    least: float | None
    has: float | None
    most: float | None
    follows: str
    unit: str = "mm"

    @property
    def holds(self) -> bool:
        """Whether what the job has lies within; a size that it does not tell of, does."""
        if self.has is None:
            return True
        low = self.least is None or self.has >= self.least - 1e-6
        return low and (self.most is None or self.has <= self.most + 1e-6)


def standards(setting: Setting) -> tuple[Standard, ...]:
    """All rows, by part: track, points and crossings, wheel and axle."""
    return (*track_rows(setting), *points_rows(setting), *wheel_rows(setting))


def track_rows(setting: Setting) -> tuple[Standard, ...]:
    """Of plain track."""
    track, wagon = setting.track, setting.wagon
    part, less, more = "Track", *track.gauge_off_mm
    depth = setting.wheel.flange_depth_mm
    left = max(DEPTH_LEFT_SHARE * depth, track.rail_corner_radius_mm)
    twist = None
    if wagon.suspension == "rigid" and wagon.axles > 1:
        twist = max(depth - left, 0.0) / (wagon.wheelbase_mm / 1000)
    step = climbed_step_mm(
        2 * setting.static_wheel_load_n, setting.wheel.tread_radius_mm, setting.use.push_force_n
    )
    gap = 2 * math.sqrt(MOST_DROP_MM * (2 * setting.wheel.tread_radius_mm - MOST_DROP_MM))
    gauge = track.gauge_mm
    return (
        Standard(
            part, "gauge", "G", "Gauge, straight", gauge + less, gauge, gauge + more,
            "the gauge and its tolerance, between the heads",
        ),
        Standard(
            part, "gauge_curve", "G + e", f"Gauge in a curve of {track.min_curve_radius_m:g} m",
            gauge + track.gauge_widening_mm + less, gauge + track.gauge_widening_mm,
            track.most_gauge_mm, "gauge, widening and tolerance",
        ),
        Standard(
            part, "widening", "e", "Widening there", None, track.gauge_widening_mm, None,
            "see the table by radius",
        ),
        Standard(
            part, "twist", "", "Twist", None, track.twist_mm_per_m, twist,
            "half the flange, and the rail's corner, left under the fourth wheel of a rigid wagon",
            "mm a m",
        ),
        Standard(
            part, "joint_step", "", "Step at joints", None, track.joint_step_mm, step,
            "what the push climbs from rest, joints abreast",
        ),
        Standard(
            part, "joint_gap", "", "Gap at joints", None, track.joint_gap_mm, gap,
            f"a wheel drops {MOST_DROP_MM:g} mm into it",
        ),
    )  # fmt: skip


def points_rows(setting: Setting) -> tuple[Standard, ...]:
    """Of points and crossings."""
    track, wheel = setting.track, setting.wheel
    part, way = "Points and crossings", check_rail_mm(setting)
    guarded = track.check_rail_flangeway_mm is not None
    check = check_gauge_mm(track.gauge_mm, way)
    span = check_span_mm(track.gauge_mm, way, setting.flangeway_mm)
    tighter = track.gauge_mm - track.least_gauge_mm
    wider = track.most_gauge_mm - track.gauge_mm
    least_check, most_check = check_flangeway_mm(setting)
    least_way, carried = crossing_flangeway_mm(setting)
    worn = wheel.flange_depth_mm + setting.use.wear_allowance_mm
    opening = open_way_mm(setting)
    return (
        Standard(
            part, "check_flangeway", "Fc", "Flangeway at check rails", least_check,
            way if guarded else None, most_check,
            "least: the yawed flange; most: G least - K most, so that it guards the nose",
        ),
        Standard(
            part, "crossing_flangeway", "Fx", "Flangeway beside the nose", least_way,
            setting.flangeway_mm, carried,
            "least: the yawed flange, and G most - Fc least - B least; most: a tread still carried",
        ),
        Standard(
            part, "check_gauge", "C", "Check rail to nose",
            most_wheel_check_mm(setting) + tighter, check if guarded else None, None,
            "G - Fc; least: K most, and what the gauge may be tighter",
        ),
        Standard(
            part, "span", "S", "Check rail to wing rail", None, span,
            least_back_mm(setting) - wider,
            "C - Fx; most: B least, less what the gauge may be wider",
        ),
        Standard(
            part, "flangeway_depth", "", "Depth of flangeways", worn, track.flangeway_depth_mm,
            None, "flange and the wear of its tread",
        ),
        Standard(
            part, "switch_opening", "", "Open tongue, toe", opening, track.switch_opening_mm, None,
            "G most - K least, the yaw of the axle, the ride on the rail's corner",
        ),
        Standard(
            part, "heel_gap", "", "Tongue, heel", opening, track.heel_gap_mm, None, "the same",
        ),
        Standard(
            part, "nose", "", "Blunt nose", None, track.nose_mm,
            max(carried + track.nose_mm - setting.flangeway_mm, 0.0), "a tread still carried",
        ),
    )  # fmt: skip


def wheel_rows(setting: Setting) -> tuple[Standard, ...]:
    """Of wheel and axle."""
    wheel, track, use = setting.wheel, setting.track, setting.use
    part, back, reach = "Wheel and axle", setting.back_to_back_mm, setting.flange_reach_mm
    less, more = setting.back_to_back_off_mm
    ride = corner_ride_mm(track.rail_corner_radius_mm, wheel.flange_angle)
    half = LEAST_BEARING_SHARE * track.rail_head_width_mm
    off = setting.play_mm + track.gauge_widening_mm + setting.loose_mm + ride
    crossing = off_nose_mm(setting) + setting.flangeway_mm + track.nose_mm
    width = half + max(off + flange_wear_mm(setting), crossing)
    window = flange_window(setting) if fits_curve(setting) else None
    deepest = None if track.flangeway_depth_mm is None else track.flangeway_depth_mm
    return (
        Standard(
            part, "back_to_back", "B", "Back to back", back + less, back, back + more,
            "the gauge less play and two flanges; its tolerance",
        ),
        Standard(
            part, "over_flanges", "B + 2T", "Over the flanges' feet", back + less + 2 * reach,
            back + 2 * reach, back + more + 2 * reach, "new flanges",
        ),
        Standard(
            part, "wheel_check", "K", "Back to face, B + T", least_wheel_check_mm(setting),
            back + reach, most_wheel_check_mm(setting), "least worn, most new",
        ),
        Standard(
            part, "play", "", "Play on the axle", setting.play_mm - setting.tight_mm,
            setting.play_mm, off + ride + 2 * flange_wear_mm(setting),
            "G - B - 2T: tightest and new; widest, in the tightest curve, worn, on the corners",
        ),
        Standard(
            part, "flange_new", "T", "Flange, new, root to back", None, reach, None,
            "the plate, and its flare",
        ),
        Standard(
            part, "flange_scrap", "T worn", "Flange at scrap", least_flange_mm(setting),
            reach - flange_wear_mm(setting), None,
            "least: three quarters of new; the job wears it to this",
        ),
        Standard(
            part, "flange_depth", "D", "Flange depth, new", least_depth_mm(track.gauge_mm),
            wheel.flange_depth_mm,
            None if deepest is None else deepest - use.wear_allowance_mm,
            "least: as published, by gauge; most: the flangeway's depth",
        ),
        Standard(
            part, "depth_scrap", "D worn", "Flange depth at scrap", None,
            wheel.flange_depth_mm + use.wear_allowance_mm,
            most_depth_mm(setting) if deepest is None else min(deepest, most_depth_mm(setting)),
            "1.2 of new, and the flangeway's depth; the gauge has the lesser",
        ),
        Standard(
            part, "tread_width", "N", "Tread width, without flange", width, wheel.tread_width_mm,
            None, "half a rail head borne, off to one side, and past the nose",
        ),
        Standard(
            part, "hollow", "", "Hollow of the tread", None, use.wear_allowance_mm,
            most_hollow_mm(setting), "0.15 of the flange's depth; the gauge has the lesser",
        ),
        Standard(
            part, "flange_angle", "", "Flange angle",
            None if window is None else window.least_deg, wheel.flange_angle_deg,
            None if window is None else window.greatest_deg,
            "neither climbs, nor grinds, nor rides on its tip", "deg",
        ),
    )  # fmt: skip
