"""Where a wheel holds on its axle: length and thickness round the bore, key, room for screws."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.base.steel import AXLE_STEELS, Steel
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import SIDES, disc_diameter_mm, disc_z_mm
from platewheel.parts.wheel.hub_tube import tube_z_mm
from platewheel.parts.wheel.welds import tube_fillet
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.iso_fits import fit
from platewheel.parts.wheelset.seats import hub_length_mm
from platewheel.parts.wheelset.spacers import COLLAR_SCREW_MM, COLLAR_WALL_MM
from platewheel.parts.wheelset.wheel_holding import SCREWS_MM, Key, key_for

SCREWS = 2  # in one hub end or collar, square to one another; common practice, no source
SCREW_SHARE = 0.25  # of the axle's diameter; Shigley and Mott, from memory
THREAD_SHARE = 0.8  # of the screw's size, least thread in the wall: a nut's height


@dataclass(frozen=True)
class WheelSeat:
    """A wheel's bore on the axle; mm. `length_mm` touches the axle. A screw of 0 has no room."""

    axle_mm: float
    length_mm: float
    outside_mm: float
    key: Key
    screw_mm: float
    overlap_mm: tuple[float, float]  # least and greatest of the fit; negative is clearance
    hub_fy_n_mm2: float
    axle_fy_n_mm2: float
    steel: Steel  # the weaker of the two, for a weld

    @property
    def wall_mm(self) -> float:
        """Steel round the bore."""
        return (self.outside_mm - self.axle_mm) / 2


def wheel_seat(setting: Setting, made: Wheelset) -> WheelSeat:
    """The seat of the wheels of a wheelset."""
    wheel = setting.wheel
    length = hub_length_mm(setting) if wheel.has_tube else 2 * wheel.disc_thickness_mm
    discs = min(disc_diameter_mm(wheel, side) for side in SIDES)
    outside = wheel.hub_tube_outside_mm if wheel.has_tube else discs
    clearance = next(
        (fit(size, hole, shaft) for place, size, hole, shaft in made.fits if "wheel" in place),
        (0.0, 0.0),
    )
    axle, wall = AXLE_STEELS[made.steel], (outside - made.seat_diameter_mm) / 2
    return WheelSeat(
        axle_mm=made.seat_diameter_mm,
        length_mm=length,
        outside_mm=outside,
        key=key_for(made.seat_diameter_mm),
        screw_mm=_screw_mm(setting, made),
        overlap_mm=(-clearance[1], -clearance[0]),
        hub_fy_n_mm2=wheel.grade.fy_n_mm2(wall if wheel.has_tube else wheel.disc_thickness_mm),
        axle_fy_n_mm2=axle.fy_n_mm2(made.thickest_mm),
        steel=min(wheel.grade, axle, key=lambda steel: steel.fu_n_mm2),
    )


def held_by_shape(made: Wheelset, inwards: bool) -> bool:
    """Whether a shoulder or a spacer stops the wheel that is pushed towards the middle of the
    track, or away from it, so that nothing has to hold by friction."""
    if made.frames == "outside":
        return made.body_diameter_mm > made.seat_diameter_mm if inwards else True
    return inwards


def _screw_mm(setting: Setting, made: Wheelset) -> float:
    """The largest usual set screw that has its room: in the hub's end that stands out further,
    clear of the fillet; in a loose wheel's collar."""
    wheel = setting.wheel
    wall, room = COLLAR_WALL_MM, COLLAR_SCREW_MM
    if made.turning:
        wall, room = (wheel.hub_tube_outside_mm - made.seat_diameter_mm) / 2, 0.0
        if wheel.has_tube:
            z0, z1 = tube_z_mm(wheel)
            ends = (disc_z_mm(wheel, "field")[0] - z0, z1 - disc_z_mm(wheel, "gauge")[1])
            legs = (tube_fillet(wheel, side).legs_mm[0] for side in SIDES)
            room = max(end - leg for end, leg in zip(ends, legs, strict=True))
    most = SCREW_SHARE * made.seat_diameter_mm
    fitting = [s for s in SCREWS_MM if s <= min(most, room) and THREAD_SHARE * s <= wall]
    return max(fitting, default=0.0)


def held_words(setting: Setting, made: Wheelset) -> list[str]:
    """What is bought or made to hold the two wheels of an axle, a line each."""
    seat = wheel_seat(setting, made)
    key = seat.key
    screws = [f"{2 * SCREWS} set screws M{seat.screw_mm:g}, cup point"] if seat.screw_mm else []
    if made.retention == "key":
        size = f"{key.width_mm:g} x {key.height_mm:g} x {seat.length_mm:g}"
        depths = f"{key.axle_depth_mm:g} mm deep in the axle, {key.hub_depth_mm:g} mm in the hub"
        return [f"2 parallel keys {size} mm, keyways {depths}", *screws]
    if made.retention in ("screws", "collar"):
        return screws
    if made.retention == "weld":
        throat = setting.wheel.weld_throat_mm
        return [f"a fillet of {throat:g} mm throat round the axle at both ends of each hub"]
    least, most = (1000 * mm for mm in seat.overlap_mm)
    return [f"press fit, {least:.0f} to {most:.0f} um overlap"]
