"""Gauges between wheels and between rails measure what the setting asks."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString
from shapely.affinity import scale

from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.checks.running.crossings import (
    check_gauge,
    check_span,
    flangeway_depth,
    flangeway_width,
)
from platewheel.parts.checks.running.curve import fits_curve
from platewheel.parts.checks.running.points import crossing_gap
from platewheel.parts.gauges.back_to_back import BAND_MM, back_to_back_gauge
from platewheel.parts.gauges.edge import bite_mm
from platewheel.parts.gauges.flangeway import (
    BODY_MM,
    check_rail_gauge,
    check_rail_limits_mm,
    flangeway_gauge,
    flangeway_limits_mm,
)
from platewheel.parts.gauges.gauge import Gauge
from platewheel.parts.gauges.track import BEARING_MM, gauge_steps, track_gauge
from platewheel.parts.setting.setting import Setting
from tests.parts.gauges.drawn_settings import (
    STUFF,
    across,
    plate,
    setting_of,
    settings_drawn,
)
from tests.parts.wheels import plain_wheel


def with_track(setting: Setting, **keys: Any) -> Setting:
    return replace(setting, track=unchecked(setting.track, keys))


def made(maker: Any, setting: Setting) -> Gauge:
    try:
        gauge = maker(setting, STUFF)
    except SpecError:
        gauge = None
    assume(gauge is not None)
    assert isinstance(gauge, Gauge)
    return gauge


@given(settings_drawn())
def test_both_halves_of_the_back_to_back_gauge(setting: Setting) -> None:
    shape = plate(made(back_to_back_gauge, setting))
    low, high = setting.back_to_back_off_mm
    for level, off in ((0.5, high), (1.5, low)):
        left, right = across(shape, level * BAND_MM)
        assert right - left == pytest.approx(setting.back_to_back_mm + off)
        assert left == 0
    bite = bite_mm(STUFF, BAND_MM)  # in the end of the shorter half, none off the longer's shoulder
    _, deepest = across(shape, BAND_MM + bite / 2)
    assert deepest == pytest.approx(setting.back_to_back_mm + low - bite / 2)


@given(settings_drawn())
def test_each_step_of_the_track_gauge_at_rail_corner_depth(setting: Setting) -> None:
    track, shape = setting.track, plate(made(track_gauge, setting))
    steps = gauge_steps(track)
    reach = next(m.value for m in track_gauge(setting, STUFF).sizes if "reaches" in m.name)
    deep = reach / len(steps)
    for i, step in enumerate(steps):
        left, right = across(shape, i * deep + BEARING_MM / 2)
        assert right == pytest.approx(step.value / 2)
        assert left == pytest.approx(-step.value / 2)
    assert steps[0].value == pytest.approx(track.least_gauge_mm)
    assert steps[-1].value == pytest.approx(track.most_gauge_mm)
    assert track.gauge_mm in [pytest.approx(step.value) for step in steps]
    # a step bears on the rail's side below its rounding, and the bar on all of the head
    assert deep >= track.rail_corner_radius_mm + BEARING_MM - 1e-9
    assert shape.bounds[2] == pytest.approx(track.most_gauge_mm / 2 + track.rail_head_width_mm)


def test_sizes_that_are_the_same_are_one_step() -> None:
    loose = setting_of(track={"gauge_tolerance_mm": (0.0, 5.0), "gauge_widening_mm": 0.0})
    names = [(step.name, step.value) for step in gauge_steps(loose.track)]
    assert names == [("least and nominal", 457.0), ("greatest", 462.0)]
    curve = with_track(loose, gauge_widening_mm=4.0)
    assert [step.value for step in gauge_steps(curve.track)] == [457.0, 462.0, 466.0]
    use = track_gauge(curve, STUFF).use
    assert "the step 462.0 goes in only in the tightest curve" in use
    assert "spiked up to the step 457.0" in use


@pytest.mark.parametrize(
    ("gauge", "bar", "lug"), [(150.0, 40.0, None), (457.0, 40.0, 40.0), (1000.0, 62.5, 40.0)]
)
def test_the_bar_is_a_sixteenth_of_the_gauge_and_stands_on_lugs(
    gauge: float, bar: float, lug: float | None
) -> None:
    """40 mm high at least; below 160 mm, two lugs of 40 mm leave too little to cut out."""
    track = {"gauge_mm": gauge, "gauge_tolerance_mm": (-2.0, 5.0), "gauge_widening_mm": 0.0}
    shape = plate(track_gauge(setting_of(track=track), STUFF))
    foot = 3 * (4 + max(1.5 * 1.7, setting_of().track.rail_corner_radius_mm))
    assert shape.bounds[3] == pytest.approx(foot + bar)
    assert shape.symmetric_difference(scale(shape, -1, 1, origin=(0, 0))).area < 1e-6
    inside = shape.intersection(LineString([(0.0, 1.0), (gauge, 1.0)])).bounds
    assert inside[2] == pytest.approx(gauge / 2 - 1)
    assert inside[0] == pytest.approx(0.0 if lug is None else gauge / 2 - 1 - lug)


def test_a_published_gauge_of_track() -> None:
    """NMRA S-3.2, fine scale of 88.9 mm: 88.9 to 91.6; ours by the same share."""
    steps = gauge_steps(
        setting_of(
            track={"gauge_mm": 120.7, "gauge_widening_mm": 0.0, "gauge_tolerance_mm": None}
        ).track
    )
    assert steps[0].value == 120.7
    assert steps[-1].value == pytest.approx(124.7, abs=0.5)


@given(settings_drawn())
def test_tongues_go_where_the_checks_of_crossings_say(setting: Setting) -> None:
    setting = with_track(setting, check_rail_flangeway_mm=None)
    assume(fits_curve(setting))
    least, greatest = flangeway_limits_mm(setting)
    assume(greatest - least >= 0.4)
    assume(least >= 5.2 and greatest + 0.2 < setting.track.gauge_mm / 2)
    setting = with_track(setting, flangeway_mm=(least + greatest) / 2)
    shape = plate(flangeway_gauge(setting, STUFF))
    near = BODY_MM / 2 + 0.99 * (shape.bounds[2] - BODY_MM / 2)
    go, most = ((b - a) for a, b in (across(shape, x, upright=True) for x in (-near, near)))
    assert (go, most) == pytest.approx((least, greatest))
    low, high = across(shape, 0.0, upright=True)  # shoulders lie on either rail
    assert (low, high) == pytest.approx((-greatest / 2 - 12, greatest / 2 + 12))
    for width, passes in ((go, True), (go - 0.11, False)):
        there = with_track(setting, flangeway_mm=width)
        jams, span = flangeway_width(there), check_span(there)
        assert jams is not None
        assert (jams.verdict == span.verdict == "pass") == passes
    just, over = (with_track(setting, flangeway_mm=most + more) for more in (0.0, 0.11))
    assert crossing_gap(just).verdict == "pass"
    assert crossing_gap(over).verdict == "warn"
    long = shape.bounds[2] - BODY_MM / 2
    assert flangeway_depth(with_track(setting, flangeway_depth_mm=long)).verdict == "pass"
    assert flangeway_depth(with_track(setting, flangeway_depth_mm=long - 0.01)).verdict == "fail"


@given(settings_drawn())
def test_the_check_rail_gauge_stops_where_the_check_gauge_goes_wrong(setting: Setting) -> None:
    assume(fits_curve(setting))
    _, most = check_rail_limits_mm(setting)
    assume(5 <= most < setting.track.gauge_mm / 2 - 1)
    for more, verdict in ((0.0, "pass"), (0.11, "warn")):
        found = check_gauge(with_track(setting, check_rail_flangeway_mm=most + more))
        assert found is not None
        assert found.verdict == verdict


@given(st.integers(4200, 4350))
def test_limits_of_a_whole_tenth_stay_it(tenths: int) -> None:
    """Upright flange of 6 mm on 457 - 2 + 5: most 455 - B - 1 - 6, least (462 - B + 1) / 2."""
    upright = setting_of(
        plain_wheel(flange_angle_deg=90.0, flange_thickness_mm=6.0),
        {"gauge_tolerance_mm": (-2.0, 5.0), "gauge_widening_mm": 0.0},
    )
    axle = {"back_to_back_mm": tenths / 10, "back_to_back_tolerance_mm": (-1.0, 1.0)}
    setting = replace(upright, axle=upright.axle.model_copy(update=axle))
    assert check_rail_limits_mm(setting)[1] == round(448 - tenths / 10, 1)
    open_track = with_track(setting, check_rail_flangeway_mm=None)
    least = (4630 - tenths) / 2
    assert flangeway_limits_mm(open_track)[0] == math.ceil(least) / 10


def test_a_flangeway_that_its_gauge_would_refuse_is_refused() -> None:
    _, most = flangeway_limits_mm(setting_of())
    for width in (10.0, most + 1):
        with pytest.raises(SpecError, match=rf", not {width:g}; try: track.flangeway_mm = "):
            flangeway_gauge(setting_of(track={"flangeway_mm": width}), STUFF)
    narrow = setting_of(track={"rail_head_width_mm": 75.0})
    with pytest.raises(SpecError, match=r"0\.4 mm or more over the least"):
        flangeway_gauge(narrow, STUFF)
    unguarded = setting_of(track={"check_rail_flangeway_mm": None})
    assert check_rail_gauge(unguarded, STUFF) is None


def test_wheels_all_set_alike_have_no_gauge() -> None:
    setting = setting_of()
    exact = setting.axle.model_copy(update={"back_to_back_tolerance_mm": (-0.1, 0.2)})
    with pytest.raises(SpecError, match=r"not 0\.3: .*_tolerance_mm = \[-0.5, 0.5\]"):
        back_to_back_gauge(replace(setting, axle=exact), STUFF)
    near = setting.axle.model_copy(update={"back_to_back_mm": 40.9})
    with pytest.raises(SpecError, match=r"at least 40 mm apart, not 39.9"):
        back_to_back_gauge(replace(setting, axle=near), STUFF)
