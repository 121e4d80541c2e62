"""What a rail joint adds to a wheel load: step and gap, speed, mass and stiffness.

The model is the usual one of impact at dipped joints, the second peak P2 of Jenkins, Stephenson,
Clayton, Morland and Lyndon, The effect of track and vehicle parameters on wheel/rail vertical
dynamic forces (Railway Engineering Journal, January 1974; formula from memory):
P2 = Q + 2a v [m / (m + mt)]^1/2 [1 - pi ct / (4 (kt (m + mt))^1/2)] (kt m)^1/2.
Its kink 2a is here the angle through which the wheel's path turns at a step or a gap. A rail that
stands higher by h cannot press harder than by kt h, and a wheel that drops by h swings past its
load by no more than that (plain dynamics of a mass on a spring), so kt h is the cap, h the step and
the drop into the gap.
The first peak P1, of the rail's own mass against the contact, lasts a fraction of a millisecond
and loads the skin of the tread alone; it is left out of what bends the wheel.
"""

from __future__ import annotations

import math

from platewheel.parts.loads.over_joint import gap_drop_mm, kink
from platewheel.parts.setting.setting import GRAVITY, Setting

JOINT_SHARE = 0.5  # of the stiffness under a rail: a free end has a quarter (Timoshenko, Strength
# of Materials II, beam on an elastic bed), a fishplate carries some on to the next; from memory
TRACK_MASS_KG = 20.0  # of rail and sleepers that move with the wheel; light track, from memory
TRACK_DAMPING_N_S_PER_M = 5000.0  # of its bed; light track, from memory
SPRUNG_SHARE = 1 / 3  # of the empty wagon below its springs; common practice, no source


def joint_stiffness_n_per_mm(setting: Setting) -> float:
    """Of the track at a joint and the contact, one behind the other."""
    track = setting.track
    joint = JOINT_SHARE * track.stiffness_n_per_mm
    return 1 / (1 / joint + 1 / track.contact_stiffness_n_per_mm)


def impact_n(
    speed_m_s: float,
    kink_rad: float,
    mass_kg: float,
    stiffness_n_per_mm: float,
    track_mass_kg: float = TRACK_MASS_KG,
    damping_n_s_per_m: float = TRACK_DAMPING_N_S_PER_M,
) -> float:
    """The dynamic part of P2, N, without its cap; see the module."""
    k = 1000 * stiffness_n_per_mm  # N/m
    both = mass_kg + track_mass_kg
    damped = 1 - math.pi * damping_n_s_per_m / (4 * math.sqrt(k * both))
    moved = math.sqrt(mass_kg / both) * max(damped, 0.0)
    return kink_rad * speed_m_s * moved * math.sqrt(k * mass_kg)


def unsprung_kg(setting: Setting, mean_n: float) -> float:
    """Mass that one wheel lifts, no more than the mean wheel load weighs."""
    wagon = setting.wagon
    if wagon.unsprung_kg is not None:
        return min(wagon.unsprung_kg, mean_n / GRAVITY)
    if wagon.suspension == "sprung":
        return SPRUNG_SHARE * wagon.tare_kg / (2 * wagon.axles)
    return mean_n / GRAVITY


def joint_load_n(setting: Setting, mean_n: float) -> float:
    """What a joint adds to a wheel at full speed, N; `mean_n` is the wagon's mean wheel load."""
    track, radius = setting.track, setting.wheel.tread_radius_mm
    stiffness = joint_stiffness_n_per_mm(setting)
    angle = kink(radius, track.joint_step_mm, track.joint_gap_mm)
    speed = setting.wagon.max_speed_km_h / 3.6
    struck = impact_n(speed, angle, unsprung_kg(setting, mean_n), stiffness)
    drop = track.joint_step_mm + gap_drop_mm(radius, track.joint_gap_mm)
    return min(struck, stiffness * drop)


def rolling_factor(speed_km_h: float, diameter_mm: float) -> float:
    """Load between joints over load at rest, for the roughness of rails: 1 + 5.21 V / D.

    Source: Talbot's speed factor, AREMA manual, 1 + 33 V / (100 D) in mph and inches; from memory.
    """
    return 1 + 5.21 * speed_km_h / diameter_mm
