"""What the gauge of wear lets pass: the limits of scrap, or what the job allows, the less. mm.

Standards of full size do not scale down by themselves; the limits are shares of the new wheel
(`parts/setting/wear.py`). They are an aid: the rules of your line come first.
"""

from __future__ import annotations

from platewheel.parts.setting import wear
from platewheel.parts.setting.setting import Setting


def most_depth_mm(setting: Setting) -> float:
    """Flange over the worn tread."""
    worn = setting.wheel.flange_depth_mm + setting.use.wear_allowance_mm
    return min(worn, wear.most_depth_mm(setting))


def most_hollow_mm(setting: Setting) -> float:
    """Depth of a hollow run into the tread."""
    return min(wear.most_hollow_mm(setting), setting.use.wear_allowance_mm)
