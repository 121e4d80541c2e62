"""Do the discs stand the wheel load at their rim: crushed, or buckled? Closed forms, screening.

The disc is the web under a patch load, ring and hub its two flanges: straight from rim to hub.
Vent holes are left out: the finite-element rating has their factor.
"""

from __future__ import annotations

import math

from platewheel.parts.base.steel import E_N_MM2
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.disc_load import (
    LOAD_FACTOR,
    SPREAD_SOURCE,
    greatest_disc_share,
    rim_spread_mm,
)
from platewheel.parts.checks.trying import tried
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.spec import WheelSpec

GAMMA_M1 = 1.1  # EN 1993-1-5 leaves it to EN 1993-1-1 (1.0) or EN 1993-2 (1.1, taken)
BUCKLING_FACTOR = 3.5  # EN 1993-1-5:2006, figure 6.1, type b, endless panel


def critical_force_n(web_mm: float, height_mm: float) -> float:
    """Elastic buckling force of a web between two patch loads: 0.9 k E t^3 / h.

    Source: EN 1993-1-5:2006, 6.4(1), k = 3.5 for an endless panel loaded at both edges.
    """
    return 0.9 * BUCKLING_FACTOR * E_N_MM2 * web_mm**3 / height_mm


def loaded_length_mm(web_mm: float, flange_mm: float, flange_width_mm: float) -> float:
    """Yielded length under a point load: 2 tf (1 + sqrt(bf / tw)), flange and web of one steel.

    Source: EN 1993-1-5:2006, 6.5(2), with m2 = 0 (on the safe side) and no stiff bearing.
    """
    return 2 * flange_mm * (1 + math.sqrt(flange_width_mm / web_mm))


def patch_resistance_n(
    web_mm: float, height_mm: float, flange_mm: float, flange_width_mm: float, fy_n_mm2: float
) -> float:
    """Design resistance of a web to a patch load. Source: EN 1993-1-5:2006, 6.2 to 6.5."""
    length = loaded_length_mm(web_mm, flange_mm, flange_width_mm)
    squash = length * web_mm * fy_n_mm2
    slenderness = math.sqrt(squash / critical_force_n(web_mm, height_mm))
    return squash * min(1.0, 0.5 / slenderness) / GAMMA_M1


def _resistance_n(spec: WheelSpec, disc_mm: float) -> float:
    height = (disc_diameter_mm(spec, "gauge") - spec.hub_hole_diameter_mm) / 2
    fy = spec.grade.fy_n_mm2(max(disc_mm, spec.tread_thickness_mm))
    ring = spec.tread_thickness_mm
    strip = min(spec.tread_width_mm / 2, 2 * 15 * math.sqrt(235 / fy) * ring)
    return patch_resistance_n(disc_mm, height, ring, strip, fy)


def disc_rim_stress(setting: Setting) -> CheckResult:
    """Compression in the disc right under the ring."""
    spec = setting.wheel
    plate = spec.disc_thickness_mm
    load = greatest_disc_share(setting) * wheel_load_n(setting)
    stress = load / (rim_spread_mm(setting) * plate)
    limit = spec.grade.fy_n_mm2(plate) / LOAD_FACTOR
    # stress goes with t^(-2/3); thicker discs lie nearer to each other, so that one takes more
    least = math.ceil(10 * plate * (stress / limit) ** 1.5) / 10
    needed = tried(disc_rim_stress, setting, "wheel.disc_thickness_mm", least, 0.5)
    thicker = f"wheel.disc_thickness_mm = {needed:g}, or " if needed else ""
    return judged(
        "disc-rim-stress",
        "Compression of the disc under the ring",
        stress,
        limit,
        "N/mm2",
        f"{SPREAD_SOURCE}; lever rule between the discs; limit fy / 1.5",
        at_most=True,
        good=f"the disc's rim is used to {100 * stress / limit:.0f} %",
        bad=f"the disc is crushed at its rim: {thicker}a thicker ring",
    )


def disc_buckling(setting: Setting) -> CheckResult:
    """Share of the wheel load on one disc against its resistance to crippling and buckling."""
    spec = setting.wheel
    load = LOAD_FACTOR * greatest_disc_share(setting) * wheel_load_n(setting)
    resistance = _resistance_n(spec, spec.disc_thickness_mm)
    least = spec.disc_thickness_mm
    while least < 40 and _resistance_n(spec, least) < load:
        least += 0.5
    needed = tried(disc_buckling, setting, "wheel.disc_thickness_mm", least, 0.5)
    thicker = f"wheel.disc_thickness_mm = {needed:g}, or " if needed else ""
    return judged(
        "disc-buckling",
        "Load on one disc against buckling",
        load,
        resistance,
        "N",
        "EN 1993-1-5:2006, 6.2 to 6.5, type b (m2 = 0), load x 1.5 (EN 1990)",
        at_most=True,
        good=f"the disc is used to {100 * load / resistance:.0f} %",
        bad=f"the disc buckles: {thicker}less load",
    )


CHECKS = (disc_rim_stress, disc_buckling)
