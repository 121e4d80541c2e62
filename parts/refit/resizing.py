"""What one ring that is pressed round is resized by to meet given sizes of disc and flange."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.parts.refit.ring_windows import moved
from platewheel.parts.refit.shared_blanks import STEPS_PER_MM, Window, steps_of
from platewheel.parts.refit.tried_sizes import Ring, Sizes


def least_shift(ring: Ring, sizes: Sizes) -> float | None:
    """Least that the ring is resized by to meet the sizes, in mm; None where it cannot."""
    return next((shift for shift in _ends(ring, sizes) if _meets(ring, sizes, shift)), None)


def reach(ring: Ring, sizes: Sizes, shift: float) -> tuple[float, float]:
    """Least and most that the ring may be resized by, to the side of `shift`, for these sizes."""
    if _meets(ring, sizes, 0.0):
        return 0.0, 0.0
    side = [end for end in _ends(ring, sizes) if end * shift > 0]
    first, last = shift, shift
    for end in side:  # outwards
        if abs(end) > abs(last) and all(_meets(ring, sizes, s) for s in ((last + end) / 2, end)):
            last = end
        elif abs(end) > abs(last):
            break
    for end in reversed(side):  # inwards
        if abs(end) < abs(first) and all(_meets(ring, sizes, s) for s in ((first + end) / 2, end)):
            first = end
        elif abs(end) < abs(first):
            break
    return first, last


def _ends(ring: Ring, sizes: Sizes) -> list[float]:
    """Shifts at which a window begins or ends to hold a size, and those allowed; least first."""
    low, high = ring.resize_mm
    ends = {0.0, low, high}
    for windows, points in zip(ring.round, sizes, strict=True):
        for window in windows:
            for point in points:
                at = point / STEPS_PER_MM
                ends |= {at - window.greatest_mm, at - window.least_mm}
    return sorted((end for end in ends if low <= end <= high), key=lambda end: (abs(end), end))


def _meets(ring: Ring, sizes: Sizes, shift: float) -> bool:
    return all(
        _all_hit(windows, points, shift) for windows, points in zip(ring.round, sizes, strict=True)
    )


def _all_hit(windows: Sequence[Window], points: Sequence[int], shift_mm: float) -> bool:
    spans = [steps_of(moved(window, shift_mm)) for window in windows]
    return all(any(low <= point <= high for point in points) for low, high in spans)
