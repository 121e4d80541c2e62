"""The search of a proposal against asking and analysing every wheel, on a small grid.

On a grid of some hundred analyses: `python -m tests.bench.propose_by_force`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.money.cost_estimate import estimate_parts
from platewheel.cli.propose.wanted import asked_checks
from platewheel.parts.propose.choices import Choices, Ring
from platewheel.parts.propose.rate_until_known import Found, families, find_wheels, prices
from platewheel.parts.propose.sifting import sifted
from platewheel.parts.propose.strength_sizes import coarse_limits
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.propose.test_sifting import brute_force
from tests.parts.settings import DEMO

SMALL = Choices(
    diameter=(280.0,),
    ring=(Ring("bar", 60.0, 8.0), Ring("bar", 60.0, 7.0)),
    flange=(7.0, 8.0),
    depth=(15.0,),
    angle=(70.0,),
    disc=(5.0, 6.0),
    inset=(8.0,),
    fit=(0.75,),
    throat=(3.0, 3.5, 4.0),
    root=(6.0, 8.0),
    vents=((4, 16.0),),
    segments=(1, 3),
)
KNOWN: dict[str, dict[str, float]] = {}


def limits_of(settings: Sequence[Setting]) -> list[dict[str, float]]:
    """The analysis itself, on larger elements; the payload does not change what a wheel carries."""
    return [_limits(one) for one in settings]


def _limits(setting: Setting) -> dict[str, float]:
    key = setting.wheel.model_copy(update={"flange_segments": 1}).model_dump_json()
    if key not in KNOWN:
        KNOWN[key] = coarse_limits(setting)
    return KNOWN[key]


def with_payload(share: float) -> Job:
    job = read_job(DEMO)
    payload = job.wagon.payload_kg * share
    return replace(job, wagon=job.wagon.model_copy(update={"payload_kg": payload}))


def searched(job: Job, choices: Choices = SMALL, reserve: float = 0.0) -> tuple[Found, set[str]]:
    """What the search finds, and the names of the checks that the screening asked."""
    sift = sifted(job.setting, choices, asked_checks(job))
    cost = prices(sift.wheels, tuple(estimate_parts(job).values()))
    found = find_wheels(job.setting, sift, cost, limits_of, wanted=2, most=48, reserve=reserve)
    return found, {sieve.check for sieve in sift.sieves}


def cheapest_by_force(
    job: Job, asked: set[str], choices: Choices = SMALL
) -> list[tuple[float, str]]:
    """Of every wheel that passes and carries the load: cost and keys, cheapest of each kind."""
    best: dict[tuple[float, float], tuple[float, str]] = {}
    for wheel in brute_force(job.setting, choices, asked, asked_checks(job)):
        one = replace(job.setting, wheel=wheel)
        results = [check(one) for check in asked_checks(job)]
        if any(result is not None and result.verdict == "fail" for result in results):
            continue
        if min(_limits(one).values(), default=0.0) < one.static_wheel_load_n:
            continue
        kind = wheel.tread_diameter_mm, wheel.tread_thickness_mm
        cost = sum(part(wheel) for part in estimate_parts(job).values())
        here = (cost, wheel.model_dump_json())
        best[kind] = min(best.get(kind, here), here)
    return sorted(best.values())


@pytest.mark.parametrize("share", [0.85, 1.0])
def test_same_optimum_as_brute_force(share: float) -> None:
    job = with_payload(share)
    found, asked = searched(job)
    force = cheapest_by_force(job, asked)
    ours = families(found, 2)
    assert 0 < len(ours) == len(force[:2])
    assert [found.cost[row] for row in ours] == pytest.approx([cost for cost, _ in force[:2]])
    wheels = [WheelSpec(**found.wheels.values(row)).model_dump_json() for row in ours]
    assert wheels == [keys for _, keys in force[:2]]


def test_a_reserve_is_in_the_rating_of_each_wheel_found() -> None:
    """With a reserve of 0.1 the wheels found carry 1.1 times the load, and cost no less."""
    job = with_payload(0.85)
    plain, _ = searched(job)
    found, _ = searched(job, reserve=0.1)
    load = job.setting.static_wheel_load_n
    assert found.needed_n == pytest.approx(1.1 * load)
    rated = dict(zip(found.rows, found.loads_n, strict=True))
    assert found.strong
    assert all(rated[row] >= 1.1 * load for row in found.strong)
    assert found.cost[found.strong[0]] >= plain.cost[plain.strong[0]]
