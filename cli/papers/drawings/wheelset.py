"""The wheelset on its rails as a drawing (SVG): wheels in section, axle whole, sizes to set by.

Drawn in mm, axle along x, the middle of the track at 0. Bearings are boxes with a cross, as
ISO 8826 draws them simplified; the axle is not hatched, as ISO 128 has it for shafts.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape

from platewheel.cli.papers.drawings.dimension_lines import (
    INK,
    between,
    leader,
    line,
    text_width,
    words,
)
from platewheel.parts.base.units import Units, length_words
from platewheel.parts.geometry.section import Section
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_sections
from platewheel.parts.wheel.kinds import kind_of
from platewheel.parts.wheelset.assembly import Wheelset, wheel_offset_mm
from platewheel.parts.wheelset.bodies.track import rail_height_mm, rail_top_mm
from platewheel.parts.wheelset.wheel_seat import wheel_seat

LETTERS = 0.019  # height of the letters over the axle's length
FILLS = {  # of what is not the wheel's
    "spacer": "#cfe0d2",
    "shim": "#cfe0d2",
    "collar": "#cfe0d2",
    "bearing": "#fff",
    "bush": "#ead7a8",
    "rail": "#a9a29c",
}
AXLE_FILL = "#f4f5f6"
DIA = "Ø"


@dataclass(frozen=True)
class _View:
    """What is drawn, in which units, letters of which height, wheels to which radius."""

    setting: Setting
    made: Wheelset
    units: Units
    size: float
    tip: float

    def length(self, mm: float) -> str:
        return length_words(mm, self.units)


def wheelset_picture(setting: Setting, made: Wheelset, units: Units = "mm") -> str:
    """SVG element: the wheelset from the side of the track, its sizes in mm or inches to 1/64."""
    sections = list(wheel_sections(setting.wheel, setting.disc))
    tip = max(r for _, section in sections for r, _ in section)
    view = _View(setting, made, units, LETTERS * made.axle_length_mm, tip)
    s = view.size
    half = made.axle_length_mm / 2
    foot = rail_top_mm(setting) + rail_height_mm(setting)
    rows, low = _rows_below(view, max(foot, tip) + 3.5 * s)
    body = [
        *_wheels(view, sections),
        *_rails(view),
        *_on_the_axle(view),
        *_axle(view),
        line([(-half - 3 * s, 0), (half + 3 * s, 0)], s, "2 0.4 0.3 0.4"),
        *_notes(view),
        *rows,
    ]
    left, top, wide = -half - 9 * s, -tip - 4.5 * s, 2 * half + 18 * s
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="the wheelset on its rails"'
        f' viewBox="{left:.1f} {top:.1f} {wide:.1f} {low + s - top:.1f}" font-family="sans-serif" '
        f'font-size="{s:.2f}" fill="{INK}" stroke-linejoin="round">'
        f"<title>Wheelset on its rails</title>{''.join(body)}</svg>"
    )


def _shape(name: str, corners: list[tuple[float, float]], fill: str, size: float) -> str:
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in corners)
    return (
        f'<polygon points="{points}" fill="{fill}" stroke="{INK}" '
        f'stroke-width="{0.08 * size:.3f}"><title>{escape(name)}</title></polygon>'
    )


def _box(name: str, x0: float, x1: float, y0: float, y1: float, size: float) -> str:
    fill = FILLS[name.split("-")[0]]
    return _shape(name, [(x0, y0), (x1, y0), (x1, y1), (x0, y1)], fill, size)


def _wheels(view: _View, sections: list[tuple[str, Section]]) -> Iterator[str]:
    """Each part's cut faces, above and below the axis, on both sides; beads black."""
    offset = wheel_offset_mm(view.setting)
    for name, section in sections:
        kind = kind_of(name)
        fill = kind.look.fill if kind else INK
        for side, way in (("left", 1), ("right", -1)):
            for up in (-1, 1):
                corners = [(way * (z - offset), up * r) for r, z in section]
                yield _shape(f"{side} {name}", corners, fill, view.size)


def _rails(view: _View) -> Iterator[str]:
    gauge, head = view.setting.track.gauge_mm, view.setting.track.rail_head_width_mm
    top = rail_top_mm(view.setting)
    for x in (-gauge / 2 - head, gauge / 2):
        yield _box("rail", x, x + head, top, top + rail_height_mm(view.setting), view.size)


def _on_the_axle(view: _View) -> Iterator[str]:
    """Spacers, collars, bearings or bushes, above and below the axis."""
    made, s = view.made, view.size
    for name, inside, outside, long, x in made.spacers:
        for up in (-1, 1):
            yield _box(name, x - long / 2, x + long / 2, up * inside / 2, up * outside / 2, s)
    one, bush = made.bearing, made.bush
    for x in made.bearing_z_mm:
        for up in (-1, 1):
            if one is not None:
                box = (x - one.width_mm / 2, x + one.width_mm / 2)
                low, high = up * one.bore_mm / 2, up * one.outside_mm / 2
                yield _box("bearing", *box, low, high, s)
                cross, middle = 0.28 * min(one.width_mm, abs(high - low)), (low + high) / 2
                yield line([(x - cross, middle), (x + cross, middle)], s)
                yield line([(x, middle - cross), (x, middle + cross)], s)
            elif bush is not None:
                box = (x - bush.length_mm / 2, x + bush.length_mm / 2)
                yield _box("bush", *box, up * bush.bore_mm / 2, up * bush.outside_mm / 2, s)


def _axle(view: _View) -> Iterator[str]:
    """Each length of one diameter, its diameter on it, or beyond the end where it is too short."""
    for x0, x1, diameter in view.made.steps:
        half = diameter / 2
        corners = [(x0, -half), (x1, -half), (x1, half), (x0, half)]
        yield _shape("axle", corners, AXLE_FILL, view.size)
        text = f"{DIA}{view.length(diameter)}"
        if x1 <= 0:  # the left half is the same
            continue
        if x1 - x0 > text_width(text, view.size) and diameter > 2.6 * view.size:
            at = 0.25 * x0 + 0.75 * x1 if x0 <= 0 else (x0 + x1) / 2
            yield words((at, -0.25 * view.size), text, view.size, "middle")
        else:
            tip, end = x1 - min(2.5, (x1 - x0) / 2), view.made.axle_length_mm / 2
            elbow = (end + view.size, half + 3 * view.size)
            yield leader(f"diameter {diameter:g}", (tip, half), elbow, text, view.size, left=False)


def _notes(view: _View) -> Iterator[str]:
    """What turns or grips on the axle, and what holds the wheel, named above."""
    made, s = view.made, view.size
    y = -view.tip - 1.6 * s
    outer = max(made.bearing_z_mm)
    across = made.journal_diameter_mm
    if made.bearing is not None:
        across = made.bearing.outside_mm
        text = made.bearing.name
    else:
        assert made.bush is not None
        across, text = made.bush.outside_mm, f"{made.bush.material} bush"
    way = made.frames == "outside" or not made.turning
    elbow = (outer - (6 if way else 4) * s * (1 if way else -1), y)
    yield leader("bearing", (outer, -across / 2), elbow, text, s, left=True)
    seat, hub = wheel_seat(view.setting, made), -(made.hub_z_mm[0] + made.hub_z_mm[1]) / 2
    hub = next((x for name, _, _, _, x in made.spacers if name == "collar-left"), hub)
    held = made.retention
    if held == "key":
        held = f"key {seat.key.width_mm:g} x {seat.key.height_mm:g}"
    if made.retention in ("key", "screws") and seat.screw_mm:
        held += f", M{seat.screw_mm:g} set screws"
    yield leader("retention", (hub, -seat.axle_mm / 2), (hub + 8 * s, y), held, s, left=False)


def _rows_below(view: _View, y: float) -> tuple[list[str], float]:
    """Lengths along the axle, a row each, with witness lines; and where the last one lies."""
    made, s = view.made, view.size
    track = view.setting.track
    tip, rail = view.tip, rail_top_mm(view.setting)
    across = made.bearing.outside_mm if made.bearing else made.journal_diameter_mm
    rows = [
        ("back to back", view.setting.back_to_back_mm, tip),
        ("gauge", track.gauge_mm, rail),
        ("bearing centres" if made.turning else "frame", made.bearing_centres_mm, across / 2),
        ("axle", made.axle_length_mm, made.journal_diameter_mm / 2),
    ]
    drawn: list[str] = []
    for name, long, start in rows:
        half = long / 2
        for x in (-half, half):
            drawn.append(line([(x, start + 0.4 * s), (x, y + 0.5 * s)], s))
        text = f"{name} {view.length(long)}"
        drawn.append(between(name, (-half, y), (half, y), text, s))
        y += 2.0 * s
    return drawn, y - 1.0 * s
