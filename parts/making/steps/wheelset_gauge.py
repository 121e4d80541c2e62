"""Step of the wheelset: two wheels on an axle, set to gauge."""

from __future__ import annotations

from platewheel.parts.base.units import Units, length
from platewheel.parts.making.steps.shop_limits import PRACTICE, axial_limit_mm, figure
from platewheel.parts.making.steps.step import Step, Work, used
from platewheel.parts.setting.usual_clearance import least_play_mm
from platewheel.parts.wheel.assembly import wheel_mass_kg


def gauge(work: Work, units: Units) -> Step:
    """Two wheels on an axle, set to gauge."""
    setting, wheel = work.setting, work.setting.wheel
    between, play = setting.back_to_back_mm, setting.play_mm
    over = between + 2 * setting.flange_reach_mm
    gauge, least = setting.track.least_gauge_mm, least_play_mm(setting.track.gauge_mm)
    least_between, most_between = (between + off for off in setting.back_to_back_off_mm)
    pair = 2 * wheel_mass_kg(wheel, disc=setting.disc)
    do = [
        f"Measure between the inner faces of the two flanges, at their nearest, at three places "
        f"a third of a turn apart: {length(between, units)}, none below "
        f"{length(least_between, units)} or above {length(most_between, units)}, and the three "
        f"within {length(axial_limit_mm(wheel), units)} of each other.",
        f"Over the rail-side feet of both flanges: {length(over, units)}; that leaves "
        f"{length(play, units)} play in the gauge of {length(work.setting.track.gauge_mm, units)}.",
        "Pair wheels of like tape reading on an axle: a larger one steers to the other side.",
        "Roll the axle along a true length of track by hand, both ways, through the tightest "
        f"curve ({work.setting.track.min_curve_radius_m:.4g} m) before a wagon is put on it.",
    ]
    if work.setting.axle.wheels_on_axle == "loose":
        do.append("Wheels turn on the axle: set the collars so that play at the hub counts too.")
    figures = [
        figure(
            "back to back",
            between,
            "mm",
            f"{length(least_between, units)} to {length(most_between, units)}",
            PRACTICE,
        ),
        figure(
            "over the flanges' feet",
            over,
            "mm",
            f"at most {length(gauge - least, units)}",
            "tightest gauge less least play; " + PRACTICE,
        ),
        figure(
            "play in the tightest gauge",
            play - setting.tight_mm,
            "mm",
            f"at least {length(least, units)}",
            PRACTICE,
        ),
        figure("two wheels", pair, "kg"),
    ]
    cautions = [
        f"Two wheels weigh {pair:.0f} kg without their axle: hoist or two people, and scotch "
        "them, an axle rolls off by itself.",
    ]
    title = "Gauge the wheelset"
    return Step(
        id="gauge",
        title=title,
        do=do,
        figures=figures,
        order=[],
        cautions=cautions,
        uses=used(work, "blanks/gauge-back-to-back.dxf", "blanks/gauge-track.dxf", "standards.pdf"),
    )
