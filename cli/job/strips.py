"""Paper strips for the pipes of a wheel: its tread, if from pipe, and its hub tube."""

from __future__ import annotations

from platewheel.nesting.templates.pdf import Template
from platewheel.nesting.templates.wrap_strip import strip_template
from platewheel.parts.base.units import Units
from platewheel.parts.wheel.hub_tube import TUBE
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import TREAD


def wheel_strips(wheel: WheelSpec, units: Units) -> tuple[Template, ...]:
    """Strips for a wheel's tread pipe and its hub tube, where it has them."""
    strips = []
    if wheel.tread_from == "pipe":
        outside, width = wheel.tread_diameter_mm, wheel.tread_width_mm
        strips.append(strip_template(TREAD.name, outside, width, units))
    if wheel.has_tube:
        outside, length = wheel.hub_tube_outside_mm, wheel.hub_tube_length_mm
        strips.append(strip_template(TUBE.name, outside, length, units))
    return tuple(strips)
