"""An axle as a beam on two bearings: bending, deflection and slope in closed form."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from platewheel.parts.base.steel import DENSITY_KG_MM3, E_N_MM2

Steps = Sequence[tuple[float, float, float]]  # x from, x to, diameter; mm, one after the other


@dataclass(frozen=True)
class AxleBeam:
    """Loads in balance on a straight beam, x from the middle of the track.

    `forces`: (x mm, N upwards). `couples`: (x mm, N mm clockwise). `bearings`: x mm of the two.
    """

    forces: tuple[tuple[float, float], ...]
    couples: tuple[tuple[float, float], ...]
    bearings: tuple[float, float]


def axle_beam(
    contact_spacing_mm: float,
    hub_centres_mm: float,
    bearing_centres_mm: float,
    wheel_load_n: float,
    lateral_n: float,
    tread_radius_mm: float,
) -> AxleBeam:
    """Two wheels with the same load, and a push on the left flange, towards the middle if positive.

    The push at rail level turns the wheel with H r, the load with Q x (rail to hub centre). The
    bearings' forces follow from balance. It holds for frames inside and outside, and for loose
    wheels whose hub passes the couple on to a dead axle. Source: plain statics.
    Raises: ValueError for a length not above 0.
    """
    lengths = (
        ("contact_spacing_mm", contact_spacing_mm),
        ("hub_centres_mm", hub_centres_mm),
        ("bearing_centres_mm", bearing_centres_mm),
        ("tread_radius_mm", tread_radius_mm),
    )
    for key, value in lengths:
        if not value > 0:
            raise ValueError(f"{key}: found {value:g}; allowed: above 0 mm")
    hub, half = hub_centres_mm / 2, bearing_centres_mm / 2
    off = wheel_load_n * (hub - contact_spacing_mm / 2)
    push = lateral_n * tread_radius_mm
    shift = push / bearing_centres_mm
    return AxleBeam(
        forces=(
            (-hub, wheel_load_n),
            (hub, wheel_load_n),
            (-half, -wheel_load_n + shift),
            (half, -wheel_load_n - shift),
        ),
        couples=((-hub, -off - push), (hub, off)),
        bearings=(-half, half),
    )


def moment_n_mm(beam: AxleBeam, x_mm: float) -> float:
    """Bending moment just right of x, N mm, positive where the axle sags. Plain statics."""
    moment = sum(force * (x_mm - at) for at, force in beam.forces if at <= x_mm)
    return moment + sum(couple for at, couple in beam.couples if at <= x_mm)


def turning_moments_n_mm(
    beam: AxleBeam, start_mm: float = -math.inf, end_mm: float = math.inf
) -> tuple[float, ...]:
    """Moments among which are the least and the greatest from start to end, signed: there and on
    either side of each load, straight lines between. Their places hang on the lengths alone."""
    loads = [at for at, _ in (*beam.forces, *beam.couples)]
    inside = [at for at in (*loads, start_mm, end_mm) if start_mm <= at <= end_mm]
    places = [at for at in inside if math.isfinite(at)]
    sides = [moment_n_mm(beam, x) for x in places]
    before = [moment_n_mm(beam, x - 1e-9) for x in places]
    return (*sides, *before)


def moment_range_n_mm(
    beam: AxleBeam, start_mm: float = -math.inf, end_mm: float = math.inf
) -> tuple[float, float]:
    """Least and greatest moment from start to end, signed."""
    moments = turning_moments_n_mm(beam, start_mm, end_mm)
    return min(moments), max(moments)


def greatest_moment_n_mm(
    beam: AxleBeam, start_mm: float = -math.inf, end_mm: float = math.inf
) -> float:
    """Largest size of the moment from start to end."""
    return max(abs(moment) for moment in moment_range_n_mm(beam, start_mm, end_mm))


def bending_stress_n_mm2(moment: float, diameter_mm: float) -> float:
    """32 M / (pi d^3), N/mm2. Source: beam theory, Gere, Mechanics of Materials, 5.5.

    Raises: ValueError for a diameter not above 0.
    """
    if not diameter_mm > 0:
        raise ValueError(f"diameter_mm: found {diameter_mm:g}; allowed: above 0 mm")
    return 32 * abs(moment) / (math.pi * diameter_mm**3)


def torsion_stress_n_mm2(torque_n_mm: float, diameter_mm: float) -> float:
    """16 T / (pi d^3), N/mm2. Source: Gere, Mechanics of Materials, 3.3.

    Raises: ValueError for a diameter not above 0.
    """
    return bending_stress_n_mm2(torque_n_mm, diameter_mm) / 2


def equivalent_moment_n_mm(moment: float, torque_n_mm: float) -> float:
    """Moment whose bending stress is von Mises' stress of both: (M^2 + 3 / 4 T^2)^1/2. Source:
    Shigley, Mechanical Engineering Design, 7-4, from memory."""
    return math.hypot(moment, math.sqrt(3) / 2 * torque_n_mm)


def diameter_for_mm(moment: float, stress_n_mm2: float) -> float:
    """Diameter at which a moment gives this stress: the inverse of `bending_stress_n_mm2`."""
    if not stress_n_mm2 > 0:
        raise ValueError(f"stress_n_mm2: found {stress_n_mm2:g}; allowed: above 0 N/mm2")
    return float((32 * abs(moment) / (math.pi * stress_n_mm2)) ** (1 / 3))


def axle_mass_kg(steps: Steps) -> float:
    """Mass of an axle of such steps, (z from, z to, diameter) in mm. Plain geometry."""
    return sum(math.pi * d**2 / 4 * (b - a) * DENSITY_KG_MM3 for a, b, d in steps)


def _free(beam: AxleBeam, x: float, steps: Steps) -> tuple[float, float]:
    """y and y' without the two constants: the curvature M / (E I) summed piece by piece, between
    loads and steps, from the steps' start to x."""
    ends = {at for step in steps for at in step[:2]}
    ends |= {at for at, _ in (*beam.forces, *beam.couples)}
    cuts = [at for at in sorted(ends) if steps[0][0] <= at < x] + [x]
    lift = slope = 0.0
    for start, end in pairwise(cuts):
        long = end - start
        diameter = next(d for a, b, d in steps if a <= start < b)
        stiff = E_N_MM2 * math.pi * diameter**4 / 64
        shear = sum(force for at, force in beam.forces if at <= start)
        left = moment_n_mm(beam, start)
        lift += slope * long + long**2 * (left / 2 + shear * long / 6) / stiff
        slope += long * (left + shear * long / 2) / stiff
    return lift, slope


def deflection_and_slope(beam: AxleBeam, x_mm: float, steps: Steps) -> tuple[float, float]:
    """Deflection in mm (up) and slope in radians at x, of a stepped round axle held at its
    bearings.

    Raises: ValueError for a diameter not above 0, or a place beyond the steps. Source: E I y'' = M,
    integrated exactly.
    """
    (left, right), (start, end) = beam.bearings, (steps[0][0], steps[-1][1])
    for key, value, good, allowed in (
        *(("diameter_mm", d, d > 0, "above 0 mm") for _, _, d in steps),
        *(
            ("x_mm", x, start <= x <= end, f"{start:g} to {end:g} mm, the steps")
            for x in (x_mm, left, right)
        ),
    ):
        if not good:
            raise ValueError(f"{key}: found {value:g}; allowed: {allowed}")
    lift, slope = _free(beam, x_mm, steps)
    at_left, at_right = _free(beam, left, steps)[0], _free(beam, right, steps)[0]
    turn = (at_left - at_right) / (right - left)
    return lift - at_left + turn * (x_mm - left), slope + turn
