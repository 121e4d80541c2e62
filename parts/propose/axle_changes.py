"""What an owner may change of the axle, with the hub that goes on it."""

from __future__ import annotations

import math
from dataclasses import replace

from platewheel.parts.base.steel import AXLE_STEELS
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheelset.bearing_table import bores_mm

HUB_BORE = "wheel.hub_bore_mm"
MOST_SIZES = 4  # thicker axles tried, of those that bearings are made for
AXLE_KEYS = ("diameter_mm", "journal_diameter_mm", "body_diameter_mm")


def thicker_bores_mm(setting: Setting) -> tuple[float, ...]:
    """Hub bores beyond the job's, of the axles that bearings are made for; none for wheels that
    turn on their axle, whose hub has the bearing in it."""
    if setting.axle.wheels_on_axle == "loose":
        return ()
    kind = setting.axle.bearing_kind
    made = bores_mm("deep-groove" if kind == "bush" else kind)
    return tuple(bore for bore in made if bore > setting.wheel.hub_bore_mm)[:MOST_SIZES]


def with_bore(setting: Setting, bore_mm: float) -> Setting:
    """The wheel bored for another axle, its tube's wall in the same share; what [axle] gives in
    diameters is as much more. Raises: SpecError where they do not go together."""
    wheel, axle = setting.wheel, setting.axle
    more = bore_mm - wheel.hub_bore_mm
    tube = tube_outside_mm(setting, bore_mm)
    sizes = {"hub_bore_mm": bore_mm, "hub_tube_outside_mm": tube}
    given = {key: getattr(axle, key) for key in AXLE_KEYS}
    thicker = {key: mm + more for key, mm in given.items() if mm is not None}
    return replace(
        setting,
        wheel=WheelSpec(**(wheel.model_dump() | sizes)),
        axle=AxleSpec(**(axle.model_dump() | thicker)),
    )


def tube_outside_mm(setting: Setting, bore_mm: float) -> float:
    """Outside of the tube with that bore, its wall as much of it as now, in whole mm."""
    wheel = setting.wheel
    return float(math.ceil(bore_mm * wheel.hub_tube_outside_mm / wheel.hub_bore_mm - 1e-9))


def stronger_steels(setting: Setting) -> tuple[str, ...]:
    """Axle steels of more tensile strength at the job's thickness, on which its life hangs, the
    least first; those that may not be welded are left to the rules of [axle]."""
    thick = setting.axle.diameter_mm or setting.wheel.hub_bore_mm
    own = AXLE_STEELS[setting.axle.steel].fu_at_n_mm2(thick)
    stronger = {name: steel.fu_at_n_mm2(thick) for name, steel in AXLE_STEELS.items()}
    better = [name for name, fu in stronger.items() if fu > own]
    return tuple(sorted(better, key=lambda name: stronger[name]))


def other_bearings(setting: Setting) -> tuple[str, ...]:
    """Kinds of bearing but the job's own; none where it names a size."""
    if setting.axle.bearing_name:
        return ()
    return tuple(k for k in ("insert", "deep-groove", "bush") if k != setting.axle.bearing_kind)
