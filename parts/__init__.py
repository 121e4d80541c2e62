"""The wheel as an engineered thing: specs, solids, blanks and checks. Importing it is cheap."""

from parts.blank import Blank
from parts.faults import Fault, GeometryError, SpecError
from parts.flange import flange_blank, flange_cone
from parts.hub_disc import disc_blank, hub_disc
from parts.hub_tube import hub_tube
from parts.tread_ring import tread_blank, tread_ring
from parts.welds import weld_beads
from parts.wheel import wheel, wheel_mass_kg, wheel_parts, wheel_solids
from parts.wheel_spec import WheelSpec

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
