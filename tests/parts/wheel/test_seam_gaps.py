"""Gaps at the seams, measured on the solids: as wide as asked at mid radius."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.wheel.flange import flange_cone, mid_radii_mm
from platewheel.parts.wheel.tread_ring import mid_radii_mm as ring_radii_mm
from platewheel.parts.wheel.tread_ring import tread_ring
from tests.parts.wheels import plain_wheel


def open_angle(solid: Any, others: list[Any]) -> float:
    """Between neighbouring end faces (the flat ones that hold the axis), radians."""
    ends = []
    for one in (solid, *others):
        for face in one.Faces():
            normal, middle = face.normalAt(), face.Center()
            if face.geomType() == "PLANE" and abs(normal.z) < 1e-9:
                ends.append(math.atan2(middle.y, middle.x) % (2 * math.pi))
    ends.sort()
    steps = [(b - a) % (2 * math.pi) for a, b in zip(ends, [*ends[1:], ends[0]], strict=True)]
    return min(steps)


@pytest.mark.parametrize("gap", [1.0, 2.5])
def test_the_rings_gap(gap: float) -> None:
    spec = plain_wheel(seam_gap_mm=gap)
    middle = sum(ring_radii_mm(spec)) / 2
    assert open_angle(tread_ring(spec), []) * middle == pytest.approx(gap, rel=1e-6)


@pytest.mark.parametrize("segments", [1, 2, 4])
def test_the_flanges_gaps(segments: int) -> None:
    spec = plain_wheel(seam_gap_mm=2.0, flange_segments=segments)
    first, *others = (flange_cone(spec, i) for i in range(segments))
    middle = sum(mid_radii_mm(spec)) / 2
    assert open_angle(first, others) * middle == pytest.approx(2.0, rel=1e-6)
