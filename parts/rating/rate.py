"""The load rating: the least load that any limit allows, new and worn, and the life at a load."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.loads.wheel_load import flange_push_n, side_force_n, wheel_load_n
from platewheel.parts.rating.endurance import Endurance, endurances
from platewheel.parts.rating.fatigue_limit import root_details, throat_limit, toe_details
from platewheel.parts.rating.limit import Limit
from platewheel.parts.rating.seam_limit import seam_details
from platewheel.parts.rating.slip_torque import slip_details
from platewheel.parts.rating.static_limit import regular_points, static_limits
from platewheel.parts.rating.vent_edge import vent_details
from platewheel.parts.rating.vented_disc import give_factor
from platewheel.parts.setting.least_wheel import least_wheel
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.contact_patch import contact_length_mm, crown_radius_mm
from platewheel.parts.stress.hertz import (
    contact_modulus_n_mm2,
    line_half_width_mm,
    line_pressure_n_mm2,
    point_half_axes_mm,
)
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.one_core import one_core
from platewheel.parts.stress.response import Response, respond
from platewheel.parts.stress.turn import angles

STIFF_SHARE = 0.1  # of the play that the flange may give under the push; our choice, no source


def borne_n(setting: Setting, rated_n: float) -> float:
    """Mean wheel load of the loaded wagon, N, that goes with a rated design load: what ratings of
    wheels are compared by, as unevenness and impact go with the wheel."""
    return rated_n / wheel_load_n(setting) * setting.static_wheel_load_n


@dataclass(frozen=True)
class Rating:
    """Limits of one wheel, least load first; loads N."""

    limits: tuple[Limit, ...]
    worn_mm: float
    lasting: tuple[Endurance, ...] = ()

    @property
    def state(self) -> str:
        """Whether this is the wheel new or worn, in a word."""
        return "worn" if self.worn_mm else "new"

    @property
    def biting(self) -> tuple[Limit, ...]:
        """Limits that some load would reach."""
        return tuple(limit for limit in self.limits if math.isfinite(limit.load_n))

    @property
    def governs(self) -> Limit:
        """The limit that sets the rating."""
        return next(limit for limit in self.limits if limit.judged)

    @property
    def beside(self) -> tuple[Limit, ...]:
        """Limits told beside that are lower than the rating."""
        return tuple(
            limit for limit in self.limits if not limit.judged and limit.load_n < self.load_n
        )

    @property
    def load_n(self) -> float:
        """Rated wheel load: the design load that it may be, all loads of the life in proportion."""
        return self.governs.load_n

    @property
    def first_crack(self) -> Endurance | None:
        """The place that the stated life harms most; None where nothing is stressed."""
        judged = (one for one in self.lasting if one.judged)
        return max(judged, key=lambda one: one.damage, default=None)


@one_core
def rate(
    setting: Setting, *, worn_mm: float = 0.0, size_mm: float = 2.0, more_harmonics: float = 1.0
) -> tuple[Rating, Response]:
    """Rating by stress analysis of the welded wheel, and the response it was read from.

    Not covered: residual stress, ring out of round, poor welds, wear beyond the allowance, loads
    beyond the spectrum.
    """
    wheel = least_wheel(setting).wheel
    width, half_length = contact_patch_mm(setting)
    response = respond(
        wheel,
        contact_width_mm=width,
        half_length_mm=half_length,
        least_place_mm=least_place_mm(setting, width),
        worn_mm=worn_mm,
        size_mm=size_mm,
        more_harmonics=more_harmonics,
    )
    design = wheel_load_n(setting)
    side, push = side_force_n(setting) / design, flange_push_n(setting) / design
    details = [
        *toe_details(response),
        *root_details(response),
        *vent_details(response, setting.process, regular_points(response)),
        *seam_details(response),
        *slip_details(response, setting),
    ]
    limits = [
        *static_limits(response, side, push),
        throat_limit(response, side, push),
    ]
    if not crown_radius_mm(setting):
        limits.append(_contact_limit(setting, width))
    if push and setting.play_mm > 0:
        limits.append(_stiffness_limit(setting, response, push))
    lasting = endurances(details, setting, angles(response))
    limits += [one.limit(design) for one in lasting]
    ordered = tuple(sorted(limits, key=lambda limit: limit.load_n))
    return Rating(ordered, worn_mm, tuple(lasting)), response


def contact_patch_mm(setting: Setting) -> tuple[float, float]:
    """Width across the tread and half length along the rail, by Hertz at the design load."""
    wheel, load = setting.wheel, wheel_load_n(setting)
    modulus, crown = contact_modulus_n_mm2(), crown_radius_mm(setting)
    head = min(setting.track.rail_head_width_mm, wheel.tread_width_mm)
    if crown:
        axes = point_half_axes_mm(load, wheel.tread_radius_mm, crown, modulus)
        across, along = axes if crown > wheel.tread_radius_mm else axes[::-1]
        return min(2 * across, head), along
    width = contact_length_mm(setting)
    return width, line_half_width_mm(load, width, 2 * wheel.outside_radius_mm(0.0), modulus)


def least_place_mm(setting: Setting, width_mm: float) -> float:
    """Middle of the patch when the wheel stands as far from its flange as the track lets it:
    rail head's middle from the tread's field edge."""
    track, wheel = setting.track, setting.wheel
    travel = max(setting.play_mm, 0.0) + track.gauge_widening_mm
    middle = wheel.tread_width_mm - track.rail_head_width_mm / 2 - travel
    return max(middle, width_mm / 2)


def _contact_limit(setting: Setting, width_mm: float) -> Limit:
    """Line pressure to the shakedown limit 4 k of free rolling. Source: Johnson, Contact
    Mechanics (1985), 9.2, k = fy / sqrt 3; from memory."""
    wheel = setting.wheel
    limit = 4 * wheel.grade.fy_n_mm2(wheel.tread_thickness_mm) / math.sqrt(3)
    diameter = 2 * wheel.outside_radius_mm(0.0)  # the least, at the field edge of a taper
    one = line_pressure_n_mm2(1.0, width_mm, diameter, contact_modulus_n_mm2())
    return Limit("contact pressure", (limit / one) ** 2, "tread on rail", "shakedown, 4 k")


def _stiffness_limit(setting: Setting, response: Response, push_share: float) -> Limit:
    """Flange tip moved along the axle by a tenth of the play."""
    give = float(abs(response.tip[:, 2, PLACES].sum())) * push_share * give_factor(setting.wheel)
    allowed = STIFF_SHARE * setting.play_mm
    return Limit("flange stiffness", allowed / give, "flange tip", "a tenth of the play")
