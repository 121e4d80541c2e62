"""The wheelset under load: the axle as a beam, its torque, and its bending at rest."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.parts.base.steel import AXLE_STEELS
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.disc_load import slip_torque_n_mm
from platewheel.parts.loads.wheel_load import side_force_n, wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset import axle_strength
from platewheel.parts.wheelset.assembly import Wheelset

BENDING_RESERVE = 1.5  # yield over stress; common practice, no source


def beam_of(
    setting: Setting,
    made: Wheelset,
    way: int,
    load_n: float | None = None,
    side_n: float | None = None,
) -> axle_strength.AxleBeam:
    """The axle under both wheels' load and one wheel's side force, inwards or outwards: those of
    the design, or others."""
    load = wheel_load_n(setting) if load_n is None else load_n
    side = side_force_n(setting) if side_n is None else side_n
    return axle_strength.axle_beam(
        made.contact_spacing_mm,
        made.hub_centres_mm,
        made.bearing_centres_mm,
        load,
        way * side,
        setting.wheel.tread_radius_mm,
    )


def moments_of_one_n(
    setting: Setting, made: Wheelset, start_mm: float, end_mm: float
) -> tuple[tuple[float, float], ...]:
    """Moments between two places of the axle, N mm, among which the extremes are: for one newton
    of both wheels' load, and for one of side force. The axle is a beam, so they add."""
    load, side = (
        axle_strength.turning_moments_n_mm(beam_of(setting, made, 1, *one), start_mm, end_mm)
        for one in ((1.0, 0.0), (0.0, 1.0))
    )
    return tuple(zip(load, side, strict=True))


def moment_within_n_mm(
    moments: Sequence[tuple[float, float]], load_n: float, side_n: float
) -> tuple[float, float]:
    """Least and greatest moment, of those of one newton, under load and a side force either way."""
    push = abs(side_n)
    least = min(load * load_n - abs(side) * push for load, side in moments)
    return least, max(load * load_n + abs(side) * push for load, side in moments)


def design_moments_n_mm(
    setting: Setting, made: Wheelset, start_mm: float, end_mm: float
) -> tuple[float, float]:
    """Least and greatest moment between two places of the axle under the design loads."""
    moments = moments_of_one_n(setting, made, start_mm, end_mm)
    return moment_within_n_mm(moments, wheel_load_n(setting), side_force_n(setting))


def torque_within_n_mm(setting: Setting, made: Wheelset, start_mm: float, end_mm: float) -> float:
    """Torque between two places of the axle: what one wheel turns the other with before it slips,
    from hub to hub; the light wheel of an axle slips sooner (safe)."""
    end = made.hub_z_mm[1]
    return slip_torque_n_mm(setting) if start_mm < end and end_mm > -end else 0.0


def axle_bending(setting: Setting, made: Wheelset) -> CheckResult:
    """Greatest moment on each step of the axle, push on the flange either way, and torque."""
    stress, d = max(
        (axle_strength.bending_stress_n_mm2(moment, d), d)
        for z0, z1, d in made.steps
        for moment in [
            axle_strength.equivalent_moment_n_mm(
                max(abs(m) for m in design_moments_n_mm(setting, made, z0, z1)),
                torque_within_n_mm(setting, made, z0, z1),
            )
        ]
    )
    fy = AXLE_STEELS[made.steel].fy_n_mm2(made.thickest_mm)
    limit = fy / BENDING_RESERVE
    return judged(
        "axle-bending",
        "Bending of the axle, at rest",
        stress,
        limit,
        "N/mm2",
        "32 (M2 + 3 T2 / 4)^1/2 / (pi d3), von Mises; Gere, Mechanics of Materials, and Shigley, "
        "7-4; yield by EN 10025-2 (C45: EN 10083-2, from memory); reserve of 1.5 by common "
        "practice, no source",
        at_most=True,
        good="the axle stays straight at rest; its fatigue is another check",
        bad=f"the axle bends where it has {d:g} mm: thicker there, or bearings nearer",
    )


CHECKS = (axle_bending,)
