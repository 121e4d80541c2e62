"""Sizes of disc and flange that a ring takes as it is, and once it is trued."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.making.ring_roundness import disc_gap_range_mm, roundness_limit
from platewheel.parts.refit.measured_ring import MeasuredRing
from platewheel.parts.refit.shared_blanks import Window, disc_window
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import SIDES
from platewheel.parts.wheel.spec import WheelSpec

RESIZE_SHARE = 0.002  # of the diameter
RESIZE_SOURCE = (
    "at most 0.2 % of the diameter, the lasting strain that EN ISO 6892-1 takes for the yield "
    "strength; that a closed ring takes it cold: common practice, no source"
)


@dataclass(frozen=True)
class RingWindows:
    """Windows of a ring's discs, field and gauge, as it is and pressed round; least and most of
    diameter that it may be resized by."""

    now: tuple[Window, ...]
    round: tuple[Window, ...]
    resize_mm: tuple[float, float]


def left_uneven_mm(setting: Setting, ring: MeasuredRing) -> float:
    """How far out of round a ring is when its discs go in: one beyond the border is trued first,
    one that was not measured counts as round."""
    found = ring.out_of_round_mm
    return 0.0 if found is None or roundness_limit(setting).passed_by(found) else found


def ring_windows(
    setting: Setting, ring: MeasuredRing, spec: WheelSpec, flange_tried: bool
) -> RingWindows:
    """Of one ring: a welded one is held by its discs, one with its flange tried on keeps its
    size, one from pipe has no seam to take anything out of."""
    gaps, uneven = disc_gap_range_mm(setting), left_uneven_mm(setting, ring)
    now = tuple(disc_window(spec, side, gaps, uneven) for side in SIDES)
    if ring.after_welding_mm is not None:
        return RingWindows(now, now, (0.0, 0.0))
    most = RESIZE_SHARE * spec.tread_diameter_mm
    least = 0.0 if spec.tread_from == "pipe" else -most
    return RingWindows(
        now=now,
        round=tuple(disc_window(spec, side, gaps) for side in SIDES),
        resize_mm=(0.0, 0.0) if flange_tried else (least, most),
    )


def moved(window: Window, by_mm: float) -> Window:
    """The window of a ring that is so much wider."""
    return Window(window.least_mm + by_mm, window.wanted_mm + by_mm, window.greatest_mm + by_mm)
