"""Settings that the tests of the checks share."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.setting import GRAVITY, Setting
from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.setting.wagon import WagonSpec
from tests.parts.wheels import plain_wheel, valid_wheels

TRACK: dict[str, Any] = {
    "gauge_mm": 457.0,
    "gauge_tolerance_mm": (0.0, 0.0),
    "rail_head_width_mm": 36.0,
    "rail_corner_radius_mm": 3.0,
    "min_curve_radius_m": 12.0,
    "cant_mm": 12.0,  # more than 6 km/h ask for: no sideways force of speed
}


def mass_kg(wheel_load_n: float) -> float:
    """Gross mass of a wagon of two axles with this mean wheel load."""
    return 4 * wheel_load_n / GRAVITY


def setting_of(
    load_n: float = 10_000.0,
    *,
    wheel: dict[str, Any] | None = None,
    track: dict[str, Any] | None = None,
    use: dict[str, Any] | None = None,
    axle: dict[str, Any] | None = None,
    shop: dict[str, Any] | None = None,
    coating: Any = "galvanized",
    process: str = "plasma",
    speed_km_h: float = 6.0,
) -> Setting:
    """The plain wheel on a flat rail, design wheel load `load_n` (no shock, all wheels even)."""
    wagon = WagonSpec(
        tare_kg=mass_kg(load_n),
        payload_kg=0.0,
        wheelbase_mm=600.0,
        load_unevenness=1.0,
        shock_factor=1.0,
        max_speed_km_h=speed_km_h,
    )
    return Setting(
        wheel=plain_wheel(**(wheel or {})),
        track=TrackSpec(**(TRACK | (track or {}))),
        wagon=wagon,
        finish=FinishSpec(coating=coating),
        use=UseSpec(**({"lateral_share": 0.4, "friction_high": 0.5} | (use or {}))),
        axle=AxleSpec(**({"back_to_back_tolerance_mm": (0.0, 0.0)} | (axle or {}))),
        shop=ShopSpec(**(shop or {})),
        process=process,
    )


@st.composite
def any_settings(draw: st.DrawFn) -> Setting:
    """Any wheel that the spec takes, on any track and in any workshop."""

    def number(low: float, high: float) -> float:
        return draw(st.floats(low, high, allow_nan=False))

    head = number(3, 100)
    track = TrackSpec(
        gauge_mm=number(100, 2000),
        rail_head_width_mm=head,
        rail_head_radius_mm=draw(st.just(0.0) | st.floats(1, 1000)),
        rail_corner_radius_mm=min(30.0, head / 2) * draw(st.sampled_from([0.0, 0.3, 1.0])),
        min_curve_radius_m=number(1, 100),
        gauge_widening_mm=number(0, 60),
    )
    wagon = WagonSpec(
        tare_kg=number(1, 50000),
        payload_kg=number(0, 100000),
        axles=draw(st.integers(1, 8)),
        wheelbase_mm=600.0,
        max_speed_km_h=number(0.1, 60),
        load_unevenness=number(1, 4),
        shock_factor=number(1, 5),
    )
    return Setting(
        wheel=draw(valid_wheels()),
        track=track,
        wagon=wagon,
        finish=FinishSpec(coating=draw(st.sampled_from(["galvanized", "painted", "bare"]))),
        use=UseSpec(lateral_share=number(0, 1.5)),
        axle=AxleSpec(
            wheels_on_axle=draw(st.sampled_from(["fixed", "loose"])),
            back_to_back_mm=draw(st.none() | st.floats(10, 2000)),
        ),
        shop=ShopSpec(
            roll_diameter_mm=number(1, 1000),
            roll_most_thickness_mm=number(1, 100),
            prebend=draw(st.booleans()),
            weld_reach_mm=number(1, 300),
        ),
        process=draw(st.sampled_from(["plasma", "laser", "oxy-fuel", "hand"])),
    )
