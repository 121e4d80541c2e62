"""Flange gauge: angle and depth of the flange beside the tread, of a new wheel."""

from __future__ import annotations

import math

from platewheel.parts.gauges.edge import Bite, bite_mm, closed
from platewheel.parts.gauges.gauge import KERF, Gauge, Measure, Stuff, gauge_blank, label, refuse
from platewheel.parts.setting.setting import Setting

NAME, NUMBER = "gauge-flange", 3
BACK_MM = 30.0  # of plate above the flange's tip, to hold
OVER_MM = 6.0  # of the ledge past the flange's back
ROOT_MM = 2.0  # cut off the corner that points at the root: spatter and burrs lie there


def flange_gauge(setting: Setting, stuff: Stuff) -> Gauge:
    """In the plane of the wheel's section: x from the root towards the flange, y from the tread at
    its gauge edge outwards. The foot lies along the tread and its taper, then the flange's face,
    then a ledge over the tip, parallel to the axle. Raises: SpecError for a flange lower than the
    kerf is wide."""
    wheel = setting.wheel
    depth, width, angle = wheel.flange_depth_mm, wheel.tread_width_mm, wheel.flange_angle
    if depth < stuff.kerf_mm:
        raise refuse(
            "flange",
            f"a flange at least as deep as the kerf, {stuff.kerf_mm:g} mm, not {depth:g}",
            "a finer process",
            {KERF: math.floor(10 * depth + 1e-9) / 10},
        )
    flare = 1 / math.tan(angle)
    fall = math.tan(wheel.taper_half_angle)
    root = min(ROOT_MM, depth / 4, width / 4)
    bite = bite_mm(stuff, depth)
    right, top = setting.flange_reach_mm + OVER_MM, depth + BACK_MM
    edge = closed(
        [
            (-width, -width * fall),
            (-root, -root * fall),
            (root * math.cos(angle), root * math.sin(angle)),
            ((depth - bite) * flare, depth - bite),
            Bite(((depth - bite) * flare, depth)),
            (right, depth),
            (right, top),
            (-width, top),
        ]
    )
    middle, wide = (right - width) / 2, 0.9 * (right + width)
    marks = [
        label((middle, top - 8), f"No. {NUMBER} flange", wide, 14),
        label((middle, top - 21), f"{wheel.flange_angle_deg:g} deg {depth:g} deep", wide, 12),
    ]
    degree = depth / math.sin(angle) * math.tan(math.radians(1))
    return Gauge(
        NUMBER,
        "flange gauge",
        gauge_blank(NAME, stuff, edge, marks),
        (
            Measure("flange angle", wheel.flange_angle_deg, "deg"),
            Measure("flange depth", depth),
        ),
        "Hold it to the wheel in a plane through the axle, foot on the tread and slid up to the "
        "flange, at eight places after tacking and after welding: no light along foot and face, "
        "the ledge just over the tip. A gap "
        f"of {degree:.2f} mm at tip or root is one degree; light under the foot is a flange too "
        "deep.",
    )
