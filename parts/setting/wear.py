"""What wears off a wheel before it is scrapped, and at what it is."""

from __future__ import annotations

import math
from collections.abc import Iterator

from platewheel.parts.base.faults import Fault
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.wheel.spec import WheelSpec

# of the flange's plate when new; 7.5 in wheel standard: 0.117 in of a flange of 0.156
LEAST_PLATE_SHARE = 0.75
# of the flange's depth when new, by judgement; 49 CFR condemns 7.9 mm on the road, of flanges 25
# to 38 mm deep, and freight practice is about 5 (from memory); 2 mm to 15 mm of depth, beyond in
# proportion
HOLLOW_SHARE, SMALL_HOLLOW_MM, SMALL_DEPTH_MM = 0.15, 2.0, 15.0
# a worn tread makes the flange deeper: 117 % in the 7.5 in wheel standard, 49 CFR 230 has 38.1 mm
# for flanges from 25.4
MOST_DEPTH_SHARE = 1.2


def flange_wear_mm(setting: Setting) -> float:
    """Off one flange's rail-side face, along the axle: as the job says, or as deep square to the
    face as the tread's allowance."""
    if setting.use.flange_wear_mm is not None:
        return setting.use.flange_wear_mm
    return setting.use.wear_allowance_mm / math.sin(setting.wheel.flange_angle)


def worn_flange_mm(setting: Setting) -> float:
    """Flange left at its root along the axle, both faces, when its allowance is worn off."""
    return setting.flange_reach_mm - flange_wear_mm(setting)


def least_plate_mm(wheel: WheelSpec) -> float:
    """Flange plate, square to its face, below which a wheel is scrapped."""
    return LEAST_PLATE_SHARE * wheel.flange_thickness_mm


def least_flange_mm(setting: Setting) -> float:
    """The same at the flange's root along the axle, root to back."""
    lost = setting.wheel.flange_thickness_mm - least_plate_mm(setting.wheel)
    return setting.flange_reach_mm - lost / math.sin(setting.wheel.flange_angle)


def most_hollow_mm(setting: Setting) -> float:
    """Hollow of the tread above which a wheel is scrapped."""
    depth = setting.wheel.flange_depth_mm
    return min(HOLLOW_SHARE * depth, SMALL_HOLLOW_MM * max(1.0, depth / SMALL_DEPTH_MM))


def most_depth_mm(setting: Setting) -> float:
    """Depth of the flange, tread worn, above which a wheel is scrapped."""
    return MOST_DEPTH_SHARE * setting.wheel.flange_depth_mm


def unworn_band_mm(setting: Setting) -> float:
    """Width of the tread's field side that no rail ever reaches, and that stands out as a false
    flange when the rest is hollow; 0 where all of it wears.

    The head reaches from the flange to its own width, the play in the widest gauge further.
    """
    track = setting.track
    reached = track.rail_head_width_mm + max(setting.play_mm, 0.0)
    reached += track.gauge_widening_mm + max(setting.loose_mm, 0.0)
    return max(setting.wheel.tread_width_mm - reached, 0.0)


def wear_faults(wheel: WheelSpec, use: UseSpec) -> Iterator[Fault]:
    """Wear of more than there is; keys with their section."""
    if use.wear_allowance_mm >= wheel.tread_thickness_mm:
        yield Fault(
            "use.wear_allowance_mm",
            use.wear_allowance_mm,
            f"below wheel.tread_thickness_mm, {wheel.tread_thickness_mm:g}",
            "an eighth of the tread's thickness",
        )
    plate = wheel.flange_thickness_mm / math.sin(wheel.flange_angle)
    if use.flange_wear_mm is not None and use.flange_wear_mm >= plate:
        yield Fault(
            "use.flange_wear_mm",
            use.flange_wear_mm,
            f"below the flange's plate along the axle, {plate:.1f} mm",
            "a quarter of wheel.flange_thickness_mm",
        )
