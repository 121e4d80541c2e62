"""Setting out the turnout of a railway: lengths and radii that its crossing and its curve ask for.

A curve that touches the straight way at the toe and runs through the crossing: its outer rail, of
radius Ro = R + G/2, leaves one rail of the straight way and crosses the other, G further, at the
crossing's angle a. G = Ro (1 - cos a), so that the lead is Ro sin a = (2 R G)^1/2 = G cot(a / 2).
Source: plain geometry; handbooks of American railways have the same of stub switches, lead 2 G n
and radius 2 G n2 with n half the cotangent of a / 2, from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from platewheel.parts.checks.running.points import gap_length_mm, open_way_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.track import TrackSpec

QUARTERS = (0.25, 0.5, 0.75)  # of the lead, where the curve's offsets are measured


@dataclass(frozen=True)
class Sized:
    """One size, None where there is none such; `unit` is mm, m or 1 in."""

    name: str
    value: float | None
    follows: str
    unit: Literal["mm", "m", "1 in"] = "mm"
    least: bool = False  # no less than this


def crossing_angle(one_in: float) -> float:
    """Angle between the rails of a crossing that rise 1 in so many, radians."""
    return math.atan(1 / one_in)


def crossing_of_curve(gauge_mm: float, radius_mm: float) -> float:
    """1 in so many of the crossing that a curve of this radius, of its centre line, runs through:
    cot(a) = (R - G/2) / lead, 0 or less where it turns back within the gauge. Source: as the
    module."""
    return (radius_mm - gauge_mm / 2) / lead_mm(gauge_mm, radius_mm)


def curve_of_crossing_mm(gauge_mm: float, one_in: float) -> float:
    """Radius, of its centre line, of the curve that runs through a crossing: G / (1 - cos a) -
    G / 2. Source: as the module."""
    return gauge_mm / (1 - math.cos(crossing_angle(one_in))) - gauge_mm / 2


def lead_mm(gauge_mm: float, radius_mm: float) -> float:
    """Toe to where the running edges cross: (2 R G)^1/2, exact. Source: as the module."""
    return math.sqrt(2 * radius_mm * gauge_mm)


def along_mm(gauge_mm: float, radius_mm: float, offset_mm: float) -> float:
    """From the toe to where the curve's outer rail is so far off its stock rail: y (2 Ro - y) is
    the square. Source: two chords of a circle."""
    return math.sqrt(offset_mm * (2 * radius_mm + gauge_mm - offset_mm))


def offset_mm(gauge_mm: float, radius_mm: float, along_mm: float) -> float:
    """The same the other way round: Ro - (Ro2 - x2)^1/2, without loss of digits."""
    outer = radius_mm + gauge_mm / 2
    return along_mm**2 / (outer + math.sqrt(outer**2 - along_mm**2))


def check_length_mm(flangeway_mm: float, head_mm: float, one_in: float) -> float:
    """Least straight part of a check rail: from the throat, where the running edges are a flangeway
    apart, to where the nose is as wide as a rail head and guides a flange by itself. Source: plain
    geometry; a head's width by common practice, no source."""
    return (flangeway_mm + head_mm) * one_in


def setting_out(setting: Setting) -> tuple[Sized, ...]:
    """Of the crossing that the job tells of, or of the one that its tightest curve runs through."""
    track = setting.track
    gauge, tight = track.gauge_mm, 1000 * track.min_curve_radius_m
    own = track.crossing_1_in
    one_in = crossing_of_curve(gauge, tight) if own is None else own
    curve = "a curve that touches the straight way at the toe"
    name = f"Crossing of a curve of {track.min_curve_radius_m:g} m"
    if one_in < 1:
        return (Sized(name, None, f"{curve} turns back within the gauge: no turnout", "1 in"),)
    radius = curve_of_crossing_mm(gauge, one_in)
    found = [
        Sized(
            name,
            crossing_of_curve(gauge, tight),
            f"(R - G/2) / lead, {curve}; a steeper crossing has a tighter curve",
            "1 in",
        )
    ]
    if own is not None:
        jams = ": tighter than the job's tightest curve" if radius < tight - 1e-6 else ""
        follows = f"G / (1 - cos a) - G/2, {curve}{jams}"
        found.append(Sized(f"Radius through 1 in {own:g}", radius / 1000, follows, "m"))
    lead, heel = lead_mm(gauge, radius), _heel_mm(setting, track)
    wide = "; wider than the gauge, no such switch" if heel >= gauge else ""
    found += [
        Sized("Lead, toe to the crossing's point", lead, "root of 2 R G"),
        Sized("Offset at the heel", heel, f"heel gap, yours or the least, and a rail head{wide}"),
        Sized(
            "Switch, toe to heel",
            None if wide else along_mm(gauge, radius, heel),
            "where the curve has that offset",
        ),
    ]
    found += [
        Sized(
            f"Offset at {share:g} of the lead",
            offset_mm(gauge, radius, share * lead),
            "outer rail of the curve, off its stock rail's line",
        )
        for share in QUARTERS
    ]
    unguided = gap_length_mm(setting)
    if unguided is None:
        unguided = (setting.flangeway_mm + track.nose_mm) * one_in
    return (
        *found,
        Sized("Throat to blunt nose", unguided, "(Fx + nose) x 1 in: nothing guides or carries"),
        Sized(
            "Check rail, straight part, least",
            check_length_mm(setting.flangeway_mm, track.rail_head_width_mm, one_in),
            "(Fx + rail head) x 1 in, from the throat to a nose as wide as a head",
            least=True,
        ),
        Sized(
            "Check rail, open at its ends, least",
            open_way_mm(setting),
            "as an open tongue: the back of a flange hard over enters it",
            least=True,
        ),
    )


def _heel_mm(setting: Setting, track: TrackSpec) -> float:
    """Off one running edge to the other at the heel: the gap, given or least, and a rail head."""
    gap = open_way_mm(setting) if track.heel_gap_mm is None else track.heel_gap_mm
    return gap + track.rail_head_width_mm
