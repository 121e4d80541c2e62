"""A wheel to start from: made for every gauge, with the proportions that it says."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.propose.first_wheel import (
    TUBE_WALL_MM,
    TUBES_MM,
    first_bore_mm,
    first_line,
    first_wheel,
    first_wheelbase_mm,
)
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.wagon import WagonSpec
from platewheel.parts.setting.way import curve_faults
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.spec import WheelSpec

GAUGES = st.floats(100, 2000)


def started(gauge_mm: float, **more: object) -> WheelSpec:
    line = first_line(gauge_mm)
    values: dict[str, object] = {
        "gauge_mm": gauge_mm,
        "rail_head_mm": line.rail_head_width_mm,
        "sheets_mm": line.sheets_mm,
        "roll_most_mm": 8.0,
        "process": "plasma",
    }
    bore = first_bore_mm(gauge_mm, (line.tare_kg + line.payload_kg) / 2)
    return WheelSpec(**first_wheel(line.tread_diameter_mm, bore, **values | more))  # type: ignore[arg-type]


@given(GAUGES)
def test_every_gauge_has_a_track_a_wagon_and_a_wheel_that_can_be_made(gauge: float) -> None:
    line = first_line(gauge)
    wheelbase = first_wheelbase_mm(gauge, line.min_curve_radius_m)
    track = TrackSpec(
        gauge_mm=gauge,
        rail_head_width_mm=line.rail_head_width_mm,
        min_curve_radius_m=line.min_curve_radius_m,
    )
    wagon = WagonSpec(tare_kg=line.tare_kg, payload_kg=line.payload_kg, wheelbase_mm=wheelbase)
    assert list(curve_faults(track, wagon)) == []
    wheel = started(gauge)
    assert wheel.tread_width_mm >= track.rail_head_width_mm
    assert wheel.tread_diameter_mm < gauge + 60


@given(st.floats(1, 10000), GAUGES)
def test_the_wheelbase_lies_in_the_curve(radius: float, gauge: float) -> None:
    wheelbase = first_wheelbase_mm(gauge, radius)
    assert 100 <= wheelbase <= max(100, min(1.5 * gauge, 100 * radius) + 5)


@given(st.floats(10, 100), st.sampled_from(["plasma", "laser", "hand"]))
def test_the_tube_leaves_its_wall_round_the_bore_and_is_one_that_is_sold(
    bore: float, process: str
) -> None:
    wheel = WheelSpec(
        **first_wheel(
            600, bore, gauge_mm=600, rail_head_mm=30, sheets_mm=[6, 8], roll_most_mm=8,
            process=process,
        )
    )  # fmt: skip
    assert wheel.hub_tube_outside_mm in TUBES_MM
    assert wheel.hub_tube_outside_mm - bore >= 2 * TUBE_WALL_MM
    less = [d for d in TUBES_MM if d < wheel.hub_tube_outside_mm]
    assert not less or less[-1] - bore < 2 * TUBE_WALL_MM


def test_the_bore_keeps_the_stress_of_an_axle_by_its_bending() -> None:
    """Twice the load on twice the gauge is four times the moment, on 4 ** (1/3) the diameter."""
    assert first_bore_mm(457, 215) == 35
    assert first_bore_mm(914, 430) == pytest.approx(35 * 4 ** (1 / 3), abs=2.5)
    assert first_bore_mm(184, 40) < 35 < first_bore_mm(600, 1000)


@pytest.mark.parametrize(
    ("sheets", "roller", "ring", "disc"),
    [
        ((6.0, 8.0), 8.0, 8.0, 6.0),
        ((6.0, 8.0), 6.0, 6.0, 6.0),
        ((4.0, 10.0, 12.0), 20.0, 12.0, 10.0),  # 4 mm is below a 50th of 300 mm
        ((10.0,), 6.0, 10.0, 10.0),  # the check of the roller tells it
        ((6.0, 15.0), 20.0, 6.0, 6.0),  # 15 mm is more than a 25th
    ],
)
def test_ring_and_discs_are_of_the_plates_to_hand(
    sheets: tuple[float, ...], roller: float, ring: float, disc: float
) -> None:
    wheel = started(457, sheets_mm=sheets, roll_most_mm=roller)
    assert (wheel.tread_thickness_mm, wheel.flange_thickness_mm) == (ring, ring)
    assert wheel.disc_thickness_mm == disc
    assert wheel.weld_throat_mm == max(3, int(2 * 0.7 * min(ring, disc)) / 2)


def test_the_tread_is_wide_enough_for_the_box_and_the_vents_fit_between_hub_and_ring() -> None:
    def values(tread_mm: float, sheet_mm: float) -> dict[str, float]:
        return first_wheel(
            tread_mm, 15, gauge_mm=184, rail_head_mm=10, sheets_mm=[sheet_mm], roll_most_mm=20,
            process="plasma",
        )  # fmt: skip

    thick = values(400, 12)  # two insets of 8, two discs of 12, 12 between them
    assert thick["tread_width_mm"] == 60
    small = values(110, 6)  # a tube of 33.7 in a ring of 98 mm inside: a fifth of the rest
    assert small["hub_tube_outside_mm"] == 33.7
    assert small["vent_diameter_mm"] == 12


@given(st.floats(200, 400), st.sampled_from([(6.0, 8.0), (6.35,), (4.76, 7.94)]))
def test_steel_beside_the_vents_can_be_cut_in_plates_of_inches_too(
    tread: float, sheets: tuple[float, ...]
) -> None:
    """Shop guides: a web as wide as the plate is thick. 304.8 mm of 1/4 inch had 6.25 mm of it."""
    keys = first_wheel(
        tread, 25.4, gauge_mm=381.0, rail_head_mm=25.4, sheets_mm=sheets, roll_most_mm=8.0,
        process="hand",
    )  # fmt: skip
    wheel = WheelSpec(**keys)
    outer = (disc_diameter_mm(wheel, "field") - wheel.vent_circle_mm - wheel.vent_diameter_mm) / 2
    assert outer >= wheel.disc_thickness_mm - 1e-9
