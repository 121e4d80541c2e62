"""Smallest sets of changes: the least values, one key before two, and only what was proved."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.job.wheelset import job_checks
from platewheel.cli.propose import smallest_set as module
from platewheel.cli.propose.smallest_set import MOST_PROVED, MOST_RATED, Search, smallest_sets
from platewheel.cli.propose.wanted import Wanted
from platewheel.parts.propose.rate_until_known import needed_n
from platewheel.parts.rating.assess import assess
from platewheel.parts.setting.setting import Setting
from tests.cli.propose.rows import laid
from tests.places import DEMO, TRACKS

JOB = read_job(DEMO)
WANTED = Wanted(280, 280, reserve=0.1)


def lines(
    monkeypatch: pytest.MonkeyPatch,
    *,
    runs: Callable[[Job], bool] = lambda job: True,
    bears: Callable[[Job], float] = lambda job: 2.0,
    passes: Callable[[Job], bool] = lambda job: True,
) -> list[str]:
    """With stand-ins for the screening, the coarse analysis (of the load needed) and the proof."""
    jobs: dict[int, Job] = {}

    def thickest(job: Job, wanted: Wanted, picks: Any, cleanly: bool = False) -> Job | None:
        one = module.changed(job, picks)
        return one if runs(one) else None

    def coarse(setting: Setting) -> dict[str, float]:
        one = Job(
            **{**vars(JOB), "track": setting.track, "wagon": setting.wagon, "use": setting.use}
        )
        jobs[len(jobs)] = one
        return {"any": bears(one) * needed_n(setting, WANTED.reserve)}

    def finalist(one: Job, estimate: float, reserve: float) -> Any:
        jobs[-len(jobs) - 1] = one
        return laid(one.wheel, 100.0) if passes(one) else "left out"

    monkeypatch.setattr(module, "thickest", thickest)
    monkeypatch.setattr(module, "coarse_limits", coarse)
    monkeypatch.setattr(module, "finalist", finalist)
    with ThreadPoolExecutor(1) as pool:
        told = smallest_sets(JOB, WANTED, pool)
    assert sum(key >= 0 for key in jobs) <= MOST_RATED
    assert sum(key < 0 for key in jobs) <= MOST_PROVED
    return told


def test_the_least_value_that_runs_and_bears_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    """It runs with up to 420 kg and bears enough with up to 360: 350 of 500 is the first."""
    told = lines(
        monkeypatch,
        runs=lambda job: job.wagon.payload_kg <= 420,
        bears=lambda job: 1.0 if job.wagon.payload_kg <= 360 else 0.9,
    )
    assert told[0].startswith("this would do: wagon.payload_kg = 350 in place of 500 (smaller")
    assert "; checks that warn" not in told[0]
    assert len(told) == 2
    assert told[1].startswith("looked for with ")


def test_of_several_keys_the_smallest_changes_come_first(monkeypatch: pytest.MonkeyPatch) -> None:
    told = lines(
        monkeypatch,
        runs=lambda job: (
            job.track.twist_mm_per_m < 3 or job.use.years <= 14 or job.wagon.payload_kg < 200
        ),
    )
    assert [line.split(" = ")[0] for line in told[:2]] == [
        "this would do: use.years",
        "this would do: track.twist_mm_per_m",
    ]
    assert len(told) == 3


def test_two_together_where_one_alone_does_not(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each as little changed as it may be beside the other."""
    told = lines(
        monkeypatch,
        runs=lambda job: job.wagon.suspension != "rigid" and job.track.flangeway_mm >= 35,
    )
    assert told[0].startswith("these together would do: ")
    assert "track.flangeway_mm = 36 in place of 24" in told[0]
    assert 'wagon.suspension = "three-point" in place of "rigid"' in told[0]


def test_a_second_key_makes_strong_what_the_first_lets_run(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    told = lines(
        monkeypatch,
        runs=lambda job: job.wagon.suspension != "rigid",
        bears=lambda job: 1.0 if job.wagon.payload_kg <= 400 else 0.8,
    )
    assert told[0].startswith("these together would do: ")
    assert "wagon.payload_kg = 400" in told[0]


def test_what_the_proof_refuses_is_not_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """The coarse analysis is content with 450 kg, the full one with 400 alone."""
    told = lines(
        monkeypatch,
        runs=lambda job: job.wagon.payload_kg < 500,
        passes=lambda job: job.wagon.payload_kg <= 400,
    )
    assert told[0].startswith("this would do: wagon.payload_kg = 400 ")
    none = lines(monkeypatch, runs=lambda job: job.wagon.payload_kg < 500, passes=lambda job: False)
    assert none[0].startswith("no change of one key or two that was tried does, as far as ")
    assert none[-1].startswith("the search ended at ")


def test_what_was_tried_is_told_where_nothing_does(monkeypatch: pytest.MonkeyPatch) -> None:
    told = lines(monkeypatch, runs=lambda job: False)
    assert "wagon.payload_kg to 0" in told[0]
    assert "0 coarse analyses and 0 ratings in full" in told[1]


@pytest.mark.usefixtures("few_choices")
def test_a_twisted_track_is_mended_and_check_says_so() -> None:
    """What is told, written into the job with its wheel, fails no check by its own full rating."""
    job = read_job(TRACKS / "twisted.toml")
    with ThreadPoolExecutor(1) as pool:
        search = Search(job, Wanted(280, 280), pool)
        axles = next(k for k in module.line_changes(job.setting) if k.key == "wagon.suspension")
        assert not search.runs(())
        assert search.runs(((axles, 0),))
        one = search.strongest[((axles, 0),)]
        assert one is not None
        assert one.wagon.suspension == "three-point"
        assert search.proof(((axles, 0),)) is not None
    checks = job_checks(one, assess(one.setting))
    assert not [check.id for check in checks if check.verdict == "fail"]
