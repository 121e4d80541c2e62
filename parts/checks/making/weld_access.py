"""Can a torch reach each joint, and are gaps and angles such that the weld can be made?

The second disc closes the box, so every fillet is made from outside, in the recess between ring
and hub tube, but those inside the first disc, which are made before, over the ring's whole depth;
the ring's seam can be welded from both sides before the discs go in.
"""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import SIDES, disc_z_mm
from platewheel.parts.wheel.hub_tube import tube_z_mm
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import FIRST_DISC

LEAST_GROOVE_DEG = 60.0
SEAM_LEAST_MM, SEAM_MOST_MM = 1.0, 4.0
THIN_MM = 3.0  # below it a seam closes without gap


def seam_gap_range_mm(spec: WheelSpec) -> tuple[float, float]:
    """Least and greatest root gap of a flange seam; the job's own seam_gap_mm is always allowed."""
    least = SEAM_LEAST_MM if spec.flange_thickness_mm > THIN_MM else 0.0
    return min(spec.seam_gap_mm, least), max(spec.seam_gap_mm, SEAM_MOST_MM)


def nozzle_room_mm(spec: WheelSpec) -> float:
    """Widest nozzle that leans at 45 degrees into every corner of both recesses.

    At the height p of whatever stands opposite, ring edge or tube end, the nozzle's far side is
    p + d / sqrt 2 away from the corner; that must be less than the radial width of the recess.
    """
    rooms = []
    for side in SIDES:
        face = disc_z_mm(spec, side)
        inset = spec.disc_field_inset_mm if side == "field" else spec.disc_gauge_inset_mm
        bore = min(spec.bore_radius_mm(z) for z in face)
        if spec.has_tube:
            ends = tube_z_mm(spec)
            tube = face[0] - ends[0] if side == "field" else ends[1] - face[1]
            rooms.append(bore - spec.hub_tube_outside_mm / 2 - max(inset, tube))
        else:
            rooms.append(2 * bore - inset)  # only the ring stands opposite
    return math.sqrt(2) * min(rooms)


def inside_nozzle_mm(spec: WheelSpec) -> float:
    """The same for the inner corners of the first disc, from the side that is still open: ring
    edge and tube end stand as far off as they do."""
    low, high = disc_z_mm(spec, FIRST_DISC)
    from_field = FIRST_DISC == "gauge"
    ring = low if from_field else spec.tread_width_mm - high
    bore = spec.bore_radius_mm(0.0 if from_field else spec.tread_width_mm)
    if not spec.has_tube:
        return math.sqrt(2) * (2 * bore - ring)
    ends = tube_z_mm(spec)
    tube = low - ends[0] if from_field else ends[1] - high
    return math.sqrt(2) * (bore - spec.hub_tube_outside_mm / 2 - max(ring, tube))


def inside_access(setting: Setting) -> CheckResult | None:
    """Widest nozzle that reaches the inside fillets before the box is closed."""
    if not setting.wheel.first_disc_both_sides:
        return None
    room, nozzle = inside_nozzle_mm(setting.wheel), setting.shop.weld_reach_mm
    return judged(
        "inside-access",
        "Widest nozzle that reaches the fillets inside",
        max(0.0, room),
        nozzle,
        "mm",
        "plain geometry: torch at 45 degrees into the open ring, tube in its place",
        at_most=False,
        good="the torch reaches the first disc's inner fillets before the second goes in",
        bad="the torch does not reach the first disc's inner fillets: a slimmer nozzle or rod "
        "(shop.weld_reach_mm), or wheel.first_disc_both_sides = false",
        bad_verdict="warn",
    )


def torch_access(setting: Setting) -> CheckResult:
    """Widest nozzle that reaches the fillets against the nozzle there is."""
    room, nozzle = nozzle_room_mm(setting.wheel), setting.shop.weld_reach_mm
    return judged(
        "torch-access",
        "Widest nozzle that reaches the fillets",
        max(0.0, room),
        nozzle,
        "mm",
        "plain geometry: torch at 45 degrees, from outside only",
        at_most=False,
        good="the torch reaches every fillet from outside",
        bad="the torch does not reach rim or tube: "
        f"{at_least((nozzle - room) / math.sqrt(2), 0)} mm less inset or tube "
        "length, or a slimmer nozzle or rod (shop.weld_reach_mm)",
        bad_verdict="warn",
    )


def root_groove(setting: Setting) -> CheckResult:
    """Angle of the groove at the flange root: below 60 degrees a fillet misses its root."""
    spec = setting.wheel
    slope = spec.taper_half_angle if spec.tread_from != "pipe" else 0.0
    angle = spec.flange_angle_deg - math.degrees(slope)
    return judged(
        "root-groove",
        "Angle of the groove at the flange root",
        angle,
        LEAST_GROOVE_DEG,
        "deg",
        "EN 1993-1-8:2005, 4.3.2.1: fillets between faces at 60 to 120 degrees",
        at_most=False,
        good="the groove is open enough to weld to its root",
        bad="the bead counts as a partial penetration butt weld: grind the groove open by "
        f"{at_least(LEAST_GROOVE_DEG - angle, 0)} degrees, or wheel.flange_angle_deg = "
        f"{at_least(spec.flange_angle_deg + LEAST_GROOVE_DEG - angle)}",
        bad_verdict="warn",
    )


def seam_gap(setting: Setting) -> CheckResult:
    """Gap of the butt seams in ring and flange: wide enough to fuse, narrow enough to fill."""
    spec = setting.wheel
    thick = max(
        spec.flange_thickness_mm, spec.tread_thickness_mm if spec.tread_from != "pipe" else 0.0
    )
    too_wide = spec.seam_gap_mm > SEAM_MOST_MM
    limit = SEAM_MOST_MM if too_wide else SEAM_LEAST_MM if thick > THIN_MM else 0.0
    bevel = "; bevel the ends above 4 mm" if thick > 4 else ""
    side = "it is hard to fill" if too_wide else "it does not fuse through"
    return judged(
        "seam-gap",
        "Gap of the butt seams",
        spec.seam_gap_mm,
        limit,
        "mm",
        "EN ISO 9692-1, square and V butt joints, gap up to 4 mm, from memory; 1 mm at least: "
        "common practice, no source",
        at_most=too_wide,
        good=f"the gap lets the seams fuse through{bevel}",
        bad=f"{side}: wheel.seam_gap_mm = 2{bevel}",
        bad_verdict="warn",
    )


def fillet_gap(setting: Setting) -> CheckResult:
    """Gap under the fillets with the discs centred by their tacks."""
    spec = setting.wheel
    limit = min(3.0, 0.5 + 0.2 * spec.weld_throat_mm)
    return judged(
        "fillet-gap",
        "Gap under the fillets, discs centred",
        spec.fit_clearance_mm,
        limit,
        "mm",
        "EN ISO 5817, quality C, root gap of fillets 0.5 + 0.2 a, at most 3 mm; from memory",
        at_most=True,
        good="the fillets bridge the gap; centre the discs with three wedges before tacking",
        bad=f"the fillets fall through the gap: wheel.fit_clearance_mm = {limit:.2g} or less, or a "
        "larger wheel.weld_throat_mm",
        bad_verdict="warn",
    )


CHECKS = (torch_access, inside_access, root_groove, seam_gap, fillet_gap)
