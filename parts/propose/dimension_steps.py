"""One small step up and down on each free dimension of a wheel, and what follows from it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any, Literal

from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.plates import PLATES_MM
from platewheel.parts.wheel.rules import bore_radius_mm
from platewheel.parts.wheel.spec import WheelSpec

SHARE = 0.10  # of a size
BY_SHARE = (
    "tread_diameter_mm",
    "tread_width_mm",
    "flange_depth_mm",
    "hub_tube_outside_mm",
    "hub_tube_length_mm",
    "vent_diameter_mm",
)
BY_PLATE = ("tread_thickness_mm", "flange_thickness_mm", "disc_thickness_mm")
BY_AMOUNT = {  # as small as a shop would change them: common practice, no source
    "flange_angle_deg": 2.0,
    "disc_field_inset_mm": 2.0,
    "disc_gauge_inset_mm": 2.0,
    "weld_throat_mm": 0.5,
    "root_weld_mm": 1.0,
    "fit_clearance_mm": 0.25,
}
DIMENSIONS = (
    *("tread_diameter_mm", "tread_width_mm", "tread_thickness_mm"),
    *("flange_depth_mm", "flange_angle_deg", "flange_thickness_mm"),
    *("disc_thickness_mm", "disc_field_inset_mm", "disc_gauge_inset_mm"),
    *("weld_throat_mm", "root_weld_mm", "fit_clearance_mm"),
    *("vent_diameter_mm", "hub_tube_outside_mm", "hub_tube_length_mm"),
)
Way = Literal["up", "down"]
WAYS: tuple[Way, ...] = ("up", "down")


@dataclass(frozen=True)
class Follower:
    """A key that moves with the one stepped, in mm."""

    key: str
    was: float
    becomes: float


@dataclass(frozen=True)
class DimensionStep:
    """One change of a wheel, in the key's own unit. `wheel` is None where it cannot be made, and
    `refused` then says why."""

    key: str
    way: Way
    was: float
    becomes: float | None  # None past the end of the plate series
    follows: tuple[Follower, ...]
    wheel: WheelSpec | None
    refused: str = ""


def dimension_steps(wheel: WheelSpec) -> list[DimensionStep]:
    """Up and down on every dimension in DIMENSIONS that this wheel has (`not_stepped` tells the
    others).

    Sizes go by a tenth, plates to the next thickness, angle, insets, beads and clearance by a
    fixed amount. The vent circle follows the ring's bore at the field disc and the vents' own
    size, so that the vent's edge keeps its distance from the ring wall; the hub tube's length
    follows the span over the discs, so that it stands out as far as before.
    """
    return list(_steps(wheel))


def not_stepped(wheel: WheelSpec) -> list[tuple[str, str]]:
    """Dimensions of DIMENSIONS that this wheel has not, each with the reason."""
    lacking = []
    if not wheel.has_tube:
        lacking += [(key, "no hub tube") for key in DIMENSIONS if key.startswith("hub_tube")]
    if not wheel.vent_count:
        lacking.append(("vent_diameter_mm", "no vents"))
    return lacking


def _steps(wheel: WheelSpec) -> Iterator[DimensionStep]:
    lacking = {key for key, _ in not_stepped(wheel)}
    for key in DIMENSIONS:
        if key not in lacking:
            for way in WAYS:
                yield _step(wheel, key, way)


def _step(wheel: WheelSpec, key: str, way: Way) -> DimensionStep:
    was = float(getattr(wheel, key))
    becomes = stepped(key, was, way)
    if becomes is None:
        said = f"the plate series ends at {PLATES_MM[-1 if way == 'up' else 0]:g} mm"
        return DimensionStep(key, way, was, None, (), None, said)
    follows = followers(wheel, {key: becomes})
    values = wheel.model_dump() | {key: becomes} | {one.key: one.becomes for one in follows}
    try:
        return DimensionStep(key, way, was, becomes, follows, WheelSpec(**values))
    except SpecError as error:
        said = "; ".join(f"{fault.key}: allowed {fault.allowed}" for fault in error.faults)
        return DimensionStep(key, way, was, becomes, follows, None, said)


def stepped(key: str, was: float, way: Way) -> float | None:
    """The value one step on; None past the end of the plate series."""
    if key in BY_PLATE:
        if way == "up":
            return next((mm for mm in PLATES_MM if mm > was), None)
        return next((mm for mm in reversed(PLATES_MM) if mm < was), None)
    sign = 1 if way == "up" else -1
    amount = was * SHARE if key in BY_SHARE else BY_AMOUNT[key]
    return round(was + sign * amount, 6)


def followers(wheel: WheelSpec, changes: dict[str, float]) -> tuple[Follower, ...]:
    """What moves with these changes: vent circle and hub tube, as `dimension_steps` says."""
    old = wheel.model_dump()
    new = old | changes
    moved = []
    if wheel.vent_count:
        moved.append(("vent_circle_mm", _vent_room_mm(new) - _vent_room_mm(old)))
    if wheel.has_tube and "hub_tube_length_mm" not in changes:
        moved.append(("hub_tube_length_mm", _span_mm(new) - _span_mm(old)))
    return tuple(
        Follower(name, old[name], round(old[name] + by, 6)) for name, by in moved if abs(by) > 1e-9
    )


def _vent_room_mm(values: dict[str, Any]) -> float:
    """Diameter of a vent circle whose vents touch the ring's bore at the field disc."""
    bore = bore_radius_mm(SimpleNamespace(**values), values["disc_field_inset_mm"])
    return float(2 * bore - values["vent_diameter_mm"])


def _span_mm(values: dict[str, Any]) -> float:
    """Over the outer faces of both discs."""
    return float(
        values["tread_width_mm"] - values["disc_field_inset_mm"] - values["disc_gauge_inset_mm"]
    )
