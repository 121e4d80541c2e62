"""Two wheels on their axle: every length and diameter, where the bearings sit, what spaces them.

Axes: axle = Z, z = 0 in the middle of the track, the wheelset is the same on both sides of it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.steel import THICKEST_MM
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.bearing_table import Bearing
from platewheel.parts.wheelset.diameters import Bush, Seats
from platewheel.parts.wheelset.fits import Fit, wheelset_fits
from platewheel.parts.wheelset.seats import axle_seats, hub_length_mm
from platewheel.parts.wheelset.shoulders import fillet_mm
from platewheel.parts.wheelset.spacers import COLLAR_MM, Spacer, axle_spacers, collared, hub_gap_mm

RUNNING_ROOM_MM = 15.0  # hub to bearing or frame; common practice, no source
END_MM = 5.0  # axle beyond the last thing on it; common practice, no source

Step = tuple[float, float, float]  # z from, z to, diameter


@dataclass(frozen=True, kw_only=True)
class Wheelset:
    """Two wheels on an axle, mm. `fits` are (place, size, hole, shaft), ISO 286 names.

    `bearing_z_mm` has the middle of every bearing or bush: one at each frame of a turning axle;
    in each loose wheel one bush, or two bearings at the ends of the hub. Shoulders lie at the
    hubs' ends and the bearings' faces. `hub_z_mm` are the right-hand hub's inner and outer end.
    """

    turning: bool
    frames: str
    seat_diameter_mm: float
    journal_diameter_mm: float
    body_diameter_mm: float
    axle_length_mm: float
    contact_spacing_mm: float
    hub_centres_mm: float
    bearing_centres_mm: float
    bearing: Bearing | None
    bush: Bush | None
    steel: str
    fillet_mm: float
    steps: tuple[Step, ...]
    spacers: tuple[Spacer, ...]
    fits: tuple[Fit, ...]
    play_mm: float
    retention: str
    hub_z_mm: tuple[float, float]
    bearing_z_mm: tuple[float, ...]

    @property
    def thickest_mm(self) -> float:
        """The bar that the axle is turned from sets its strength."""
        return max(diameter for _, _, diameter in self.steps)


def wheelset(setting: Setting) -> Wheelset:
    """The wheelset of this wheel, track and axle. Raises: SpecError with its faults."""
    faults = [*_flanges_apart(setting)]
    try:
        made = wheelset_on_rails(setting)
    except SpecError as error:
        raise SpecError([*faults, *error.faults]) from None
    if faults:
        raise SpecError(faults)
    return made


def _flanges_apart(setting: Setting) -> Iterator[Fault]:
    if setting.back_to_back_mm <= 0:
        yield Fault(
            "wheel.flange_depth_mm",
            setting.wheel.flange_depth_mm,
            "flanges that do not meet in the middle of this gauge",
            "a shallower or steeper flange, or a wider gauge",
        )


def wheelset_on_rails(setting: Setting) -> Wheelset:
    """The same, not looking at the flanges where the play is the usual one: for choosing among
    many wheels. Raises: SpecError."""
    axle = setting.axle
    seats = axle_seats(setting)
    hub = hub_ends_mm(setting)
    faults = [*_room(setting, seats, hub)]
    if faults:
        raise SpecError(faults)
    centres = _bearing_centres_mm(axle, seats, hub)
    end = _axle_end_mm(axle, seats, hub, centres)
    half = support_width_mm(axle, seats) / 2
    face = centres / 2 + (-half if axle.frames == "outside" else half)
    return Wheelset(
        turning=axle.turning,
        frames=axle.frames,
        seat_diameter_mm=seats.seat_mm,
        journal_diameter_mm=seats.journal_mm,
        body_diameter_mm=seats.body_mm,
        axle_length_mm=2 * end,
        contact_spacing_mm=setting.contact_spacing_mm,
        hub_centres_mm=hub[0] + hub[1],
        bearing_centres_mm=centres,
        bearing=seats.bearing,
        bush=seats.bush,
        steel=axle.steel,
        fillet_mm=fillet_mm(axle, seats),
        steps=_steps(axle, seats, hub, centres, end),
        spacers=axle_spacers(axle, seats, hub, face),
        fits=wheelset_fits(axle, seats),
        play_mm=setting.play_mm,
        retention=axle.held_by,
        hub_z_mm=hub,
        bearing_z_mm=_bearing_z_mm(axle, seats, hub, centres),
    )


def wheelset_faults(setting: Setting) -> list[Fault]:
    """What keeps this wheelset from being made; empty when nothing does."""
    try:
        wheelset(setting)
    except SpecError as error:
        return list(error.faults)
    return []


def wheel_offset_mm(setting: Setting) -> float:
    """z of the right-hand wheel's field edge; its own z then runs towards the middle."""
    return setting.wheel_gauge_mm / 2 + setting.wheel.tread_width_mm


def hub_ends_mm(setting: Setting) -> tuple[float, float]:
    """Inner and outer end of the right-hand hub, z."""
    wheel = setting.wheel
    middle = (wheel.disc_field_inset_mm + wheel.tread_width_mm - wheel.disc_gauge_inset_mm) / 2
    centre, half = wheel_offset_mm(setting) - middle, hub_length_mm(setting) / 2
    return centre - half, centre + half


def support_width_mm(axle: AxleSpec, seats: Seats) -> float:
    """Axial room of a frame bearing; of a dead axle's grip its own diameter (common practice)."""
    if axle.turning and seats.bearing is not None:
        return seats.bearing.width_mm
    if axle.turning and seats.bush is not None:
        return seats.bush.length_mm
    return seats.journal_mm


def _bearing_centres_mm(axle: AxleSpec, seats: Seats, hub: tuple[float, float]) -> float:
    if axle.bearing_centres_mm is not None:
        return axle.bearing_centres_mm
    away = RUNNING_ROOM_MM + support_width_mm(axle, seats) / 2
    if axle.frames == "outside":  # to whole millimetres, for who has to measure it
        return float(math.ceil(2 * (hub[1] + away)))
    return float(math.floor(2 * (hub[0] - away)))


def _room(setting: Setting, seats: Seats, hub: tuple[float, float]) -> list[Fault]:
    """Room between flange and rail, between the hubs, and for the frame."""
    axle, width = setting.axle, support_width_mm(setting.axle, seats)
    between = 2 * (COLLAR_MM + hub_gap_mm(axle, seats))
    faults = []
    if setting.play_mm < 0:
        most = setting.back_to_back_mm + setting.play_mm
        faults.append(
            Fault(
                "axle.back_to_back_mm",
                setting.back_to_back_mm,
                f"at most {most:g} mm, where both flanges touch the rails",
                f"{most - 8:g}, for 8 mm play",
            )
        )
    if hub[0] <= between / 2:
        faults.append(
            Fault(
                "wheel.hub_tube_length_mm",
                setting.wheel.hub_tube_length_mm,
                f"hubs that leave {between:g} mm between them on this gauge",
                "shorter hubs, a shallower flange, or a wider gauge",
            )
        )
    wall = (setting.wheel.hub_tube_outside_mm - setting.wheel.hub_bore_mm) / 2
    if wall > THICKEST_MM:
        faults.append(
            Fault(
                "wheel.hub_tube_outside_mm",
                setting.wheel.hub_tube_outside_mm,
                f"a wall up to {THICKEST_MM:g} mm, as far as strengths of steel are listed",
                "a thinner tube",
            )
        )
    pair = 0.0 if axle.turning or seats.bearing is None else 2 * seats.bearing.width_mm
    if seats.bearing is not None and pair > hub[1] - hub[0] + 1e-6:
        faults.append(
            Fault(
                "wheel.hub_tube_length_mm",
                setting.wheel.hub_tube_length_mm,
                f"at least two bearings {seats.bearing.name}, {pair:g} mm: one alone lets the "
                "wheel tilt",
                "a longer tube",
            )
        )
    return faults + _frame_room(axle, seats, hub, width)


def _frame_room(
    axle: AxleSpec, seats: Seats, hub: tuple[float, float], width_mm: float
) -> list[Fault]:
    centres, gap = _bearing_centres_mm(axle, seats, hub), hub_gap_mm(axle, seats)
    if axle.frames == "outside":
        least = 2 * (hub[1] + gap) + width_mm
        if centres >= least - 1e-6:
            return []
        allowed = f"at least {least:g} mm, where they touch the hubs"
        return [Fault("axle.bearing_centres_mm", centres, allowed, "leave it out")]
    least, most = width_mm + 2 * END_MM, 2 * (hub[0] - gap) - width_mm
    if axle.bearing_centres_mm is None and not least <= centres:
        room = f"{2 * hub[0]:g} mm between the hubs"
        allowed = f'"outside": two bearings of {width_mm:g} mm and running room need more than '
        return [Fault("axle.frames", axle.frames, allowed + room, 'frames = "outside"')]
    if not least - 1e-6 <= centres <= most + 1e-6:
        allowed = f"{least:g} to {most:g} mm, between the hubs"
        return [Fault("axle.bearing_centres_mm", centres, allowed, "leave it out")]
    return []


def _axle_end_mm(axle: AxleSpec, seats: Seats, hub: tuple[float, float], centres: float) -> float:
    """Half the axle, so that the whole is a whole number of millimetres."""
    last = hub[1]
    if axle.frames == "outside":
        last = centres / 2 + support_width_mm(axle, seats) / 2
    elif not axle.turning:
        last += hub_gap_mm(axle, seats) + COLLAR_MM
    return math.ceil(2 * (last + END_MM) - 1e-9) / 2


def _steps(
    axle: AxleSpec, seats: Seats, hub: tuple[float, float], centres: float, end: float
) -> tuple[Step, ...]:
    """Lengths of one diameter from end to end; neighbours of one diameter are one step."""
    if axle.frames == "outside":
        inner = hub[0]
        if collared(axle, seats):  # the collar sits on the seat, which it came over
            inner -= hub_gap_mm(axle, seats) + COLLAR_MM
        half = [(0.0, inner, seats.body_mm), (inner, hub[1], seats.seat_mm)]
        half.append((hub[1], end, seats.journal_mm))
    else:
        inner = centres / 2 - support_width_mm(axle, seats) / 2
        half = [(0.0, inner, seats.body_mm), (inner, hub[0], seats.journal_mm)]
        half.append((hub[0], end, seats.seat_mm))
    steps: list[Step] = []
    for z0, z1, diameter in [(-b, -a, d) for a, b, d in reversed(half)] + half:
        if steps and steps[-1][2] == diameter:
            steps[-1] = (steps[-1][0], z1, diameter)
        else:
            steps.append((z0, z1, diameter))
    return tuple(steps)


def _bearing_z_mm(
    axle: AxleSpec, seats: Seats, hub: tuple[float, float], centres: float
) -> tuple[float, ...]:
    if axle.turning:
        right = [centres / 2]
    elif seats.bearing is not None:
        half = seats.bearing.width_mm / 2
        right = [hub[0] + half, hub[1] - half]
    else:
        right = [(hub[0] + hub[1]) / 2]
    return tuple(sorted([-z for z in right] + right))
