"""Zinc that stays in a hung wheel, against shapely, a solid of cadquery and hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, box

from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.checks.galvanizing.drained import (
    LIQUID_KG_MM3,
    TILTS_DEG,
    best_tilt,
    kept,
    segment_mm2,
)
from tests.parts.settings import demo_setting

PLAIN = {"tread_taper_1_in": 0.0, "disc_field_inset_mm": 8.0, "disc_gauge_inset_mm": 10.0}
WHEEL = demo_setting().wheel.model_copy(update=PLAIN)
RADIUS = WHEEL.bore_radius_mm(0.0)
DEEP = RADIUS - (WHEEL.vent_circle_mm + WHEEL.vent_diameter_mm) / 2
WIDTH = WHEEL.tread_width_mm - 18 - 2 * WHEEL.disc_thickness_mm


@given(st.floats(20, 500), st.floats(0, 1))
def test_segments_as_shapely_cuts_them(radius: float, share: float) -> None:
    circle = Point(0, 0).buffer(radius, quad_segs=2000)
    below = circle.intersection(box(-600, -600, 600, -radius + 2 * radius * share))
    assert segment_mm2(radius, 2 * radius * share) == pytest.approx(
        below.area, abs=1e-5 * radius**2
    )


def test_level_the_box_is_full_to_its_vents() -> None:
    level = kept(WHEEL, 0.0, "gauge")
    assert DEEP > 0
    assert level.box_kg == pytest.approx(segment_mm2(RADIUS, DEEP) * WIDTH * LIQUID_KG_MM3)
    assert level.disc_kg == 0


@settings(max_examples=8)
@given(st.sampled_from(TILTS_DEG[1:]), st.sampled_from(["gauge", "field"]))
def test_tilted_as_a_solid_cut_by_a_level_plane(tilt: float, down: str) -> None:
    """Lower disc at x = 0, axle along x, the plane through the vent's edge there; and before the
    upper disc through the ring's edge."""
    import cadquery as cq

    found = kept(WHEEL, tilt, down)  # type: ignore[arg-type]
    slope = math.tan(math.radians(tilt))
    inset = 8.0 if down == "gauge" else 10.0
    for kg, deep, long in (
        (found.box_kg, DEEP, WIDTH),
        (found.disc_kg, min(inset * slope, DEEP), inset),
    ):
        ring = cq.Workplane("YZ").circle(RADIUS).extrude(long)
        level = -RADIUS + deep
        ends = [(0, -999), (0, level), (long, level - slope * long), (long, -999)]
        below = cq.Workplane("XZ").polyline(ends).close().extrude(999, both=True)
        assert kg / LIQUID_KG_MM3 == pytest.approx(ring.intersect(below).val().Volume(), rel=1e-3)


def test_the_best_tilt_keeps_least() -> None:
    best = best_tilt(WHEEL)
    alls = [kept(WHEEL, tilt, "gauge").all_kg for tilt in TILTS_DEG]
    assert best.all_kg == pytest.approx(min(alls), abs=5e-3)
    assert all(kg > best.all_kg for t, kg in zip(TILTS_DEG, alls, strict=True) if t < best.tilt_deg)
    wide = {"disc_field_inset_mm": 6.0, "disc_gauge_inset_mm": 20.0}
    assert best_tilt(WHEEL.model_copy(update=wide)).down == "gauge"  # the deep inset faces down
    wide = {"disc_field_inset_mm": 20.0, "disc_gauge_inset_mm": 6.0}
    assert best_tilt(WHEEL.model_copy(update=wide)).down == "field"


def test_vents_at_the_wall_leave_nothing_and_need_no_tilt() -> None:
    edge = unchecked(WHEEL, {"vent_circle_mm": 2 * RADIUS - WHEEL.vent_diameter_mm})
    assert best_tilt(edge).tilt_deg == 0
    assert best_tilt(edge).all_kg == 0
