"""How far the axle bends as it turns: lean in its bearings, and the wheels' treads apart."""

from __future__ import annotations

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.wheelset.axle_bending import beam_of
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset import axle_strength
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.iso_fits import fit

# most lean: half a degree where the housing's seat is a ball, or a grip holds a dead axle, common
# practice, no source; ball bearings in a fixed bore 1 to 3 mrad, Shigley, table 7-2, from memory
SLOPE_RAD, BALL_SLOPE_RAD = 0.0087, 0.003
SPREAD_SHARE = 0.25  # of the play; common practice, no source


def axle_slope(setting: Setting, made: Wheelset) -> CheckResult:
    """How far the axle leans in its bearings."""
    half = made.bearing_centres_mm / 2
    lean = max(
        abs(axle_strength.deflection_and_slope(beam_of(setting, made, way), x, made.steps)[1])
        for way in (1, -1)
        for x in (-half, half)
    )
    most, source = _most_slope_rad(made)
    return judged(
        "axle-slope",
        "Lean of the axle in its bearings",
        1000 * lean,
        1000 * most,
        "mrad",
        f"beam integration, E 210 000 N/mm2; {source}",
        at_most=True,
        good="the bearings stay in line",
        bad="bearings and bushes wear at their edges: a thicker axle, or housings that can rock",
        bad_verdict="warn",
    )


def _most_slope_rad(made: Wheelset) -> tuple[float, str]:
    if made.turning and made.bush is not None:
        _, size, hole, shaft = next(one for one in made.fits if one[0] == "axle in bush")
        least, _ = fit(size, hole, shaft)
        return least / made.bush.length_mm, f"least clearance {hole}/{shaft} over the bush's length"
    if made.turning and made.bearing is not None and made.bearing.kind == "deep-groove":
        return BALL_SLOPE_RAD, "Shigley, table 7-2, deep groove ball bearings, from memory"
    return SLOPE_RAD, "half a degree by common practice, no source"


def axle_spread(setting: Setting, made: Wheelset) -> CheckResult:
    """How far the bent axle moves the wheels' treads apart or together at the rail, both wheels
    loaded and no push."""
    beam = axle_strength.axle_beam(
        made.contact_spacing_mm,
        made.hub_centres_mm,
        made.bearing_centres_mm,
        wheel_load_n(setting),
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


CHECKS = (axle_slope, axle_spread)
