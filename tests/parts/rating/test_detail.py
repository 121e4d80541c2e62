"""Stress ranges of a life and Miner's sum: by hand, and against rainflow of a made history."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.loads.spectrum import Block
from platewheel.parts.rating.detail import Cycles, Detail, cycles_of, turn_weights
from platewheel.parts.rating.fatigue import damage_a_cycle
from platewheel.parts.rating.miner import allowed_share, damage

TURNS = np.linspace(0, np.pi, 41)
# as a rim bead feels it: pressed under the patch, pulled a little opposite
DOWN = (-np.exp(-((TURNS / 0.3) ** 2)) + 0.1)[None, :, None] * 0.02
ACROSS = (0.01 * np.cos(TURNS))[:, None]
DETAIL = Detail("weld roots", "rim", 36.0, DOWN, ACROSS)
CALM = Block("straight", "loaded", 1e6, 2000.0, 2000.0, 0.0, 0.0, 0.0)


def test_angles_stand_for_all_of_a_turn() -> None:
    uneven = np.concatenate([np.linspace(0, 0.2, 30), np.linspace(0.25, np.pi, 9)])
    assert turn_weights(uneven).sum() == pytest.approx(1.0)
    assert turn_weights(TURNS)[0] == pytest.approx(1 / 80)


def test_one_range_a_turn() -> None:
    cycles = cycles_of(DETAIL, (CALM,), TURNS)
    assert cycles.ranges[0, 0] == pytest.approx(2000 * 0.02, rel=1e-3)
    assert cycles.counts.sum() == pytest.approx(1e6)
    pushed = replace(CALM, push_n=900.0, side_n=500.0)
    side = cycles_of(DETAIL, (pushed,), TURNS).ranges[0, 0]
    whole = 2000 * DOWN[0, :, 0] + 500 * ACROSS[:, 0]
    assert side == pytest.approx(np.ptp(whole))
    flange = cycles_of(replace(DETAIL, feels_push=True), (pushed,), TURNS).ranges[0, 0]
    assert flange == pytest.approx(np.ptp(2000 * DOWN[0, :, 0] + 900 * ACROSS[:, 0]))


def test_only_what_pulls_opens() -> None:
    opened = cycles_of(replace(DETAIL, opened=True), (CALM,), TURNS)
    assert opened.ranges[0, 0] == pytest.approx(2000 * 0.02 * 0.1, rel=1e-3)


def test_parts_add_up_square() -> None:
    both = Detail("r", "", 36.0, np.concatenate([3 * DOWN, 4 * DOWN], axis=2), np.zeros((41, 2)))
    one = cycles_of(DETAIL, (CALM,), TURNS).ranges[0, 0]
    assert cycles_of(both, (CALM,), TURNS).ranges[0, 0] == pytest.approx(5 * one)


def test_a_strike_counts_where_it_falls() -> None:
    """Struck twice as hard: under the patch the range is more by the whole of it, opposite, where
    the stress is the greatest of the turn, by the little it pulls, elsewhere not at all."""
    struck = replace(CALM, struck_n=4000.0, hits=0.2)
    cycles = cycles_of(DETAIL, (struck,), TURNS)
    calm, jolts = cycles.ranges[0, 0], cycles.ranges[0, 1:]
    assert jolts[0] == pytest.approx(calm + 2000 * 0.9 * 0.02, rel=1e-3)
    assert jolts[-1] == pytest.approx(calm + 2000 * 0.1 * 0.02, rel=1e-3)
    assert jolts.min() == pytest.approx(calm)
    assert cycles.counts[0] == pytest.approx(0.8e6)
    assert cycles.counts[1:].sum() == pytest.approx(0.2e6)
    assert not cycles.at_joint[0]
    assert cycles.at_joint[1:].all()


def test_strikes_against_a_made_history() -> None:
    """Ten thousand turns one after the other, joints at angles drawn by lot, largest less
    smallest of each turn: the same damage to a few percent."""
    rng = np.random.default_rng(7)
    struck = replace(CALM, struck_n=5000.0, hits=0.3, turns=1e4)
    full = np.concatenate([TURNS, 2 * np.pi - TURNS[-2:0:-1]])
    unit = np.interp(full, np.concatenate([TURNS]), DOWN[0, :, 0])
    unit[len(TURNS) :] = DOWN[0, -2:0:-1, 0]
    total = 0.0
    for _ in range(10_000):
        stress = 2000 * unit
        if rng.random() < 0.3:
            hit = rng.integers(len(full))
            stress = stress.copy()
            stress[hit] = 5000 * unit[hit]
        total += float(damage_a_cycle(np.array([np.ptp(stress)]), 36.0)[0])
    found = damage(cycles_of(DETAIL, (struck,), TURNS), 36.0, 1.0).sum()
    assert found == pytest.approx(total, rel=0.05)


def counted(ranges: list[float], counts: list[float]) -> Cycles:
    kinds = len(counts)
    return Cycles(
        np.array(ranges).reshape(-1, kinds),
        np.array(counts),
        np.zeros(kinds, int),
        np.zeros(kinds, bool),
    )


def test_allowed_share_of_one_kind() -> None:
    """FAT 36 at 2e6 cycles allows 36 over the factor; at 1e8 the slope is 5 below 1e7."""
    at = allowed_share(counted([18.0], [2e6]), 36.0, 1.15)
    assert at == pytest.approx(36 / 18 / 1.15, rel=1e-6)
    knee = 36 * (2e6 / 1e7) ** (1 / 3)
    assert allowed_share(counted([10.0], [1e8]), 36.0, 1.0) == pytest.approx(
        knee * 0.1**0.2 / 10, rel=1e-6
    )
    assert allowed_share(counted([0.0], [1e8]), 36.0, 1.0) == math.inf


@given(
    st.lists(st.tuples(st.floats(0.5, 200), st.floats(1, 1e7)), min_size=1, max_size=8),
    st.floats(1, 1.4),
)
def test_loads_so_shared_do_a_damage_of_one(
    kinds: list[tuple[float, float]], factor: float
) -> None:
    cycles = counted([r for r, _ in kinds], [n for _, n in kinds])
    share = allowed_share(cycles, 71.0, factor)
    again = cycles._replace(ranges=share * cycles.ranges)
    assert damage(again, 71.0, factor).sum() == pytest.approx(1.0, rel=1e-4)


def test_the_worst_place_may_change_with_the_load() -> None:
    """FAT 36: few ranges of 100 do 0.5 by slope 3, many of 5 do 0.4 by slope 5; loads up by a
    quarter the many are worse, and they set what is allowed: 0.4 x s^5 = 1."""
    knee = 36 * (2e6 / 1e7) ** (1 / 3)
    few, many = 0.5 * 2e6 * (36 / 100) ** 3, 0.4 * 1e7 * (knee / 5) ** 5
    cycles = counted([100.0, 0.0, 0.0, 5.0], [few, many])
    assert damage(cycles, 36.0, 1.0).sum(axis=1) == pytest.approx([0.5, 0.4])
    assert allowed_share(cycles, 36.0, 1.0) == pytest.approx(2.5**0.2, rel=1e-5)


def test_a_detail_told_over_both_halves_of_a_turn() -> None:
    """Twice the angles, the same turns; what the second half adds is in the range."""
    down = np.concatenate([DOWN, -DOWN], axis=1)
    whole = Detail("vent edges", "edge", 125.0, down, np.concatenate([ACROSS, ACROSS]))
    block = replace(CALM, hits=0.25, struck_n=3000.0)
    cycles = cycles_of(whole, (block,), TURNS)
    assert cycles.counts.sum() == pytest.approx(1e6)
    assert cycles.counts[1:].sum() == pytest.approx(0.25e6)
    assert len(cycles.counts) == 1 + 2 * len(TURNS)
    assert cycles.ranges[0, 0] == pytest.approx(2000 * 0.02 * 1.8, rel=1e-3)


def test_slip_comes_where_something_slides() -> None:
    slip = replace(DETAIL, in_shear=True)
    jolted = replace(CALM, hits=0.3, struck_n=5000.0)
    assert cycles_of(slip, (jolted,), TURNS).ranges.max() == 0.0
    slid = cycles_of(slip, (replace(jolted, slides=True),), TURNS)
    calm = cycles_of(DETAIL, (jolted,), TURNS)
    assert slid.ranges == pytest.approx(calm.ranges, rel=1e-6)
