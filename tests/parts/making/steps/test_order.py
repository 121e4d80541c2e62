"""The order of the work, whatever the wheel, the axle and the shop."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from platewheel.parts.base.faults import GeometryError, SpecError
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.making.steps.build_steps import build_steps
from platewheel.parts.making.steps.step import Step, Work
from platewheel.parts.setting.costs import Costs
from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.wheelset.assembly import wheelset
from tests.parts.checks.running.settings import running_setting

WELDED = {"close", "hub", "inside", "tack", "weld", "root"}
OF_A_RING_MEASURED = {"cut", "clean", "hub", "inside", "fit", "true", "tack", "weld", "flange"}
SHOPS = st.fixed_dictionaries(
    {
        **{name: st.booleans() for name in ("lathe", "drill_press", "keyway_cutter", "reamer")},
        "press_t": st.sampled_from([0.0, 0.01, 10.0]),
        "measures_with": st.sampled_from(["micrometer", "caliper"]),
        "welder_most_a": st.none() | st.floats(40, 300),
    }
)
WHEELS = st.fixed_dictionaries(
    {
        "tread_from": st.sampled_from(["sheet", "bar", "pipe"]),
        "flange_segments": st.integers(1, 4),
        "flange_angle_deg": st.sampled_from([60.0, 70.0, 90.0]),
        "first_disc_both_sides": st.booleans(),
        "root_backed": st.booleans(),
        "vent_count": st.sampled_from([0, 2, 4]),
        "coating": st.sampled_from(["galvanized", "painted", "bare"]),
        "process": st.sampled_from(["plasma", "hand"]),
    }
)
AXLES = st.sampled_from(
    [
        None,
        *({"retention": way} for way in ("key", "screws", "weld", "press")),
        {"wheels_on_axle": "loose"},
        {"bearing": "deep-groove", "retention": "weld"},
    ]
)


def steps_of(
    keys: dict[str, Any], axle: dict[str, Any] | None, checks: Sequence[CheckResult] = ()
) -> list[Step]:
    setting = running_setting(**keys, **(axle or {}))
    made = None if axle is None else wheelset(setting)
    work = Work(
        setting=setting,
        costs=Costs(),
        wheels=4,
        cut_length_mm=1000.0,
        drilled=(),
        wheelset=made,
        axles=2,
        axle_piece_mm=700.0,
        axle_bar_mm=40.0,
        rated_n=5000.0,
    )
    return build_steps(work, checks, "mm")


@given(WHEELS, AXLES, SHOPS)
@settings(max_examples=60)
def test_nothing_comes_before_what_it_needs(
    wheel: dict[str, Any], axle: dict[str, Any] | None, shop: dict[str, Any]
) -> None:
    try:
        steps = steps_of({**wheel, **shop}, axle)
    except (SpecError, GeometryError):
        assume(False)
        raise
    at = {step.id: place for place, step in enumerate(steps)}
    assert len(at) == len(steps)
    assert at["buy"] == 0
    assert at["prove"] == len(steps) - 1
    assert all(at["measure"] < at[name] for name in OF_A_RING_MEASURED & at.keys())
    rings = [name for name in ("strip", "deburr", "roll", "close", "measure") if name in at]
    assert [at[name] for name in rings] == list(range(1, 1 + len(rings)))
    order = ["cut", "clean", "hub", "inside", "fit", "true", "tack", "weld", "flange", "root"]
    assert [at[n] for n in order if n in at] == sorted(at[n] for n in order if n in at)
    for name in ("vents", "axle", "holes"):  # every hole, keyway and thread
        assert at.get(name, -1) < at["coat"]
    for step in steps[at["coat"] + 1 :]:
        assert step.id not in WELDED
        words = " ".join(step.do)
        assert not re.search(r"\b([Dd]rill and tap|[Cc]ut (two|the hub's) keyway)", words)
        if re.search(r"\b[Ww]eld(ed)? (on|the)\b", words):
            assert step.id == "prove", words
    if axle and axle.get("retention") == "weld":
        assert at["bore"] < at["wheelset"] < at["coat"]
        assert ("bearings" in at) == (wheel["coating"] != "bare")
    elif axle is not None:
        assert at["coat"] < at["bore"] < at["wheelset"] < at["gauge"]


def test_a_shop_that_has_all_is_told_of_no_want() -> None:
    """Sentences for few tools stand only where a tool is not there."""
    words = " ".join(line for s in steps_of({}, {"retention": "key"}) for line in s.do)
    assert not re.search(r"\bNo (lathe|press|drill press|reamer|micrometer|keyway)", words)
    poor = {"lathe": False, "drill_press": False, "reamer": False, "press_t": 0.0}
    poor |= {"keyway_cutter": False, "measures_with": "caliper"}
    words = " ".join(line for s in steps_of(poor, {"retention": "key"}) for line in s.do)
    for tool in ("press", "drill press", "reamer", "micrometer", "keyway cutter"):
        assert f"No {tool}" in words, tool
    assert ShopSpec().welder_most_a is None


def test_one_reason_of_many_checks_is_said_once_in_a_step() -> None:
    why = {"vent-number": "no such disc", "vent-size": "no such disc", "vent-place": "too far"}
    found = [
        CheckResult(id, f"Title of {id}", None, None, "", "not-assessed", says, "none")
        for id, says in why.items()
    ]
    (step,) = (one for one in steps_of({}, None, found) if one.id == "vents")
    assert step.cautions[:2] == [
        "NOT ASSESSED, title of vent-number; title of vent-size: no such disc",
        "NOT ASSESSED, title of vent-place: too far",
    ]
