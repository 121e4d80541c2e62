"""What each way of cutting can do: the least hole."""

from __future__ import annotations

# process -> hole over thickness, least hole mm
HOLES = {"plasma": (1.5, 0.0), "laser": (1.0, 1.0), "oxy-fuel": (1.5, 10.0), "hand": (0.25, 2.0)}
HOLE_SOURCE = {
    "plasma": "shop guides: plasma hole at least 1.5 t",
    "laser": "shop guides: laser hole at least t, 1 mm",
    "oxy-fuel": "common practice, from memory: at least 1.5 t, 10 mm",
    "hand": "common practice, no source: drilled, at least t / 4, 2 mm",
}


def least_hole_mm(process: str, thickness_mm: float) -> float:
    """Smallest hole that a process cuts well. Raises: KeyError for an unknown process."""
    share, least = HOLES[process]
    return max(share * thickness_mm, least)
