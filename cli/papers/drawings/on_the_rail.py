"""Two wheels of an axle on their rails as a drawing (SVG): gauge, back to back, check, play."""

from __future__ import annotations

from platewheel.cli.papers.drawings.dimension_lines import (
    INK,
    between,
    leader,
    line,
    words,
)
from platewheel.parts.base.units import Units, length
from platewheel.parts.geometry.section import Section
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.tread_ring import tread_section

BROKEN = 2.6  # of the tread's width is drawn between the rails; the rest is broken out
XY = tuple[float, float]


def on_the_rail(setting: Setting, units: Units = "mm") -> str:
    """SVG element: left flange against its rail, all play at the right; across the track, rails
    and wheels to scale, the middle broken out. Dimensions are those of new wheels."""
    wheel, track = setting.wheel, setting.track
    width, depth, reach = wheel.tread_width_mm, wheel.flange_depth_mm, setting.flange_reach_mm
    s = width / 13
    play = max(setting.play_mm, 0.0)
    gauge = BROKEN * width + 2 * reach + play  # as drawn
    right = gauge - play
    corner, back = track.rail_corner_radius_mm, setting.back_to_back_mm
    head, tall = track.rail_head_width_mm, max(2.2 * depth, 5 * s)

    def told(mm: float) -> str:
        return length(mm, units)

    def dimension(key: str, low: float, high: float, y: float, text: str) -> str:
        return between(key, (low, y), (high, y), text, s)

    def witness(x: float, low: float, high: float) -> str:
        return line([(x, low), (x, high)], s)

    rows = [tall + k * 2.4 * s for k in range(1, 5)]
    over = -wheel.tread_thickness_mm - 2.2 * s
    body = [
        *(_rail(edge, way, head, corner, tall) for edge, way in ((0.0, -1), (gauge, 1))),
        *_wheel(setting, 0.0, 1.0, s),
        *_wheel(setting, right, -1.0, s),
        _break(gauge / 2, -wheel.tread_thickness_mm, rows[-1], s),
        *(witness(x, 0.4 * s, rows[-1] + s) for x in (0.0, gauge)),
        *(witness(x, depth, rows[2] + s) for x in (reach, right - reach)),
        witness(right, 0.4 * s, rows[1] + s),
        dimension("back_to_back", reach, right - reach, rows[0], f"B {told(back)}"),
        dimension("wheel_check", reach, right, rows[1], f"K {told(back + reach)}"),
        dimension("gauge", 0.0, gauge, rows[3], f"G {told(track.gauge_mm)}"),
        dimension("flange", 0.0, reach, rows[2], f"T {told(reach)}"),
        dimension("tread_width", -width, 0.0, over, f"N {told(width)}"),
        witness(-width, over - s, 0.0),
        witness(0.0, over - s, -wheel.tread_thickness_mm),
        between("play", (right, over), (gauge, over), f"play {told(play)}", s, "after"),
        *(witness(x, over - s, 0.0) for x in (right, gauge)),
        leader(
            "flange_depth",
            (reach * 0.75, depth),
            (reach + 3.2 * s, depth + 0.2 * s),
            f"D {told(depth)}, {wheel.flange_angle_deg:g} deg",
            s,
            left=False,
        ),
        words((-width, rows[3] + 0.4 * s), "field side", s),
        words((gauge + width, rows[3] + 0.4 * s), "field side", s, "end"),
    ]  # fmt: skip
    low, high = over - 2.5 * s, rows[-1] + 1.6 * s
    left = -width - s
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="wheels on the rails" '
        f'viewBox="{left:.1f} {low:.1f} {gauge + 2 * width + 2 * s:.1f} {high - low:.1f}" '
        f'font-family="sans-serif" font-size="{s:.2f}" fill="{INK}" stroke-linejoin="round">'
        f"<title>Wheels on the rails, across the track</title>{''.join(body)}</svg>"
    )


def _rail(edge: float, way: int, head: float, corner: float, tall: float) -> str:
    """Head and web of a rail, its running edge at `edge`, its body towards `way`."""
    radius = min(corner, head / 2)
    sweep = 0 if way < 0 else 1
    web = 0.3 * head
    middle = edge + way * head / 2
    path = (
        f"M{middle - way * web / 2:.2f} {tall:.2f}V{0.55 * tall:.2f}H{edge:.2f}V{radius:.2f}"
        f"A{radius:.2f} {radius:.2f} 0 0 {sweep} {edge + way * radius:.2f} 0"
        f"H{edge + way * (head - radius):.2f}"
        f"A{radius:.2f} {radius:.2f} 0 0 {sweep} {edge + way * head:.2f} {radius:.2f}"
        f"V{0.55 * tall:.2f}H{middle + way * web / 2:.2f}V{tall:.2f}"
    )
    return f'<path d="{path}" fill="#ddd" stroke="{INK}" stroke-width="{head / 40:.2f}"/>'


def _wheel(setting: Setting, root: float, way: float, size: float) -> list[str]:
    """Ring and flange of a wheel, its root at x = `root`, its flange towards `way`."""
    wheel = setting.wheel
    radius, width = wheel.tread_radius_mm, wheel.tread_width_mm

    def placed(section: Section) -> str:
        points: list[XY] = [(root + way * (z - width), r - radius) for r, z in section]
        return " ".join(f"{x:.2f},{y:.2f}" for x, y in points)

    return [
        f'<polygon points="{placed(section)}" fill="{fill}" stroke="{INK}" '
        f'stroke-width="{0.1 * size:.2f}"/>'
        for section, fill in ((tread_section(wheel), "#aaa"), (flange_section(wheel), "#777"))
    ]


def _break(x: float, top: float, bottom: float, size: float) -> str:
    """Two wavy lines where the middle is broken out."""
    body = ""
    for at in (x - 0.6 * size, x + 0.6 * size):
        step = (bottom - top) / 6
        path = f"M{at:.2f} {top:.2f}" + "".join(
            f"q{(0.5 if k % 2 else -0.5) * size:.2f} {step / 2:.2f} 0 {step:.2f}" for k in range(6)
        )
        body += (
            f'<path d="{path}" fill="none" stroke="{INK}" stroke-width="{0.06 * size:.2f}" '
            f'stroke-dasharray="{0.5 * size:.2f} {0.3 * size:.2f}"/>'
        )
    return body
