"""Wheels that the tests share: one by hand, a handful by name, and any that the spec takes."""

from __future__ import annotations

from typing import Any

from hypothesis import assume
from hypothesis import strategies as st

from platewheel.parts.base.faults import SpecError
from platewheel.parts.wheel.spec import WheelSpec

PLAIN: dict[str, Any] = {
    "tread_diameter_mm": 300.0,
    "tread_width_mm": 60.0,
    "tread_thickness_mm": 8.0,
    "flange_depth_mm": 15.0,
    "flange_angle_deg": 70.0,
    "flange_thickness_mm": 6.0,
    "disc_thickness_mm": 6.0,
    "hub_bore_mm": 35.0,
    "hub_tube_outside_mm": 57.0,
    "hub_tube_length_mm": 70.0,
    "vent_circle_mm": 240.0,
}


def plain_wheel(**changes: Any) -> WheelSpec:
    """The plain wheel with some keys changed. Raises: SpecError."""
    return WheelSpec(**(PLAIN | changes))


WHEELS: dict[str, WheelSpec] = {
    "plain": plain_wheel(),
    "three-segments": plain_wheel(flange_segments=3),
    "tapered": plain_wheel(tread_taper_1_in=20.0, flange_segments=2),
    "bar": plain_wheel(tread_from="bar", vent_count=3, flange_angle_deg=60.0),
    "pipe": plain_wheel(tread_from="pipe", tread_taper_1_in=20.0, seam_gap_mm=1.0),
    "washer": plain_wheel(flange_angle_deg=90.0, seam_gap_mm=0.0, vent_count=4),
    "no-tube-no-vents": plain_wheel(
        hub_tube_length_mm=0.0, hub_tube_outside_mm=0.0, vent_count=0, fit_clearance_mm=0.0
    ),
    "short-weld-room": plain_wheel(
        disc_field_inset_mm=2.0, disc_gauge_inset_mm=0.0, hub_tube_length_mm=62.0
    ),
    "both-sides": plain_wheel(
        first_disc_both_sides=True, root_backed=True, seam="dressed", flange_segments=2
    ),
    "flat-flare": plain_wheel(flange_angle_deg=45.0, flange_thickness_mm=12.0, root_weld_mm=9.0),
}


def _between(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


@st.composite
def valid_wheels(draw: st.DrawFn) -> WheelSpec:
    """Any wheel that the spec takes: sizes drawn as shares of the room that they have.

    Whether a draw is allowed is for the spec alone to say; what it refuses is drawn again.
    """
    share = _between(0.02, 0.98)
    diameter = draw(_between(60, 2000) | _between(150, 500))
    width = draw(_between(10, 400) | _between(30, 90))
    wall = draw(_between(1, min(50, 0.19 * diameter)))
    made_from = draw(st.sampled_from(["sheet", "sheet", "bar", "pipe"]))
    taper = draw(st.just(0.0) | _between(5, 1000)) if made_from != "bar" else 0.0
    slope_loss = width / taper if taper else 0.0
    disc = draw(_between(1, min(40, width / 3)))
    room = width - 2 * disc
    field_inset = draw(st.sampled_from([0.0, 0.1]) | share) * room / 2
    gauge_inset = draw(st.sampled_from([0.0, 0.1]) | share) * room / 2
    least_disc = diameter - 2 * slope_loss - 2.1 * wall - 12
    assume(least_disc > 10)
    throat = draw(_between(0.5, 20) | st.just(3.0))
    clearance = draw(_between(0, 5) | st.just(0.5))
    has_tube = draw(st.booleans())
    hub = min(500, least_disc * draw(_between(0.05, 0.9)))
    tube = hub * draw(_between(0.3, 0.95)) if has_tube else 0.0
    vent_room = (least_disc - hub) / 2
    vent = min(200, draw(_between(0.05, 0.6)) * vent_room)
    circle = hub + 1.2 * vent + draw(share) * 2 * max(0.0, vent_room - 1.2 * vent)
    span = width - field_inset - gauge_inset
    try:
        return WheelSpec(
            tread_diameter_mm=diameter,
            tread_width_mm=width,
            tread_thickness_mm=wall,
            tread_from=made_from,
            tread_taper_1_in=taper,
            flange_depth_mm=draw(_between(2, 100) | _between(8, 30)),
            flange_angle_deg=draw(_between(45, 90) | st.sampled_from([45.0, 70.0, 90.0])),
            flange_thickness_mm=draw(_between(1, 40) | _between(3, 12)),
            flange_segments=draw(st.integers(1, 12) | st.just(1)),
            disc_thickness_mm=disc,
            disc_field_inset_mm=field_inset,
            disc_gauge_inset_mm=gauge_inset,
            hub_bore_mm=tube if has_tube else hub,
            hub_tube_outside_mm=hub if has_tube else 0.0,
            hub_tube_length_mm=span * (1 + draw(_between(0, 0.5))) if has_tube else 0.0,
            vent_count=draw(st.integers(0, 8) | st.just(2)),
            vent_diameter_mm=vent,
            vent_circle_mm=circle,
            fit_clearance_mm=clearance,
            seam_gap_mm=draw(st.just(0.0) | _between(0.5, 10)),
            weld_throat_mm=throat,
            root_weld_mm=draw(_between(1, 40) | st.just(5.0)),
            root_backed=draw(st.booleans()),
            first_disc_both_sides=draw(st.booleans()),
            seam=draw(st.sampled_from(["as-welded", "dressed"])),
        )
    except SpecError:
        assume(False)
        raise
