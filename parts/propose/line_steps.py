"""One small step on what an owner can change beside the wheel: track, wagon, axle."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.propose.dimension_steps import WAYS, Way
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.way import curve_faults, way_faults
from platewheel.parts.wheel.spec import WheelSpec

# key -> a share of the value, or an amount in the key's own unit, as small as an owner would change
# it: judgement, no source
BY_SHARE = {
    "wagon.wheelbase_mm": 0.1,
    "track.min_curve_radius_m": 0.1,
    "wagon.payload_kg": 0.1,
}
BY_AMOUNT = {
    "axle.back_to_back_mm": 1.0,
    "track.gauge_widening_mm": 1.0,
    "wagon.max_speed_km_h": 1.0,
    "track.joint_step_mm": 0.5,
    "track.twist_mm_per_m": 1.0,
}
LINE_KEYS = (
    *("axle.back_to_back_mm", "track.gauge_widening_mm", "track.min_curve_radius_m"),
    *("track.joint_step_mm", "track.twist_mm_per_m"),
    *("wagon.wheelbase_mm", "wagon.payload_kg", "wagon.max_speed_km_h"),
)
NOT_BELOW_0 = ("track.gauge_widening_mm", "track.joint_step_mm", "track.twist_mm_per_m")


@dataclass(frozen=True)
class LineStep:
    """One change of a key with its section, in the key's own unit. `setting` is None where the
    job would not take it, and `refused` then says why."""

    key: str
    way: Way
    was: float
    becomes: float
    setting: Setting | None
    refused: str = ""

    @property
    def wheel(self) -> WheelSpec | None:
        """The wheel, which stays; None where the step is refused."""
        return self.setting.wheel if self.setting else None


def line_steps(setting: Setting) -> list[LineStep]:
    """Up and down on every key of LINE_KEYS; a step below 0 goes to 0, and from 0 none goes down.
    The back-to-back is that of this wheel where the job leaves it to the usual play, to a tenth."""
    return list(_steps(setting))


def _steps(setting: Setting) -> Iterator[LineStep]:
    for key in LINE_KEYS:
        section, name = key.split(".")
        was = getattr(getattr(setting, section), name)
        if was is None:
            was = round(setting.back_to_back_mm, 1)
        for way in WAYS:
            by = was * BY_SHARE[key] if key in BY_SHARE else BY_AMOUNT[key]
            becomes = round(was + (by if way == "up" else -by), 6)
            if key in NOT_BELOW_0:
                becomes = max(becomes, 0.0)
            if becomes != was:
                yield _step(setting, key, way, float(was), becomes)


def _step(setting: Setting, key: str, way: Way, was: float, becomes: float) -> LineStep:
    try:
        return LineStep(key, way, was, becomes, with_value(setting, key, becomes))
    except SpecError as error:
        said = "; ".join(f"{fault.key}: allowed {fault.allowed}" for fault in error.faults)
        return LineStep(key, way, was, becomes, None, said)


def with_value(setting: Setting, key: str, value: object) -> Setting:
    """The setting with one key, such as `track.twist_mm_per_m`, changed. Raises: SpecError, also
    where wheelbase, curves and the way described do not go together."""
    section, name = key.split(".")
    spec = getattr(setting, section)
    other = type(spec)(**(spec.model_dump() | {name: value}))
    changed: Setting = replace(setting, **{section: other})
    faults: list[Fault] = [*curve_faults(changed.track, changed.wagon)]
    faults += way_faults(changed.way, changed.track, changed.wagon)
    if faults:
        raise SpecError(faults)
    return changed
