"""The play is chosen with the flange: what is told of it holds for the axle that is written."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.run import RUNNING
from platewheel.parts.propose.choices import PLAY, Choices, Ring
from platewheel.parts.propose.never_passed import never_passed, running_choices
from platewheel.parts.propose.play import axle_set, back_to_back_mm, play_choices
from platewheel.parts.propose.screening import Check, asked, first_wheels, judge, widened
from platewheel.parts.propose.sifting import rims
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.usual_clearance import least_play_mm
from platewheel.parts.wheel.flange import flange_reach_mm
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.settings import demo_setting

RIMS = Choices(
    diameter=(240.0, 280.0),
    ring=(Ring("bar", 60.0, 8.0), Ring("sheet", 50.0, 6.0)),
    flange=(6.0, 8.0),
    depth=(8.0, 12.0, 15.0),
    angle=(66.0, 70.0, 74.0, 78.0),
    disc=(6.0,),
    inset=(8.0,),
    fit=(0.75,),
    throat=(4.0,),
    root=(6.0,),
    vents=((4, 16.0),),
    segments=(1,),
    play=(None, 6.0, 10.0, 12.0),
)


def least_play(setting: Setting) -> CheckResult:
    """Fails for thick flanges on larger wheels with less than 10 mm of play."""
    wheel = setting.wheel
    if wheel.flange_thickness_mm < 8 or wheel.tread_diameter_mm < 250:
        return judged("a", "A", 1, 1, "mm", "-", at_most=True, good="good", bad="bad")
    words = ("a", "A", setting.play_mm, 10, "mm", "-")
    return judged(*words, at_most=False, good="good", bad="bad")


def steep(setting: Setting) -> CheckResult:
    """Fails below an angle that more play makes steeper, and that shallow flanges never meet."""
    least = 68 + (setting.play_mm > 11) * 8 + (setting.wheel.flange_depth_mm < 10) * 40
    words = ("b", "B", setting.wheel.flange_angle_deg, least, "deg", "-")
    return judged(*words, at_most=False, good="good", bad="bad")


def tight(setting: Setting) -> CheckResult:
    """Warns above 7 mm of play."""
    words = ("c", "C", setting.play_mm, 7, "mm", "-")
    return judged(*words, at_most=True, good="good", bad="bad", bad_verdict="warn")


Told = set[tuple[float, str, float, float, float, float | None]]


def told(setting: Setting, checks: tuple[Check, ...]) -> Told:
    wheels, *_ = rims(setting, RIMS, checks)
    keys = ("tread_diameter_mm", "tread_from", "flange_thickness_mm", "flange_depth_mm")
    rows = range(wheels.count)
    found = [(wheels.values(row), wheels.play_mm(row)) for row in rows]
    return {(*(v[k] for k in keys), v["flange_angle_deg"], play) for v, play in found}


def by_force(setting: Setting, checks: tuple[Check, ...]) -> Told:
    """Of each rim the first play that some angle passes with, and the angle in the middle."""
    found: Told = set()
    for d, ring, t, h in itertools.product(RIMS.diameter, RIMS.ring, RIMS.flange, RIMS.depth):
        for play in RIMS.play:
            good = []
            for angle in RIMS.angle:
                keys = {
                    "tread_diameter_mm": d,
                    "tread_from": ring.source,
                    "tread_width_mm": ring.width_mm,
                    "tread_thickness_mm": ring.thickness_mm,
                    "flange_thickness_mm": t,
                    "flange_depth_mm": h,
                    "flange_angle_deg": angle,
                }
                wheel = WheelSpec.model_construct(**(setting.wheel.model_dump() | keys))
                one = replace(setting, wheel=wheel, axle=axle_set(setting, wheel, play))
                if all(check(one).verdict == "pass" for check in checks):  # type: ignore[union-attr]
                    good.append(angle)
            if good:
                found.add((d, ring.source, t, h, good[(len(good) - 1) // 2], play))
                break
    return found


@pytest.mark.parametrize(
    "checks", [(least_play, steep), (steep, least_play), (tight, steep), (steep,)]
)
def test_each_rim_has_the_first_play_that_some_angle_passes_with(
    checks: tuple[Check, ...],
) -> None:
    setting = demo_setting()
    found = told(setting, checks)
    assert found == by_force(setting, checks)
    assert 0 < len(found) < 24


def test_another_play_only_where_the_first_fails() -> None:
    setting = demo_setting()
    assert {play for *_, play in told(setting, (least_play, steep))} == {None, 10.0}
    assert {play for *_, play in told(setting, (tight, steep))} == {6.0}
    assert {play for *_, play in told(setting, (steep,))} == {None}


def test_an_answer_is_that_of_the_wheel_on_its_own_axle() -> None:
    """Groups of equal answers know the play, and the flange where an axle is set for it."""
    setting = demo_setting()
    wheels = first_wheels(setting.wheel, RIMS)
    for axis in ("flange", "depth", "angle", "play"):
        wheels = widened(wheels, axis)
    for check in (least_play, steep, *RUNNING):
        question = judge(setting, check)
        answers = asked(wheels, question, check)
        assert answers is not None
        for row in range(0, wheels.count, 11):
            one = wheels.setting(setting, row)
            result = check(one)
            worst = {"fail": 2.0, "warn": 1.0}
            assert answers[row] == (worst.get(result.verdict, 0.0) if result else 0.0)
    assert PLAY in wheels.known[steep]
    assert "flange_thickness_mm" in wheels.known[steep]


def test_plays_about_the_usual_one() -> None:
    """457 mm: 8 mm lie between the 1.78 of the IBLS standard at 184 and the 10 of KBO 1912 at 600;
    wheels 1 mm further apart on track 2 mm tighter leave 2 mm of 5, so that 6 are offered."""
    assert play_choices(demo_setting()) == (None, 6.0, 10.0, 12.0)
    rough = replace(demo_setting(), track=demo_setting().track.model_copy(update={"kind": None}))
    loose = rough.track.model_copy(update={"gauge_tolerance_mm": (-5.0, 10.0)})
    assert 6.0 not in play_choices(replace(rough, track=loose))
    assert 10.0 in play_choices(replace(rough, track=loose))
    just = rough.track.model_copy(update={"gauge_tolerance_mm": (-3.0, 10.0)})
    assert least_play_mm(457.0) == 2.0  # and 3 and 1 less
    assert 6.0 in play_choices(replace(rough, track=just))


def test_a_back_to_back_of_whole_halves_stays_it() -> None:
    """Upright flanges of 6 mm: 457 - 8 - 12 = 437, and 436.5 from 8.5, 8.1 or 8.4 mm of play."""
    wheel = demo_setting().wheel.model_copy(
        update={"flange_thickness_mm": 6.0, "flange_angle_deg": 90.0}
    )
    for play, between in ((8.0, 437.0), (8.1, 436.5), (8.4, 436.5), (8.5, 436.5)):
        assert back_to_back_mm(demo_setting(), wheel, play) == between


@given(
    gauge=st.floats(150, 1500),
    less=st.floats(-6, 0),
    apart=st.one_of(st.none(), st.floats(0.7, 0.96)),
    depth=st.floats(6, 20),
    angle=st.floats(55, 85),
)
def test_no_play_is_below_the_least_and_every_one_is_kept(
    gauge: float, less: float, apart: float | None, depth: float, angle: float
) -> None:
    """The back-to-back is a half millimetre, and gives what was asked for or less than 0.5 more."""
    setting = demo_setting()
    track = setting.track.model_copy(update={"gauge_mm": gauge, "gauge_tolerance_mm": (less, 5.0)})
    own = AxleSpec(back_to_back_mm=None if apart is None else apart * gauge - 50)
    setting = replace(setting, track=track, axle=own)
    wheel = setting.wheel.model_copy(update={"flange_depth_mm": depth, "flange_angle_deg": angle})
    first, *others = play_choices(setting)
    assert (first is None) == (apart is None)
    for play in others:
        assert play is not None
        assert play >= least_play_mm(gauge) + setting.tight_mm - 1e-9
        between = back_to_back_mm(setting, wheel, play)
        if between is None or between <= 0:
            continue
        one = replace(setting, wheel=wheel, axle=axle_set(setting, wheel, play))
        assert play - 1e-6 <= one.play_mm < play + 0.5
        assert between == pytest.approx(round(2 * between) / 2) or between == own.back_to_back_mm
        assert between + 2 * flange_reach_mm(wheel) + one.play_mm == pytest.approx(gauge)
    if first is not None:  # the job's own wheel stays as far apart as it is
        assert back_to_back_mm(setting, setting.wheel, first) == own.back_to_back_mm


CURVES = {  # wide flangeways and no points, so that nothing but the flange's room asks for play
    "min_curve_radius_m": 2.2,
    "check_rail_flangeway_mm": None,
    "flangeway_mm": 38.0,
    "switch_opening_mm": None,
    "heel_gap_mm": None,
    "rail_corner_radius_mm": 2.0,
}


def test_a_curve_that_only_more_play_passes() -> None:
    """Curves of 2.2 m under a wheelbase of 600 mm: at the usual play every flange jams."""
    setting = demo_setting()
    track = setting.track.model_copy(update=CURVES)
    tightest = replace(setting, track=track)
    choices = replace(RIMS, diameter=(280.0,), angle=(66.0, 70.0, 74.0, 76.0, 78.0))
    assert running_choices(tightest, choices) > 0
    assert running_choices(tightest, replace(choices, play=(None,))) == 0
    wheels, *_ = rims(tightest, choices, RUNNING)
    assert {wheels.play_mm(row) for row in range(wheels.count)} == {12.0}


def test_what_another_play_passes_is_not_told_as_never_passed() -> None:
    """Over 1000 mm a curve of 12 m bends 10.4 mm: a middle axle has 8 + 4 - 3 = 9 at the usual play
    and 13 at 12 mm; over 1300 mm it bends 17.6."""
    setting = demo_setting()
    choices = replace(RIMS, angle=(70.0,), ring=RIMS.ring[:1])
    for wheelbase, usual, any_play in ((1000.0, True, False), (1300.0, True, True)):
        wagon = setting.wagon.model_copy(update={"axles": 3, "wheelbase_mm": wheelbase})
        long = replace(setting, wagon=wagon)
        never = {check.id for check in never_passed(long, replace(choices, play=(None,)))}
        assert ("middle-axle" in never) == usual
        assert ("middle-axle" in {c.id for c in never_passed(long, choices)}) == any_play
