"""A wheel measured again once it is welded: what it shrank by, and its flange's angle."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.result import Verdict
from platewheel.parts.checks.running.flange_window import SOURCE, window_check
from platewheel.parts.making.weld_shrinkage import Shrinkage
from platewheel.parts.refit.measured_ring import TAPE_MM, MeasuredRing
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

GAUGE_DEG = 0.5  # that a gauge held to a flange errs by; common practice, no source


@dataclass(frozen=True)
class WeldedAngle:
    """A flange's angle as measured, against the window of the job."""

    angle_deg: float
    verdict: Verdict
    says: str
    source: str


def shrunk_mm(ring: MeasuredRing) -> float | None:
    """Off the diameter from ring to welded wheel; None where it was not taped again."""
    welded = ring.after_welding_diameter_mm
    return None if welded is None else ring.outside_diameter_mm - welded


def is_surprising(shrunk: float, expected: Shrinkage) -> bool:
    """Whether a wheel shrank by less or more than welds and tape explain."""
    least, most = expected.range_mm
    return not least - TAPE_MM <= shrunk <= most + TAPE_MM


def running_diameters_mm(rings: Sequence[MeasuredRing]) -> tuple[tuple[float, ...], bool]:
    """Diameters that wheels are paired by, and whether they are those after welding: where every
    wheel has one, since a wheel as rolled and one as welded do not compare."""
    welded = [ring.after_welding_diameter_mm for ring in rings]
    known = [mm for mm in welded if mm is not None]
    if known and len(known) == len(rings):
        return tuple(known), True
    return tuple(ring.outside_diameter_mm for ring in rings), False


def welded_angle(setting: Setting, angle_deg: float) -> WeldedAngle:
    """The flange window asked with the measured angle in place of the drawn one; play and travel
    are those of that angle."""
    wheel = setting.wheel
    off = angle_deg - wheel.flange_angle_deg
    apart = f"{off:+.1f} deg on the drawn {wheel.flange_angle_deg:g}"
    try:
        measured = WheelSpec(**(wheel.model_dump() | {"flange_angle_deg": angle_deg}))
    except SpecError as error:
        first = error.faults[0]
        says = f"{apart}: no such wheel is drawn, {first.key} is {first.allowed}"
        return WeldedAngle(angle_deg, "fail", says, SOURCE)
    result = window_check(replace(setting, wheel=measured))
    says = f"{apart}: {result.says}"
    if result.verdict != "pass" and -GAUGE_DEG <= (result.value or -math.inf) < 0:
        says += f" (a gauge errs by {GAUGE_DEG:g} deg: measure it again first)"
    return WeldedAngle(angle_deg, result.verdict, says, result.source)
