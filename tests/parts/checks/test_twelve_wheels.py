"""The demo with a few keys changed so that one check fails, and no other.

Every check runs on every wheel, the load rating too, on a coarse mesh. What cannot fail alone,
because one cause lies behind several checks, is told at the end with all that fails with it.
"""

from __future__ import annotations

import tomllib
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from platewheel.cli.job.job import job_of
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.run import run_checks
from platewheel.parts.rating import rate as rate_module
from platewheel.parts.rating.assess import Assessment, assess
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.response import LEAST_HALF_LENGTH_MM, Response, respond
from platewheel.parts.wheel.spec import WheelSpec
from tests.places import DEMO

COARSE_MM = 4.0  # mesh, for speed

# All wheels below: seldom run, so that fatigue leaves room to weaken something else, and scrapped
# before they wear, so that one analysis serves both ratings.
SELDOM: dict[str, Any] = {
    "wagon.payload_kg": 500,
    "use.km_per_year": 10,
    "use.wear_allowance_mm": 0,
}
OWN: dict[str, Any] = {"wagon.load_unevenness": 1.25, "wagon.shock_factor": 1.5}
THIN_DISCS: dict[str, Any] = OWN | {  # in a stiff ring, never pushed sideways
    "wheel.tread_thickness_mm": 12,
    "wheel.disc_thickness_mm": 2,
    "wheel.vent_count": 0,
    "finish.coating": "painted",
    "use.lateral_share": 0,
    "shop.roll_most_thickness_mm": 12,
    "shop.thickness_tolerance": "nominal",  # for the rating, which would be the first to fail
}


def setting_of(changes: dict[str, Any]) -> Setting:
    """The demo's setting with "section.key" changed, or left out where None. Raises: SpecError."""
    table = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    for path, value in changes.items():
        section, key = path.split(".")
        if value is None:
            del table[section][key]
        else:
            table.setdefault(section, {})[key] = value
    return job_of(table).setting


BACK_TO_BACK_MM = setting_of({}).back_to_back_mm  # set by the default for 8 mm of play

ALONE: dict[str, dict[str, Any]] = {
    # running
    "play-least": {
        "axle.back_to_back_mm": BACK_TO_BACK_MM + 5.2,
        "track.check_rail_flangeway_mm": None,
    },
    "tread-bearing": {
        "track.gauge_widening_mm": 50,
        "wagon.payload_kg": 350,
        "track.flangeway_mm": 80,
    },
    "flange-contact": {"wheel.flange_angle_deg": 88, "track.check_rail_flangeway_mm": 15},
    "middle-axle": {
        "wagon.axles": 3,
        "wagon.wheelbase_mm": 2000,
        "wagon.suspension": "sprung",
        "track.check_rail_flangeway_mm": None,
        "track.flangeway_mm": 30,
    },
    "flange-climb": {"wagon.max_speed_km_h": 22},
    "twist-lift": {"track.twist_mm_per_m": 25},
    "joint-push": OWN
    | {  # a barrow's wheel falls into a joint of its own diameter
        "wheel.tread_diameter_mm": 61,
        "wheel.tread_thickness_mm": 6,
        "wheel.flange_thickness_mm": 6,
        "wheel.hub_bore_mm": 10,
        "axle.bearing": "bush",
        "wheel.hub_tube_outside_mm": 20,
        "wheel.vent_count": 0,
        "finish.coating": "painted",
        "shop.roll_diameter_mm": 30,
        "track.joint_gap_mm": 60,
        "track.joint_step_mm": 20,
        "shop.thickness_tolerance": "nominal",
    },
    "check-span": {"track.flangeway_mm": 20},
    "flangeway-width": {"track.min_curve_radius_m": 5},
    "flangeway-depth": {"track.flangeway_depth_mm": 12},
    "overturning": OWN | {"wagon.centre_of_gravity_mm": 2500, "wagon.max_speed_km_h": 14},
    "cant-standing": {"track.cant_mm": 200, "wagon.centre_of_gravity_mm": 600},
    # strength
    "tread-pressure": {  # on a crown, which the rating leaves to this check
        "track.rail_head_width_mm": 9,
        "track.rail_head_radius_mm": 1000,
        "wagon.payload_kg": 150,
    },
    "weld-rim": {
        "wheel.weld_throat_mm": 1.2,
        "wheel.fit_clearance_mm": 0.5,
        "use.km_per_year": 1,
        "wagon.payload_kg": 500,
        "wheel.steel": "S235",
    },
    "weld-root": {"wheel.flange_thickness_mm": 6, "wheel.root_weld_mm": 3.5},
    "disc-rim-stress": THIN_DISCS | {"wagon.payload_kg": 3200},
    "disc-buckling": THIN_DISCS
    | {
        "wheel.tread_diameter_mm": 600,
        "wagon.payload_kg": 2280,
        "track.check_rail_flangeway_mm": 19,
    },
    "hub-tube-bending": {
        "wheel.hub_tube_outside_mm": 41.5,
        "wagon.payload_kg": 550,
        "finish.coating": "painted",
    },
    "bore-pressure": OWN
    | {  # no tube: the thin disc's edge on a thin axle
        "wheel.hub_tube_length_mm": 0,
        "wheel.hub_tube_outside_mm": 0,
        "wheel.hub_bore_mm": 10,
        "axle.bearing": "bush",
        "wheel.disc_thickness_mm": 4,
        "wagon.payload_kg": 450,
    },
    # galvanizing
    "sealed-hollow": {"wheel.vent_count": 0},
    "vent-number": {"wheel.vent_count": 1},
    "vent-size": {"wheel.disc_thickness_mm": 14, "wheel.vent_diameter_mm": 12},
    "vent-table": {"wheel.vent_diameter_mm": 11},
    "thickness-ratio": {"wheel.hub_tube_outside_mm": 91},
    # making
    "roll-diameter": {"shop.roll_diameter_mm": 270},
    "roll-thickness": {"shop.roll_most_thickness_mm": 4},
    # rating
    "rating-worn": {  # half of a thin ring, and more of its strength
        "use.wear_allowance_mm": 3,
        "use.km_per_year": 1,
        "wheel.tread_thickness_mm": 6,
        "wheel.flange_thickness_mm": 6,
        "wheel.root_weld_mm": 6,
    },
}

TOGETHER: dict[str, tuple[dict[str, Any], set[str]]] = {
    "a flat washer jams in a tight curve and rides on its tip": (
        {
            "wheel.flange_angle_deg": 90,
            "track.min_curve_radius_m": 5,
            "track.gauge_widening_mm": 0,
            "track.check_rail_flangeway_mm": None,
        },
        {"curve-room", "flange-contact"},
    ),
    "too heavy a load is so for the new wheel and the worn": (
        {"wagon.payload_kg": 1900, "use.lateral_share": 0.45},
        {"rating-new", "rating-worn"},
    ),
    "torque of a fixed wheel shears the thin beads of its tube": (
        OWN
        | {
            "wheel.hub_tube_length_mm": 44.5,
            "use.lateral_share": 0,
            "use.friction_high": 1.0,
            "use.km_per_year": 1,
        },
        {"weld-tube", "rating-new", "rating-worn", "life"},
    ),
    "a weld that cracks too soon is rated too low": (
        {"use.km_per_year": 500, "use.years": 100},
        {"rating-new", "rating-worn", "life"},
    ),
    "a root bead is never stronger than the plate beside it": (
        {"wheel.flange_thickness_mm": 3, "track.check_rail_flangeway_mm": 14},
        {"flange-bending", "weld-root"},
    ),
    "a wheelbase that spans the curve fits no flange angle": (
        {
            "track.min_curve_radius_m": 1.5,
            "wagon.wheelbase_mm": 2118,
            "wagon.suspension": "sprung",
            "wagon.max_speed_km_h": 3,
            "use.push_force_n": 100,
            "track.switch_opening_mm": None,
            "track.heel_gap_mm": None,
        },
        {"curve-room", "flange-window"},
    ),
    "the torque of a wheel fixed to its axle shears small tube beads": (
        {
            "wheel.hub_tube_length_mm": 44.5,
            "use.lateral_share": 0,
            "use.friction_high": 1.0,
            "use.km_per_year": 1,
        },
        {"weld-tube", "rating-new", "rating-worn", "life"},
    ),
    "a tube without room for its fillets is loose": (
        {"wheel.hub_tube_length_mm": 44},
        {"weld-tube", "rating-new"},
    ),
}


@cache
def _response_once(wheel: WheelSpec, half_length_mm: float, **kind: Any) -> Response:
    return respond(wheel, half_length_mm=half_length_mm, **kind)


def rating_of(setting: Setting) -> Assessment | None:
    """The rating; the stress analysis itself is run once for wheels and patches alike."""

    def responded(wheel: WheelSpec, half_length_mm: float, **kind: Any) -> Response:
        return _response_once(wheel, max(half_length_mm, LEAST_HALF_LENGTH_MM), **kind)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(rate_module, "respond", responded)
        return assess(setting, size_mm=COARSE_MM)


@cache
def results(name: str) -> tuple[CheckResult, ...]:
    """Every result of a wheel of this file, or of the demo as it is."""
    if name == "demo":
        setting = setting_of({})
    else:
        changes = TOGETHER[name][0] if name in TOGETHER else ALONE.get(name, {})
        setting = setting_of(SELDOM | changes)
    return tuple(run_checks(setting, rating_of(setting)))


def failing(name: str) -> set[str]:
    return {result.id for result in results(name) if result.verdict == "fail"}


@pytest.mark.parametrize("name", ["demo", "seldom run"])
def test_the_demo_fails_no_check(name: str) -> None:
    assert failing(name) == set()
    rated = {result.id: result.verdict for result in results(name)}
    assert rated["rating-new"] == rated["rating-worn"] == rated["life"] == "pass"


@pytest.mark.parametrize("check", ALONE)
def test_this_check_alone_fails(check: str) -> None:
    assert failing(check) == {check}


@pytest.mark.parametrize("cause", TOGETHER)
def test_one_cause_fails_just_these(cause: str) -> None:
    assert failing(cause) == TOGETHER[cause][1]


@pytest.mark.parametrize("name", ["demo", *ALONE, *TOGETHER])
def test_every_result_has_a_sentence_and_a_source(name: str) -> None:
    found = results(name)
    assert len({result.id for result in found}) == len(found) > 40
    for result in found:
        assert len(result.source.strip()) > 10, result.id
        assert len(result.says.split()) > 3, result.id
        failed = result.verdict in ("fail", "warn")
        assert not failed or result.margin is None or result.margin < 0, result


@pytest.mark.parametrize("blank", ["", "  \n"])
@pytest.mark.parametrize("key", ["source", "says"])
def test_a_result_without_sentence_or_source_cannot_be_made(key: str, blank: str) -> None:
    good = results("seldom run")[0]
    with pytest.raises(ValueError, match=f"{good.id}: a result needs a source and a sentence"):
        replace(good, **{key: blank})  # type: ignore[arg-type]
