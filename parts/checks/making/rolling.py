"""Can ring and flange be rolled in this workshop, and does the developed length hold?"""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.trying import tried
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.spec import WheelSpec

LEAST_RATIO = 5.0  # mid-surface development holds above it
ROLL_SURELY, ROLL_HARDLY = 1.5, 1.1  # inside diameter over top roll
FLAT_PREBENT, FLAT_ROLLED = 0.8, 5.0  # straight end over thickness
PEAK_MM = 0.5  # out of round that is not felt at walking pace
ROLLERS = "common practice, from memory: least ring 1.1 (springs back hard) to 1.5 x top roll"


def ring_curvature(setting: Setting) -> CheckResult | None:
    """Mid radius over wall; below 5 the neutral line leaves the middle of the plate."""
    spec = setting.wheel
    if spec.tread_from == "pipe":
        return None
    ratio = (spec.outside_radius_mm(0) - spec.tread_thickness_mm / 2) / spec.tread_thickness_mm
    return judged(
        "ring-curvature",
        "Ring radius over wall",
        ratio,
        LEAST_RATIO,
        "",
        "common practice, no source: developed on the mid-surface for radius / wall from 5",
        at_most=False,
        good="the strip length pi (D - t) holds",
        bad="the strip comes out long: roll a trial ring first, or take a thinner wall",
        bad_verdict="warn",
    )


def _rolled(spec: WheelSpec) -> list[tuple[str, float, float]]:
    """What is rolled: key of its thickness, least inside diameter, thickness; mm."""
    rolled = []
    if spec.tread_from != "pipe":
        wall = spec.tread_thickness_mm
        rolled.append(("tread_thickness_mm", 2 * spec.bore_radius_mm(0.0), wall))
    if spec.flange_angle_deg < 90:  # a flat washer is not rolled
        inside = 2 * min(r for r, _ in flange_section(spec))
        rolled.append(("flange_thickness_mm", inside, spec.flange_thickness_mm))
    return rolled


def roll_diameter(setting: Setting) -> CheckResult | None:
    """Smallest inside diameter to be rolled over the top roll."""
    rolled = _rolled(setting.wheel)
    if not rolled:
        return None
    roll = setting.shop.roll_diameter_mm
    inside = min(diameter for _, diameter, _ in rolled)
    limit = ROLL_SURELY if inside >= ROLL_HARDLY * roll else ROLL_HARDLY
    return judged(
        "roll-diameter",
        "Smallest rolled ring over the top roll",
        inside / roll,
        limit,
        "",
        ROLLERS,
        at_most=False,
        good=f"a top roll of {roll:g} mm rolls it",
        bad=f"a top roll of {roll:g} mm does not close the ring: "
        f"shop.roll_diameter_mm = {at_most(inside / limit, 0)} or less, or a pipe",
        bad_verdict="warn" if limit == ROLL_SURELY else "fail",
    )


def roll_thickness(setting: Setting) -> CheckResult | None:
    """Thickest plate to be rolled against what the roller takes."""
    rolled = _rolled(setting.wheel)
    if not rolled:
        return None
    limit = setting.shop.roll_most_thickness_mm
    thickness = max(part[2] for part in rolled)
    thinner = " and ".join(f"wheel.{key} = {limit:g}" for key, _, thick in rolled if thick > limit)
    return judged(
        "roll-thickness",
        "Thickest plate to roll",
        thickness,
        limit,
        "mm",
        "shop.roll_most_thickness_mm of this job",
        at_most=True,
        good="the roller takes ring and flange",
        bad=f"the roller does not take {thickness:g} mm: {thinner} or less, or have "
        "it rolled elsewhere and set shop.roll_most_thickness_mm",
    )


def flat_end_mm(thickness_mm: float, prebend: bool) -> float:
    """Straight end that rolling leaves, g x t.

    Source: maker's guide to plate rolls, g 0.8 to 5, never zero (prebent / three plain rolls).
    """
    return (FLAT_PREBENT if prebend else FLAT_ROLLED) * thickness_mm


def seam_peak(setting: Setting) -> CheckResult | None:
    """How far the straight ends stand out from the circle at the seam, B^2 / (2 R)."""
    spec, prebend = setting.wheel, setting.shop.prebend
    if spec.tread_from == "pipe":
        return None
    flat = flat_end_mm(spec.tread_thickness_mm, prebend)
    radius = spec.outside_radius_mm(0.0) - spec.tread_thickness_mm / 2
    bent = flat_end_mm(spec.tread_thickness_mm, True) ** 2 / (2 * radius) <= PEAK_MM
    thinner = tried(
        seam_peak,
        setting,
        "wheel.tread_thickness_mm",
        math.ceil(spec.tread_thickness_mm) - 1.0,
        -1.0,
    )
    thin = (
        f"wheel.tread_thickness_mm = {thinner:g}" if thinner else "no wheel.tread_thickness_mm does"
    )
    how = "press the ends on a former, or grind the seam"
    if not prebend:
        how = f"prebend the ends, or roll the strip {2 * flat:.0f} mm longer and trim"
    how += "; shop.prebend = true" if bent and not prebend else f"; {thin}"
    return judged(
        "seam-peak",
        "Straight strip ends: peak at the seam",
        flat**2 / (2 * radius),
        PEAK_MM,
        "mm",
        "straight end g t with g 0.8 to 5, maker's guide to plate rolls; limit common practice, "
        "no source",
        at_most=True,
        good=f"straight ends of about {flat:.0f} mm are not felt",
        bad=f"straight ends of about {flat:.0f} mm leave a bump: {how}",
        bad_verdict="warn",
    )


CHECKS = (ring_curvature, roll_diameter, roll_thickness, seam_peak)
