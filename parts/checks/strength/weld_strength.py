"""Do the fillets at rim, hub tube and flange root carry the load? Closed forms, screening.

Line welds by the simplified method: the resultant force on each mm of weld against the throat's
strength. Fillets are from outside only, as the second disc closes the box. How the load is shared:
- radial load: lever rule between the discs; at the rim over the spread length, at the tube
  around the whole circle;
- lateral force at the tread: half to each disc, and its moment about the hub over both circles;
  at the tube also as a couple of the two discs, whichever gives more;
- torque of a wheel fixed to its axle: until the wheel slips, over both circles.
"""

from __future__ import annotations

import math

from platewheel.parts.base.steel import Steel
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.disc_load import (
    LOAD_FACTOR,
    SPREAD_SOURCE,
    disc_spacing_mm,
    greatest_disc_share,
    overturning_n_mm,
    rim_spread_mm,
    slip_torque_n_mm,
)
from platewheel.parts.checks.strength.weld_size import LEAST_THROAT_MM
from platewheel.parts.checks.trying import Check, tried, with_keys
from platewheel.parts.loads.wheel_load import side_force_n, wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import SIDES, disc_z_mm
from platewheel.parts.wheel.welds import LEAST_LEG_MM, disc_fillet, tube_fillet

GAMMA_M2 = 1.25  # EN 1993-1-8:2005, table 2.1
EN_FILLET = "EN 1993-1-8:2005, 4.5.3.3 (one-sided: see 4.12), loads x 1.5 (EN 1990)"


def fillet_strength_n_mm2(steel: Steel) -> float:
    """Design shear strength of a fillet: fu / (sqrt 3 beta_w 1.25). Source: EN 1993-1-8:2005,
    4.5.3.3(3)."""
    return steel.fu_n_mm2 / (math.sqrt(3) * steel.beta_w * GAMMA_M2)


def circle_length_mm(diameter_mm: float) -> float:
    """Length of a circular weld."""
    return math.pi * diameter_mm


def circle_bending_mm2(diameter_mm: float) -> float:
    """Section modulus of a circular line weld about a diameter: pi d^2 / 4.

    Source: Blodgett, Design of Welded Structures, welds as lines (from memory; integration).
    """
    return math.pi * diameter_mm**2 / 4


def circle_polar_mm3(diameter_mm: float) -> float:
    """Polar moment of a circular line weld about its centre: pi d^3 / 4.

    Source: Blodgett, Design of Welded Structures, welds as lines (from memory; integration).
    """
    return math.pi * diameter_mm**3 / 4


def fillet_throat_mm(setting: Setting, joint: str) -> float:
    """Least throat of the two fillets at "disc" or "tube", as the parts leave room; 0 = none."""
    fillet = disc_fillet if joint == "disc" else tube_fillet
    legs = [fillet(setting.wheel, side).legs_mm for side in SIDES]
    if min(map(min, legs)) <= LEAST_LEG_MM:
        return 0.0
    return min(one * other / math.hypot(one, other) for one, other in legs)


def rim_force_n_mm(setting: Setting) -> float:
    """Greatest design force on a mm of the rim fillets."""
    spec = setting.wheel
    # the field face of a tapered bore is the smaller circle
    circle = 2 * min(spec.bore_radius_mm(disc_z_mm(spec, side)[0]) for side in SIDES)
    radial = greatest_disc_share(setting) * wheel_load_n(setting) / rim_spread_mm(setting)
    return LOAD_FACTOR * math.hypot(radial, *_axial_and_tangential(setting, circle))


def tube_force_n_mm(setting: Setting) -> float:
    """Greatest design force on a mm of the hub tube fillets."""
    circle = setting.wheel.hub_tube_outside_mm
    share = greatest_disc_share(setting) * wheel_load_n(setting)
    couple = overturning_n_mm(setting) / disc_spacing_mm(setting)
    axial, tangential = _axial_and_tangential(setting, circle)
    sideways = side_force_n(setting) / (2 * circle_length_mm(circle))
    by_couple = math.hypot((share + couple) / circle_length_mm(circle), sideways, tangential)
    by_bending = math.hypot(share / circle_length_mm(circle), axial, tangential)
    return LOAD_FACTOR * max(by_couple, by_bending)


def _axial_and_tangential(setting: Setting, circle_mm: float) -> tuple[float, float]:
    """Forces on a mm of two equal circles from the lateral force with its moment, and torque."""
    axial = side_force_n(setting) / (2 * circle_length_mm(circle_mm))
    axial += overturning_n_mm(setting) / (2 * circle_bending_mm2(circle_mm))
    torque = slip_torque_n_mm(setting)
    return axial, torque * (circle_mm / 2) / (2 * circle_polar_mm3(circle_mm))


def rim_weld(setting: Setting) -> CheckResult:
    """Throat of the fillets between discs and ring against the throat needed."""
    force = rim_force_n_mm(setting)
    return _judged_throat(
        setting,
        rim_weld,
        "weld-rim",
        "Throat of the rim fillets",
        fillet_throat_mm(setting, "disc"),
        setting.wheel.weld_throat_mm,
        force / fillet_strength_n_mm2(setting.wheel.grade),
        f"{EN_FILLET}; {SPREAD_SOURCE}",
        ("disc_field_inset_mm", "disc_gauge_inset_mm"),
    )


def tube_weld(setting: Setting) -> CheckResult | None:
    """Throat of the fillets between discs and hub tube against the throat needed."""
    if not setting.wheel.has_tube:
        return None
    force = tube_force_n_mm(setting)
    return _judged_throat(
        setting,
        tube_weld,
        "weld-tube",
        "Throat of the hub tube fillets",
        fillet_throat_mm(setting, "tube"),
        setting.wheel.weld_throat_mm,
        force / fillet_strength_n_mm2(setting.wheel.grade),
        f"{EN_FILLET}; circle as a line weld",
        ("hub_tube_length_mm",),
    )


def _with_throat(setting: Setting, throat_mm: float) -> Setting | None:
    """The wheel with another throat, and insets and tube that leave room for its legs."""
    wheel, leg = setting.wheel, math.ceil(throat_mm * math.sqrt(2))
    field, gauge = max(leg, wheel.disc_field_inset_mm), max(leg, wheel.disc_gauge_inset_mm)
    box = wheel.tread_width_mm - field - gauge
    tube = max(wheel.hub_tube_length_mm, box + 2 * leg) if wheel.has_tube else 0.0
    return with_keys(
        setting,
        {
            "wheel.weld_throat_mm": throat_mm,
            "wheel.disc_field_inset_mm": field,
            "wheel.disc_gauge_inset_mm": gauge,
            "wheel.hub_tube_length_mm": tube,
        },
    )


def _room(setting: Setting, throat_mm: float, keys: tuple[str, ...]) -> str:
    """What else a throat asks for, so that its legs have room."""
    other = _with_throat(setting, throat_mm)
    if other is None:
        return ""
    changed = [key for key in keys if getattr(other.wheel, key) != getattr(setting.wheel, key)]
    return "".join(f" and wheel.{key} = {getattr(other.wheel, key):g}" for key in changed)


def _judged_throat(
    setting: Setting,
    check: Check,
    id: str,
    title: str,
    throat: float,
    wanted: float,
    needed: float,
    source: str,
    room_keys: tuple[str, ...],
) -> CheckResult:
    least = max(math.ceil(needed * 10) / 10, LEAST_THROAT_MM)
    more = tried(check, setting, _with_throat, least, 0.1)
    if more is None:
        cure = "less load, or a wider tread with the discs further apart"
    else:
        bead = f"wheel.weld_throat_mm = {more:g}{_room(setting, more, room_keys)}"
        cramped = throat < min(wanted - 1e-9, needed)  # a larger bead alone would not help
        cure = f"its legs lack room, {bead}" if cramped else f"{bead}, or less load"
    return judged(
        id,
        title,
        throat,
        needed,
        "mm",
        source,
        at_most=False,
        good=f"the fillets are used to {100 * needed / throat if throat else 0:.0f} %",
        bad=f"the fillets are too weak: {cure}",
    )


CHECKS = (rim_weld, tube_weld)
