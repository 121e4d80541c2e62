"""Welded wheels measured again: pairing, shrinkage, the flange's angle."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.running.flange_window import flange_window
from platewheel.parts.making.weld_shrinkage import Shrinkage
from platewheel.parts.refit.measured_ring import MeasuredRing, ring_faults
from platewheel.parts.refit.plan import plan_refit
from platewheel.parts.refit.welded_wheel import (
    TAPE_MM,
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
    ("welded_mm", "bad"), [(300.0, False), (297.1, False), (296.9, True), (301.2, True)]
)
def test_welds_take_less_than_a_hundredth_and_add_nothing(welded_mm: float, bad: bool) -> None:
    faults = ring_faults(plain_wheel(), ring("1", 300.0, welded_mm))
    assert [fault.key for fault in faults] == ["after_welding_mm"] * bad


def test_an_angle_read_from_the_wrong_side_is_refused() -> None:
    drawn = plain_wheel()
    for angle_deg, bad in (
        (drawn.flange_angle_deg, False),
        (drawn.flange_angle_deg - 14.9, False),
        (90 - drawn.flange_angle_deg, True),
        (drawn.flange_angle_deg + 15.1, True),
    ):
        one = MeasuredRing(
            ring="1", outside_circumference_mm=math.pi * 300, flange_angle_deg=angle_deg
        )
        faults = ring_faults(drawn, one)
        assert [fault.key for fault in faults] == ["flange_angle_deg"] * bad
        assert all("90 less" in fault.advice for fault in faults)


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
