"""Setting out a turnout: by coordinates of the curve, by handbooks, and by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.checks.running.points import gap_length_mm, open_way_mm
from platewheel.parts.standards.turnout import (
    along_mm,
    check_length_mm,
    crossing_of_curve,
    curve_of_crossing_mm,
    lead_mm,
    offset_mm,
    setting_out,
)
from tests.parts.checks.running.settings import running_setting

FOOT = 304.8


@pytest.mark.parametrize(
    ("number", "lead_ft", "radius_ft"), [(5, 47.08, 235.4), (8, 75.33, 602.7), (10, 94.17, 941.7)]
)
def test_stub_switches_of_the_handbooks(number: float, lead_ft: float, radius_ft: float) -> None:
    """Standard gauge, 4.708 ft: lead 2 G n, radius 2 G n2, n half the cotangent of half the angle;
    field books of American railways (Henck, Searles), from memory."""
    gauge = 4.7083 * FOOT
    slope = 1 / math.tan(2 * math.atan(1 / (2 * number)))
    radius = curve_of_crossing_mm(gauge, slope)
    assert radius / FOOT == pytest.approx(radius_ft, rel=2e-4)
    assert lead_mm(gauge, radius) / FOOT == pytest.approx(lead_ft, rel=2e-4)


@given(st.floats(100, 1500), st.floats(1.5, 60))
def test_the_curve_meets_the_straight_rail_at_the_crossing(gauge: float, radius_m: float) -> None:
    """Second way: a circle that touches one rail at the toe, followed to the other rail."""
    radius = 1000 * radius_m
    outer, lead = radius + gauge / 2, lead_mm(gauge, radius)
    assert math.hypot(lead, outer - gauge) == pytest.approx(outer, rel=1e-9)
    one_in = crossing_of_curve(gauge, radius)
    assert one_in == pytest.approx((outer - gauge) / lead)  # slope of its tangent there
    if one_in > 0.01:
        assert curve_of_crossing_mm(gauge, one_in) == pytest.approx(radius, rel=1e-6)
    assert offset_mm(gauge, radius, lead) == pytest.approx(gauge, rel=1e-9)
    half = offset_mm(gauge, radius, lead / 2)
    assert math.hypot(lead / 2, outer - half) == pytest.approx(outer, rel=1e-9)
    assert along_mm(gauge, radius, half) == pytest.approx(lead / 2, rel=1e-9)


@given(st.floats(5, 60), st.floats(0, 40), st.floats(10, 60), st.floats(1, 12))
def test_a_check_rail_covers_the_gap(
    flangeway: float, nose: float, head: float, one_in: float
) -> None:
    """Second way: walk along the crossing; the check rail lies wherever the two running edges are
    less than a flangeway apart before their point and less than a head's width after it."""
    there = [x for x in range(-800, 800) if -flangeway < x / one_in < head]
    assert check_length_mm(flangeway, head, one_in) == pytest.approx(len(there), abs=2)
    if nose <= head:
        setting = running_setting(flangeway_mm=flangeway, nose_mm=nose, crossing_1_in=one_in)
        gap = gap_length_mm(setting)
        assert gap is not None
        assert check_length_mm(flangeway, head, one_in) >= gap - 1e-9


def test_rows_by_hand() -> None:
    """600 mm gauge, 10 m: 9.7 over the root of 12 = 3.464 m; 1 in 4 has 14.036 degrees, 20.10 less
    0.3 m and 4.874 m of lead."""
    keys = {"flangeway_mm": 30.0, "nose_mm": 5.0, "crossing_1_in": 4.0, "heel_gap_mm": 45.0}
    setting = running_setting(**keys)
    rows = {row.name: row for row in setting_out(setting)}
    assert rows["Crossing of a curve of 10 m"].value == pytest.approx(9.7 / math.sqrt(12))
    radius = 0.6 / (1 - math.cos(math.atan(0.25))) - 0.3
    assert rows["Radius through 1 in 4"].value == pytest.approx(radius)
    assert "tighter than" not in rows["Radius through 1 in 4"].follows
    lead = rows["Lead, toe to the crossing's point"].value
    assert lead == pytest.approx(600 / math.tan(math.atan(0.25) / 2))
    assert rows["Offset at the heel"].value == 45 + 25
    heel = math.sqrt(70 * (2000 * radius + 600 - 70))
    assert rows["Switch, toe to heel"].value == pytest.approx(heel)
    assert rows["Offset at 0.5 of the lead"].value == pytest.approx(600 / 4, rel=0.02)
    assert rows["Throat to blunt nose"].value == 140
    assert rows["Check rail, straight part, least"].value == 220
    assert rows["Check rail, open at its ends, least"].value == open_way_mm(setting)


def test_without_a_crossing_of_its_own_it_is_that_of_the_tightest_curve() -> None:
    rows = {row.name: row for row in setting_out(running_setting())}
    assert rows["Lead, toe to the crossing's point"].value == pytest.approx(math.sqrt(12e6))
    assert not any(name.startswith("Radius") for name in rows)
    assert rows["Offset at the heel"].value == pytest.approx(open_way_mm(running_setting()) + 25)


def test_what_cannot_be_set_out_is_told() -> None:
    steep = {row.name: row for row in setting_out(running_setting(crossing_1_in=2.0))}
    assert "tighter than the job's tightest curve" in steep["Radius through 1 in 2"].follows
    (none,) = setting_out(running_setting(min_curve_radius_m=1.0, wheelbase_mm=300.0))
    assert none.value is None
    assert "no turnout" in none.follows
    wide = {"gauge_mm": 120.0, "rail_head_width_mm": 80.0, "heel_gap_mm": 50.0}
    rows = {row.name: row for row in setting_out(running_setting(**wide, wheelbase_mm=300.0))}
    assert rows["Switch, toe to heel"].value is None
    assert "no such switch" in rows["Offset at the heel"].follows
