"""What holds the wheel on its axle: every way by a sum of its own, and where it turns."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from platewheel.parts.checks.advice import with_cures
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.wheelset.axle_crack import axle_fatigue_safety
from platewheel.parts.checks.wheelset.bearings import bearing_years, bush_edge, most_loaded_n
from platewheel.parts.checks.wheelset.wheel_retention import key_wall, press_hub, wheel_held
from platewheel.parts.loads.wheel_load import side_force_n, wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import wheelset
from platewheel.parts.wheelset.wheel_seat import held_by_shape, wheel_seat
from tests.parts.settings import demo_setting

DEMO = demo_setting()
LOAD = wheel_load_n(DEMO)
TORQUE = 0.36 * LOAD * 150  # friction until the wheel slips
PUSH = side_force_n(DEMO)


def with_keys(axle: dict[str, object], **wheel: object) -> Setting:
    made = type(DEMO.wheel)(**(DEMO.wheel.model_dump() | wheel))
    return replace(DEMO, axle=type(DEMO.axle)(**axle), wheel=made)


def held(setting: Setting) -> CheckResult:
    return wheel_held(setting, wheelset(setting))


def test_key_and_its_screws_by_hand() -> None:
    """Two M6: 893 lbf each at rest, a quarter of it; they govern over the key's side."""
    result = held(DEMO)
    screws = 2 * (540 + (6 / 25.4 - 0.19) / 0.06 * 460) * 4.4482216 / 4
    assert result.value == pytest.approx(PUSH / screws, rel=1e-6)
    assert result.value is not None
    assert result.value > 2 * TORQUE / (40 * 70 * 3) / (235 / 1.5)


def test_a_shoulder_takes_the_push_so_that_the_key_governs() -> None:
    setting = with_keys({"body_diameter_mm": 45.0})
    assert held_by_shape(wheelset(setting), inwards=True)
    assert held(setting).value == pytest.approx(2 * TORQUE / (40 * (70 - 12) * 3) / (235 / 1.5))


def test_a_key_is_pressed_by_the_weaker_of_hub_and_axle() -> None:
    """C45 normalised yields at 305, S355 of 8.5 mm wall at 355, a bar of 40 mm of it at 345."""
    setting = with_keys({"steel": "C45"}, steel="S355")
    seat = wheel_seat(setting, wheelset(setting))
    assert (seat.hub_fy_n_mm2, seat.axle_fy_n_mm2) == (355, 305)
    same = with_keys({"steel": "S355"}, steel="S355")
    assert wheel_seat(same, wheelset(same)).axle_fy_n_mm2 == 345
    bare = with_keys({}, hub_tube_length_mm=0.0, hub_tube_outside_mm=0.0)
    assert wheel_seat(bare, wheelset(bare)).hub_fy_n_mm2 == 235  # of its discs of 6 mm


def told(setting: Setting) -> str:
    """What is advised where the wheel is not held, as `check` tells it."""
    made = wheelset(setting)
    found = {one.id: one for one in with_cures([held(setting)], setting, made)}
    return found["wheel-held"].says.split("this would do: ")[1]


@pytest.mark.parametrize(("payload_kg", "alone"), [(500.0, True), (1000.0, False)])
def test_what_is_advised_in_place_of_screws_holds(payload_kg: float, alone: bool) -> None:
    wagon = DEMO.wagon.model_copy(update={"payload_kg": payload_kg})
    setting = replace(with_keys({"retention": "screws"}), wagon=wagon)
    assert told(setting).startswith('axle.retention = "key"') == alone
    key, weld = (replace(setting, axle=type(DEMO.axle)(retention=way)) for way in ("key", "weld"))
    for other, does in ((key, alone), (weld, False)):
        both = held(other), axle_fatigue_safety(other, wheelset(other))
        assert all(one.verdict == "pass" for one in both) == does


def test_a_weld_that_cracks_is_not_advised_in_place_of_a_key() -> None:
    """It would hold, but a crack comes: only on a thicker axle."""
    wagon = DEMO.wagon.model_copy(update={"payload_kg": 1200.0})
    setting = replace(with_keys({}), wagon=wagon)
    for way in told(setting).split("; or "):
        assert "weld" not in way or "hub_bore_mm" in way
    welded = replace(with_keys({"retention": "weld"}), wagon=wagon)
    assert held(welded).verdict == "pass"
    assert axle_fatigue_safety(welded, wheelset(welded)).verdict == "fail"


def test_screws_alone_do_not_drive_a_wheel() -> None:
    result = held(with_keys({"retention": "screws"}))
    assert result.verdict == "fail"
    assert "another way to hold it" in result.says


def test_a_hub_without_room_takes_no_screw() -> None:
    """A tube only 4 mm out of each disc is all weld."""
    setting = with_keys({}, hub_tube_length_mm=52.0)
    assert wheel_seat(setting, wheelset(setting)).screw_mm == 0
    result = held(setting)
    assert (result.value, result.verdict) == (None, "fail")
    assert "no room" in result.says


def test_weld_by_hand() -> None:
    """Simplified method: torque, half the push and the couple on each end's circle."""
    result = held(with_keys({"retention": "weld"}))
    around = math.pi * 40
    turning = TORQUE / (40 / 2) / (2 * around)
    across = (PUSH * 150 / 70 + LOAD / 2) / around
    force = 1.5 * math.hypot(turning, PUSH / 2 / around, across)
    assert result.value == pytest.approx(force / (4 * 360 / (math.sqrt(3) * 0.8 * 1.25)), rel=1e-6)


def test_press_fit_holds_by_its_least_overlap() -> None:
    """40 H7/s6: 18 um at least, 8 of them left over the roughness; the tightest yields the hub."""
    setting = with_keys({"retention": "press", "journal_diameter_mm": 35.0})
    result = held(setting)
    p = 210000 * 0.008 / (2 * 40) * (1 - (40 / 57) ** 2)
    holds = 0.07 * p * math.pi * 40 * 70
    assert result.value == pytest.approx(1.5 * math.hypot(2 * TORQUE / 40, PUSH) / holds)
    hub = press_hub(setting, wheelset(setting))
    assert hub is not None
    assert hub.value == pytest.approx(210000 * (0.059 - 0.010) / 40)
    assert hub.verdict == "warn"


def test_a_thin_hub_has_no_wall_for_a_keyway() -> None:
    made = key_wall(DEMO, wheelset(DEMO))
    assert made is not None
    assert made.value == pytest.approx(1 - 3.3 / 8.5)
    thin = with_keys({}, hub_tube_outside_mm=50.0)
    result = key_wall(thin, wheelset(thin))
    assert result is not None
    assert result.verdict == "fail"
    assert "hub_tube_outside_mm = 54" in result.says  # 40 + 4 x 3.3, up


def test_loose_wheels_are_held_by_collars_and_tilt_on_their_bearings() -> None:
    loose = with_keys(
        {"wheels_on_axle": "loose", "bearing": "deep-groove"},
        hub_bore_mm=62.0,
        hub_tube_outside_mm=76.0,
    )
    made = wheelset(loose)
    inner, outer = (z for z in made.bearing_z_mm if z > 0)
    shares = LOAD * abs((457 + 25) / 2 - inner) / (outer - inner)
    most = max(shares, LOAD - shares) + side_force_n(loose) * 150 / (outer - inner)
    assert most_loaded_n(loose, made) == pytest.approx(most)
    life = bearing_years(loose, made)
    assert life is not None
    assert 0 < (life.value or 0) < (bearing_years(DEMO, wheelset(DEMO)).value or 0)
    assert held(loose).value == pytest.approx(
        (held(DEMO).value or 0) * side_force_n(loose) / side_force_n(DEMO)
    )  # two M6 in each collar too
    bushed = with_keys({"wheels_on_axle": "loose"})
    edge = bush_edge(bushed, wheelset(bushed))
    assert edge is not None
    couple = side_force_n(bushed) * 150 + LOAD * abs(wheelset(bushed).hub_centres_mm - 482) / 2
    assert edge.value == pytest.approx(LOAD / (30 * 70) + 6 * couple / (30 * 70**2))
    assert bush_edge(DEMO, wheelset(DEMO)) is None


def test_an_axle_too_thin_for_a_screw_says_so_and_a_shoulder_helps() -> None:
    loose = {"wheels_on_axle": "loose", "bearing": "deep-groove", "frames": "outside"}
    result = held(with_keys(loose))
    assert result.verdict == "fail"
    assert "an axle of 17 mm is too thin" in result.says
    assert told(with_keys(loose)).startswith("axle.body_diameter_mm = ")
    assert held(with_keys({**loose, "body_diameter_mm": 23.0})).verdict == "pass"
    assert "axle.body_diameter_mm" not in told(with_keys({**loose, "frames": "inside"}))
