"""Diameters and radial sizes of the section drawing, in columns at its two sides."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.cli.papers.drawings.dimension_lines import between, half_diameter, line
from platewheel.cli.papers.drawings.section_dimensions import DIA
from platewheel.cli.papers.drawings.section_layout import Frame
from platewheel.parts.base.units import Units, length_words
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.hub_disc import disc_diameter_mm, disc_z_mm, discs_differ
from platewheel.parts.wheel.spec import WheelSpec

PITCH = 1.9  # from column to column, in letters


@dataclass(frozen=True)
class Diameter:
    """A diameter on the field side: its column, counted outwards, and where on the section
    (z, mm) its witness line starts."""

    column: int
    key: str
    mm: float
    start_mm: float
    head: str = ""


def columns(spec: WheelSpec, f: Frame, left: float, right: float, units: Units) -> tuple[str, str]:
    """Witness lines (to be drawn below the section), and the dimensions.

    `left` and `right` are where the innermost columns stand.
    """
    s, pitch = f.size, PITCH * f.size
    under: list[str] = []
    over: list[str] = []
    for row in _diameters(spec, f):
        x, y = left - row.column * pitch, -row.mm / 2
        under.append(line([(row.start_mm - 0.2 * s, y), (x - 0.6 * s, y)], s))
        text = f"{row.head}{DIA}{length_words(row.mm, units)}"
        over.append(half_diameter(row.key, x, y, text, s))
    tip = flange_section(spec)[1]
    y = -spec.tread_radius_mm
    under.append(line([(tip[1] - 0.2 * s, -f.tip), (left - 0.6 * s, -f.tip)], s))
    under.append(line([(spec.tread_width_mm, y), (left - 0.6 * s, y)], s))
    depth = length_words(spec.flange_depth_mm, units)
    over.append(between("flange_depth_mm", (left, y), (left, -f.tip), depth, s, "after"))
    wall_under, wall = _wall(spec, left - pitch, s, units)
    under.append(wall_under)
    over.append(wall)
    under.append(line([(tip[1] + 0.2 * s, -f.tip), (right + 0.6 * s, -f.tip)], s))
    text = f"{DIA}{length_words(2 * f.tip, units)}"
    over.append(half_diameter("over_flange_diameter_mm", right, -f.tip, text, s))
    return "".join(under), "".join(over)


def _diameters(spec: WheelSpec, f: Frame) -> list[Diameter]:
    """From the axle outwards. Flange depth stands above the first, the wall above the second."""
    disc = disc_z_mm(spec, "field")[0]
    name = "field disc " if discs_differ(spec) else "disc "
    rows = [Diameter(0, "hub_bore_mm", spec.hub_bore_mm, f.z0 if spec.has_tube else disc)]
    if spec.has_tube:
        rows.append(Diameter(1, "hub_tube_outside_mm", spec.hub_tube_outside_mm, f.z0))
    rows.append(Diameter(2, "disc_diameter_mm", disc_diameter_mm(spec, "field"), disc, name))
    if not spec.tread_taper_1_in:
        return [*rows, Diameter(3, "tread_diameter_mm", spec.tread_diameter_mm, 0.0)]
    edge = 2 * spec.outside_radius_mm(0.0)
    return [
        *rows,
        Diameter(3, "field_edge_diameter_mm", edge, 0.0),
        Diameter(4, "tread_diameter_mm", spec.tread_diameter_mm, spec.tread_width_mm),
    ]


def _wall(spec: WheelSpec, x: float, s: float, units: Units) -> tuple[str, str]:
    """The ring's wall at the field edge."""
    slope = spec.taper_half_angle if spec.tread_from != "pipe" else 0.0
    edge = -spec.tread_thickness_mm * math.sin(slope)
    inside, outside = -spec.bore_radius_mm(0.0), -spec.outside_radius_mm(0.0)
    text = length_words(spec.tread_thickness_mm, units)
    under = line([(edge - 0.2 * s, inside), (x - 0.6 * s, inside)], s)
    return under, between("tread_thickness_mm", (x, inside), (x, outside), text, s)
