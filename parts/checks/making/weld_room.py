"""Is there room for each bead that the spec asks for?"""

from __future__ import annotations

import math

from platewheel.parts.base.plates import plate_from
from platewheel.parts.base.units import at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import SIDES
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import (
    LEAST_LEG_MM,
    bead_words,
    disc_fillet_legs_mm,
    root_legs_mm,
    tube_fillet_legs_mm,
)


def weld_room(setting: Setting) -> CheckResult:
    """Shortest leg of any fillet, of the leg asked for."""
    spec = setting.wheel
    legs = {f"weld-disc-{side}": min(disc_fillet_legs_mm(spec, side)) for side in SIDES}
    if spec.has_tube:
        legs |= {f"weld-tube-{side}": min(tube_fillet_legs_mm(spec, side)) for side in SIDES}
    worst = min(legs, key=lambda name: legs[name])
    leg, wanted = legs[worst], spec.weld_leg_mm
    throat = at_most(leg / math.sqrt(2), 2)
    smaller = f", or wheel.weld_throat_mm = {throat}" if leg >= LEAST_LEG_MM else ""
    return judged(
        "weld-room",
        "Leg that fits the tightest fillet",
        leg,
        wanted,
        "mm",
        "EN 1993-1-8:2005, 4.5: fillet of throat a has legs a x 1.414; geometry of this wheel",
        at_most=False,
        good="every fillet has room for its full legs",
        bad=f"the {bead_words(worst)} has room for {at_most(leg)} of {wanted:.1f} mm: move the "
        f"disc or the tube's end{smaller}",
        bad_verdict="warn",
    )


def root_room(setting: Setting) -> CheckResult:
    """Thickness that the root weld fills, of ring and flange the thinner."""
    spec = setting.wheel
    leg = min(root_legs_mm(spec))
    return judged(
        "root-room",
        "Leg that fits the root weld",
        leg,
        spec.root_weld_mm,
        "mm",
        "geometry of this wheel: the V is no deeper than its plates are thick",
        at_most=False,
        good="both plates are thick enough for the whole V",
        bad=f"the {bead_words('weld-root')} has room for {at_most(leg)} of {spec.root_weld_mm:.1f} "
        f"mm: {_thick_enough(spec)}, or wheel.root_weld_mm = {at_most(leg)}",
        bad_verdict="warn",
    )


def _thick_enough(spec: WheelSpec) -> str:
    """Of ring and flange those that are thinner than the leg, as plates that are sold."""
    plates = {
        "tread_thickness_mm": spec.tread_thickness_mm,
        "flange_thickness_mm": spec.flange_thickness_mm,
    }
    leg = spec.root_weld_mm
    return " and ".join(
        f"wheel.{key} = {plate_from(leg, mm):g}" for key, mm in plates.items() if mm < leg
    )


CHECKS = (weld_room, root_room)
