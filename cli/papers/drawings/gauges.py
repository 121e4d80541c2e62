"""Gauges of the flange held to the wheel's section (SVG): new, and what a wear gauge tells."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from platewheel.cli.papers.drawings.dimension_lines import (
    INK,
    angle,
    between,
    line,
    text_width,
    words,
)
from platewheel.parts.base.units import Units, length_words
from platewheel.parts.gauges import flange, wear
from platewheel.parts.gauges.gauge import Gauge
from platewheel.parts.geometry.outline import Arc, Loop, bounds, segments
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_sections
from platewheel.parts.wheel.kinds import kind_of

PLATE = "#f3d9a4"  # lighter than any part of the wheel, also in grey


@dataclass(frozen=True)
class Panel:
    """One gauge where it is held: turned over or not, lifted off the tread, and what to see."""

    gauge: Gauge
    over: float | None  # height about which it is turned over
    lift: float
    says: tuple[str, ...]


def gauge_picture(setting: Setting, gauges: Sequence[Gauge], units: Units = "mm") -> str:
    """SVG element, gauge side to the right, a panel a way to hold one; empty for a job without
    gauges of the flange."""
    panels = list(_panels(setting, gauges, units))
    if not panels:
        return ""
    wheel = setting.wheel
    size = max(2.0, 0.045 * (wheel.tread_width_mm + setting.flange_reach_mm))
    body, x = [], 0.0
    top = bottom = 0.0
    for panel in panels:
        x0, y0, x1, y1 = bounds(panel.gauge.blank.outline)
        wide = max(x1 - x0, *(text_width(row, size) for row in panel.says))
        high = (y1 if panel.over is None else panel.over - y0) + panel.lift
        top = max(top, high)
        drawn = _shapes(setting, panel, size)
        if panel.gauge.number == flange.NUMBER:
            drawn += _sizes(setting, size, units)
        low = wheel.tread_thickness_mm + 2.5 * size
        for i, row in enumerate(panel.says):
            drawn += words((x0, low + 1.3 * i * size), row, size)
        bottom = max(bottom, low + 1.3 * len(panel.says) * size)
        body.append(f'<g transform="translate({x - x0:.2f} 0)">{drawn}</g>')
        x += wide + 3 * size
    title = "Gauges held to the section of the wheel"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{title}" '
        f'viewBox="{-size:.1f} {-top - size:.1f} {x:.1f} {bottom + top + size:.1f}" '
        f'font-family="sans-serif" font-size="{size:.2f}" fill="{INK}" stroke-linejoin="round">'
        f"<title>{title}</title>{''.join(body)}</svg>"
    )


def _panels(setting: Setting, gauges: Sequence[Gauge], units: Units) -> Iterator[Panel]:
    """The flange gauge on a new wheel, the wear gauge on it by depth and by thickness."""
    for gauge in gauges:
        if gauge.number == flange.NUMBER:
            says = ("new: no light along foot and face,", "the ledge just over the tip")
            yield Panel(gauge, None, 0.0, says)
        if gauge.number == wear.NUMBER:
            deep, thick = (length_words(size.value, units) for size in gauge.sizes[:2])
            yield Panel(
                gauge,
                None,
                0.0,
                ("good: the foot lies on; condemned", f"where it stands off: {deep} deep"),
            )
            yield Panel(
                gauge,
                wear.height_mm(setting),
                wear.stands_mm(setting.wheel),
                ("good: the foot stands off; condemned", f"where it lies on: {thick} thick"),
            )


def _shapes(setting: Setting, panel: Panel, size: float) -> str:
    """Wheel below, gauge in its place."""
    wheel, drawn = setting.wheel, ""
    inside = wheel.tread_radius_mm - wheel.tread_thickness_mm
    pen = f'stroke="{INK}" stroke-width="{0.1 * size:.3f}"'
    for name, section in wheel_sections(wheel):
        kind = kind_of(name)
        if max(r for r, _ in section) < inside + 0.01:
            continue  # discs, their beads, the hub
        points = " ".join(
            f"{z - wheel.tread_width_mm:.3f},{wheel.tread_radius_mm - r:.3f}" for r, z in section
        )
        fill = kind.look.fill if kind else INK
        drawn += f'<polygon points="{points}" fill="{fill}" {pen}><title>{escape(name)}</title>'
        drawn += "</polygon>"
    path = _path(panel.gauge.blank.outline, panel.over, panel.lift)
    return f'{drawn}<path d="{path}" fill="{PLATE}" fill-opacity="0.75" {pen}/>'


def _path(outline: Loop, over: float | None, lift: float) -> str:
    """The outline as a path, y down; turned over, arcs sweep the other way."""

    def at(point: tuple[float, float]) -> str:
        y = point[1] if over is None else over - point[1]
        return f"{point[0]:.3f} {-y - lift:.3f}"

    found = [f"M{at(segments(outline)[0].start)}"]
    for one in segments(outline):
        if isinstance(one, Arc):
            sweep = int((one.sweep_deg < 0) == (over is None))
            large = int(abs(one.sweep_deg) > 180)
            found.append(
                f"A{one.radius_mm:.3f} {one.radius_mm:.3f} 0 {large} {sweep} {at(one.end)}"
            )
        else:
            found.append(f"L{at(one.end)}")
    return "".join(found) + "Z"


def _sizes(setting: Setting, size: float, units: Units) -> str:
    """Angle and depth of the flange, beside the gauge."""
    wheel = setting.wheel
    depth, reach = wheel.flange_depth_mm, setting.flange_reach_mm
    x = reach + 3 * size
    shown = length_words(depth, units)
    body = line([(depth / math.tan(wheel.flange_angle), -depth), (x + size, -depth)], size)
    body += line([(0.0, 0.0), (x + size, 0.0)], size)
    body += between("flange_depth_mm", (x, 0.0), (x, -depth), shown, size, "after")
    turn, text = wheel.flange_angle_deg, f"{wheel.flange_angle_deg:g}°"
    return body + angle("flange_angle_deg", (0.0, 0.0), 0.55 * depth, turn, text, size)
