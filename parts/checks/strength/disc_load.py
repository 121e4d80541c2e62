"""How the wheel's load reaches its two discs: shares by the lever rule, length it spreads over.

Closed forms, screening: the ring is a stiff bar across two supports, the discs; along the rim
it is a beam bedded on the disc's edge. Vent holes are left out.
"""

from __future__ import annotations

from platewheel.parts.loads.wheel_load import side_force_n, wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_z_mm

LOAD_FACTOR = 1.5  # EN 1990:2002, table A1.2(B), leading variable action
SPREAD_SOURCE = "load spread as EN 1993-6:2007, 5.7.1 (table 5.1)"


def overturning_n_mm(setting: Setting) -> float:
    """Moment of the wheel's side force, at the tread, about the hub."""
    return side_force_n(setting) * setting.wheel.tread_radius_mm


def slip_torque_n_mm(setting: Setting) -> float:
    """Torque that the rail can give a wheel fixed to its axle before it slips; loose: 0."""
    if setting.axle.wheels_on_axle == "loose":
        return 0.0
    return setting.use.friction_high * wheel_load_n(setting) * setting.wheel.tread_radius_mm


def disc_spacing_mm(setting: Setting) -> float:
    """Between the mid-planes of the two discs."""
    (f0, f1), (g0, g1) = (disc_z_mm(setting.wheel, side) for side in ("field", "gauge"))
    return (g0 + g1 - f0 - f1) / 2


def rail_positions_mm(setting: Setting) -> tuple[float, float]:
    """z of the rail head's middle: flange against the rail, and all play taken the other way where
    the gauge is widest."""
    spec, track = setting.wheel, setting.track
    against = spec.tread_width_mm - track.rail_head_width_mm / 2
    away = against - max(0.0, setting.play_mm + setting.loose_mm) - track.gauge_widening_mm
    return max(0.0, against), max(0.0, away)  # the tread ends at z = 0


def greatest_disc_share(setting: Setting) -> float:
    """Largest share of the wheel load that one disc takes; above 1 where the rail lies outside
    the pair. Source: lever rule, statics."""
    f0, f1 = disc_z_mm(setting.wheel, "field")
    spacing = disc_spacing_mm(setting)
    shares = [(z - (f0 + f1) / 2) / spacing for z in rail_positions_mm(setting)]
    return max(max(abs(share), abs(1 - share)) for share in shares)


def spread_length_mm(flange_inertia_mm4: float, web_mm: float) -> float:
    """Length of web that carries a wheel load through a flange of this inertia.

    Source: EN 1993-6:2007, table 5.1, rail rigidly fixed: l = 3.25 (I / t)^(1/3).
    """
    return float(3.25 * (flange_inertia_mm4 / web_mm) ** (1 / 3))


def rim_spread_mm(setting: Setting) -> float:
    """The same on the wheel: half the ring's width bends over each disc."""
    spec = setting.wheel
    inertia = spec.tread_width_mm / 2 * spec.tread_thickness_mm**3 / 12
    return spread_length_mm(inertia, spec.disc_thickness_mm)
