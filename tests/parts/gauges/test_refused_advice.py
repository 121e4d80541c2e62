"""What the refusal of a gauge advises, followed: that gauge can then be made, and all others still.

Advice is read from its sentence as a person reads it.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.checks.trying import with_keys
from platewheel.parts.gauges.spec import GaugesSpec
from platewheel.parts.gauges.wanted import wanted_gauges
from platewheel.parts.setting.setting import Setting
from tests.parts.gauges.drawn_settings import setting_of, settings_drawn
from tests.parts.gauges.test_outlines import ALL
from tests.parts.wheels import plain_wheel

VALUE = re.compile(r"([a-z]+\.[a-z_]+) = (\[[^]]*\]|-?[0-9.e-]+)")


def refused(setting: Setting, kerf_mm: float, asked: GaugesSpec = ALL) -> tuple[Fault, ...]:
    try:
        wanted_gauges(asked, setting, kerf_mm)
    except SpecError as error:
        return error.faults
    return ()


def followed(fault: Fault, setting: Setting, kerf_mm: float) -> tuple[Setting, float] | None:
    """The setting and the kerf with the values advised; None where none are."""
    found = VALUE.findall(fault.advice)
    for key, text in found:
        if key == "cutting.kerf_mm":
            kerf_mm = float(text)
            continue
        pair = tuple(float(one) for one in text.strip("[]").split(","))
        other = with_keys(setting, {key: pair if text.startswith("[") else pair[0]})
        assert other is not None, f"{key} = {text} is refused by its own section"
        setting = other
    return (setting, kerf_mm) if found else None


@given(settings_drawn(), st.sampled_from([0.3, 1.7, 4.0]))
def test_values_advised_let_the_gauge_be_made(setting: Setting, kerf_mm: float) -> None:
    before = refused(setting, kerf_mm)
    for fault in before:
        then = followed(fault, setting, kerf_mm)
        if then is not None:
            assert len(refused(*then)) < len(before), f"{fault}: {refused(*then)}"


@pytest.mark.parametrize(
    ("track", "use", "kerf_mm", "advice"),
    [
        ({"gauge_tolerance_mm": (0.0, 0.0), "gauge_widening_mm": 0.0}, {}, 1.7,
         "track.gauge_widening_mm = 0.4"),
        ({"gauge_tolerance_mm": (-0.1, 4.0)}, {}, 1.7, "track.gauge_tolerance_mm = [-2, 5]"),
        ({"gauge_tolerance_mm": (-2.0, 4.0), "gauge_widening_mm": 0.2}, {}, 1.7,
         "track.gauge_widening_mm = 0"),
        ({"gauge_tolerance_mm": (-0.1, 4.0), "gauge_widening_mm": 0.2}, {}, 1.7,
         "track.gauge_tolerance_mm = [-2, 5] and track.gauge_widening_mm = 0"),
        ({}, {"wear_allowance_mm": 0.0}, 1.7, "use.wear_allowance_mm = 0.4"),
    ],
)  # fmt: skip
def test_the_first_value_that_helps_is_advised(
    track: dict[str, object], use: dict[str, float], kerf_mm: float, advice: str
) -> None:
    asked = GaugesSpec(track=True, wear=True, thickness_mm=5.0)
    (fault,) = refused(setting_of(track=track, **use), kerf_mm, asked)
    assert fault.advice.split(", or ")[0] == advice


def test_a_kerf_is_advised_that_goes_into_the_notches() -> None:
    thin = plain_wheel(flange_thickness_mm=2.0, flange_angle_deg=90.0, root_weld_mm=2.0)
    asked = GaugesSpec(wear=True, thickness_mm=5.0)
    (fault,) = refused(setting_of(thin), 1.7, asked)
    assert fault.advice == "cutting.kerf_mm = 1.5, or wear = false"
    assert not refused(setting_of(thin), 1.5, asked)
    assert refused(setting_of(thin), 1.51, asked)
    low = plain_wheel(flange_depth_mm=3.0)
    (fault,) = refused(setting_of(low), 4.0, GaugesSpec(flange=True, thickness_mm=5.0))
    assert fault.advice == "cutting.kerf_mm = 3, or flange = false"


def test_no_value_is_advised_with_which_another_gauge_is_refused() -> None:
    """Wheels 0.5 mm further apart leave a check rail 16.5 mm: 16.7 and 16.9 are then too much."""
    setting = setting_of()
    exact = setting.axle.model_copy(update={"back_to_back_tolerance_mm": (-0.1, 0.1)})
    asked = GaugesSpec(back_to_back=True, flangeway=True, thickness_mm=5.0)
    for way, advice in (
        (16.5, "axle.back_to_back_tolerance_mm = [-0.5, 0.5]"),
        (16.7, "axle.back_to_back_tolerance_mm = [-0.2, 0.2]"),
        (16.9, "measure with a caliper"),
    ):
        track = setting.track.model_copy(update={"check_rail_flangeway_mm": way})
        (fault,) = refused(replace(setting, axle=exact, track=track), 1.7, asked)
        assert fault.advice == f"{advice}, or back_to_back = false"
