"""The axle as it turns or rocks: fatigue at its notches, and how far it bends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from parts import axle_fatigue, axle_strength
from parts.axle_fatigue import KEY_KT
from parts.checks.result import CheckResult, judged
from parts.checks.setting import Setting
from parts.checks.wheelset_checks import beam_of, moment_within_n_mm
from parts.steel import STEELS
from parts.wheelset import Wheelset

C45_RM_N_MM2 = 580.0  # EN 10083-2 normalised, 16 to 100 mm, from memory
# least safety for endless life: load unevenness, half the shock, a push in every turn and the
# reliability of the endurance limit are in it already; our choice, no source
SAFETY = 1.0
SLOPE_RAD = 0.0087  # half a degree at the bearing of a plain housing; common practice, no source
SPREAD_SHARE = 0.25  # of the play; common practice, no source
# what holds the wheel -> theoretical factor of a keyway, a set screw's dimple taken as one, or the
# whole factor of press fit and fillet weld: Shigley and Peterson, from memory
HELD_KT = {"key": KEY_KT, "screws": KEY_KT, "collar": KEY_KT}
CORNER_SHARE = 0.02  # of the diameter: corner of the keyway that KEY_KT is for
HELD_KF = {"press": 2.0, "weld": 2.5}


def _rm_n_mm2(made: Wheelset) -> float:
    return C45_RM_N_MM2 if made.steel == "C45" else STEELS[made.steel].fu_n_mm2


def axle_fatigue_safety(setting: Setting, made: Wheelset) -> CheckResult:
    """Safety against a fatigue crack where the wheel is held, at every shoulder and on the plain
    axle between, each under its own greatest moment; half the shock in every turn, as in the
    wheel's own rating."""
    id, title = "axle-fatigue", "Safety of the axle against fatigue"
    shock = setting.wagon.shock_factor
    share = (1 + shock) / 2 / shock
    rm = _rm_n_mm2(made)
    worst, where = min(
        (
            axle_fatigue.fatigue_safety(
                share
                * axle_strength.bending_stress_n_mm2(
                    moment_within_n_mm(setting, made, *notch.within_mm), notch.diameter_mm
                ),
                notch.factor,
                rm,
                axle_fatigue.endurance_n_mm2(rm, notch.diameter_mm, turning=made.turning),
                made.turning,
            ),
            notch.where,
        )
        for notch in _notches(made, rm)
    )
    return judged(
        id,
        title,
        worst,
        SAFETY,
        "",
        "Shigley, Mechanical Engineering Design: endurance limit, Marin factors, Goodman, from "
        "memory; safety of 1 with all that in it is our choice, no source",
        at_most=False,
        good=f"no crack is to come {where}",
        bad=f"a crack is to come {where}: a thicker axle there, bearings nearer to the wheels, or "
        "a better way to hold them; weld no axle of this kind",
    )


@dataclass(frozen=True)
class _Notch:
    """A place where the axle may crack: its thinner diameter and fatigue notch factor."""

    where: str
    within_mm: tuple[float, float]
    diameter_mm: float
    factor: float


def _notches(made: Wheelset, rm_n_mm2: float) -> Iterator[_Notch]:
    seat = made.seat_diameter_mm
    if made.retention in HELD_KF:
        held = HELD_KF[made.retention]
    else:
        kt, corner = HELD_KT[made.retention], CORNER_SHARE * seat
        held = axle_fatigue.notch_factor(kt, corner, rm_n_mm2)
    for z0, z1, d in made.steps:
        if d == seat:
            yield _Notch(f"where the wheel is held by {made.retention}", (z0, z1), d, held)
        else:
            yield _Notch(f"where the axle has {d:g} mm", (z0, z1), d, 1.0)
    for (_, z, d), (_, _, other) in pairwise(made.steps):
        small, big = sorted((d, other))
        kt = axle_fatigue.shoulder_kt(big, small, made.fillet_mm)
        factor = axle_fatigue.notch_factor(kt, made.fillet_mm, rm_n_mm2)
        yield _Notch(f"at the shoulder from {big:g} to {small:g} mm", (z, z), small, factor)


def axle_slope(setting: Setting, made: Wheelset) -> CheckResult:
    """How far the axle leans in its bearings."""
    id, title = "axle-slope", "Lean of the axle in its bearings"
    half = made.bearing_centres_mm / 2
    lean = max(
        abs(axle_strength.deflection_and_slope(beam_of(setting, made, way), x, made.steps)[1])
        for way in (1, -1)
        for x in (-half, half)
    )
    return judged(
        id,
        title,
        1000 * lean,
        1000 * SLOPE_RAD,
        "mrad",
        "beam integration, E 210 000 N/mm2; half a degree by common practice, no source",
        at_most=True,
        good="the bearings stay in line",
        bad="bearings and bushes wear at their edges: a thicker axle, or self-aligning housings",
        bad_verdict="warn",
    )


def axle_spread(setting: Setting, made: Wheelset) -> CheckResult:
    """How far the bent axle moves the wheels' treads apart or together at the rail, both wheels
    loaded and no push."""
    beam = axle_strength.axle_beam(
        made.contact_spacing_mm,
        made.hub_centres_mm,
        made.bearing_centres_mm,
        setting.wheel_load_n,
        0.0,
        setting.wheel.tread_radius_mm,
    )
    lean = axle_strength.deflection_and_slope(beam, made.hub_centres_mm / 2, made.steps)[1]
    return judged(
        "axle-spread",
        "Wheels moved by the bent axle, at the rail",
        2 * abs(lean) * setting.wheel.tread_radius_mm,
        SPREAD_SHARE * made.play_mm,
        "mm",
        "beam integration, E 210 000 N/mm2; a quarter of the play by common practice, no source",
        at_most=True,
        good="the flanges keep their play under load",
        bad="under load the flanges lose their play: a thicker axle, or bearings nearer to the "
        "wheels",
        bad_verdict="warn",
    )


CHECKS = (axle_fatigue_safety, axle_slope, axle_spread)
