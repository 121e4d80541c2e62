"""Settings at random, and a gauge's plate as a polygon to measure."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from hypothesis import strategies as st
from shapely import LineString, Polygon

from platewheel.parts.gauges.gauge import Gauge, Stuff
from platewheel.parts.geometry.outline import Arc, segments
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.settings import demo_setting
from tests.parts.wheels import plain_wheel, valid_wheels

STUFF = Stuff(6.0, 1.7)


def setting_of(
    wheel: WheelSpec | None = None, track: dict[str, Any] | None = None, **use: Any
) -> Setting:
    """The demo with another wheel, some keys of its track and of its use changed."""
    demo = demo_setting()
    laid = TrackSpec(**(demo.track.model_dump() | (track or {})))
    used = UseSpec(**(demo.use.model_dump() | use))
    return replace(demo, wheel=wheel or plain_wheel(), track=laid, use=used)


@st.composite
def settings_drawn(draw: st.DrawFn) -> Setting:
    """Any wheel on any track that it may meet."""
    gauge = draw(st.floats(150, 1700))
    off = (-draw(st.floats(0, 0.02)) * gauge, draw(st.floats(0, 0.03)) * gauge)
    track = {
        "gauge_mm": gauge,
        "gauge_tolerance_mm": off,
        "gauge_widening_mm": draw(st.just(0.0) | st.floats(1, 30)),
        "rail_head_width_mm": draw(st.floats(8, 70)),
        "rail_corner_radius_mm": draw(st.floats(0, 4)),
        "flangeway_mm": draw(st.floats(5, 74)),
        "check_rail_flangeway_mm": draw(st.none() | st.floats(5, 74)),
    }
    wear = draw(st.floats(0, 8))
    wheel = draw(st.just(plain_wheel()) | valid_wheels())
    return setting_of(wheel, track, wear_allowance_mm=wear)


def plate(gauge: Gauge) -> Polygon:
    """Its outline, each bite as a chain of short chords."""
    points = []
    for segment in segments(gauge.blank.outline):
        steps = 64 if isinstance(segment, Arc) else 1
        for i in range(steps):
            if isinstance(segment, Arc):
                points.append(segment.at(segment.start_deg + segment.sweep_deg * i / steps))
            else:
                points.append(segment.start)
    return Polygon(points)


def across(shape: Polygon, at: float, *, upright: bool = False) -> tuple[float, float]:
    """Where the plate begins and ends on a level line, or on an upright one."""
    far = 1e5
    cut = LineString([(at, -far), (at, far)] if upright else [(-far, at), (far, at)])
    x0, y0, x1, y1 = shape.intersection(cut).bounds
    return (y0, y1) if upright else (x0, x1)


def section(wheel: WheelSpec, name: str) -> Polygon:
    """A part of the wheel in the plane of the flange's gauges: x from the root along the axle,
    y from the tread at its gauge edge outwards."""
    from platewheel.parts.wheel.assembly import wheel_sections

    corners = next(shape for part, shape in wheel_sections(wheel) if part == name)
    moved = [(z - wheel.tread_width_mm, r - wheel.tread_radius_mm) for r, z in corners]
    return Polygon(moved)


def plate_angle_deg(gauge: Gauge, below_mm: float) -> float:
    """Angle of the edge past the root that rises to the right below a height: the flange's face."""
    (face,) = (
        segment
        for segment in segments(gauge.blank.outline)
        if segment.start[0] > -1e-9
        and segment.start[1] + 1e-6 < segment.end[1] < below_mm + 1e-6
        and not isinstance(segment, Arc)
    )
    (x0, y0), (x1, y1) = face.start, face.end
    return math.degrees(math.atan2(y1 - y0, x1 - x0))
