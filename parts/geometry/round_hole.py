"""A hole as a circle, where it is one."""

from __future__ import annotations

import math

from platewheel.parts.geometry.outline import Arc, Circle, Loop

TOLERANCE_MM = 1e-6


def round_hole(hole: Loop, tolerance_mm: float = TOLERANCE_MM) -> Circle | None:
    """The hole as a circle where it is one within the tolerance, also when drawn as arcs; else
    None."""
    if isinstance(hole, Circle):
        return hole
    arcs = [segment for segment in hole if isinstance(segment, Arc)]
    if not arcs or len(arcs) < len(hole):
        return None
    centre, radius = arcs[0].centre, arcs[0].radius_mm
    same = all(
        math.dist(arc.centre, centre) <= tolerance_mm
        and abs(arc.radius_mm - radius) <= tolerance_mm
        for arc in arcs
    )
    open_deg = max(TOLERANCE_MM, math.degrees(tolerance_mm / radius) * len(arcs))
    whole = abs(abs(math.fsum(arc.sweep_deg for arc in arcs)) - 360) < open_deg
    return Circle(centre, radius) if same and whole else None
