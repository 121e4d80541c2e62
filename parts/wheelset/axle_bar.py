"""Round bar that an axle can be turned from. mm."""

from __future__ import annotations

from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.iso_fits import limits


def least_bar_mm(found: Wheelset) -> float:
    """Thinnest bar for the axle: its largest step, and what seats stand over their size (k6)."""
    sizes = [diameter for _, _, diameter in found.steps]
    seats = [
        size + limits(size, shaft)[1] for place, size, _, shaft in found.fits if "axle" in place
    ]
    return max(*sizes, *seats)
