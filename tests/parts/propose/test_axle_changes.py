"""A thicker axle takes its hub along; steels and bearings offered are others."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.propose.axle_changes import (
    other_bearings,
    stronger_steels,
    thicker_bores_mm,
    with_bore,
)
from platewheel.parts.propose.line_changes import line_changes, with_change
from platewheel.parts.setting.axle import AxleSpec
from tests.parts.settings import demo_setting

SETTING = demo_setting()  # bored 40 in a tube of 60.3 mm


def test_bores_are_those_of_bearings_and_the_tube_keeps_its_share() -> None:
    """Insert bearings are made for 45, 50, 55 and 60 mm (ISO 9628, bore codes 09 to 12)."""
    bored = SETTING.wheel.hub_bore_mm
    share = SETTING.wheel.hub_tube_outside_mm / bored
    bores = thicker_bores_mm(SETTING)
    assert bores == (45.0, 50.0, 55.0, 60.0)
    for bore in bores:
        other = with_bore(SETTING, bore).wheel
        assert other.hub_bore_mm == bore
        assert share * bore <= other.hub_tube_outside_mm < share * bore + 1
    assert not thicker_bores_mm(
        replace(SETTING, axle=AxleSpec(wheels_on_axle="loose", bearing="bush"))
    )


def test_given_diameters_grow_as_much() -> None:
    given = SETTING.axle.model_copy(update={"diameter_mm": 40.0, "journal_diameter_mm": 35.0})
    axle = with_bore(replace(SETTING, axle=given), 50.0).axle
    assert (axle.diameter_mm, axle.journal_diameter_mm, axle.body_diameter_mm) == (50.0, 45.0, None)
    with pytest.raises(SpecError):
        with_bore(replace(SETTING, axle=given), 200.0)


def test_steels_are_stronger_and_what_may_not_be_welded_is_not_offered() -> None:
    """EN 10025-2 and EN 10083-2: 360, 410, 470 and 580 N/mm2 at 40 mm."""
    weak = replace(SETTING, axle=SETTING.axle.model_copy(update={"steel": "S275"}))
    assert stronger_steels(weak) == ("S355", "C45")
    welded = replace(weak, axle=AxleSpec(steel="S275", retention="weld"))
    offered = {row.key: row.values for row in line_changes(welded)}
    assert offered["axle.steel"] == ("S355",)
    assert "axle.steel" not in {row.key for row in line_changes(welded, with_axle=False)}


def test_bearings_are_others_unless_a_size_is_named() -> None:
    assert other_bearings(SETTING) == ("deep-groove", "bush")
    named = replace(SETTING, axle=SETTING.axle.model_copy(update={"bearing_name": "UC208"}))
    assert other_bearings(named) == ()


def test_told_with_the_tube_that_goes_along() -> None:
    row = next(row for row in line_changes(SETTING) if row.key == "wheel.hub_bore_mm")
    tube = with_change(SETTING, row.key, 45.0).wheel.hub_tube_outside_mm
    assert row.told(45.0) == (
        f"wheel.hub_bore_mm = 45 in place of 40 (a thicker axle, hub_tube_outside_mm = {tube:g})"
    )
