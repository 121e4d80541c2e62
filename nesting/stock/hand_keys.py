"""Keys of the cutting table by hand: other defaults, and those of a torch are refused."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from platewheel.parts.base.faults import Fault

# room for a disc to run out, for a jigsaw's foot or for snips; common practice, no source
HAND_SPACING_MM, HAND_THICK_SPACING_MM, HAND_THIN_MM = 15.0, 20.0, 6.0
# disc of 125 x 1 mm, about 1 kW: 600 to 1000 mm2 a minute; common practice, no source
HAND_MM2_PER_MIN = 800.0
TORCH_KEYS = {  # key of a torch -> what is done by hand instead
    "kerf_in_path": "cut outside the line and grind to it",
    "lead_in_mm": "a cut begins at the edge of the plate or in a drilled hole",
    "lead_out_mm": "a cut ends where it meets the next",
    "lead_shape": "there is no lead",
    "pierce_clear_mm": "nothing is pierced",
    "pierce_s": "nothing is pierced; holes are timed by drill and hole saw",
    "rapid_mm_per_min": "no torch travels",
    "current_a": "there is no arc",
    "heat_apart_mm": "cut in the order of the list of straight cuts",
    "common_lines": "straight cuts free whole rows already",
    "least_hole_mm": "each hole is drilled, sawn or chain drilled, by shop.hole_saws_mm",
    "tab_count": "leave the last 20 mm of a cut, clamp, then part it",
    "tab_width_mm": "leave the last 20 mm of a cut, clamp, then part it",
    "skeleton_piece_mm": "straight cuts leave no grid",
    "offcut_outline": "straight cuts leave rectangles, and these are kept",
}


def by_process(usual: float, *, hand: float) -> Callable[[dict[str, Any]], float]:
    """Default of a key that is another by hand; for a field that stands after `process`."""

    def default(before: dict[str, Any]) -> float:
        return hand if before.get("process") == "hand" else usual

    return default


def refused_by_hand(values: Mapping[str, Any], defaults: Mapping[str, Any]) -> Iterator[Fault]:
    """A fault for each key of a torch that is set to anything but its default."""
    for key, instead in TORCH_KEYS.items():
        if values[key] != defaults[key]:
            yield Fault(
                key,
                values[key],
                f'left out with process = "hand": {instead}',
                f'remove {key}, or process = "plasma" for a torch',
            )
