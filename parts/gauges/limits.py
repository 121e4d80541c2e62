"""When a worn wheel is condemned: flange too thin or too deep, tread too hollow. mm.

Standards of full size do not scale down by themselves; these are shares of the new wheel. They
are an aid: the rules of your line come first.
"""

from __future__ import annotations

from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

THICKNESS_SHARE = 0.75  # of the new plate; 7.5 in wheel standard, undated: 75 %
# of the new depth; judgement, between the 7.5 in wheel standard (117 %) and what full-size rules
# leave (49 CFR 230.113, EBO annex 6: 1 1/2 in and 36 mm on flanges of 1 in and 28 mm when new)
DEPTH_SHARE = 1.2
# judgement, scaled from 49 CFR 230.113: 5/16 in (7.9 mm) on flanges 25 to 38 mm deep, where a
# tread that hollow is a third to a fifth of the flange; small wheels on uneven track have less
HOLLOW_SHARE, SMALL_HOLLOW_MM, SMALL_FLANGE_MM = 0.15, 2.0, 15.0


def least_thickness_mm(wheel: WheelSpec) -> float:
    """Flange plate left, square to its face."""
    return THICKNESS_SHARE * wheel.flange_thickness_mm


def most_depth_mm(setting: Setting) -> float:
    """Flange over the worn tread: the wear allowance, or the share where that is less."""
    depth = setting.wheel.flange_depth_mm
    return min(depth + setting.use.wear_allowance_mm, DEPTH_SHARE * depth)


def most_hollow_mm(setting: Setting) -> float:
    """Depth of a hollow run into the tread: a share of the flange, 2 mm for flanges to 15 mm (in
    proportion above), and never more than the tread may wear at all."""
    depth = setting.wheel.flange_depth_mm
    cap = SMALL_HOLLOW_MM * max(1.0, depth / SMALL_FLANGE_MM)
    return min(HOLLOW_SHARE * depth, cap, setting.use.wear_allowance_mm)
