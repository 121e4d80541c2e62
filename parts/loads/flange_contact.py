"""Where a yawed, conical flange touches the rail's corner: how low, how far ahead, at what angle.

The envelope of the cone of a wheel yawed by psi is a straight face in the plane across the rail,
steeper than the flange: with k = tan psi tan delta and c = (1 - k2)^1/2, tan delta' = tan delta /
c. It bears on a corner of radius rc at z = rc (1 - cos delta') below the rail's top; there the
circle of radius r + y = (r + z) / c touches, k (r + z) / c ahead of the axle. From k = 1 on, and
where y would be more than the flange's depth, its tip touches. Source: plain geometry; for small
yaw e = r tan delta tan psi, the textbooks' contact advance.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.loads.wheel_load import frame_in_curve
from platewheel.parts.setting.setting import Setting

FLAT_MM = 0.1  # no welded flange is truer: what leads by less lies flat on the rail
LOW_SHARE = 0.6  # of the flange's depth, below which it touches low; common practice, no source
WORN_MORE, WORN_LEAST_MM = 1.5, 3.0  # a worn rail's corner, over a new one's; common practice


@dataclass(frozen=True)
class FlangeContact:
    """A flange's point of contact. `below_mm` is under the rail's top, `ahead_mm` before the axle,
    `down_mm` from the tread along the radius on the flange's face, `angle` that of the plane of
    contact to the track's, radians; `tip` where nothing but the flange's tip touches."""

    below_mm: float
    ahead_mm: float
    down_mm: float
    angle: float
    tip: bool

    def sliding(self, tread_radius_mm: float, yaw: float) -> float:
        """Sliding over the way rolled: of yaw and advance across, of the lower radius along.

        Source: kinematics of a rolling wheel; psi / cos delta for small yaw and a sharp corner.
        """
        across = math.hypot(math.tan(yaw), self.ahead_mm / tread_radius_mm)
        return math.hypot(across, self.below_mm / tread_radius_mm)


def _turned(yaw: float) -> float:
    """tan of a yaw between straight ahead and square to the rail."""
    return 0.0 if yaw <= 0 else math.inf if yaw >= math.pi / 2 else math.tan(yaw)


def contact_angle(flange_angle: float, yaw: float) -> float:
    """Angle of the plane of contact of a flange yawed so, radians; upright on its tip."""
    if math.pi / 2 - flange_angle < 1e-9:
        return flange_angle
    k = _turned(yaw) * math.tan(flange_angle)
    return math.atan2(math.tan(flange_angle), math.sqrt(max(1 - k * k, 0.0)))


def flange_contact(
    tread_radius_mm: float,
    flange_depth_mm: float,
    flange_angle: float,
    yaw: float,
    corner_radius_mm: float,
) -> FlangeContact:
    """Contact of one flange, angles in radians, see above. An upright face (90 degrees) touches
    with its tip at any yaw by which that leads its root by more than FLAT_MM."""
    r, upright = tread_radius_mm, math.pi / 2 - flange_angle < 1e-9
    reach = math.sqrt(flange_depth_mm * (2 * r + flange_depth_mm))
    flare = 0.0 if upright else flange_depth_mm / math.tan(flange_angle)
    square = corner_radius_mm * (1 - math.cos(flange_angle))  # of the flange without yaw
    turned = _turned(yaw)
    k = math.inf if upright and turned else turned * math.tan(flange_angle)
    if k < 1:
        narrow = math.sqrt(1 - k * k)
        angle = contact_angle(flange_angle, yaw)
        below = corner_radius_mm * (1 - math.cos(angle))
        down = (r + below) / narrow - r
        if down <= flange_depth_mm:
            return FlangeContact(below, k * (r + below) / narrow, down, angle, tip=False)
    if square <= flange_depth_mm and reach * turned - flare < FLAT_MM:
        return FlangeContact(square, 0.0, square, flange_angle, tip=False)
    return FlangeContact(0.0, reach, flange_depth_mm, flange_angle, tip=True)


def corners_mm(setting: Setting) -> tuple[float, float, float]:
    """Radii of the rail's corner: sharp, as the job has it, and worn."""
    track = setting.track
    worn = max(WORN_MORE * track.rail_corner_radius_mm, WORN_LEAST_MM)
    return 0.0, track.rail_corner_radius_mm, min(worn, track.rail_head_width_mm / 2)


def lowest_contact(
    setting: Setting, flange_angle: float | None = None, yaw: float | None = None
) -> FlangeContact:
    """The lowest of the contacts on these corners in the tightest curve, yawed as it is, of the
    wheel's own flange or one of another angle (radians); `yaw` where it is known."""
    wheel = setting.wheel
    angle = wheel.flange_angle if flange_angle is None else flange_angle
    turned = attack(setting) if yaw is None else yaw
    size = (wheel.tread_radius_mm, wheel.flange_depth_mm, angle, turned)
    found = [flange_contact(*size, corner) for corner in corners_mm(setting)]
    return max(found, key=lambda one: one.down_mm)


def attack(setting: Setting) -> float:
    """Yaw of the leading axle as it curves steadily in the tightest curve, radians."""
    return frame_in_curve(setting, setting.track.min_curve_radius_m).attack


def contact_in_curve(setting: Setting, corner_mm: float | None = None) -> FlangeContact:
    """Contact of the leading outer flange in the tightest curve, on the job's own corner or one of
    `corner_mm`."""
    wheel = setting.wheel
    corner = setting.track.rail_corner_radius_mm if corner_mm is None else corner_mm
    return flange_contact(
        wheel.tread_radius_mm, wheel.flange_depth_mm, wheel.flange_angle, attack(setting), corner
    )
