"""Limits that the steps give, each with where it comes from, and lengths as a maker reads them."""

from __future__ import annotations

import math

from platewheel.parts.checks.making.rolling import PEAK_MM
from platewheel.parts.making.steps.step import Figure
from platewheel.parts.wheel.spec import WheelSpec

PRACTICE = "common practice, no source"
GEOMETRY = "geometry of this wheel"
FORMER_BAR_MM = 20.0  # of the flange's former; a thinner one marks the plate. Common practice
LATE = ("disc", "flange")  # parts that wait for the rings
ONE_PERSON_KG = 25.0  # guidance of the British HSE for one man at waist height, from memory


def radial_limit_mm() -> float:
    """Most change of the reading over one turn: twice the least bump that is felt at walking
    pace, since a wheel that far off its centre reads twice as much."""
    return 2 * PEAK_MM


def axial_limit_mm(spec: WheelSpec) -> float:
    """Most wobble of the rim over one turn: a 300th of the tread, at least 1 mm."""
    return max(1.0, spec.tread_diameter_mm / 300)


def figure(
    name: str, value: float, unit: str = "mm", limit: str = "", source: str = GEOMETRY
) -> Figure:
    """A row of a step's figures."""
    return Figure(name=name, value=value, unit=unit, limit=limit, source=source)


def stick_limit_mm(spec: WheelSpec, radius_mm: float) -> float:
    """Most that four sticks, from as far up the axle as the disc's rim is out, may differ where
    the disc wobbles by `axial_limit_mm` of the tread over a turn.

    A disc that leans by a moves its rim by a r up and down; along a stick at 45 degrees that is
    a r / sqrt 2, once longer and once shorter. Source: plain geometry.
    """
    lean = axial_limit_mm(spec) / spec.tread_diameter_mm
    return 2 * lean * radius_mm / math.sqrt(2)
