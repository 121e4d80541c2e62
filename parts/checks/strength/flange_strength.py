"""Does the flange stand the lateral force, in its plate and in its root bead? Screening.

The plate is a cantilever strip from the root. The rail pushes square to the face, without
friction (on the safe side), on `CONTACT_ARC_MM` of arc; the strip widens by 45 degrees on both
sides down to the root. The push is taken at half the flange's depth, or at the rail's corner
radius if that is more: worn rails and yawed wheels touch there.
"""

from __future__ import annotations

import math

from platewheel.parts.base.plates import plate_from
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.strength.disc_load import LOAD_FACTOR
from platewheel.parts.checks.strength.weld_strength import EN_FILLET, fillet_strength_n_mm2
from platewheel.parts.checks.trying import tried, with_keys
from platewheel.parts.loads.wheel_load import flange_push_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import root_bead

CONTACT_ARC_MM = 20.0  # common practice, no source
STRIP = "cantilever strip, 20 mm of contact widened by 45 degrees (common practice, no source)"


def lever_mm(setting: Setting) -> float:
    """From root to where the rail pushes, along the face: half the depth or the rail's corner."""
    depth = setting.wheel.flange_depth_mm
    radial = min(depth, max(depth / 2, setting.track.rail_corner_radius_mm))
    return radial / math.sin(setting.wheel.flange_angle)


def push_n(setting: Setting) -> float:
    """Force square to the flange's face whose part along the axle is the push of the curve."""
    return flange_push_n(setting) / math.sin(setting.wheel.flange_angle)


def strip_width_mm(lever: float) -> float:
    """Arc of root that takes part."""
    return CONTACT_ARC_MM + 2 * lever


def strip_stress_n_mm2(force_n: float, lever: float, width_mm: float, thickness_mm: float) -> float:
    """Bending stress of a cantilever strip at its root: 6 F l / (b t^2)."""
    return 6 * force_n * lever / (width_mm * thickness_mm**2)


def needed_throat_mm(force_n_mm: float, moment_n: float, strength_n_mm2: float) -> float:
    """Throat a that carries force and moment on each mm: q / a + 6 m / a^2 = f, solved for a."""
    root = math.sqrt(force_n_mm**2 + 24 * strength_n_mm2 * moment_n)
    return (force_n_mm + root) / (2 * strength_n_mm2)


def groove_throat_mm(leg_1_mm: float, leg_2_mm: float, angle_rad: float) -> float:
    """From the root, where the legs meet at that angle, to the nearest point of the face."""
    short, long = sorted((leg_1_mm, leg_2_mm))
    if long * math.cos(angle_rad) >= short:
        return short  # the face leans back from the short leg
    face = math.sqrt(leg_1_mm**2 + leg_2_mm**2 - 2 * leg_1_mm * leg_2_mm * math.cos(angle_rad))
    return leg_1_mm * leg_2_mm * math.sin(angle_rad) / face


def flange_bending(setting: Setting) -> CheckResult:
    """Bending stress of the flange plate at its root."""
    spec, lever = setting.wheel, lever_mm(setting)
    thickness = spec.flange_thickness_mm
    stress = strip_stress_n_mm2(push_n(setting), lever, strip_width_mm(lever), thickness)
    limit = spec.grade.fy_n_mm2(thickness) / LOAD_FACTOR
    least = math.ceil(10 * thickness * math.sqrt(stress / limit)) / 10
    needed = tried(flange_bending, setting, "wheel.flange_thickness_mm", least, 0.1)
    cure = "less push on the flange"
    if needed:
        cure = f"wheel.flange_thickness_mm = {needed:g} or more"
    return judged(
        "flange-bending",
        "Bending stress of the flange at its root",
        stress,
        limit,
        "N/mm2",
        f"{STRIP}; limit fy / 1.5",
        at_most=True,
        good=f"the flange is used to {100 * stress / limit:.0f} %",
        bad=f"the flange bends: {cure}",
    )


def _with_root(setting: Setting, leg_mm: float) -> Setting | None:
    """The wheel with another root weld, and plates that take it."""
    plates = ("tread_thickness_mm", "flange_thickness_mm")
    now = {name: getattr(setting.wheel, name) for name in plates}
    keys = {f"wheel.{name}": _plate_for(leg_mm, plate) for name, plate in now.items()}
    return with_keys(setting, {"wheel.root_weld_mm": leg_mm} | keys)


def _plate_for(leg_mm: float, plate_mm: float) -> float:
    """The plate there is where it is as thick as the leg, or else the next that is sold."""
    return plate_mm if plate_mm >= leg_mm else plate_from(leg_mm, plate_mm)


def _root_cure(spec: WheelSpec, leg_mm: float | None) -> str:
    if leg_mm is None:
        return "less load, an easier curve, or a longer wheelbase"
    plates = {
        "flange_thickness_mm": spec.flange_thickness_mm,
        "tread_thickness_mm": spec.tread_thickness_mm,
    }
    thin = [
        f" and wheel.{key} = {_plate_for(leg_mm, plate):g}"
        for key, plate in plates.items()
        if plate < leg_mm
    ]
    thicker = "".join(thin)
    return f"wheel.root_weld_mm = {leg_mm:g}{thicker}"


def root_weld_strength(setting: Setting) -> CheckResult:
    """Throat of the root bead, bent and pulled by the flange, against the throat needed."""
    spec, lever = setting.wheel, lever_mm(setting)
    force = LOAD_FACTOR * push_n(setting) / strip_width_mm(lever)
    needed = needed_throat_mm(force, force * lever, fillet_strength_n_mm2(spec.grade))
    bead = root_bead(spec)
    slope = spec.taper_half_angle if spec.tread_from != "pipe" else 0.0
    angle = spec.flange_angle - slope
    throat = groove_throat_mm(*bead.legs_mm, angle)
    least = math.ceil(10 * needed / math.cos(angle / 2)) / 10
    leg = tried(root_weld_strength, setting, _with_root, least, 0.1)
    return judged(
        "weld-root",
        "Throat of the flange's root bead",
        throat,
        needed,
        "mm",
        f"{EN_FILLET}; {STRIP}; the bead's root is pulled open, so full fusion is needed",
        at_most=False,
        good=f"the root bead is used to {100 * needed / throat:.0f} %",
        bad=f"the flange tears off at its root: {_root_cure(spec, leg)}",
    )


CHECKS = (flange_bending, root_weld_strength)
