"""The wheelset's lengths by hand, what follows from its keys, and what cannot be made."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset, wheelset, wheelset_faults
from platewheel.parts.wheelset.iso_fits import fit
from tests.parts.checks.settings import setting_of

TUBE_35 = {"hub_bore_mm": 35.0, "hub_tube_outside_mm": 57.0, "hub_tube_length_mm": 70.0}


def of(wheel: dict[str, Any] | None = None, **axle: Any) -> Wheelset:
    return wheelset(setting_of(wheel=wheel, axle=axle))


def test_a_457_mm_wheelset_by_hand() -> None:
    """Flange 15 deep, 70 degrees, 6 thick: reach 15/tan 70 + 6 sin 70. Back-to-back 457 - 8 - 2
    reaches. The hub's middle is 30 of 60 mm tread in from the root: outer end 30 + 35 out."""
    found = of()
    angle = math.radians(70)
    reach = 15 / math.tan(angle) + 6 * math.sin(angle)
    assert setting_of().back_to_back_mm == pytest.approx(457 - 8 - 2 * reach)
    root = (457 - 8) / 2
    assert found.hub_centres_mm == pytest.approx(2 * (root + 30))
    assert found.hub_z_mm == pytest.approx((root - 5, root + 65))
    assert found.bearing is not None
    assert found.bearing.name == "UC207"
    # 15 mm running room, half the inner ring of 42.9 mm, rounded up to a whole millimetre
    assert found.bearing_centres_mm == math.ceil(2 * (root + 65 + 15 + 42.9 / 2))
    assert found.axle_length_mm == math.ceil(found.bearing_centres_mm + 42.9 + 2 * 5)
    assert found.steps == ((-found.axle_length_mm / 2, found.axle_length_mm / 2, 35.0),)
    assert found.contact_spacing_mm == 457 + 36


def test_a_thinner_journal_gives_shoulders_at_the_hubs() -> None:
    found = of(journal_diameter_mm=30.0)
    inner, outer = found.hub_z_mm
    assert inner < outer
    assert [d for *_, d in found.steps] == [30.0, 35.0, 30.0]
    assert found.steps[1][:2] == pytest.approx((-outer, outer))
    assert found.bearing is not None
    assert found.bearing.name == "UC206"


def test_a_hub_bore_between_bearing_sizes_takes_the_next_smaller_outside() -> None:
    found = of({**TUBE_35, "hub_bore_mm": 38.0})
    assert (found.seat_diameter_mm, found.journal_diameter_mm) == (38.0, 35.0)


def test_a_fillet_is_no_larger_than_its_shoulder() -> None:
    assert of({**TUBE_35, "hub_bore_mm": 32.0}).fillet_mm == 1.0  # 32 on 30
    assert of(journal_diameter_mm=25.0).fillet_mm == 2.0
    assert of(journal_diameter_mm=25.0, shoulder_fillet_mm=4.0).fillet_mm == 4.0


def test_and_the_next_larger_inside_where_it_goes_on_over_the_seat() -> None:
    found = of({**TUBE_35, "hub_bore_mm": 38.0}, frames="inside")
    assert (found.journal_diameter_mm, found.body_diameter_mm) == (40.0, 40.0)
    assert found.bearing_centres_mm < 2 * found.hub_z_mm[0]


def test_a_thick_body_has_its_shoulder_at_the_hub() -> None:
    found = of(body_diameter_mm=45.0)
    middle = next(step for step in found.steps if step[2] == 45.0)
    assert middle[1] == pytest.approx(found.hub_z_mm[0])


def test_loose_wheels_on_bushes_turn_on_what_the_walls_leave() -> None:
    found = of(wheels_on_axle="loose", bush_material="hardwood", bush_wall_mm=7.5)
    assert found.bearing is None
    assert found.bush is not None
    assert (found.bush.bore_mm, found.bush.length_mm, found.bush.material) == (20, 70, "hardwood")
    assert not found.turning
    assert found.seat_diameter_mm == 20
    assert len(found.bearing_z_mm) == 2


def test_a_given_dead_axle_sets_the_wall() -> None:
    found = of(wheels_on_axle="loose", diameter_mm=22.0)
    assert found.bush is not None
    assert found.bush.wall_mm == 6.5


def test_loose_wheels_on_ball_bearings_have_two_in_each_hub() -> None:
    found = of(wheels_on_axle="loose", bearing="deep-groove")
    assert found.bearing is not None
    assert (found.bearing.name, found.seat_diameter_mm) == ("6003", 17)
    inner, outer = found.hub_z_mm
    assert found.bearing_z_mm[2:] == pytest.approx((inner + 5, outer - 5))


def test_running_fits_are_free_and_pressed_ones_tight() -> None:
    for keys in ({"bearing": "bush"}, {"wheels_on_axle": "loose"}, {"bearing": "bush", **SHORT}):
        named = {place: fit(*rest) for place, *rest in of(**keys).fits}  # type: ignore[arg-type]
        assert named["axle in bush"][0] > 0
        outer = named.get("bush in frame") or named["bush in hub"]
        assert outer[1] < 0
    named = {place: fit(*rest) for place, *rest in of(retention="press").fits}
    assert named["wheel on axle"][1] < 0


SHORT = {"journal_diameter_mm": 30.0}

REFUSED = [
    ({"diameter_mm": 30.0}, "axle.diameter_mm"),
    ({"bearing_name": "UC313"}, "axle.bearing_name"),
    ({"bearing_name": "UC208"}, "axle.journal_diameter_mm"),
    ({"bearing_name": "UC206", "journal_diameter_mm": 25.0}, "axle.journal_diameter_mm"),
    ({"journal_diameter_mm": 33.0}, "axle.journal_diameter_mm"),
    ({"bearing": "bush", "journal_diameter_mm": 40.0}, "axle.journal_diameter_mm"),
    ({"journal_diameter_mm": 30.0, "frames": "inside"}, "axle.journal_diameter_mm"),
    ({"body_diameter_mm": 36.0, "shoulder_fillet_mm": 1.0}, "axle.shoulder_fillet_mm"),
    ({"bearing_centres_mm": 600.0}, "axle.bearing_centres_mm"),
    ({"bearing_centres_mm": 500.0, "frames": "inside"}, "axle.bearing_centres_mm"),
    ({"back_to_back_mm": 440.0}, "axle.back_to_back_mm"),
    ({"wheels_on_axle": "loose", "bush_length_mm": 80.0}, "axle.bush_length_mm"),
    ({"wheels_on_axle": "loose", "diameter_mm": 34.0}, "axle.diameter_mm"),
    ({"wheels_on_axle": "loose", "diameter_mm": 25.0, "bush_wall_mm": 3.0}, "axle.bush_wall_mm"),
    (
        {"wheels_on_axle": "loose", "bearing": "deep-groove", "bearing_name": "6205"},
        "axle.bearing_name",
    ),
    (
        {"wheels_on_axle": "loose", "bearing": "deep-groove", "diameter_mm": 20.0},
        "axle.bearing",
    ),
]


@pytest.mark.parametrize(
    ("axle", "key"), REFUSED, ids=[f"{key}-{i}" for i, (_, key) in enumerate(REFUSED)]
)
def test_what_cannot_be_made_is_told_by_its_key(axle: dict[str, Any], key: str) -> None:
    faults = wheelset_faults(setting_of(axle=axle))
    assert [fault.key for fault in faults] == [key]


@pytest.mark.parametrize(
    ("wheel", "axle", "key"),
    [
        (
            {"hub_tube_length_mm": 0.0, "hub_tube_outside_mm": 0.0},
            {"wheels_on_axle": "loose"},
            "wheel.hub_tube_length_mm",
        ),
        ({**TUBE_35, "hub_bore_mm": 8.0}, {"bearing": "bush"}, "wheel.hub_bore_mm"),
        ({**TUBE_35, "hub_bore_mm": 11.0}, {}, "axle.bearing"),
    ],
)
def test_a_hub_that_fits_no_axle(wheel: dict[str, Any], axle: dict[str, Any], key: str) -> None:
    faults = wheelset_faults(setting_of(wheel=wheel, axle=axle))
    assert [fault.key for fault in faults] == [key]


def test_frames_do_not_fit_inside_a_narrow_gauge() -> None:
    narrow = setting_of(track={"gauge_mm": 120.0}, axle={"frames": "inside"})
    assert [fault.key for fault in wheelset_faults(narrow)] == ["axle.frames"]


def test_flanges_that_meet_and_all_else_are_told_together() -> None:
    """Gauge 100 less 8 of play leaves 46 a flange: 45 deep at 45 degrees reaches 45 + 6 sin 45."""
    flat = {"flange_depth_mm": 45.0, "flange_angle_deg": 45.0, "hub_tube_length_mm": 50.0}
    met = setting_of(wheel=flat, track={"gauge_mm": 100.0})
    assert [fault.key for fault in wheelset_faults(met)] == ["wheel.flange_depth_mm"]
    both = setting_of(wheel=flat, track={"gauge_mm": 100.0}, axle={"bearing_centres_mm": 60.0})
    keys = {fault.key for fault in wheelset_faults(both)}
    assert keys == {"wheel.flange_depth_mm", "axle.bearing_centres_mm"}


@st.composite
def any_wheelsets(draw: st.DrawFn) -> Setting:
    """Wheels of usual hubs on gauges from garden to narrow, carried in every way there is."""
    bore = draw(st.sampled_from([30.0, 32.0, 35.0, 42.0, 47.0, 52.0]) | st.floats(20, 60))
    loose = draw(st.booleans())
    return setting_of(
        wheel={
            "hub_bore_mm": bore,
            "hub_tube_outside_mm": bore + 16,
            "hub_tube_length_mm": draw(st.floats(60, 120)),
        },
        track={"gauge_mm": draw(st.floats(150, 1067))},
        axle={
            "wheels_on_axle": "loose" if loose else "fixed",
            "frames": draw(st.sampled_from(["inside", "outside"])),
            "bearing": draw(
                st.sampled_from([None, "bush", "deep-groove", "deep-groove" if loose else "insert"])
            ),
            "body_diameter_mm": draw(st.none() | st.floats(15, 70)),
        },
    )


@settings(max_examples=80, deadline=None, derandomize=True)
@given(any_wheelsets())
def test_any_wheelset_hangs_together_or_is_refused(made: Setting) -> None:
    """Gauge is back-to-back, two flanges and the play; the axle is whole, even, long enough."""
    assume(not wheelset_faults(made))  # what is refused has tests of its own
    found = wheelset(made)
    flanges = 2 * made.flange_reach_mm
    assert made.back_to_back_mm + flanges + found.play_mm == pytest.approx(made.track.gauge_mm)
    for before, after in pairwise(found.steps):
        assert before[1] == pytest.approx(after[0])
        assert before[2] != after[2]
    half = found.axle_length_mm / 2
    assert (found.steps[0][0], found.steps[-1][1]) == (-half, half)
    for step, other in zip(found.steps, reversed(found.steps), strict=True):
        assert step == pytest.approx((-other[1], -other[0], other[2]))
    assert 0 < found.hub_z_mm[0] < found.hub_z_mm[1] < half
    assert max(found.bearing_z_mm) < half
    beside = found.bearing_centres_mm / 2
    if found.frames == "outside":
        assert beside > found.hub_z_mm[1]
    else:
        assert beside < found.hub_z_mm[0]
    for _, inside, outside, length, z in found.spacers:
        assert inside < outside
        ends = abs(z) - length / 2, abs(z) + length / 2
        assert ends[1] <= found.hub_z_mm[0] + 1e-6 or ends[0] >= found.hub_z_mm[1] - 1e-6
        z0, z1 = z - length / 2 + 1e-6, z + length / 2 - 1e-6
        under = [d for start, end, d in found.steps if start < z1 and end > z0]
        assert max(under) < inside  # it sits on nothing thicker than itself
    for _, size, hole, shaft in found.fits:
        least, most = fit(size, hole, shaft)
        assert least < most
