"""Tolerances of gauge and back-to-back, and the play that goes with them."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.base.faults import SpecError
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.usual_clearance import (
    least_play_mm,
    published_play_mm,
    usual_flangeway_mm,
    usual_play_mm,
)
from tests.parts.checks.running.settings import running_setting
from tests.parts.checks.settings import TRACK


def track(**keys: Any) -> TrackSpec:
    return TrackSpec(**({k: v for k, v in TRACK.items() if k != "gauge_tolerance_mm"} | keys))


@pytest.mark.parametrize(
    ("keys", "off"),
    [
        ({}, (-2.0, 5.0)),  # coal mines of 600 mm gauge, main track, second-hand
        ({"kind": "temporary"}, (-5.0, 10.0)),  # the same rules, temporary track
        ({"gauge_mm": 184.0}, (0.0, 6.0)),  # NEM 110G (2013): 184 to 190
        ({"gauge_mm": 260.0}, (0.0, 8.0)),  # the same: 260 to 268
        ({"gauge_mm": 120.7}, (0.0, 4.0)),  # NMRA S-3.2, 1 in: 120.7 to 124.7
        ({"gauge_mm": 184.0, "kind": "permanent"}, (-2.0, 5.0)),
        ({"gauge_tolerance_mm": [-1, 3.5]}, (-1.0, 3.5)),
    ],
)
def test_tolerance_of_the_gauge(keys: dict[str, Any], off: tuple[float, float]) -> None:
    found = track(**keys, gauge_widening_mm=4.0)
    assert found.gauge_off_mm == off
    assert found.least_gauge_mm == found.gauge_mm + off[0]
    assert found.most_gauge_mm == found.gauge_mm + 4 + off[1]


@pytest.mark.parametrize(
    ("pair", "word"),
    [
        ([5.0, -2.0], "the least first"),
        ([1.0, 2.0], "least at most 0"),
        ([-2.0, -1.0], "least at most 0"),
        ([-50.0, 5.0], "sides of up to 45.7 mm"),
        ([1.0], "two numbers"),
        ("2", "two numbers"),
        ([True, 2.0], "two numbers"),
        (["-2", "5"], "two numbers"),
        ([-2.0, float("nan")], "two numbers"),
        (5.0, "two numbers"),
    ],
)
def test_tolerances_that_cross_are_refused_by_key(pair: Any, word: str) -> None:
    with pytest.raises(SpecError) as told:
        track(gauge_tolerance_mm=pair)
    assert {fault.key for fault in told.value.faults} == {"gauge_tolerance_mm"}
    assert word in str(told.value)


def test_a_back_to_back_that_crosses_is_refused_by_key() -> None:
    with pytest.raises(SpecError, match=r"back_to_back_tolerance_mm: found \[1\.0, -1\.0\]"):
        AxleSpec(back_to_back_tolerance_mm=(1.0, -1.0))
    assert AxleSpec(back_to_back_tolerance_mm=(-1.0, 1.0)).back_to_back_tolerance_mm == (-1, 1)


@pytest.mark.parametrize("key", ["flangeway_mm", "check_rail_flangeway_mm"])
def test_a_flangeway_of_half_the_gauge_is_refused_by_key(key: str) -> None:
    with pytest.raises(SpecError, match=f"^{key}: found 50.0; allowed: below half the gauge"):
        track(gauge_mm=100.0, **({"flangeway_mm": 20.0} | {key: 50.0}))


@pytest.mark.parametrize(
    ("gauge", "play"),
    [
        (600.0, 600 - (540 + 2 * 25)),  # KBO 1912, paragraph 31
        (1435.0, 1435 - (1360 + 2 * 32.5)),  # EBO annex 6, flanges of 32.5
        (45.0, 45 - (40.25 + 2 * 1.25)),  # G1MRA standard, middles
        (184.15, 184.15 - (182.63 - 0.255)),  # IBLS, 7 1/4 in, middle
        (1000.0, 10.0),
    ],
)
def test_usual_play_is_that_of_published_standards(gauge: float, play: float) -> None:
    assert published_play_mm(gauge) == pytest.approx(play, abs=0.01)


@given(st.floats(100, 2000), st.floats(0, 30))
def test_usual_play_never_binds(gauge: float, tight: float) -> None:
    play = usual_play_mm(gauge, tight)
    assert play >= published_play_mm(gauge) - 1e-6
    assert play - tight >= least_play_mm(gauge) - 1e-6
    assert play < max(published_play_mm(gauge), least_play_mm(gauge) + tight) + 1


def test_play_follows_the_kind_of_track() -> None:
    """457 mm: 7.2 as published, up to 8; temporary track of 5 less and wheels 1 apart keep 2."""
    changes: dict[str, Any] = {"gauge_mm": 457.0, "gauge_tolerance_mm": None}
    changes["back_to_back_tolerance_mm"] = None
    assert running_setting(**changes).play_mm == 8.0
    assert running_setting(**changes, kind="temporary").play_mm == 8.0
    assert running_setting(**(changes | {"gauge_tolerance_mm": (-9.0, 9.0)})).play_mm == 12.0


@pytest.mark.parametrize(
    ("gauge", "flange", "way"),
    [
        (600.0, 20.0, 32.0),  # KBO 1912, turnouts of field railways
        (184.0, 2.0, 8.0),  # NEM 110G: 6 to 8
        (260.0, 6.0, 12.0),  # the same: 10 to 11.5
        (457.0, 13.0, 24.0),  # between: 11.5 + 20.5 x 197 / 340 = 23.4
        (184.0, 9.3, 15.0),  # no less than the flange and 5 mm
        (1435.0, 20.0, 41.0),
    ],
)
def test_usual_flangeway(gauge: float, flange: float, way: float) -> None:
    assert usual_flangeway_mm(gauge, flange) == way
    assert usual_flangeway_mm(gauge, flange, way + 0.2) == way + 1


def test_the_usual_flangeway_passes_the_backs_too() -> None:
    """A gauge of up to 630: check rail and wing rail are just within the backs."""
    for own in (None, 25.0):
        keys: dict[str, Any] = {"gauge_tolerance_mm": (0.0, 30.0), "check_rail_flangeway_mm": own}
        setting = running_setting(**keys)
        span = 630 - (own or setting.flangeway_mm) - setting.flangeway_mm
        assert 0 <= setting.back_to_back_mm - span < 2
