"""Figures for making a wheel that are no size of a part: tapes, chords, runs, limits; mm."""

from __future__ import annotations

import math

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.checks.making.rolling import flat_end_mm
from platewheel.parts.checks.making.weld_access import seam_gap_range_mm
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import area_mm2
from platewheel.parts.making.ring_roundness import disc_gap_range_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.flange import flange_section, seam_length_mm, segment_turn
from platewheel.parts.wheel.own_disc import openings
from platewheel.parts.wheel.spec import WheelSpec


def tread_stock_kg(spec: WheelSpec, length_mm: float) -> float:
    """Mass of so much of the bar or pipe that treads are cut from. Source: plain geometry."""
    wall = spec.tread_thickness_mm
    wide = spec.tread_width_mm
    if spec.tread_from == "pipe":
        wide = math.pi * (spec.tread_diameter_mm - wall)
    return wide * wall * length_mm * DENSITY_KG_MM3


def round_bar_kg(diameter_mm: float, length_mm: float) -> float:
    """Mass of so much round bar. Source: plain geometry."""
    return math.pi * diameter_mm**2 / 4 * length_mm * DENSITY_KG_MM3


def seam_bump_mm(spec: WheelSpec) -> float:
    """What the straight ends stand out at the seam after they were bent, B^2 / (2 R)."""
    wall = spec.tread_thickness_mm
    return flat_end_mm(wall, True) ** 2 / (2 * (spec.outside_radius_mm(0.0) - wall / 2))


def ring_limits_mm(setting: Setting) -> tuple[float, float, float]:
    """Outside circumference at the gauge edge: least, drawn, most that the drawn disc fits, in a
    round ring. One border with refit: `disc_gap_range_mm`. Source: pi times the diameter."""
    wheel = setting.wheel
    drawn, clearance = math.pi * wheel.tread_diameter_mm, wheel.fit_clearance_mm
    least, greatest = disc_gap_range_mm(setting)
    return (
        drawn - 2 * math.pi * (clearance - least),
        drawn,
        drawn + 2 * math.pi * (greatest - clearance),
    )


def flange_limits_mm(spec: WheelSpec) -> tuple[float, float] | None:
    """Outside circumference at the gauge edge on which the drawn flange closes with a gap in its
    range at each seam; None for a flange without a seam. Source: plain geometry, a ring that is
    longer by d round opens the seams by d in all, as refit's `flange_window`."""
    if not seam_length_mm(spec):
        return None
    drawn = math.pi * spec.tread_diameter_mm
    least, most = (
        drawn + (gap - spec.seam_gap_mm) * spec.flange_segments for gap in seam_gap_range_mm(spec)
    )
    return least, most


def rim_run_mm(spec: WheelSpec, parts: int) -> float:
    """One of so many equal parts of the bore's circumference, at the middle of the tread."""
    return 2 * math.pi * spec.bore_radius_mm(spec.tread_width_mm / 2) / parts


def tread_run_mm(spec: WheelSpec, parts: int) -> float:
    """One of so many equal parts of the tread's circumference, at the gauge edge."""
    return math.pi * spec.tread_diameter_mm / parts


def tube_run_mm(spec: WheelSpec, parts: int) -> float:
    """One of so many equal parts of the tube's circumference."""
    return math.pi * spec.hub_tube_outside_mm / parts


def root_run_mm(spec: WheelSpec, parts: int) -> float:
    """One of so many equal parts of the groove between ring and flange, at its least radius."""
    return 2 * math.pi * min(r for r, _ in flange_section(spec)) / parts


def flange_chord_mm(spec: WheelSpec) -> float:
    """Straight across one formed piece of the flange, tip to tip of its ends."""
    return spec.over_flange_diameter_mm * math.sin(min(segment_turn(spec), math.pi) / 2)


def vent_area_mm2(spec: WheelSpec, disc: Blank | None = None) -> float:
    """Open area of all vents of both discs; of a disc of one's own all openings."""
    if disc is not None:
        return 2 * math.fsum(area_mm2(hole) for hole in openings(disc))
    return 2 * spec.vent_count * math.pi * spec.vent_diameter_mm**2 / 4
