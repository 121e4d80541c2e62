"""The chart of speeds: its rows, straight lines between them, and nothing beyond."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.cut_speed import CutSpeed, Pace, hole_pace, pace, speed_faults
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.base.faults import SpecError


def row(thickness: float, speed: float, pierce: float, **more: object) -> CutSpeed:
    values: dict = {"thickness_mm": thickness, "speed_mm_per_min": speed, "pierce_s": pierce}
    return CutSpeed(**(values | more))


CHART = [row(4.0, 3000.0, 0.4), row(10.0, 1000.0, 1.0), row(6.0, 2000.0, 0.6)]  # any order


def keys(cutting: Cutting, rows: list[CutSpeed], *thicknesses: float) -> list[str]:
    faults = list(speed_faults(cutting, rows, thicknesses))
    assert all(fault.allowed and fault.advice for fault in faults)
    return [fault.key for fault in faults]


def test_a_row_is_taken_as_it_is() -> None:
    assert pace(Cutting(), CHART, 6.0) == Pace(2000.0, 0.6)


@pytest.mark.parametrize(
    ("thickness", "speed", "pierce"), [(5.0, 2500.0, 0.5), (8.0, 1500.0, 0.8), (9.0, 1250.0, 0.9)]
)
def test_half_way_and_three_quarters_by_hand(thickness: float, speed: float, pierce: float) -> None:
    found = pace(Cutting(), CHART, thickness)
    assert found.speed_mm_per_min == pytest.approx(speed)
    assert found.pierce_s == pytest.approx(pierce)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.floats(4, 10))
def test_between_the_two_neighbours(thickness: float) -> None:
    low, high = (4.0, 6.0) if thickness <= 6 else (6.0, 10.0)
    found = pace(Cutting(), CHART, thickness).speed_mm_per_min
    slow, fast = (pace(Cutting(), CHART, t).speed_mm_per_min for t in (high, low))
    assert slow - 1e-9 <= found <= fast + 1e-9


@pytest.mark.parametrize("thickness", [3.9, 10.1, 40.0])
def test_beyond_the_chart_is_an_error_that_names_the_key(thickness: float) -> None:
    assert keys(Cutting(), CHART, 5.0, thickness) == ["cut_speed"]
    with pytest.raises(SpecError, match=f"cut_speed: found 'no speed for {thickness:g} mm'"):
        pace(Cutting(), CHART, thickness)


def test_one_row_reaches_its_own_thickness_alone() -> None:
    assert pace(Cutting(), CHART[:1], 4.0) == Pace(3000.0, 0.4)
    assert keys(Cutting(), CHART[:1], 4.0, 4.1) == ["cut_speed"]


def test_without_a_chart_the_cutting_table_tells() -> None:
    told = Cutting(cut_speed_mm_per_min=1800.0, pierce_s=2.0)
    assert pace(told, [], 25.0) == Pace(1800.0, 2.0)
    assert keys(told, [], 25.0) == []
    assert pace(Cutting(process="oxy-fuel"), [], 25.0).speed_mm_per_min == 500


def test_a_current_picks_its_rows() -> None:
    rows = [
        row(6.0, 1500.0, 0.5, current_a=45.0),
        row(6.0, 3000.0, 0.5, current_a=85.0),
        row(6.0, 4000.0, 0.2, process="laser"),
    ]
    assert pace(Cutting(current_a=85.0), rows, 6.0).speed_mm_per_min == 3000
    assert pace(Cutting(process="laser"), rows, 6.0).speed_mm_per_min == 4000
    assert keys(Cutting(), rows, 6.0) == ["cutting.current_a"]  # which of the two?
    assert keys(Cutting(current_a=60.0), rows, 6.0) == ["cutting.current_a"]
    assert keys(Cutting(process="laser", current_a=60.0), rows, 6.0) == ["cutting.current_a"]
    assert keys(Cutting(process="oxy-fuel"), rows, 6.0) == ["cut_speed"]
    assert pace(Cutting(), rows[:1], 6.0).speed_mm_per_min == 1500  # one current: no choice


def test_keys_that_contradict_each_other_are_told() -> None:
    assert keys(Cutting(current_a=45.0), [], 6.0) == ["cutting.current_a"]
    both = Cutting(cut_speed_mm_per_min=2000.0)
    assert keys(both, CHART, 6.0) == ["cutting.cut_speed_mm_per_min"]
    assert keys(Cutting(), [*CHART, row(6.0, 9.0, 1.0)], 6.0) == ["cut_speed[3].thickness_mm"]


@pytest.mark.parametrize("key", ["thickness_mm", "speed_mm_per_min", "pierce_s"])
def test_every_figure_of_a_row_must_be_given(key: str) -> None:
    values = {"thickness_mm": 6.0, "speed_mm_per_min": 2000.0, "pierce_s": 0.5}
    with pytest.raises(SpecError) as caught:
        CutSpeed(**{k: v for k, v in values.items() if k != key})
    assert [fault.key for fault in caught.value.faults] == [key]


HOLES = [
    *CHART,
    row(4.0, 1800.0, 0.5, hole_up_to_mm=37.0),
    row(6.0, 1300.0, 0.7, hole_up_to_mm=37.0),
    row(6.0, 1000.0, 0.9, hole_up_to_mm=15.0),
]


@pytest.mark.parametrize(
    ("thickness", "diameter", "speed", "pierce"),
    [
        (6.0, 37.0, 1300.0, 0.7),
        (6.0, 37.1, 2000.0, 0.6),  # no such hole: as every edge
        (6.0, 15.0, 1000.0, 0.9),
        (6.0, 15.1, 1300.0, 0.7),
        (4.0, 10.0, 1800.0, 0.5),  # rows for small holes do not reach 4 mm
        (5.0, 20.0, 1550.0, 0.6),  # half way
        (8.0, 20.0, 1500.0, 0.8),  # beyond the rows for holes
    ],
)
def test_a_hole_has_the_pace_of_the_rows_for_its_size(
    thickness: float, diameter: float, speed: float, pierce: float
) -> None:
    found = hole_pace(Cutting(), HOLES, thickness, diameter)
    assert found.speed_mm_per_min == pytest.approx(speed)
    assert found.pierce_s == pytest.approx(pierce)
    assert pace(Cutting(), HOLES, thickness) == pace(Cutting(), CHART, thickness)
    assert keys(Cutting(), HOLES, thickness) == []


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.floats(4, 10), st.floats(1, 60), st.floats(0, 30))
def test_smaller_holes_are_never_cut_faster(thickness: float, size: float, more: float) -> None:
    """Where the rows reach a thickness at all; nothing is faster than an edge."""
    at = 6.0 if thickness > 6 else thickness
    small, large = (hole_pace(Cutting(), HOLES, at, d) for d in (size, size + more))
    assert small.speed_mm_per_min <= large.speed_mm_per_min
    assert large.speed_mm_per_min <= pace(Cutting(), HOLES, at).speed_mm_per_min


def test_no_rows_for_holes_change_nothing() -> None:
    assert hole_pace(Cutting(), CHART, 5.0, 10.0) == pace(Cutting(), CHART, 5.0)
    assert hole_pace(Cutting(pierce_s=2.0), [], 5.0, 10.0) == Pace(2000.0, 2.0)
    laser = [row(6.0, 4000.0, 0.1, process="laser")]
    laser.append(row(6.0, 900.0, 0.1, process="laser", hole_up_to_mm=50.0))
    assert hole_pace(Cutting(), [*CHART, *laser], 6.0, 10.0) == Pace(2000.0, 0.6)


def test_rows_for_holes_that_do_not_fit_the_others_are_told() -> None:
    twice = [*HOLES, row(6.0, 1200.0, 0.7, hole_up_to_mm=37.0)]
    assert keys(Cutting(), twice, 6.0) == ["cut_speed[6].thickness_mm"]
    alone = [*CHART, row(5.0, 1200.0, 0.7, hole_up_to_mm=37.0)]  # between: no row to compare with
    assert keys(Cutting(), alone, 6.0) == ["cut_speed[3].thickness_mm"]
    assert keys(Cutting(), HOLES[3:4], 4.0) == ["cut_speed[0].thickness_mm", "cut_speed"]
    fast = [*CHART, row(6.0, 2001.0, 0.7, hole_up_to_mm=37.0)]
    assert keys(Cutting(), fast, 6.0) == ["cut_speed[3].speed_mm_per_min"]
    unsorted = [*HOLES, row(6.0, 1001.0, 0.7, hole_up_to_mm=10.0)]
    assert keys(Cutting(), unsorted, 6.0) == ["cut_speed[6].speed_mm_per_min"]
    (fault,) = speed_faults(Cutting(), unsorted, [6.0])
    assert "at most 1000, as for holes up to 15 mm" in fault.allowed
    equal = [*CHART, row(6.0, 2000.0, 0.7, hole_up_to_mm=37.0)]
    assert keys(Cutting(), equal, 6.0) == []


def test_rows_by_hand_know_neither_pierce_nor_hole() -> None:
    rows = [
        CutSpeed(process="hand", thickness_mm=6.0, speed_mm_per_min=120.0, pierce_s=0.5),
        CutSpeed(
            process="hand",
            thickness_mm=6.0,
            speed_mm_per_min=60.0,
            pierce_s=0.0,
            hole_up_to_mm=40.0,
        ),
    ]
    faults = [fault.key for fault in speed_faults(Cutting(process="hand"), rows, [6.0])]
    assert faults == ["cut_speed[0].pierce_s", "cut_speed[1].hole_up_to_mm"]
    assert not list(
        speed_faults(Cutting(process="hand"), [rows[0].model_copy(update={"pierce_s": 0.0})], [6.0])
    )
