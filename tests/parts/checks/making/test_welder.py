"""The welder's current: what it fuses, and what it lays in one run."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.checks.making.welder import (
    least_current_a,
    run_area_mm2,
    runs,
    throat_in_one_run_mm,
    weld_current,
)
from tests.parts.checks.running.settings import running_setting


# Handbook table of rods, from memory: 2 mm up to 3, 2.5 up to 5, 3.2 up to 12; 40 A a mm of rod
@pytest.mark.parametrize(
    ("plate", "amperes"), [(2, 80), (3, 80), (5, 100), (6, 128), (12, 128), (13, 160), (40, 160)]
)
def test_current_by_plate(plate: float, amperes: float) -> None:
    assert least_current_a(plate) == pytest.approx(amperes)


# Makers' tables of weld metal an hour, from memory: basic rods 2.4, 3.2 and 4 mm, a rutile one,
# metal-cored wire of 1.1 mm
@pytest.mark.parametrize(
    ("process", "amperes", "kg_h"),
    [
        ("rod", 70, 0.62), ("rod", 90, 0.75), ("rod", 120, 1.17), ("rod", 140, 1.24),
        ("rod", 140, 1.41), ("rod", 160, 1.71), ("rod", 180, 1.87), ("rod", 125, 0.95),
        ("wire", 90, 1.1), ("wire", 120, 1.4), ("wire", 150, 1.9), ("wire", 275, 4.8),
    ],
)  # fmt: skip
def test_no_more_weld_metal_than_makers_say(process: str, amperes: float, kg_h: float) -> None:
    """At 130 mm/min, 7.8 m an hour; a third less at most."""
    laid = run_area_mm2(amperes, process) * 7.85e-6 * 7800  # type: ignore[arg-type]
    assert 0.66 * kg_h <= laid <= kg_h * 1.01


def test_a_rod_at_140_amperes_lays_four_millimetres() -> None:
    """0.0076 x 140 = 1.064 kg/h; / 60 / 7.85e-6 / 130 = 17.4 mm2; its root 4.17."""
    assert throat_in_one_run_mm(140, "rod") == pytest.approx(4.17, abs=0.01)
    assert runs(16.0, 140, "rod") == 1
    assert runs(25.0, 140, "rod") == 2
    assert throat_in_one_run_mm(250, "rod") == throat_in_one_run_mm(180, "rod")  # the thickest rod


@given(st.floats(1, 400), st.floats(40, 300))
def test_runs_fill_the_section_and_one_less_does_not(section: float, amperes: float) -> None:
    count, one = runs(section, amperes, "rod"), run_area_mm2(amperes, "rod")
    assert count * one >= section * (1 - 1e-6)
    assert count == 1 or (count - 1) * one < section
    assert math.isfinite(one)


def test_a_weak_welder_is_told_of_the_thickest_plate() -> None:
    assert weld_current(running_setting()) is None
    fine = weld_current(running_setting(welder_most_a=128.0))
    weak = weld_current(running_setting(welder_most_a=90.0))
    assert fine is not None
    assert weak is not None
    assert (fine.verdict, weak.verdict) == ("pass", "warn")
    assert "90 A do not fuse into hub tube's wall = 11" in weak.says
