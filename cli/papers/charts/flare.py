"""Flare against derailment as a picture for a page (SVG): what each flange angle leaves over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.cli.papers.charts.chart import EDGE, HALO, HEIGHT, INK, Chart, line, span


@dataclass(frozen=True)
class Flare:
    """A flange angle, degrees: its room against climbing and in the curve, shares of what is
    needed (0.2: a fifth more than needed), and whether every check that hangs on it
    is passed."""

    angle_deg: float
    climb: float
    room: float
    good: bool


def flare_picture(flares: Sequence[Flare], chosen_deg: float) -> str:
    """Angle along, room left up, the chosen angle as an upright line; angles that some check
    fails or warns of have open marks. Raises: ValueError without flares."""
    if not flares:
        raise ValueError("flare_picture: no flares; allowed: at least one")
    percents = [100 * value for one in flares for value in (one.climb, one.room)]
    low, high = span([*percents, 0.0])
    chart = Chart(
        span([*(one.angle_deg for one in flares), chosen_deg]),
        (low, high + (high - low) / 6),  # the axis has its name there
        "flange angle, degrees (90 is a flat washer)",
        "room left, % of what is needed",
    )
    x = chart.at(chosen_deg, 0.0)[0]
    top, foot = EDGE + 18, HEIGHT - 44
    marks = f'<path d="M{x:.1f} {top}V{foot}" {line()} stroke-dasharray="2 3"/>'
    marks += chart.level(0.0, "none left")
    for name, dash, values in (
        ("in the curve", "", [one.room for one in flares]),
        ("against climbing", ' stroke-dasharray="8 3"', [one.climb for one in flares]),
    ):
        points = [
            chart.at(one.angle_deg, 100 * value) for one, value in zip(flares, values, strict=True)
        ]
        way = "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        marks += f'<path d="M{way}" {line(1.5)}{dash}/>'
        for one, (px, py) in zip(flares, points, strict=True):
            fill = INK if one.good else "#fff"
            marks += f'<circle cx="{px:.1f}" cy="{py:.1f}" r="3.5" fill="{fill}" stroke="{INK}"/>'
        px, py = points[len(points) // 4]
        marks += f'<text x="{px + 6:.1f}" y="{py + 16:.1f}" {HALO}>{name}</text>'
    marks += (
        f'<text x="{x:.1f}" y="{top - 4}" text-anchor="middle" {HALO}>{chosen_deg:g} chosen</text>'
    )
    return chart.drawn(marks, "flare against derailment")
