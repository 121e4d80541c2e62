"""Settings that the tests of running share: one by hand, and any that the specs take."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.setting.wagon import WagonSpec
from tests.parts.wheels import PLAIN, plain_wheel

# a true track and true wheels, so that figures are round; tolerances have tests of their own
PLAY_MM = 10.0  # usual on 600 mm gauge
TRUE: dict[str, Any] = {"back_to_back_tolerance_mm": (0.0, 0.0)}
TRACK: dict[str, Any] = {
    "gauge_mm": 600.0,
    "gauge_tolerance_mm": (0.0, 0.0),
    "rail_head_width_mm": 25.0,
    "rail_corner_radius_mm": 3.0,
    "min_curve_radius_m": 10.0,
}
# loads as a job may give them itself, so that checks of strength have round figures
WAGON: dict[str, Any] = {
    "tare_kg": 200.0,
    "payload_kg": 600.0,
    "wheelbase_mm": 600.0,
    "load_unevenness": 1.25,
    "shock_factor": 1.5,
}
USE: dict[str, Any] = {"lateral_share": 0.4, "friction_high": 0.5}


def running_setting(**changes: Any) -> Setting:
    """The plain wheel on 600 mm gauge with some keys, of whichever section, changed."""
    kinds = {"track": TrackSpec, "wagon": WagonSpec, "use": UseSpec, "axle": AxleSpec}
    kinds |= {"finish": FinishSpec, "shop": ShopSpec}
    sections: dict[str, dict[str, Any]] = {name: {} for name in ("wheel", *kinds)}
    process = changes.pop("process", "plasma")
    for key, value in changes.items():
        home = next((name for name, kind in kinds.items() if key in kind.model_fields), "wheel")
        assert home != "wheel" or key in PLAIN or key in type(plain_wheel()).model_fields
        sections[home][key] = value
    return Setting(
        wheel=plain_wheel(**sections["wheel"]),
        track=TrackSpec(**(TRACK | sections["track"])),
        wagon=WagonSpec(**(WAGON | sections["wagon"])),
        use=UseSpec(**(USE | sections["use"])),
        axle=AxleSpec(**(TRUE | sections["axle"])),
        finish=FinishSpec(**sections["finish"]),
        shop=ShopSpec(**sections["shop"]),
        process=process,
    )


def _between(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


# Any value of the keys that running depends on, out to the ends of what the specs allow.
ANY_KEYS: dict[str, st.SearchStrategy[Any]] = {
    "flange_depth_mm": _between(2, 100) | _between(8, 30),
    "flange_angle_deg": _between(45, 90) | st.sampled_from([45.0, 70.0, 90.0]),
    "flange_thickness_mm": _between(1, 12),
    "tread_taper_1_in": st.sampled_from([0.0, 5.0, 20.0, 1000.0]),
    "gauge_mm": _between(100, 2000),
    "rail_corner_radius_mm": _between(0, 12),
    "min_curve_radius_m": _between(1, 10000) | _between(5, 50),
    "gauge_widening_mm": st.just(0.0) | _between(0, 60),
    "twist_mm_per_m": _between(0, 100),
    "joint_step_mm": _between(0, 20),
    "flangeway_mm": _between(5, 49),
    "flangeway_depth_mm": st.none() | _between(5, 200),
    "joint_gap_mm": _between(0, 60),
    "cant_mm": st.just(0.0) | _between(0, 200),
    "tare_kg": _between(1, 50000) | _between(50, 500),
    "payload_kg": _between(0, 100000),
    "axles": st.integers(1, 8),
    "wheelbase_mm": _between(100, 10000) | _between(400, 1200),
    "max_speed_km_h": _between(0.1, 60),
    "centre_of_gravity_mm": st.none() | _between(1, 3000),
    "suspension": st.sampled_from(["rigid", "three-point", "sprung"]),
    "wear_allowance_mm": _between(0, 20),
    "lateral_share": _between(0, 1.5),
    "friction_low": _between(0.01, 0.2),
    "friction_high": _between(0.2, 0.9),
    "push_force_n": _between(1, 20000),
    "back_to_back_mm": st.none() | _between(10, 2000),
    "wheels_on_axle": st.sampled_from(["fixed", "loose"]),
}
ANY_SETTING_KEYS = st.fixed_dictionaries(ANY_KEYS)
