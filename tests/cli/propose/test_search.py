"""Warnings are let in where no wheel free of them is strong enough, the fewest that do."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from typing import Any, cast

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.propose import search as module
from platewheel.cli.propose.search import MOST_OPENED, Searched, let_in
from platewheel.cli.propose.wanted import Wanted, asked_checks, job_choices
from platewheel.parts.propose.rate_until_known import needed_n
from platewheel.parts.propose.screening import Sieve, Wheels
from platewheel.parts.propose.sifting import Sifted
from platewheel.parts.setting.setting import Setting
from tests.cli.propose.test_propose_refusals import found
from tests.places import DEMO

JOB = read_job(DEMO)
WANTED = Wanted(260, 300, reserve=0.1)
NEED_N = needed_n(JOB.setting, WANTED.reserve)
NAMES = ("flange_climb", "crossing_gap", "corner_flat", "vent_web", "seam_peak", "weld_room")


def searched(load_n: float) -> Searched:
    sieves = tuple(Sieve(name, 9, 4, 5 - k) for k, name in enumerate(NAMES[:-1]))
    sift = Sifted(cast(Wheels, None), sieves, 9, ())
    wanted = job_choices(JOB, WANTED)
    return Searched(JOB, wanted, asked_checks(JOB), sift, found(load_n))


def run(
    monkeypatch: pytest.MonkeyPatch, bears: dict[frozenset[str], float], strong: bool = True
) -> tuple[Searched | None, list[tuple[str, ...]], int]:
    """With stand-ins; `bears` has the share of the load that a set of checks lets in. Gives the
    search, what the whole grid was sifted with, and how many wheels were analysed."""
    asked: list[tuple[str, ...]] = []
    analyses: list[Setting] = []

    def opened(job: Job, wanted: Wanted, allowed: Collection[str]) -> tuple[int, list[Setting]]:
        share = bears.get(frozenset(allowed), 0.0)
        wheel = job.wheel.model_construct(tread_diameter_mm=share)
        count = 10 + sum(5 - NAMES.index(name) for name in allowed) * bool(share)
        return count, [replace(job.setting, wheel=wheel)]

    def mapped(pool: Any, settings: Sequence[Setting]) -> list[dict[str, float]]:
        analyses.extend(settings)
        return [{"any": one.wheel.tread_diameter_mm * NEED_N} for one in settings]

    def sifted(setting: Setting, choices: Any, checks: Any, allowed: Any) -> Sifted:
        asked.append(tuple(allowed))
        return searched(0.0).sift

    def analysed(search: Searched, *more: Any) -> Searched:
        good = found(1.1 * NEED_N)
        return replace(search, found=replace(good, passes=(strong,), analyses=40))

    monkeypatch.setattr(module, "_opened", opened)
    monkeypatch.setattr(module, "mapped", mapped)
    monkeypatch.setattr(module, "sifted", sifted)
    monkeypatch.setattr(module, "analysed", analysed)
    with ThreadPoolExecutor(1) as pool:
        result = let_in(searched(0.9 * NEED_N), WANTED, pool, lambda text: None)
    return result, asked, len(analyses)


def test_the_warning_of_the_strongest_wheels_is_let_in_alone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    bears = {frozenset({"crossing_gap"}): 1.3, frozenset({"corner_flat"}): 1.2}
    result, asked, count = run(monkeypatch, bears)
    assert asked == [("crossing_gap",)]
    assert count == 2
    assert result is not None
    assert result.found is not None
    assert result.found.analyses == 40 + 30  # those of the weak ones are told too
    assert "bears 90 % of it with the reserve" in result.notes[-1]
    assert result.notes[-1].endswith("Tread on the wing rail at the crossing nose")


def test_two_together_where_none_alone_does(monkeypatch: pytest.MonkeyPatch) -> None:
    pair = frozenset({"crossing_gap", "vent_web"})
    bears = {frozenset({name}): 0.5 for name in pair} | {pair: 1.0}
    result, asked, _ = run(monkeypatch, bears)
    assert result is not None
    assert [set(one) for one in asked] == [set(pair)]


def test_what_opens_nothing_or_stays_too_weak_is_not_let_in(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """And no more than some are analysed, however many checks open wheels."""
    assert run(monkeypatch, {})[0] is None
    weak = {frozenset({name}): 0.9 for name in NAMES}
    result, asked, count = run(monkeypatch, weak)
    assert (result, asked) == (None, [])
    assert count <= MOST_OPENED + 1
    bears = {frozenset({"crossing_gap"}): 1.3}
    assert run(monkeypatch, bears, strong=False)[0] is None
