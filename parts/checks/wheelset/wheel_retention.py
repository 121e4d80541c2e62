"""Does the wheel stay where it was set: round the axle until it slips on the rail, and along it?

The rail turns a fixed wheel against the other one with as much as friction gives; the flange's
push works it inwards, friction under the tread outwards. Where a shoulder or a spacer stands in
the way nothing has to hold by friction.
"""

from __future__ import annotations

import math

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.disc_load import (
    LOAD_FACTOR,
    overturning_n_mm,
    slip_torque_n_mm,
)
from platewheel.parts.checks.strength.weld_strength import (
    circle_length_mm,
    circle_polar_mm3,
    fillet_strength_n_mm2,
)
from platewheel.parts.loads.wheel_load import side_force_n, wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.wheel_holding import (
    SCREWS_MM,
    key_pressure_n_mm2,
    key_shear_n_mm2,
    press_holding_n,
    press_hub_stress_n_mm2,
    press_pressure_n_mm2,
    screw_holding_n,
)
from platewheel.parts.wheelset.wheel_seat import (
    SCREW_SHARE,
    SCREWS,
    WheelSeat,
    held_by_shape,
    wheel_seat,
)

SCREW_RESERVE = 4.0  # set screws under changing load 4 to 8: Shigley, 7-7, from memory
PRESS_RESERVE = 1.5  # against slip; DIN 7190, from memory
PRESS_FRICTION = 0.07  # steel on steel, oiled and pressed on along the axle; DIN 7190, from memory
ROUGHNESS_LOSS_MM = 0.010  # 0.8 (6.3 + 6.3 um), turned and reamed; DIN 7190, from memory
WALL_SHARE = 0.5  # of the hub's wall left over the keyway; common practice, no source

Share = tuple[float, str]  # demand over what holds, and what it is


def push_along_n(setting: Setting, made: Wheelset) -> float:
    """Greatest force along the axle that no shoulder or spacer stops."""
    inwards = 0.0 if held_by_shape(made, inwards=True) else side_force_n(setting)
    outwards = setting.use.friction_high * wheel_load_n(setting)
    return max(inwards, 0.0 if held_by_shape(made, inwards=False) else outwards)


def wheel_held(setting: Setting, made: Wheelset) -> CheckResult:
    """Share used of what holds the wheel, round the axle and along it."""
    id, title = "wheel-held", "Wheel held on its axle"
    seat = wheel_seat(setting, made)
    shares = {"key": _key, "screws": _screws, "press": _press, "weld": _weld, "collar": _collar}
    share, where = max(shares[made.retention](setting, made, seat))
    source = _SOURCES[made.retention]
    if math.isinf(share):
        says = f"{where} does not hold it: {_better_held(made)}"
        return CheckResult(id, title, None, None, "", "fail", says, source)
    return judged(
        id,
        title,
        share,
        1.0,
        "",
        source,
        at_most=True,
        good=f"{where} holds it, used to {100 * share:.0f} %",
        bad=f"{where} does not hold it"
        + f" ({100 * share:.0f} % used)"
        + (f": {_better_held(made)}" if share > 1 else ""),
    )


def _better_held(made: Wheelset) -> str:
    """What holds a wheel better than what does not."""
    more = {
        "key": "a longer hub, a thicker axle, or another way to hold it",
        "screws": "set screws turn in dry curves: another way to hold it, or a thicker axle",
        "press": "a longer or thicker hub, a thicker axle, or another way to hold it",
        "weld": "larger fillets, or a thicker axle",
        "collar": "a thicker axle, or, frames outside, a shoulder in place of the collar",
    }
    return more[made.retention]


_SCREW_SOURCE = (
    "set screws: Shigley, Mechanical Engineering Design, table 7-4, a quarter of what holds at "
    "rest; from memory"
)
_SOURCES = {
    "key": "key by ISO 773, round ends not counted (DIN 6892, from memory), pressure and shear by "
    f"Shigley, 7-7, yield / 1.5; {_SCREW_SOURCE}",
    "screws": _SCREW_SOURCE,
    "press": "Lame's thick ring, least overlap of the ISO 286 fit, friction 0.07 (pressed on "
    "oiled), 1.5 against slip: DIN 7190, from memory",
    "weld": "EN 1993-1-8:2005, 4.5.3.3, loads x 1.5 (EN 1990); circles as line welds",
    "collar": _SCREW_SOURCE,
}


def _key(setting: Setting, made: Wheelset, seat: WheelSeat) -> list[Share]:
    torque, key = slip_torque_n_mm(setting), seat.key
    fy = min(seat.hub_fy_n_mm2, seat.axle_fy_n_mm2)
    bearing = seat.length_mm - key.width_mm  # its ends are round
    if bearing <= 0:
        return [(math.inf, f"a hub {seat.length_mm:g} long: no straight side of its key, which")]
    pressure = key_pressure_n_mm2(torque, seat.axle_mm, key.side_mm, bearing)
    shear = key_shear_n_mm2(torque, seat.axle_mm, key.width_mm, bearing)
    name = f"a key {key.width_mm:g} x {key.height_mm:g} x {seat.length_mm:g}"
    return [
        (pressure / (fy / LOAD_FACTOR), f"the side of {name}"),
        (shear / (fy / math.sqrt(3) / LOAD_FACTOR), name),
        _screwed(seat, push_along_n(setting, made), "over the key and beside it"),
    ]


def _screws(setting: Setting, made: Wheelset, seat: WheelSeat) -> list[Share]:
    round_n = 2 * slip_torque_n_mm(setting) / seat.axle_mm
    return [_screwed(seat, math.hypot(round_n, push_along_n(setting, made)), "in the hub")]


def _collar(setting: Setting, made: Wheelset, seat: WheelSeat) -> list[Share]:
    return [_screwed(seat, push_along_n(setting, made), "in each collar")]


def _screwed(seat: WheelSeat, force_n: float, where: str) -> Share:
    if not force_n:
        return 0.0, "a shoulder or spacer on either side"
    if not seat.screw_mm:
        if SCREW_SHARE * seat.axle_mm < SCREWS_MM[0]:
            return math.inf, f"no set screw: an axle of {seat.axle_mm:g} mm is too thin, which"
        return math.inf, "no set screw: there is no room in the hub beside its weld, which"
    holds = SCREWS * screw_holding_n(seat.screw_mm) / SCREW_RESERVE
    return force_n / holds, f"{SCREWS} set screws M{seat.screw_mm:g} {where}"


def _press(setting: Setting, made: Wheelset, seat: WheelSeat) -> list[Share]:
    least = seat.overlap_mm[0] - ROUGHNESS_LOSS_MM
    pressure = press_pressure_n_mm2(least, seat.axle_mm, seat.outside_mm)
    holds = press_holding_n(pressure, seat.axle_mm, seat.length_mm, PRESS_FRICTION)
    force = math.hypot(2 * slip_torque_n_mm(setting) / seat.axle_mm, push_along_n(setting, made))
    name = f"a press fit of {1000 * seat.overlap_mm[0]:.0f} um overlap at least"
    if not force:
        return [(0.0, name)]
    return [(PRESS_RESERVE * force / holds if holds else math.inf, name)]


def _weld(setting: Setting, made: Wheelset, seat: WheelSeat) -> list[Share]:
    """A fillet round the axle at each end of the hub; the couple of the push on their distance."""
    around = circle_length_mm(seat.axle_mm)
    turning = slip_torque_n_mm(setting) * seat.axle_mm / 2 / (2 * circle_polar_mm3(seat.axle_mm))
    along = push_along_n(setting, made) / (2 * around)
    across = (overturning_n_mm(setting) / seat.length_mm + wheel_load_n(setting) / 2) / around
    force = LOAD_FACTOR * math.hypot(turning, along, across)
    throat = setting.wheel.weld_throat_mm
    name = f"a fillet of {throat:g} mm throat round the axle at each end of the hub"
    return [(force / (throat * fillet_strength_n_mm2(seat.steel)), name)]


def key_wall(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Share of the hub's wall that is left over the keyway."""
    if made.retention != "key":
        return None
    seat = wheel_seat(setting, made)
    thick = seat.axle_mm + 2 * seat.key.hub_depth_mm / (1 - WALL_SHARE)
    return judged(
        "key-wall",
        "Hub wall left over the keyway",
        1 - seat.key.hub_depth_mm / seat.wall_mm,
        WALL_SHARE,
        "",
        "depth of the keyway by ISO 773; half the wall by common practice, no source",
        at_most=False,
        good=f"a keyway {seat.key.hub_depth_mm:g} deep leaves enough of the hub",
        bad="the hub cracks over its keyway: wheel.hub_tube_outside_mm = "
        f"{math.ceil(thick)} or more",
    )


def press_hub(setting: Setting, made: Wheelset) -> CheckResult | None:
    """Stress in the hub at the tightest of the press fit's tolerances."""
    if made.retention != "press":
        return None
    seat = wheel_seat(setting, made)
    most = seat.overlap_mm[1] - ROUGHNESS_LOSS_MM
    pressure = press_pressure_n_mm2(most, seat.axle_mm, seat.outside_mm)
    return judged(
        "press-hub",
        "Stress in the hub of the tightest press fit",
        press_hub_stress_n_mm2(pressure, seat.axle_mm, seat.outside_mm),
        seat.hub_fy_n_mm2,
        "N/mm2",
        "Lame's thick ring by Tresca; yield by EN 10025-2",
        at_most=True,
        good="the hub stays elastic",
        bad="the hub yields, however thick it is: pair each axle with its hub to a middling "
        "overlap, or a hub of stronger steel",
        bad_verdict="warn",
    )


CHECKS = (wheel_held, key_wall, press_hub)
