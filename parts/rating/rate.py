"""The load rating: the least load that any limit allows, new and worn, and the life at a load."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from platewheel.parts.rating.contact_patch import contact_length_mm, crown_radius_mm
from platewheel.parts.rating.fatigue import cycles_to_failure_iiw, cycles_to_failure_shear
from platewheel.parts.rating.fatigue_limit import root_limits, toe_limit
from platewheel.parts.rating.hertz import (
    contact_modulus_n_mm2,
    line_half_width_mm,
    line_pressure_n_mm2,
    point_half_axes_mm,
)
from platewheel.parts.rating.limit import Limit
from platewheel.parts.rating.load_series import PLACES
from platewheel.parts.rating.response import Response, respond
from platewheel.parts.rating.seam_limit import seam_limits
from platewheel.parts.rating.slip_torque import slip_limits
from platewheel.parts.rating.static_limit import static_limits
from platewheel.parts.setting.setting import GRAVITY, Setting

STIFF_SHARE = 0.1  # of the play that the flange may give under the push; our choice, no source


@dataclass(frozen=True)
class Rating:
    """Limits of one wheel, least load first; loads N."""

    limits: tuple[Limit, ...]
    worn_mm: float
    cycles: float

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
        return self.limits[0]

    @property
    def load_n(self) -> float:
        """Rated wheel load: static load with unevenness and shock in it."""
        return self.governs.load_n


def rate(
    setting: Setting, *, worn_mm: float = 0.0, size_mm: float = 2.0, more_harmonics: float = 1.0
) -> tuple[Rating, Response]:
    """Rating by stress analysis of the welded wheel, and the response it was read from.

    Not covered: residual stress, ring out of round, poor welds, wear beyond the allowance,
    shocks beyond the factor.
    """
    wheel, use = setting.wheel, setting.use
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
    cycles = setting.turns_in_life
    share = use.lateral_share
    limits = [
        *static_limits(response, share),
        *(
            _with_shock(limit, setting)
            for limit in (
                toe_limit(response, share, cycles, setting.fatigue_factor),
                *root_limits(response, share, cycles, setting.fatigue_factor),
                *seam_limits(response, share, cycles, setting.fatigue_factor),
                *slip_limits(response, setting, cycles),
            )
        ),
    ]
    if not crown_radius_mm(setting):
        limits.append(_contact_limit(setting, width))
    if share and setting.play_mm > 0:
        limits.append(_stiffness_limit(setting, response))
    ordered = tuple(sorted(limits, key=lambda limit: limit.load_n))
    return Rating(ordered, worn_mm, cycles), response


def fatigue_shock(setting: Setting) -> float:
    """Shock factor of every turn: half way between none and the greatest.

    Source: EN 1991-3:2006, 2.12.1, phi_fat = (1 + phi) / 2; from memory.
    """
    return (1 + setting.wagon.shock_factor) / 2


def _with_shock(limit: Limit, setting: Setting) -> Limit:
    """A fatigue limit as the design load it allows: not every turn has the full shock in it."""
    if not limit.range_per_n:
        return limit
    return replace(limit, load_n=limit.load_n * setting.wagon.shock_factor / fatigue_shock(setting))


def life_km(rating: Rating, setting: Setting) -> tuple[float, Limit | None]:
    """Distance to failure at the stated load, and the detail that ends it; infinite if none."""
    load = setting.wheel_load_n / setting.wagon.shock_factor * fatigue_shock(setting)
    load *= setting.fatigue_factor
    shortest, ends = math.inf, None
    for limit in rating.limits:
        if limit.range_per_n:
            curve = cycles_to_failure_shear if limit.in_shear else cycles_to_failure_iiw
            turns = curve(limit.range_per_n * load, limit.fat_n_mm2)
            if turns < shortest:
                shortest, ends = turns, limit
    return shortest * math.pi * setting.wheel.tread_diameter_mm / 1e6, ends


def contact_patch_mm(setting: Setting) -> tuple[float, float]:
    """Width across the tread and half length along the rail, by Hertz at the design load."""
    wheel, load = setting.wheel, setting.wheel_load_n
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


def _stiffness_limit(setting: Setting, response: Response) -> Limit:
    """Flange tip moved along the axle by a tenth of the play."""
    give = float(abs(response.tip[:, 2, PLACES].sum())) * setting.use.lateral_share
    allowed = STIFF_SHARE * setting.play_mm
    return Limit("flange stiffness", allowed / give, "flange tip", "a tenth of the play")


def wagon_gross_kg(setting: Setting, load_n: float) -> float:
    """Gross mass of a wagon whose worst wheel carries `load_n` with unevenness and shock."""
    wagon = setting.wagon
    wheels = 2 * wagon.axles
    return load_n * wheels / (wagon.load_unevenness * wagon.shock_factor * GRAVITY)
