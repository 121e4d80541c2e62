"""Keyways, threads and screw holes of hub, collar and axle: what, where from, how deep. mm."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_z_mm
from platewheel.parts.wheel.hub_tube import tube_z_mm
from platewheel.parts.wheel.welds import tube_fillet
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.spacers import COLLAR_MM
from platewheel.parts.wheelset.wheel_seat import wheel_seat

# coarse threads of ISO 261, and the drill of ISO 2306 for each; both from memory
PITCH_MM = {5.0: 0.8, 6.0: 1.0, 8.0: 1.25, 10.0: 1.5, 12.0: 1.75, 16.0: 2.0}
DRILL_MM = {5.0: 4.2, 6.0: 5.0, 8.0: 6.8, 10.0: 8.5, 12.0: 10.2, 16.0: 14.0}
DRILL_SOURCE = "coarse thread of ISO 261, its drill by ISO 2306, from memory"
KEY_SOURCE = "parallel key of ISO 773, from memory"
DIMPLE_SHARE = 0.25  # of the screw's size, deep; common practice, no source


@dataclass(frozen=True)
class ScrewPlace:
    """Two set screws a quarter turn apart: in hub or collar `from_end_mm` from its end, on the
    axle `from_axle_end_mm` from the axle's nearer end."""

    where: str
    screw_mm: float
    from_end_mm: float
    from_axle_end_mm: float

    @property
    def drill_mm(self) -> float:
        """Hole that is tapped."""
        return DRILL_MM[self.screw_mm]

    @property
    def dimple_mm(self) -> float:
        """Depth of the dimple below the screw's point."""
        return DIMPLE_SHARE * self.screw_mm


@dataclass(frozen=True)
class KeyPlace:
    """Keyways of one seat, each `length_mm` long; the axle's from `from_axle_end_mm` on, inwards.
    `hub_over_mm`: keyway's bottom in the hub to the far side of the bore, as a caliper reads it;
    `axle_over_mm` the same on the axle."""

    width_mm: float
    height_mm: float
    length_mm: float
    axle_depth_mm: float
    hub_depth_mm: float
    from_axle_end_mm: float
    hub_over_mm: float
    axle_over_mm: float


def holed_mm(setting: Setting, made: Wheelset) -> tuple[float, float, float]:
    """Bore, outside and length of what is drilled or keyed: the hub, or a collar."""
    for name, inside, outside, length, _ in made.spacers:
        if made.retention == "collar" and name == "collar-right":
            return inside, outside, length
    seat = wheel_seat(setting, made)
    return seat.axle_mm, seat.outside_mm, seat.length_mm


def key_place(setting: Setting, made: Wheelset) -> KeyPlace | None:
    """None where no key holds the wheels. Source: KEY_SOURCE; lengths plain geometry."""
    if made.retention != "key":
        return None
    seat, end = wheel_seat(setting, made), made.axle_length_mm / 2
    key, axle = seat.key, seat.axle_mm
    return KeyPlace(
        width_mm=key.width_mm,
        height_mm=key.height_mm,
        length_mm=seat.length_mm,
        axle_depth_mm=key.axle_depth_mm,
        hub_depth_mm=key.hub_depth_mm,
        from_axle_end_mm=end - made.hub_z_mm[1],
        hub_over_mm=axle + key.hub_depth_mm,
        axle_over_mm=axle - key.axle_depth_mm,
    )


def screw_place(setting: Setting, made: Wheelset) -> ScrewPlace | None:
    """None where there are no screws, or no room for any. Source: plain geometry: the middle of
    the tube that stands free of its fillet, or of the collar."""
    screw = wheel_seat(setting, made).screw_mm
    if made.retention not in ("key", "screws", "collar") or not screw:
        return None
    end = made.axle_length_mm / 2
    if made.retention == "collar":
        collars = [z for name, _, _, _, z in made.spacers if name == "collar-right"]
        if not collars:
            return None
        return ScrewPlace("each collar", screw, COLLAR_MM / 2, end - collars[0])
    wheel = setting.wheel
    low, high = tube_z_mm(wheel)
    free = {
        "field": disc_z_mm(wheel, "field")[0] - low - tube_fillet(wheel, "field").legs_mm[0],
        "gauge": high - disc_z_mm(wheel, "gauge")[1] - tube_fillet(wheel, "gauge").legs_mm[0],
    }
    side = "field" if free["field"] >= free["gauge"] else "gauge"
    from_end = free[side] / 2
    inner, outer = made.hub_z_mm  # the field side lies outwards, nearer to the axle's end
    along = outer - from_end if side == "field" else inner + from_end
    return ScrewPlace(f"the hub's {side} end", screw, from_end, end - along)
