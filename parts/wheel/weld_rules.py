"""What must hold between the keys that make a wheel's welds stronger, and its dimensions."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule

BACKING_DEPTH_MM = 2.0  # ground out of the flange's root before its second run; common practice
LEAST_BACKED_MM = 2 * BACKING_DEPTH_MM  # else grinding takes more than it leaves; our choice


def _root_backed(v: Any) -> Iterator[Fault]:
    """What is ground out behind the root leaves half of bead, ring and flange standing."""
    least = min(v.root_weld_mm, v.tread_thickness_mm, v.flange_thickness_mm)
    if v.root_backed and least < LEAST_BACKED_MM:
        yield Fault(
            "root_backed",
            True,
            f"false where root weld, ring or flange is below {LEAST_BACKED_MM:g} mm (here "
            f"{least:g}): {BACKING_DEPTH_MM:g} mm of it are ground out behind the root",
            f"root_weld_mm and both plates from {LEAST_BACKED_MM:g} mm, or root_backed = false",
        )


def _first_disc_both_sides(v: Any) -> Iterator[Fault]:
    """The inside fillets end before the second disc, which goes in past the ring's narrow end."""
    if not v.first_disc_both_sides:
        return
    leg = v.weld_throat_mm * math.sqrt(2)
    taken = v.disc_field_inset_mm + v.disc_gauge_inset_mm + 2 * v.disc_thickness_mm
    if not leg < v.tread_width_mm - taken:
        yield Fault(
            "first_disc_both_sides",
            True,
            f"false with {max(v.tread_width_mm - taken, 0.0):.4g} mm between the discs: the inside "
            f"fillets have legs of {leg:.4g} mm",
            "smaller insets, a smaller weld_throat_mm or a larger tread_width_mm, or "
            "first_disc_both_sides = false",
        )
    narrows = v.tread_taper_1_in and v.tread_from != "pipe"
    if narrows and v.fit_clearance_mm < v.disc_field_inset_mm / v.tread_taper_1_in:
        yield Fault(
            "first_disc_both_sides",
            True,
            "false in this tapered ring: the gauge disc goes in first, and the field disc does "
            "not pass the narrow field edge",
            f"fit_clearance_mm from {v.disc_field_inset_mm / v.tread_taper_1_in:.3g} mm, a "
            "smaller disc_field_inset_mm or tread_taper_1_in = 0, or first_disc_both_sides = false",
        )


def _seam(v: Any) -> Iterator[Fault]:
    """A wheel that has no seam has none to dress."""
    washer = v.flange_angle_deg >= 90 and v.seam_gap_mm == 0 and v.flange_segments == 1
    if v.seam == "dressed" and v.tread_from == "pipe" and washer:
        yield Fault(
            "seam",
            v.seam,
            '"as-welded" for a wheel of pipe with a flange cut whole: it has no seam',
            'seam = "as-welded"',
        )


WELD_RULES: tuple[Rule, ...] = (_root_backed, _first_disc_both_sides, _seam)
