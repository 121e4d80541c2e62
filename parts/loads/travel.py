"""How far an axle travels across the track, and the sideways force of speed in a curve."""

from __future__ import annotations

import math

from platewheel.parts.setting.setting import GRAVITY, Setting


def corner_ride_mm(corner_radius_mm: float, flange_angle: float) -> float:
    """How far the flange's root gets past the gauge line before its face (angle in radians)
    bears on the head's rounded corner: rc (1 - tan(delta / 2)), 0 for a vertical face.

    Source: plain geometry, a line at delta tangent to a circle of radius rc.
    """
    return corner_radius_mm * (1 - math.tan(flange_angle / 2))


def travel_mm(setting: Setting, widening_mm: float | None = None) -> float:
    """Most lateral travel of a new axle: play, gauge widening (that of the tightest curve unless
    told), and the ride of either flange on its rail's corner."""
    ride = corner_ride_mm(setting.track.rail_corner_radius_mm, setting.wheel.flange_angle)
    widening = setting.track.gauge_widening_mm if widening_mm is None else widening_mm
    return setting.play_mm + widening + 2 * ride


def outward_share(setting: Setting, radius_m: float | None = None) -> float:
    """Sideways force on the track over weight, outwards, at full speed in the tightest curve or
    one of another radius: v2 / (g R) less cant / spacing, as only the tightest has cant; 0 where
    the cant is more than enough. Source: statics."""
    track = setting.track
    radius = track.min_curve_radius_m if radius_m is None else radius_m
    cant = track.cant_mm if radius == track.min_curve_radius_m else 0.0
    speed = setting.wagon.max_speed_km_h / 3.6
    share = speed**2 / (GRAVITY * radius)
    return max(share - cant / setting.contact_spacing_mm, 0.0)
