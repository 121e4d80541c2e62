"""Payload whose own loads the wheel still bears, and what each kind of turn does to it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.parts.loads.spectrum import spectrum
from platewheel.parts.loads.wheel_load import flange_push_n, side_force_n, wheel_load_n
from platewheel.parts.rating.assess import assess
from platewheel.parts.rating.detail import cycles_of
from platewheel.parts.rating.miner import damage
from platewheel.parts.rating.payload import bears, most_payload_kg, with_payload
from platewheel.parts.rating.rate import Rating, rate
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.turn import angles
from tests.parts.settings import demo_setting

COARSE = 5.0
DEMO = demo_setting()


@pytest.fixture(scope="module")
def rated() -> tuple[Rating, Response]:
    return rate(DEMO, size_mm=COARSE)


def loaded(payload_kg: float) -> Setting:
    return with_payload(DEMO, payload_kg)


def test_the_payload_is_the_last_that_is_borne(rated: tuple[Rating, Response]) -> None:
    most = most_payload_kg(DEMO, [rated])
    assert most > DEMO.wagon.payload_kg
    assert bears(loaded(most - 0.1), DEMO, *rated)
    assert not bears(loaded(most + 0.1), DEMO, *rated)


def test_a_wheel_rated_with_the_payload_passes_and_with_more_does_not(
    rated: tuple[Rating, Response],
) -> None:
    """Rated anew at that payload the wheel has what it needs, and hardly more: a bound at rest is
    on the safe side, as stress is no more than in proportion."""
    most = most_payload_kg(DEMO, [rated])
    at, beyond = (
        rate(loaded(kg), size_mm=COARSE)[0].load_n / wheel_load_n(loaded(kg))
        for kg in (most, 1.25 * most)
    )
    assert 0.995 < at < 1.15
    assert beyond < 1.0


def test_every_force_counts_at_rest(rated: tuple[Rating, Response]) -> None:
    """Load, push and side force each on its own beyond what the least limit at rest allows."""
    rating, response = rated
    least = min(limit.load_n for limit in rating.limits if limit.damage is None)
    share = least / wheel_load_n(DEMO)
    seldom = replace(DEMO, use=DEMO.use.model_copy(update={"km_per_year": 1e-6}))
    pushed = replace(
        seldom,
        use=seldom.use.model_copy(
            update={"lateral_share": 1.01 * share * flange_push_n(DEMO) / DEMO.static_wheel_load_n}
        ),
    )
    assert bears(seldom, DEMO, rating, response)
    assert not bears(pushed, DEMO, rating, response)
    assert side_force_n(pushed) > share * side_force_n(DEMO)


def test_an_empty_wagon_that_is_too_heavy() -> None:
    """20 t: what it lacks is told in proportion to the rating; never as much as nothing."""
    heavy = replace(DEMO, wagon=DEMO.wagon.model_copy(update={"tare_kg": 20_000.0}))
    rating, response = rate(heavy, size_mm=COARSE)
    wanted = rating.load_n / wheel_load_n(heavy) * 20_500 - 20_000
    assert -19_900 < wanted < -1
    assert most_payload_kg(heavy, [(rating, response)]) == pytest.approx(wanted)
    worn = rate(heavy, worn_mm=3.0, size_mm=COARSE)
    assert worn[0].load_n < rating.load_n
    wanted = worn[0].load_n / wheel_load_n(heavy) * 20_500 - 20_000
    for states in ([(rating, response), worn], [worn, (rating, response)]):
        assert most_payload_kg(heavy, states) == pytest.approx(wanted)


def test_where_the_life_sets_it(rated: tuple[Rating, Response]) -> None:
    """Twenty times as far: at the payload told Miner's sum is 1 where it is greatest."""
    far = replace(DEMO, use=DEMO.use.model_copy(update={"km_per_year": 6000.0}))
    most = most_payload_kg(far, [rated])
    assert 0 < most < DEMO.wagon.payload_kg
    other = with_payload(far, most)
    blocks, turns = spectrum(other), angles(rated[1])
    sums = [
        damage(
            cycles_of(one.detail, blocks, turns),
            one.detail.fat_n_mm2,
            far.fatigue_factor,
            one.detail.in_shear,
        )
        .sum(axis=1)
        .max()
        for one in rated[0].lasting
        if one.judged
    ]
    assert max(sums) == pytest.approx(1.0, rel=1e-4)


def test_damage_by_block_is_all_of_it() -> None:
    found = assess(DEMO, size_mm=COARSE)
    assert found is not None
    crack = found.life_ends
    assert crack is not None
    whole = sum(one.damage + one.joints for one in found.by_block)
    assert whole == pytest.approx(crack.damage)
    km = DEMO.use.km_per_year * DEMO.use.years
    assert found.life_km == pytest.approx(km / whole)
    assert sum(one.turns for one in found.by_block) == pytest.approx(DEMO.turns_in_life)
    assert {(one.where, one.state) for one in found.by_block} == {
        (where, state) for where in ("curve of 12 m", "straight") for state in ("loaded", "empty")
    }
    worst = max(found.by_block, key=lambda one: one.damage)
    assert worst.state == "loaded"


def test_a_mass_unsprung_stops_no_lighter_payload(rated: tuple[Rating, Response]) -> None:
    """60 kg of a share of 165: more than a wheel's share of the empty wagon, 40."""
    light = replace(DEMO, wagon=DEMO.wagon.model_copy(update={"unsprung_kg": 60.0}))
    assert most_payload_kg(light, [rated]) > DEMO.wagon.payload_kg
