"""A railway's standards: they hold where the checks pass, and follow from each other."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.checks.running.crossings import (
    check_gauge,
    check_span,
    flangeway_depth,
    flangeway_width,
)
from platewheel.parts.checks.running.curve import curve_room
from platewheel.parts.checks.running.flange_window import window_check
from platewheel.parts.checks.running.points import crossing_gap, heel_gap, switch_opening
from platewheel.parts.checks.running.rough_track import joint_drop, joint_push, twist_lift
from platewheel.parts.checks.running.wear import hollow_tread, thin_flange
from platewheel.parts.standards.published import PUBLISHED, beside
from platewheel.parts.standards.rows import Standard, standards
from platewheel.parts.standards.widening import least_widening_mm, widening_table
from tests.parts.checks.running.settings import running_setting

KEYS = st.fixed_dictionaries(
    {
        "gauge_mm": st.floats(300, 1000),
        "gauge_tolerance_mm": st.tuples(st.floats(-5, 0), st.floats(0, 10)),
        "gauge_widening_mm": st.floats(0, 20),
        "check_rail_flangeway_mm": st.none() | st.floats(10, 40),
        "flangeway_mm": st.floats(15, 50),
        "flangeway_depth_mm": st.none() | st.floats(10, 40),
        "switch_opening_mm": st.none() | st.floats(20, 60),
        "heel_gap_mm": st.none() | st.floats(20, 60),
        "nose_mm": st.floats(0, 10),
        "twist_mm_per_m": st.floats(0, 30),
        "joint_step_mm": st.floats(0, 3),
        "joint_gap_mm": st.just(0.0),
        "wear_allowance_mm": st.floats(0, 5),
        "flange_wear_mm": st.none() | st.floats(0, 5),
        "flange_angle_deg": st.floats(60, 84),
        "flange_depth_mm": st.floats(10, 25),
        "wheelbase_mm": st.floats(400, 1200),
    }
)
SAID_BY = {  # rows that stand for a check, and what else it asks
    "span": check_span,
    "flangeway_depth": flangeway_depth,
    "switch_opening": switch_opening,
    "heel_gap": heel_gap,
    "twist": twist_lift,
    "joint_step": joint_push,
    "joint_gap": joint_drop,
    "flange_scrap": thin_flange,
    "flange_angle": window_check,
    "check_gauge": check_gauge,
}


@given(KEYS)
def test_a_size_holds_where_its_check_passes(keys: dict[str, Any]) -> None:
    setting = running_setting(**keys)
    rows = {row.key: row for row in standards(setting)}
    for key, check in SAID_BY.items():
        result = check(setting)
        if result is None or result.verdict == "not-assessed":
            assert rows[key].holds
        elif result.margin is None or abs(result.margin) > 1e-6:
            assert rows[key].holds == (result.verdict == "pass"), key
    jams, drops = flangeway_width(setting), crossing_gap(setting)
    assert jams is not None
    if rows["crossing_flangeway"].holds and rows["check_flangeway"].holds:
        assert jams.verdict == "pass"
        assert drops.verdict == "pass"
    if rows["tread_width"].holds:
        assert drops.verdict == "pass"
    if rows["hollow"].holds:
        assert hollow_tread(setting).verdict == "pass"


def test_rows_by_hand() -> None:
    """600 mm, 3 less and 7 more, wheels 1 either way; flange root to back 11.10 (the wheel's)."""
    setting = running_setting(
        gauge_tolerance_mm=(-3.0, 7.0), back_to_back_tolerance_mm=(-1.0, 1.0),
        gauge_widening_mm=4.0, check_rail_flangeway_mm=20.0, flangeway_mm=30.0,
        back_to_back_mm=566.0, flange_wear_mm=2.0,
    )  # fmt: skip
    reach = setting.flange_reach_mm
    rows = {row.key: row for row in standards(setting)}
    found = {key: (row.least, row.has, row.most) for key, row in rows.items()}
    assert found["gauge"] == (597, 600, 607)
    assert found["gauge_curve"] == (601, 604, 611)
    assert found["back_to_back"] == (565, 566, 567)
    assert found["over_flanges"] == pytest.approx(
        (565 + 2 * reach, 566 + 2 * reach, 567 + 2 * reach)
    )
    assert found["wheel_check"] == pytest.approx((565 + reach - 2, 566 + reach, 567 + reach))
    assert found["check_gauge"][:2] == pytest.approx((567 + reach + 3, 580))
    assert found["span"][1:] == (600 - 20 - 30, 565 - 11)
    assert found["check_flangeway"][2] == pytest.approx(597 - 567 - reach)
    check = found["check_flangeway"][0]
    assert found["crossing_flangeway"][0] == pytest.approx(611 - (check or 0.0) - 565)
    ride = 3 * (1 - math.tan(math.radians(35)))
    play = 600 - 566 - 2 * reach
    yaw = math.asin(0.03) + math.atan((play + 4 + 2 * ride + 8 + 4) / 600)
    across = (565 + reach - 2) * math.cos(yaw) - math.sqrt(165**2 - 149**2) * math.sin(yaw)
    assert found["switch_opening"][0] == pytest.approx(611 - across + ride)
    assert found["play"][:2] == pytest.approx((597 - 567 - 2 * reach, 600 - 566 - 2 * reach))
    assert {row.part for row in rows.values()} == {
        "Track",
        "Points and crossings",
        "Wheel and axle",
    }


@pytest.mark.parametrize(
    ("has", "holds"),
    [(None, True), (5.0, True), (8.0, True), (6.0, True), (4.999, False), (8.001, False)],
)
def test_a_size_at_its_limit_holds(has: float | None, holds: bool) -> None:
    assert Standard("Track", "gauge", "G", "Gauge", 5.0, has, 8.0, "").holds == holds
    assert Standard("Track", "gauge", "G", "Gauge", None, has, None, "").holds


def test_widening_by_radius_is_the_least_that_clears() -> None:
    keys = {"flange_angle_deg": 80.0, "back_to_back_mm": 577.0, "wheelbase_mm": 1000.0}
    setting = running_setting(**keys, min_curve_radius_m=4.0)
    table = widening_table(setting)
    assert [row.radius_m for row in table] == [4.0, 6.0, 8.0, 12.0, 20.0]
    found = [row.least_mm for row in table]
    assert found == sorted(found, reverse=True, key=lambda one: one or 0.0)
    assert found[0]
    assert found[-1] == 0.0
    for row in table:
        assert row.least_mm is not None
        for more, passes in ((0.0, True), (-0.2, False)):
            widening = row.least_mm + more
            if widening < 0:
                continue
            there = running_setting(
                **keys, min_curve_radius_m=row.radius_m, gauge_widening_mm=widening
            )
            assert (curve_room(there).verdict == "pass") == passes
    assert least_widening_mm(running_setting(wheelbase_mm=3000.0), 1.0) is None


@pytest.mark.parametrize(
    ("gauge", "names"),
    [(457.0, (260.0, 600.0)), (600.0, (600.0,)), (184.0, (184.15,)), (1900.0, (1435.0,)),
     (20.0, (45.0,)), (381.0, (260.0, 600.0))],
)  # fmt: skip
def test_the_nearest_published_gauges(gauge: float, names: tuple[float, ...]) -> None:
    assert tuple(one.gauge_mm for one in beside(gauge)) == names


@pytest.mark.parametrize("one", PUBLISHED, ids=lambda one: one.name)
def test_published_sizes_go_together(one: Any) -> None:
    """What every one of them says of itself: least below most, span below back-to-back, check gauge
    within the gauge less a flangeway, wheels over their flanges within the gauge."""
    for key, (least, most) in one.rows.items():
        assert least is not None or most is not None
        assert least is None or most is None or least <= most, key
        assert key in {row.key for row in standards(running_setting())}
    rows = dict(one.rows)
    if "span" in rows and "back_to_back" in rows:
        assert rows["span"][1] <= rows["back_to_back"][0]
    if "over_flanges" in rows:
        assert rows["over_flanges"][1] <= rows["gauge"][1 if one.gauge_mm > 1000 else 0]
    if rows.get("check_gauge", (None, None))[0] and rows.get("span", (None, None))[1]:
        flangeway = rows["check_gauge"][0] - rows["span"][1]
        assert 0 < flangeway < 0.1 * one.gauge_mm
    assert one.gauge_mm >= (rows["gauge"][0] or 0)


def test_rows_of_joints_points_and_tread_by_hand() -> None:
    """Wheel of 300 mm, flange 15 deep, tread 80, head 25; nose of 5 mm. 1 mm of drop:
    2 sqrt(2 x 150 - 1). Twist: 7.5 of 15 mm left, over 600 mm. The tread is off to one side
    by play, widening, tolerances, wear and the ride on the corner, 3 (1 - tan 35 deg)."""
    setting = running_setting(
        gauge_tolerance_mm=(-3.0, 7.0), back_to_back_tolerance_mm=(-1.0, 1.0),
        gauge_widening_mm=4.0, check_rail_flangeway_mm=20.0, flangeway_mm=30.0, nose_mm=5.0,
        tread_width_mm=80.0, back_to_back_mm=566.0, flange_wear_mm=2.0, flangeway_depth_mm=17.5,
        wear_allowance_mm=1.5,
    )  # fmt: skip
    rows = {row.key: row for row in standards(setting)}
    found = {key: (row.least, row.has, row.most) for key, row in rows.items()}
    play, ride = 34 - 2 * setting.flange_reach_mm, 3 * (1 - math.tan(math.radians(35)))
    side = play + 4 + 8 + 2 + ride
    assert found["joint_gap"][2] == pytest.approx(2 * math.sqrt(299))
    assert found["twist"][2] == pytest.approx(7.5 / 0.6)
    assert found["crossing_flangeway"][2] == pytest.approx(80 - side - 5 - 12.5)
    assert found["nose"][1:] == pytest.approx((5, 80 - side - 30 - 12.5))
    assert found["tread_width"][0] == pytest.approx(side + 30 + 5 + 12.5)
    assert found["play"][2] == pytest.approx(play + 4 + 8 + 2 * 2 + 2 * ride)
    assert found["flange_scrap"][1] == pytest.approx(setting.flange_reach_mm - 2)
    assert found["flangeway_depth"] == (16.5, 17.5, None)
    assert found["flange_depth"][1:] == (15, 16)
    assert found["depth_scrap"][1:] == (16.5, 17.5)  # the flangeway's depth before 1.2 x 15
    assert found["hollow"][1:] == (1.5, 2.0)
    # an axle of 2 x 1962 N pushed by 400 N from rest: a step of r (1 - cos atan(400 / 3924))
    step = 150 * (1 - math.cos(math.atan(400 / 3924)))
    assert found["joint_step"][2] == pytest.approx(step)
    round_corner = {row.key: row for row in standards(running_setting(rail_corner_radius_mm=9.0))}
    assert round_corner["twist"].most == pytest.approx(6 / 0.6)  # 9 of 15 lie beside the rounding
    single = standards(running_setting(axles=1))
    assert next(row.most for row in single if row.key == "twist") is None
