"""Welded wheels measured again: pairing, shrinkage, the flange's angle."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.running.flange_window import flange_window
from platewheel.parts.making.weld_shrinkage import Shrinkage
from platewheel.parts.refit.measured_ring import TAPE_MM, MeasuredRing, ring_faults
from platewheel.parts.refit.plan import plan_refit
from platewheel.parts.refit.welded_wheel import (
    is_surprising,
    running_diameters_mm,
    shrunk_mm,
    welded_angle,
)
from tests.parts.refit.test_roundness_border import setting
from tests.parts.wheels import plain_wheel


def ring(name: str, diameter_mm: float, welded_mm: float | None = None) -> MeasuredRing:
    return MeasuredRing(
        ring=name,
        outside_circumference_mm=math.pi * diameter_mm,
        after_welding_mm=None if welded_mm is None else math.pi * welded_mm,
    )


def test_welded_wheels_are_paired_by_what_welding_left() -> None:
    """As rolled 1 goes with 2 and 3 with 4; welded, 1 is as small as 3 and 2 as 4."""
    rolled, welded = (300.0, 300.1, 300.5, 300.6), (299.9, 299.2, 299.8, 299.3)
    bare = plan_refit(setting(), [ring(str(i), d) for i, d in enumerate(rolled)])
    both = plan_refit(
        setting(),
        [ring(str(i), d, w) for i, (d, w) in enumerate(zip(rolled, welded, strict=True))],
    )
    assert bare.pairing.pairs == ((0, 1), (2, 3))
    assert both.pairing.pairs == ((1, 3), (2, 0))
    assert (bare.after_welding, both.after_welding) == (False, True)
    assert both.diameters_mm == pytest.approx(welded)
    assert [one.size_mm for one in both.discs] == [one.size_mm for one in bare.discs]


def test_one_wheel_not_taped_again_has_all_paired_as_rolled() -> None:
    rings = [ring("1", 300.0, 299.0), ring("2", 300.4)]
    assert running_diameters_mm(rings) == (pytest.approx((300.0, 300.4)), False)
    assert running_diameters_mm([]) == ((), False)


def test_shrinkage_is_told_and_judged() -> None:
    assert shrunk_mm(ring("1", 300.0)) is None
    assert shrunk_mm(ring("1", 300.0, 299.6)) == pytest.approx(0.4)
    expected = Shrinkage(0.2, 0.2, 0.1, 0.1)  # 0.4 after, its own seam before
    assert expected.range_mm == pytest.approx((0.2, 0.8))
    for shrunk, surprising in (
        (0.2 - TAPE_MM - 0.01, True),
        (0.2 - TAPE_MM + 0.01, False),
        (0.8 + TAPE_MM - 0.01, False),
        (0.8 + TAPE_MM + 0.01, True),
    ):
        assert is_surprising(shrunk, expected) is surprising


@pytest.mark.parametrize(
    ("welded_mm", "bad"),
    [(300.0, False), (297.1, False), (296.9, True), (300.29, False), (300.35, True), (303.0, True)],
)
def test_welds_take_less_than_a_hundredth_and_add_no_more_than_a_tape_errs(
    welded_mm: float, bad: bool
) -> None:
    """942.5 mm as rolled; twice half a millimetre of a tape are 0.9 mm more."""
    faults = ring_faults(plain_wheel(), ring("1", 300.0, welded_mm))
    assert [fault.key for fault in faults] == ["after_welding_mm"] * bad
    assert all(f.allowed.startswith("933.0 to 943.5 mm") for f in faults)
    grown = [fault.advice.startswith("change the two round") for fault in faults]
    assert grown == [welded_mm > 300] * bad


def test_a_size_of_another_wheel_is_not_told_to_be_changed_round() -> None:
    (fault,) = ring_faults(plain_wheel(), ring("1", 300.0, 304.0))
    assert fault.advice.startswith("tape once round")


def test_an_angle_read_from_the_wrong_side_is_refused() -> None:
    drawn = plain_wheel(flange_angle_deg=70.0)
    for angle_deg, advice in (
        (70.0, None),
        (55.1, None),
        (85.1, "measure from the axle to the flange's rail-side face: 90 less"),
        (54.9, "measure from the axle"),
        (20.0, "70, read from the wheel's face"),
        (-70.0, "70, without the sign"),
        (-54.0, "measure from the axle"),
        (111.5, "68.5, read from the flange's back"),
        (0.0, "leave it empty where it was not measured"),
    ):
        one = MeasuredRing(
            ring="1", outside_circumference_mm=math.pi * 300, flange_angle_deg=angle_deg
        )
        faults = ring_faults(drawn, one)
        assert [fault.key for fault in faults] == ["flange_angle_deg"] * (advice is not None)
        assert all(fault.advice.startswith(advice or "") for fault in faults)
        assert all(fault.allowed.startswith("55 to 85 degrees") for fault in faults)


def test_a_measured_angle_is_held_against_the_window() -> None:
    """The window's own edge, of the drawn wheel: flatter climbs (Nadal's formula)."""
    one = setting(flange_angle_deg=80.0)
    window = flange_window(one)
    assert window.is_open
    good = welded_angle(one, window.least_deg + 1)
    assert good.verdict == "pass"
    flat = welded_angle(one, window.least_deg - 2)
    assert flat.verdict == "warn"
    assert "outside" in flat.says
    assert "measure it again" not in flat.says
    near = welded_angle(one, window.least_deg - 0.2)
    assert "measure it again" in near.says
    assert flat.source == good.source


def test_an_angle_that_no_wheel_has_is_told_and_not_dropped() -> None:
    steep = setting(flange_angle_deg=85.0)
    told = welded_angle(steep, 95.0)
    assert told.verdict == "fail"
    assert "up to 90" in told.says
