"""Play: the corner's ride and the bearing width against drawings made another way."""

from __future__ import annotations

import math

import pytest
from shapely import affinity
from shapely.geometry import Point, Polygon, box

from platewheel.parts.checks.running.curve import room_given_mm
from platewheel.parts.checks.running.play import (
    bearing_width_mm,
    least_play,
    most_play,
    tread_bearing,
)
from platewheel.parts.loads.travel import corner_ride_mm, travel_mm
from platewheel.parts.wheel.flange import flange_section
from tests.parts.checks.running.settings import PLAY_MM, running_setting


def flange_polygon(angle_deg: float) -> Polygon:
    """Flange seen along the track: root of its rail-side face on the origin, rail top at 0,
    the rail to the left, the middle of the track to the right."""
    spec = running_setting(flange_angle_deg=angle_deg).wheel
    return Polygon(
        (z - spec.tread_width_mm, spec.tread_radius_mm - r) for r, z in flange_section(spec)
    )


@pytest.mark.parametrize("angle_deg", [45.0, 60.0, 70.0, 82.0, 90.0])
@pytest.mark.parametrize("corner_mm", [1.0, 4.0, 8.0])
def test_ride_on_the_rounded_corner(angle_deg: float, corner_mm: float) -> None:
    """Second way: slide the flange's polygon against a rail head with a round corner."""
    quarter = Point(-corner_mm, -corner_mm).buffer(corner_mm, quad_segs=720)
    head = quarter.union(box(-25, -30, -corner_mm, 0)).union(box(-25, -30, 0, -corner_mm))
    flange, low, high = flange_polygon(angle_deg), -corner_mm, 0.5
    while high - low > 1e-6:
        middle = (low + high) / 2
        touches = affinity.translate(flange, middle).distance(head) == 0
        low, high = (middle, high) if touches else (low, middle)
    assert -high == pytest.approx(
        corner_ride_mm(corner_mm, math.radians(angle_deg)), abs=1e-4 + 2e-6 * corner_mm
    )


@pytest.mark.parametrize("tread_mm", [28.0, 40.0, 60.0])
@pytest.mark.parametrize("play_mm", [4.0, 12.0, 24.0])
@pytest.mark.parametrize("wear_mm", [0.0, 2.0])
@pytest.mark.parametrize("corner_mm", [0.0, 6.0])
def test_bearing_width_by_laying_out_the_axle(
    tread_mm: float, play_mm: float, wear_mm: float, corner_mm: float
) -> None:
    """Second way: rails and treads as stretches of a line, left flange hard over."""
    plain = running_setting(disc_thickness_mm=3.0, tread_width_mm=tread_mm)
    back = 600 - play_mm - 2 * plain.flange_reach_mm
    setting = running_setting(
        disc_thickness_mm=3.0,
        tread_width_mm=tread_mm,
        back_to_back_mm=back,
        gauge_widening_mm=5.0,
        wear_allowance_mm=wear_mm,
        rail_corner_radius_mm=corner_mm,
    )
    # x = 0 is the left rail's running edge; past it by the flange's wear, and by what the worn
    # face finds at the corner: a circle about (-rc, -rc), touched by a line at 70 degrees
    slant = math.radians(70)
    left_edge = -wear_mm / math.sin(slant)
    left_edge += corner_mm * (1 / math.sin(slant) - 1 - 1 / math.tan(slant))
    tread_from = left_edge + back + 2 * plain.flange_reach_mm
    right_rail = (605.0, 605.0 + 25.0)
    overlap = min(tread_from + tread_mm, right_rail[1]) - max(tread_from, right_rail[0])
    assert bearing_width_mm(setting) == pytest.approx(overlap, abs=1e-9)


def test_default_wheels_have_the_usual_play_and_pass() -> None:
    setting = running_setting()
    assert [check(setting).verdict for check in (least_play, most_play, tread_bearing)] == [
        "pass"
    ] * 3
    assert travel_mm(running_setting(rail_corner_radius_mm=0.0)) == pytest.approx(PLAY_MM)


def test_tolerances_count_in_every_check_of_play() -> None:
    """Gauge from 597 to 607, wheels from 1.5 nearer to 0.5 further apart: 3.5 less, 8.5 more."""
    off = {"gauge_tolerance_mm": (-3.0, 7.0), "back_to_back_tolerance_mm": (-1.5, 0.5)}
    back = running_setting().back_to_back_mm
    true, loose = (running_setting(back_to_back_mm=back, **keys) for keys in ({}, off))
    for check, by in ((least_play, -3.5), (most_play, 8.5)):
        values = [check(one).value for one in (true, loose)]
        assert values[1] == pytest.approx((values[0] or 0.0) + by)
    narrow = {"tread_width_mm": 35.0, "disc_thickness_mm": 3.0, "back_to_back_mm": back}
    bearing = [bearing_width_mm(running_setting(**narrow, **keys)) for keys in ({}, off)]
    assert bearing[1] == pytest.approx(bearing[0] - 8.5)
    assert room_given_mm(loose) == pytest.approx(room_given_mm(true) - 3.5 / 2)


def test_too_wide_wheels_fail_and_the_advice_puts_them_right() -> None:
    reach = running_setting().flange_reach_mm
    tight = running_setting(back_to_back_mm=600 - 2 * reach - 1)
    assert least_play(tight).verdict == "warn"
    bound = running_setting(back_to_back_mm=600 - 2 * reach)
    result = least_play(bound)
    assert result.verdict == "fail"
    advised = float(result.says.rsplit("= ", 1)[1])
    assert least_play(running_setting(back_to_back_mm=advised)).verdict == "pass"


def test_loose_gauge_warns_then_drops_the_wheel() -> None:
    assert most_play(running_setting(gauge_widening_mm=32.0)).verdict == "warn"
    narrow = {"tread_width_mm": 30.0, "disc_thickness_mm": 3.0}
    assert tread_bearing(running_setting(gauge_widening_mm=10.0, **narrow)).verdict == "warn"
    gone = tread_bearing(running_setting(gauge_widening_mm=30.0, **narrow))
    assert gone.verdict == "fail"
    assert gone.value is not None
    assert gone.value < 0
