"""Every load of a life in blocks: turns add up, pieces and states have their shares."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.loads.spectrum import Block, spectrum
from platewheel.parts.loads.wheel_load import (
    flange_push_n,
    frame_in_curve,
    rest_loads_n,
    rolling_load_n,
    side_force_n,
    struck_load_n,
)
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.way import WaySpec
from tests.parts.loads.test_twist import rough


def along(*way: WaySpec, **keys: float) -> Setting:
    return replace(rough(**keys), way=way)


def turns(blocks: tuple[Block, ...], **of: str) -> float:
    return sum(b.turns for b in blocks if all(getattr(b, k) == v for k, v in of.items()))


@given(st.floats(0.01, 0.6), st.floats(0.01, 0.4), st.floats(0, 1))
def test_turns_are_those_of_the_life(curve: float, wide: float, loaded: float) -> None:
    setting = along(
        WaySpec(share=curve, radius_m=10.0), WaySpec(share=wide, radius_m=40.0), loaded_share=loaded
    )
    blocks = spectrum(setting)
    life = setting.turns_in_life
    assert turns(blocks) == pytest.approx(life)
    assert turns(blocks, state="loaded") == pytest.approx(loaded * life, abs=1e-6)
    assert turns(blocks, where="curve of 10 m") == pytest.approx(curve * life)
    assert turns(blocks, where="straight") == pytest.approx((1 - curve - wide) * life, abs=1e-3)


def test_lengths_are_shares_of_their_sum() -> None:
    setting = along(WaySpec(length_m=300.0), WaySpec(length_m=100.0, radius_m=15.0))
    blocks = spectrum(setting)
    assert turns(blocks, where="curve of 15 m") == pytest.approx(setting.turns_in_life / 4)
    assert turns(blocks) == pytest.approx(setting.turns_in_life)


def test_a_way_that_is_not_described() -> None:
    """A quarter in the tightest curve, the rest straight, half of it loaded."""
    setting = rough()
    blocks = spectrum(setting)
    assert {block.where for block in blocks} == {"curve of 10 m", "straight"}
    assert turns(blocks, where="curve of 10 m") == pytest.approx(setting.turns_in_life / 4)
    assert turns(blocks, state="empty") == pytest.approx(setting.turns_in_life / 2)


def test_loads_of_a_curve() -> None:
    """Loaded: half of the turns heavy, half of those pushed; else the treads slide across."""
    setting = along(WaySpec(share=1.0, radius_m=10.0), loaded_share=1.0, twist_mm_per_m=15.0)
    blocks = spectrum(setting)
    heavy, light = rest_loads_n(setting, setting.way[0], setting.static_wheel_load_n)
    assert len(blocks) == 4
    assert {b.turns for b in blocks} == {setting.turns_in_life / 4}
    assert {b.load_n for b in blocks} == {rolling_load_n(setting, x) for x in (heavy, light)}
    assert {b.struck_n for b in blocks} == {
        struck_load_n(setting, x, setting.static_wheel_load_n) for x in (heavy, light)
    }
    assert {b.push_n for b in blocks} == {0.0, flange_push_n(setting)}
    pushed = [b.side_n for b in blocks if b.push_n]
    across = 0.36 * frame_in_curve(setting, 10.0).across
    relieved = across * (setting.static_wheel_load_n - light)  # less friction to push against
    side = side_force_n(setting)
    assert relieved > 0
    assert pushed == pytest.approx([side, side + relieved])
    assert all(b.slides for b in blocks)
    slid = [b.side_n for b in blocks if not b.push_n]
    assert slid == pytest.approx([across * setting.static_wheel_load_n] * 2)
    own = replace(setting, use=setting.use.model_copy(update={"lateral_share": 0.1}))
    slid = [b.side_n for b in spectrum(own) if not b.push_n]
    assert slid == pytest.approx([0.1 * setting.static_wheel_load_n] * 2)


def test_nothing_pushes_on_the_straight() -> None:
    straight = [b for b in spectrum(rough()) if b.where == "straight"]
    assert len(straight) == 4
    assert {(b.push_n, b.side_n, b.slides) for b in straight} == {(0.0, 0.0, False)}


def test_joints_a_turn() -> None:
    """200 joints a km on a tread of 300 mm: 0.1885 a turn; a piece may have its own."""
    own = along(WaySpec(share=0.5, joints_per_km=0.0), joints_per_km=200.0)
    hits = [block.hits for block in spectrum(own)]
    assert hits[0] == 0.0
    assert hits[-1] == pytest.approx(200 * math.pi * 0.3 / 1000, rel=1e-9)


def test_slopes_are_named_and_weigh() -> None:
    setting = along(WaySpec(share=0.5, gradient_percent=4.0), steepest_gradient_percent=5.0)
    steep = [b for b in spectrum(setting) if b.where == "straight, 4 % steep"]
    level = [b for b in spectrum(setting) if b.where == "straight"]
    assert steep[0].load_n > level[0].load_n
    assert turns(spectrum(setting), where="straight") == pytest.approx(setting.turns_in_life / 2)
