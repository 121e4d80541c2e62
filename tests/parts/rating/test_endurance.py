"""The place that allows least, of each limit; what is judged and what is told beside."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from platewheel.parts.loads.spectrum import spectrum
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.rating.detail import Detail, cycles_of
from platewheel.parts.rating.endurance import (
    TOLD_BESIDE,
    damage_by_block,
    endurances,
)
from platewheel.parts.rating.miner import damage
from tests.parts.rating.test_detail import ACROSS, DOWN, TURNS
from tests.parts.settings import demo_setting

DEMO = demo_setting()
WEAK = Detail("weld roots", "rim", 36.0, DOWN, ACROSS)
WEAKER = replace(WEAK, where="tube", down=1.5 * DOWN, across=1.5 * ACROSS)
TOE = replace(WEAK, name="weld toes", where="toe", fat_n_mm2=90.0)
BESIDE = replace(WEAKER, name=next(iter(TOLD_BESIDE)), fat_n_mm2=20.0)


def test_each_limit_has_its_worst_place() -> None:
    """Half as much again of stress allows two thirds of the load."""
    found = {one.detail.name: one for one in endurances([WEAK, WEAKER, TOE], DEMO, TURNS)}
    assert {name: one.detail.where for name, one in found.items()} == {
        "weld roots": "tube",
        "weld toes": "toe",
    }
    done = damage(cycles_of(WEAKER, spectrum(DEMO), TURNS), 36.0, 1.15).sum(axis=1).max()
    assert found["weld roots"].damage == pytest.approx(done)  # of the worst place, told with it
    alone = endurances([WEAK], DEMO, TURNS)[0]
    assert alone.share / found["weld roots"].share == pytest.approx(1.5, rel=1e-6)


def test_a_limit_is_the_design_load_in_proportion() -> None:
    (one,) = endurances([TOE], DEMO, TURNS)
    limit = one.limit(wheel_load_n(DEMO))
    assert limit.load_n == pytest.approx(one.share * wheel_load_n(DEMO))
    assert (limit.where, limit.by, limit.damage, limit.judged) == (
        "toe",
        "FAT 90",
        one.damage,
        True,
    )
    cycles = cycles_of(TOE, spectrum(DEMO), TURNS)
    assert one.damage == pytest.approx(damage(cycles, 90.0, 1.15).sum())


def test_bending_that_shuts_a_root_is_told_beside() -> None:
    (one,) = endurances([BESIDE], DEMO, TURNS)
    assert not one.judged
    assert not one.limit(1.0).judged


def test_blocks_of_a_place() -> None:
    """Damage by piece and state; a place of the flange is told the push on it."""
    wheel, flange = endurances([WEAK, replace(TOE, feels_push=True)], DEMO, TURNS)
    for one in (wheel, flange):
        blocks = damage_by_block(one, DEMO)
        assert sum(b.damage + b.joints for b in blocks) == pytest.approx(one.damage)
        assert len(blocks) == 4
        for b in blocks:
            kind = [x for x in spectrum(DEMO) if (x.where, x.state) == (b.where, b.state)]
            assert b.load_n == max(x.load_n for x in kind) > min(x.load_n for x in kind)
    pushes = [max(b.push_n for b in damage_by_block(one, DEMO)) for one in (wheel, flange)]
    of = spectrum(DEMO)
    assert pushes == [max(b.side_n for b in of), max(b.push_n for b in of)]
    smooth = replace(DEMO, track=DEMO.track.model_copy(update={"joints_per_km": 0.0}))
    calm = damage_by_block(endurances([WEAK], smooth, TURNS)[0], smooth)
    assert [b.joints for b in calm] == [0.0] * 4
    assert np.argmax([b.load_n for b in calm]) == 0  # the curve, loaded
