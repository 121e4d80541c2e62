"""What holds a wagon back: its wheels and bearings, the start, the curve, the gradient."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.setting.setting import GRAVITY, Setting
from platewheel.parts.wagon.curving import slide_share

LEVER_MM = 0.5  # rolling friction of steel on steel, 0.02 in; handbook of crane travel
# the same of clean rails and hard treads: pure rolling 0.03 to 0.04 % on wheels of some 900 mm,
# tables of rolling resistance in railway handbooks, from memory
LEAST_LEVER_MM = 0.15


@dataclass(frozen=True, kw_only=True)
class Bearing:
    """How a kind of bearing resists.

    `friction` and `extra` (a share of the weight: flanges, rubbing ends) are those of the crane
    formula; `least_friction` is the lowest that the kind shows, for rolling away; `start` is
    starting over running resistance.
    """

    friction: float
    least_friction: float
    extra: float
    start: float


# Friction and extra: nordengineeringdatabase.com, wheel-on-rail resistance (0.08 to 0.1 plain).
# Start: advanced-steam.org says "markedly higher" for plain, next to nothing for rolling
# bearings, without a number; 2 and 1.1 are common practice, no source.
ROLLING = Bearing(friction=0.005, least_friction=0.0015, extra=0.003, start=1.1)
PLAIN = Bearing(friction=0.1, least_friction=0.03, extra=0.005, start=2.0)
# least_friction: a deep-groove ball bearing's usual 0.0015, bearing catalogues; 0.03 of a bush
# that is run in, well greased and moving; both from memory


def wheel_factor(
    tread_diameter_mm: float,
    journal_diameter_mm: float,
    friction: float,
    extra: float = 0.0,
    lever_mm: float = LEVER_MM,
) -> float:
    """Rolling resistance over weight on level straight track: (2 / D)(mu d / 2 + f) + c.

    `journal_diameter_mm` is where the bearing slides: a bush's bore, and for ball and roller
    bearings their bore. Dirt, joints and curves come on top. Source: crane travel resistance,
    nordengineeringdatabase.com; the form from memory.
    """
    return 2 / tread_diameter_mm * (friction * journal_diameter_mm / 2 + lever_mm) + extra


def running_factor(tread_diameter_mm: float, journal_diameter_mm: float, bearing: Bearing) -> float:
    """Rolling resistance over weight of a wagon in use, level and straight."""
    return wheel_factor(tread_diameter_mm, journal_diameter_mm, bearing.friction, bearing.extra)


def least_factor(tread_diameter_mm: float, journal_diameter_mm: float, bearing: Bearing) -> float:
    """The least that must be reckoned with when it must not roll: clean rails, bearings run in and
    warm, nothing rubbing (c = 0). What a force is needed for is never reckoned by it."""
    return wheel_factor(
        tread_diameter_mm, journal_diameter_mm, bearing.least_friction, lever_mm=LEAST_LEVER_MM
    )


def curve_factor(
    friction: float, slide: float, wheelbase_mm: float, curve_radius_m: float
) -> float:
    """Curve resistance over weight: friction times how far the treads slide a metre run.

    Along the rail by `slide` (fixed wheels; 0 for loose ones), across it by L / 2R, the mean yaw
    of two parallel axles. The two are added, not taken as a vector, the surplus standing for the
    flange that rubs: common practice, no source. Plain kinematics otherwise, full sliding;
    Protopapadakis' mu (0.72 s + 0.47 L) / R, from memory, is of the same build.
    """
    return friction * (slide + wheelbase_mm / (2000 * curve_radius_m))


def setting_curve_factor(setting: Setting) -> float:
    """Curve resistance over weight in the tightest curve, dry rails; one axle alone does not
    yaw."""
    loose = setting.axle.wheels_on_axle == "loose"
    wagon = setting.wagon
    return curve_factor(
        setting.use.friction_high,
        0.0 if loose else slide_share(setting),
        wagon.wheelbase_mm if wagon.axles > 1 else 0.0,
        setting.track.min_curve_radius_m,
    )


def gradient_share(gradient_percent: float) -> float:
    """Weight's part along a slope, over weight: sin(atan(percent / 100)). Source: statics."""
    return math.sin(math.atan(gradient_percent / 100))


def force_n(mass_kg: float, resistance: float, gradient_percent: float = 0.0) -> float:
    """Force to move a mass uphill against `resistance`, a share of what presses on the rail:
    m g (w cos a + sin a). Source: plain statics."""
    slope = math.atan(gradient_percent / 100)
    return mass_kg * GRAVITY * (resistance * math.cos(slope) + math.sin(slope))
