"""The wheel as an engineered thing: specs, solids, blanks and checks. Importing it is cheap."""

from platewheel.parts.base.faults import Fault, GeometryError, SpecError
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.assembly import wheel, wheel_mass_kg, wheel_parts, wheel_solids
from platewheel.parts.wheel.flange import flange_blank, flange_cone
from platewheel.parts.wheel.hub_disc import disc_blank, hub_disc
from platewheel.parts.wheel.hub_tube import hub_tube
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank, tread_ring
from platewheel.parts.wheel.welds import weld_beads

__all__ = [
    "Blank",
    "Fault",
    "GeometryError",
    "SpecError",
    "WheelSpec",
    "disc_blank",
    "flange_blank",
    "flange_cone",
    "hub_disc",
    "hub_tube",
    "tread_blank",
    "tread_ring",
    "weld_beads",
    "wheel",
    "wheel_mass_kg",
    "wheel_parts",
    "wheel_solids",
]
