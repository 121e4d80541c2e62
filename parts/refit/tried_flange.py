"""A flange tried on its ring: what its seams come to, and how the next blank is cut."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean
from typing import Literal

from platewheel.parts.checks.making.weld_access import seam_gap_range_mm
from platewheel.parts.refit.shared_blanks import flange_seam_on_mm
from platewheel.parts.wheel.flange import slant_radii_mm
from platewheel.parts.wheel.spec import WheelSpec

Remedy = Literal["weld", "trim", "insert"]


@dataclass(frozen=True)
class TriedFlange:
    """What to do with the flange that was tried on, and with the next.

    `root_gap_mm` is what each of its seams is welded at; `trim_mm` comes off one end; an insert
    of `insert_mm`, measured round the middle of the flange's depth, goes in after that and makes
    one seam more. `sweep_correction_deg` is added to the drawn sweep of each segment;
    `from_ring_mm` of the whole error is the ring's own size, `from_blank_mm` is cutting and
    rolling.
    """

    remedy: Remedy
    root_gap_mm: float
    trim_mm: float
    insert_mm: float
    sweep_correction_deg: float
    from_ring_mm: float
    from_blank_mm: float


def tried_flange(drawn: WheelSpec, on_ring: WheelSpec, seam_mm: float) -> TriedFlange:
    """`seam_mm`: open (+) or lapped (-) at the last seam of the drawn flange, the others closed
    to the job's seam_gap_mm; measured at the middle of the flange's depth.

    Too long: the gap is shared by all seams while they stay wide enough, else one end is trimmed
    to the job's gap. Too short: shared while the seams can be filled, else an insert no shorter
    than the plate is thick (common practice, no source) is let in. Source: plain geometry.
    """
    segments, gap = drawn.flange_segments, drawn.seam_gap_mm
    error = seam_mm - gap  # short (+) or long (-), all round
    shared = gap + error / segments
    least, most = seam_gap_range_mm(drawn)
    remedy: Remedy = "weld"
    root, trim, insert = shared, 0.0, 0.0
    if shared < least - 1e-9:
        remedy, root, trim = "trim", gap, -error
    elif shared > most + 1e-9:
        room = seam_mm - 2 * gap
        insert = max(room, drawn.flange_thickness_mm)
        remedy, root, trim = "insert", gap, insert - room
    from_ring = segments * (flange_seam_on_mm(on_ring, drawn.tread_diameter_mm) - gap)
    return TriedFlange(
        remedy,
        root,
        trim,
        insert,
        sweep_correction_deg(drawn, error / segments),
        from_ring,
        error - from_ring,
    )


def sweep_correction_deg(drawn: WheelSpec, longer_mm: float) -> float:
    """Sweep that makes a segment's blank longer by so much at its mean slant radius."""
    return math.degrees(longer_mm / (sum(slant_radii_mm(drawn)) / 2))


def mean_error_mm(tried: Sequence[TriedFlange]) -> float:
    """Short (+) or long (-) all round, in the mean, apart from the rings' own size; 0 for none."""
    return fmean(flange.from_blank_mm for flange in tried) if tried else 0.0
