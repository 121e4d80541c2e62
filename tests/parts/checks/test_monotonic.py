"""What must never go the wrong way, for settings around the demo."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.cli.job.job import job_of
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import CHECKS
from platewheel.parts.checks.running import climb, rough_track
from platewheel.parts.rating.rate import Rating, rate
from platewheel.parts.setting.setting import Setting
from tests.places import DEMO

DEMO = job_of(tomllib.loads(DEMO.read_text("utf-8"))).setting
COARSE_MM = 4.0  # mesh, for speed
ROUNDING = 1e-9
SOME = settings(deadline=None, derandomize=True, max_examples=60)
FEW = settings(deadline=None, derandomize=True, max_examples=3)  # each solves two wheels


def _sizes(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


def _pair(low: float, high: float) -> st.SearchStrategy[tuple[float, float]]:
    """The lesser and the greater of two sizes."""
    return st.tuples(_sizes(low, high), _sizes(low, high)).map(lambda two: (min(two), max(two)))


# Keys about the demo's own, such that the wheel can be made.
WHEEL = st.fixed_dictionaries(
    {
        "tread_diameter_mm": _sizes(290, 420),
        "vent_circle_mm": _sizes(150, 220),
        "tread_width_mm": _sizes(50, 80),
        "flange_depth_mm": _sizes(8, 25),
        "flange_angle_deg": _sizes(50, 90),
        "flange_thickness_mm": _sizes(4, 10),
        "disc_thickness_mm": _sizes(4, 10),
    }
)
TRACK = st.fixed_dictionaries(
    {
        "min_curve_radius_m": _sizes(4, 40),
        "gauge_widening_mm": _sizes(0, 15),
        "twist_mm_per_m": _sizes(0, 30),
        "rail_corner_radius_mm": _sizes(0, 8),
        "cant_mm": st.just(0.0) | _sizes(0, 60),
    }
)
WAGON = st.fixed_dictionaries(
    {
        "payload_kg": _sizes(0, 1500),
        "wheelbase_mm": _sizes(400, 1500),
        "max_speed_km_h": _sizes(1, 30),
        "centre_of_gravity_mm": st.none() | _sizes(200, 2000),
        "suspension": st.sampled_from(["rigid", "three-point", "sprung"]),
        "axles": st.integers(2, 4),
    }
)
SECTIONS = st.fixed_dictionaries({"wheel": WHEEL, "track": TRACK, "wagon": WAGON})
Sections = dict[str, dict[str, Any]]


def changed(setting: Setting, **sections: dict[str, Any]) -> Setting:
    """The setting with some keys of some sections changed. Raises: SpecError."""
    specs = {}
    for name, keys in sections.items():
        spec = getattr(setting, name)
        specs[name] = type(spec)(**(spec.model_dump() | keys))
    return replace(setting, **specs)


def no_less(more: float, less: float, share: float = ROUNDING) -> bool:
    return more >= less - share * max(1.0, abs(less))


def margin(result: CheckResult | None) -> float:
    assert result is not None
    assert result.margin is not None
    return result.margin


def static_n(rating: Rating) -> float:
    """Least load that any limit but fatigue allows."""
    return min(limit.load_n for limit in rating.limits if limit.damage is None)


@FEW
@given(st.floats(4, 9), st.floats(0.5, 4), st.floats(5, 8), st.floats(0, 0.4))
def test_more_wall_never_lowers_the_static_rating(
    wall: float, more: float, disc: float, lateral: float
) -> None:
    """To half a percent, as each wall has its own coarse mesh."""
    setting = changed(
        DEMO,
        wheel={"disc_thickness_mm": disc, "vent_circle_mm": 240},
        use={"lateral_share": lateral},
    )
    loads = [
        static_n(rate(changed(setting, wheel={"tread_thickness_mm": mm}), size_mm=COARSE_MM)[0])
        for mm in (wall, wall + more)
    ]
    assert no_less(loads[1], loads[0], 0.005)


@SOME
@given(SECTIONS, _pair(2, 60))
def test_more_flange_never_lowers_the_twist_margin(
    sections: Sections, depths: tuple[float, float]
) -> None:
    setting = changed(DEMO, **sections)
    shallow, deep = (
        margin(rough_track.twist_lift(changed(setting, wheel={"flange_depth_mm": depth})))
        for depth in depths
    )
    assert no_less(deep, shallow)


@SOME
@given(SECTIONS, _pair(45, 90), st.floats(0.2, 0.9))
def test_a_steeper_flange_never_lowers_the_climb_margin(
    sections: Sections, angles: tuple[float, float], friction: float
) -> None:
    setting = changed(DEMO, **sections, use={"friction_high": friction})
    flat, steep = (
        margin(climb.flange_climb(changed(setting, wheel={"flange_angle_deg": angle})))
        for angle in angles
    )
    assert no_less(steep, flat)


def margins(setting: Setting) -> dict[str, float | None]:
    """Margin of every check, by its id; None where there is none."""
    found = [result for check in CHECKS if (result := check(setting))]
    by_id = {result.id: result.margin for result in found}
    assert len(by_id) == len(found)
    return by_id


@SOME
@given(SECTIONS, _pair(0.5, 60))
def test_more_speed_raises_no_margin(sections: Sections, speeds: tuple[float, float]) -> None:
    """Nor does a check that a slow wagon leaves open find a fast one good."""
    setting = changed(DEMO, **sections)
    slow, fast = (margins(changed(setting, wagon={"max_speed_km_h": speed})) for speed in speeds)
    assert slow.keys() == fast.keys()
    for id, before in slow.items():
        after = fast[id]
        if before is None:
            assert after is None, id
        elif after is not None:
            assert no_less(before, after), id


def test_speed_depth_and_angle_count_at_all() -> None:
    """The margins above move, so that they could move the wrong way."""
    wagon, wheel = DEMO.wagon, DEMO.wheel
    faster = changed(DEMO, wagon={"max_speed_km_h": 2 * wagon.max_speed_km_h})
    before, after = margins(DEMO), margins(faster)
    falling = {id for id, value in after.items() if value is not None and value < before[id] - 0.01}
    assert falling >= {"overturning", "cant-deficiency", "flange-climb"}
    deeper = changed(DEMO, wheel={"flange_depth_mm": wheel.flange_depth_mm + 5})
    steeper = changed(DEMO, wheel={"flange_angle_deg": wheel.flange_angle_deg + 5})
    assert margins(deeper)["twist-lift"] > before["twist-lift"] + 0.01
    assert margins(steeper)["flange-climb"] > before["flange-climb"] + 0.01
