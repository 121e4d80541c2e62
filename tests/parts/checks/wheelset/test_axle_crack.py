"""Fatigue of the axle by hand: keyed and welded wheels, bearings on it, dead axles."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.wheelset import axle_crack
from platewheel.parts.checks.wheelset.axle_bending import axle_bending, design_moments_n_mm
from platewheel.parts.checks.wheelset.axle_crack import axle_fatigue_safety
from platewheel.parts.checks.wheelset.axle_notches import axle_notches
from platewheel.parts.loads.spectrum import Block
from platewheel.parts.loads.wheel_load import side_force_n, wheel_load_n
from platewheel.parts.rating.fatigue import damage_a_cycle
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import wheelset
from platewheel.parts.wheelset.axle_fatigue import KEY_KT, KEY_KTS, endurance_n_mm2, notch_factor
from tests.parts.settings import demo_setting

DEMO = demo_setting()
LOAD = wheel_load_n(DEMO)
SIDE = side_force_n(DEMO)
ONE = Block("straight", "loaded", 4e6, LOAD, LOAD, 0.0, SIDE, SIDE, slides=True)
HUB_MIDDLE = wheelset(DEMO).hub_centres_mm / 2
ARM = (wheelset(DEMO).bearing_centres_mm - DEMO.contact_spacing_mm) / 2
# by balance: load on its arm, and the push's couple H r, less what the far bearing gives at the
# hub: pushed outwards, so that both bend the same way
FAR = (wheelset(DEMO).bearing_centres_mm / 2 - HUB_MIDDLE) / wheelset(DEMO).bearing_centres_mm
MOMENT = LOAD * ARM + SIDE * 150 * (1 - FAR)


def with_axle(**keys: object) -> Setting:
    return replace(DEMO, axle=type(DEMO.axle)(**(DEMO.axle.model_dump() | keys)))


def asked(setting: Setting) -> CheckResult:
    return axle_fatigue_safety(setting, wheelset(setting))


@pytest.fixture
def turns_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    """The life of one kind of turn, as heavy and as far pushed as the design."""
    monkeypatch.setattr(axle_crack, "spectrum", lambda setting: (ONE,))


@pytest.mark.usefixtures("turns_alike")
def test_keyed_axle_by_hand() -> None:
    """DE-Goodman: reversed bending of the greatest moment, steady torque of the slipping wheel;
    as all turns are alike they may reach the endurance limit, however many they are."""
    d, rm = 40.0, 470.0
    bending = 32 * MOMENT / (math.pi * d**3)
    torsion = 16 * 0.36 * LOAD * 150 / (math.pi * d**3)
    kf = notch_factor(KEY_KT, 0.02 * d, rm)
    kfs = notch_factor(KEY_KTS, 0.02 * d, rm, torsion=True)
    used = kf * bending / endurance_n_mm2(rm, d) + math.sqrt(3) * kfs * torsion / rm
    assert asked(DEMO).value == pytest.approx(1 / used, rel=2e-3)


def test_loads_that_come_seldom_count_for_less(monkeypatch: pytest.MonkeyPatch) -> None:
    """Strikes at joints: three in ten count in full; a tenth as many do a tenth of the damage."""
    rolling = replace(ONE, load_n=0.6 * LOAD, side_n=0.0, push_n=0.0)
    found = []
    for hits in (0.0, 0.02, 0.2):
        block = replace(rolling, hits=hits)
        monkeypatch.setattr(axle_crack, "spectrum", lambda setting, block=block: (block,))
        found.append(asked(DEMO).value or 0.0)
    assert found[0] > found[1] > found[2]
    monkeypatch.setattr(axle_crack, "spectrum", lambda setting: (replace(ONE, side_n=0.0),))
    assert (asked(DEMO).value or 0.0) < found[2]


def test_bending_at_rest_has_the_torque_in_it() -> None:
    found = axle_bending(DEMO, wheelset(DEMO))
    both = math.hypot(MOMENT, math.sqrt(3) / 2 * 0.36 * LOAD * 150)
    assert found.value == pytest.approx(32 * both / (math.pi * 40**3), rel=2e-3)


@pytest.mark.usefixtures("turns_alike")
def test_welded_wheels_by_the_curve_of_their_weld() -> None:
    """Hub 70 long with two legs of 5.7: 81.3, category 63 over 1.15; 4e6 turns."""
    found = asked(with_axle(retention="weld"))
    assert "held by weld" in found.says
    assert "EN 1993-1-9" in found.source
    assert found.value is not None
    # past the hub's middle the far bearing takes back what the push's couple gives it
    back = SIDE * 150 / wheelset(DEMO).bearing_centres_mm * (35 - 4 * math.sqrt(2))
    least = 2 * 32 * (MOMENT - back) / (math.pi * 40**3)
    harm = damage_a_cycle(np.array([least * found.value * 1.15]), 63)
    assert harm[0] == pytest.approx(1 / 4e6, rel=0.01)
    assert found.value < (asked(DEMO).value or 0)


def test_one_consequence_class_for_wheel_and_axle() -> None:
    """EN 1993-1-9, table 3.1, safe life: 1.15 and 1.35; from memory."""
    low = with_axle(retention="weld")
    high = replace(low, use=low.use.model_copy(update={"consequence": "high"}))
    assert (low.fatigue_factor, high.fatigue_factor) == (1.15, 1.35)
    ratio = (asked(low).value or 0) / (asked(high).value or 1)
    assert ratio == pytest.approx(1.35 / 1.15)


def test_a_weld_beside_a_step_has_its_toe_on_the_thinner_part() -> None:
    """The body at the hub's inner end, and the journal at the outer, as if it were all there is."""
    whole, thin = (with_axle(retention="weld", body_diameter_mm=d) for d in (40.0, 25.0))
    both = [asked(setting).value or 0 for setting in (whole, thin)]
    assert both[1] / both[0] == pytest.approx((25 / 40) ** 3, rel=0.02)
    stepped = wheelset(with_axle(retention="weld", journal_diameter_mm=30.0))
    welds = [n for n in axle_notches(DEMO, stepped, 470) if n.weld_category_n_mm2]
    assert [notch.diameter_mm for notch in welds] == [30, 40, 40, 30]


def test_a_weld_is_judged_by_how_far_it_runs() -> None:
    far = with_axle(retention="weld")
    near = replace(far, use=far.use.model_copy(update={"km_per_year": 30.0}))
    ratio = (asked(near).value or 0) / (asked(far).value or 1)
    assert 10 ** (1 / 5) <= ratio <= 10 ** (1 / 3)


def test_a_bearing_inside_the_wheels_sits_on_a_notch() -> None:
    inside = wheelset(with_axle(frames="inside", bearing="deep-groove", journal_diameter_mm=45.0))
    notches = {notch.where: notch for notch in axle_notches(DEMO, inside, 470)}
    assert notches["under 6009"].kf == 2
    assert notches["under 6009"].diameter_mm == 45
    bushed = wheelset(with_axle(frames="inside", bearing="bush"))
    assert not any("under" in notch.where for notch in axle_notches(DEMO, bushed, 470))


def test_a_push_either_way_widens_what_a_dead_axle_feels(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A hard push bends the axle back beyond straight: half of both ways is the amplitude."""
    loose = with_axle(wheels_on_axle="loose", bearing="bush", retention="collar")
    hard = replace(loose, use=loose.use.model_copy(update={"lateral_share": 2.4}))
    made = wheelset(hard)
    rm, d, hub = 470.0, 30.0, made.hub_z_mm
    ends = (0.25 - hub[0], 10.25 - hub[0])  # the collar inside the pushed wheel's hub
    least, most = design_moments_n_mm(hard, made, *ends)
    assert least < 0 < most
    amplitude, mean = (16 * m / (math.pi * d**3) for m in (most - least, -most - least))
    block = replace(ONE, turns=1e6, side_n=side_force_n(hard), push_n=side_force_n(hard))
    monkeypatch.setattr(axle_crack, "spectrum", lambda setting: (block,))
    kf = notch_factor(KEY_KT, 0.02 * d, rm)
    by_hand = 1 / (kf * amplitude / endurance_n_mm2(rm, d, turning=False) + kf * mean / rm)
    assert asked(hard).value == pytest.approx(by_hand)
    slippery = replace(hard, use=hard.use.model_copy(update={"friction_high": 1.0}))
    assert asked(slippery).value == asked(hard).value  # loose wheels turn no axle


def test_turns_between_joints_count_where_there_are_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """A struck load that no joint ever brings is no load; alike turns count together."""
    never = replace(ONE, struck_n=20 * LOAD, hits=0.0)
    found = []
    for blocks in ((ONE,), (never,), (replace(never, turns=2e6), replace(never, turns=2e6))):
        monkeypatch.setattr(axle_crack, "spectrum", lambda setting, blocks=blocks: blocks)
        found.append(asked(with_axle(retention="weld")).value)
    assert found[1:] == [pytest.approx(found[0])] * 2


def test_strikes_bend_a_dead_axle_in_one_plane(monkeypatch: pytest.MonkeyPatch) -> None:
    """All of them count there, of a weld on a turning axle 0.43, of a key 0.3."""
    rolling = replace(ONE, load_n=0.3 * LOAD, side_n=0.0, push_n=0.0, slides=False)
    for axle, share in (
        ({"retention": "weld"}, 0.43),
        ({"retention": "key"}, 0.3),
        ({"wheels_on_axle": "loose", "bearing": "bush", "retention": "collar"}, 1.0),
    ):
        setting = with_axle(**axle)
        struck, alone = (
            replace(rolling, hits=0.1),
            replace(rolling, load_n=LOAD, turns=0.1 * share * ONE.turns),
        )
        both = []
        for blocks in ((struck,), (rolling, alone)):
            monkeypatch.setattr(axle_crack, "spectrum", lambda setting, blocks=blocks: blocks)
            both.append(asked(setting).value)
        assert both[0] == pytest.approx(both[1], rel=1e-6)
