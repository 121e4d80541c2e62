"""Wheels that the stress analysis does not rate, told before it runs."""

from __future__ import annotations

from platewheel.parts.rating.vented_disc import vents_beyond
from platewheel.parts.setting.least_wheel import eaten, least_wheel
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.kinds import kinds_of
from platewheel.parts.wheel.welds import bead_words, missing_beads

MOST_WORN_SHARE = 0.5  # of wall and root bead; beyond it the section is another one, our choice


def unrated(setting: Setting) -> str:
    """Why the wheel cannot be rated, or nothing: a disc of the user's own, loose parts, or vents
    beyond what was tried."""
    if setting.disc is not None:
        return "the disc is one of your own: the analysis knows plain discs with round vents alone"
    return loose(setting) or vents_beyond(setting.wheel)


def loose(setting: Setting) -> str:
    """Why its parts are no one body, or nothing: a bead that has no room holds no part, and the
    analysis knows only parts that turn whole about the axis."""
    unknown = [kind.title for kind in kinds_of(setting.wheel) if not kind.rated]
    if unknown:
        return f"the stress analysis does not know the {', the '.join(unknown)}"
    if reason := eaten(setting):
        return reason
    missing = missing_beads(least_wheel(setting).wheel)
    if not missing:
        return ""
    names = ", ".join(f"the {bead_words(bead.name)}" for bead in missing)
    return f"no room for {names}: the parts do not hold together; move the disc or the tube's end"


def most_wear_mm(setting: Setting) -> float:
    """Most that may wear off: half the least wall, and half the root bead's leg on the ring."""
    wheel = least_wheel(setting).wheel
    leg = min(wheel.root_weld_mm, wheel.tread_thickness_mm)
    return min(MOST_WORN_SHARE * wheel.tread_thickness_mm, MOST_WORN_SHARE * leg)
