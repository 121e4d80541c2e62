"""The way in pieces: what is refused, by key."""

from __future__ import annotations

from typing import Any

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.setting.way import (
    WaySpec,
    assumed_way,
    curve_faults,
    least_radius_m,
    way_faults,
)
from tests.parts.checks.running.settings import running_setting

SETTING = running_setting(steepest_gradient_percent=3.0)
TRACK, WAGON = SETTING.track, SETTING.wagon


def keys(*way: WaySpec) -> list[str]:
    return [fault.key for fault in way_faults(way, TRACK, WAGON)]


@pytest.mark.parametrize(
    ("values", "key"),
    [
        ({}, "share"),
        ({"share": 0.5, "length_m": 50.0}, "length_m"),
        ({"share": 0.0}, "share"),
        ({"share": 1.1}, "share"),
        ({"length_m": 50.0, "radius_m": 0.0}, "radius_m"),
        ({"share": 0.5, "joints_per_km": -1.0}, "joints_per_km"),
    ],
)
def test_a_piece_that_is_refused(values: dict[str, Any], key: str) -> None:
    with pytest.raises(SpecError) as caught:
        WaySpec(**values)
    assert key in [fault.key for fault in caught.value.faults]


def test_shares_of_more_than_all() -> None:
    half, more = WaySpec(share=0.5), WaySpec(share=0.51)
    assert keys(half, half) == []
    assert keys(half, more) == ["way"]


def test_shares_and_lengths_do_not_mix() -> None:
    assert keys(WaySpec(share=0.5), WaySpec(length_m=10.0)) == ["way[1].length_m"]
    assert keys(WaySpec(length_m=5.0), WaySpec(length_m=10.0)) == []


def test_curves_that_the_track_or_the_wagon_does_not_have() -> None:
    """Tightest 10 m; a wheelbase of 600 mm passes 0.424 m, 45 degrees of yaw."""
    assert least_radius_m(WAGON) == pytest.approx(0.4243, abs=1e-4)
    assert keys(WaySpec(share=0.5, radius_m=9.9)) == ["way[0].radius_m"]
    assert keys(WaySpec(share=0.5, radius_m=0.4)) == ["way[0].radius_m"]
    assert keys(WaySpec(share=0.5, radius_m=10.0)) == []
    (fault,) = way_faults((WaySpec(share=0.5, radius_m=0.4),), TRACK, WAGON)
    assert fault.advice == "radius_m = 10"  # not one that the tightest curve would refuse
    steep = WaySpec(share=0.1, gradient_percent=3.1)
    assert keys(WaySpec(share=0.5), steep) == ["way[1].gradient_percent"]


def test_a_tightest_curve_that_the_wheelbase_does_not_pass() -> None:
    long = unchecked(WAGON, {"wheelbase_mm": 14_150.0})
    assert [fault.key for fault in curve_faults(TRACK, long)] == ["track.min_curve_radius_m"]
    assert list(curve_faults(TRACK, unchecked(long, {"axles": 1}))) == []
    assert list(curve_faults(TRACK, WAGON)) == []


def test_what_is_assumed_of_a_way_that_is_not_described() -> None:
    (curve,) = assumed_way(TRACK)
    assert (curve.share, curve.radius_m, curve.gradient_percent) == (0.25, 10.0, 0.0)


@pytest.mark.parametrize(
    ("values", "key"),
    [
        ({"spring_sag_mm": 10.0}, "spring_sag_mm"),
        ({"unsprung_kg": 201.0}, "unsprung_kg"),
        ({"frame_torsion_kn_m2": 0.0}, "frame_torsion_kn_m2"),
    ],
)
def test_what_contradicts_in_a_wagon(values: dict[str, Any], key: str) -> None:
    """800 kg on four wheels: 200 kg each; a wagon without springs has no sag."""
    with pytest.raises(SpecError) as caught:
        running_setting(**values)
    assert [fault.key for fault in caught.value.faults] == [key]


@pytest.mark.parametrize("key", ["stiffness_n_per_mm", "contact_stiffness_n_per_mm"])
def test_a_track_without_stiffness_is_refused(key: str) -> None:
    with pytest.raises(SpecError) as caught:
        running_setting(**{key: 0.0})
    assert [fault.key for fault in caught.value.faults] == [key]
