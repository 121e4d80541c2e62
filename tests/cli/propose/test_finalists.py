"""Finalists: what fails in full gives way to the next of its family; why is told."""

from __future__ import annotations

from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.propose import finalists as module
from platewheel.cli.propose.finalists import MOST_ROUNDS, finalists
from platewheel.cli.schema.propose import ProposalRow
from platewheel.parts.wheel.spec import WheelSpec
from tests.cli.conftest import _rate_once
from tests.cli.propose.rows import laid
from tests.parts.settings import DEMO


@dataclass
class Wheels:
    """Rows that are told apart by their throat."""

    wheel: WheelSpec

    def values(self, row: int) -> dict[str, object]:
        return self.wheel.model_dump() | {"weld_throat_mm": 3 + row / 10}

    def play_mm(self, row: int) -> None:
        """As the job has it."""


@dataclass
class Few:
    """What the search found: rows in order of cost, and their families."""

    stopped: bool = False
    wheels: Wheels = field(default_factory=lambda: Wheels(read_job(DEMO).wheel))
    strong: list[int] = field(default_factory=lambda: [0, 1, 2, 3, 4, 5, 6, 7])
    family: list[int] = field(default_factory=lambda: [0, 0, 1, 0, 1, 2, 3, 3])
    cost: list[float] = field(default_factory=lambda: [100.0 + k for k in range(8)])


@pytest.fixture
def job() -> Job:
    return read_job(DEMO)


def chosen(
    job: Job,
    bad: set[int],
    count: int,
    monkeypatch: pytest.MonkeyPatch,
    found: Few | None = None,
) -> tuple[list[int], list[str], list[int]]:
    """Rows proposed, why others are not, and rows rated in full."""
    rated: list[int] = []

    def stand_in(one: Job, estimate: float, reserve: float) -> ProposalRow | str:
        row = round(estimate - 100)
        rated.append(row)
        return f"row {row} fails" if row in bad else laid(one.wheel, estimate)

    monkeypatch.setattr(module, "finalist", stand_in)
    with ThreadPoolExecutor(1) as pool:
        good, left_out, _ = finalists(job, found or Few(), count, pool)  # type: ignore[arg-type]
    return [round(row.cost_estimate - 100) for row in good], left_out, rated


def test_the_cheapest_of_each_family(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    assert chosen(job, set(), 3, monkeypatch) == ([0, 2, 5], [], [0, 2, 5])


def test_the_next_of_a_family_takes_its_place(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    good, left_out, rated = chosen(job, {0}, 3, monkeypatch)
    assert good == [1, 2, 5]
    assert left_out == ["row 0 fails"]
    assert sorted(rated) == [0, 1, 2, 5]


def test_a_family_that_fails_whole_gives_way(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    good, left_out, _ = chosen(job, {0, 1, 3}, 3, monkeypatch)
    assert good == [2, 5, 6]
    assert left_out == [f"row {row} fails" for row in (0, 1, 3)]


def test_it_ends_where_everything_fails(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    good, left_out, rated = chosen(job, set(range(8)), 2, monkeypatch)
    assert not good
    assert len(left_out) == len(rated) == len(set(rated))
    assert len(rated) <= MOST_ROUNDS * 2 + 1


def test_a_finalist_without_its_reserve_is_left_out(
    job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The demo's own wheel is rated a little above its load: a reserve of twice it is not there."""
    monkeypatch.setattr(module, "assess", _rate_once)
    told = module.finalist(job, 120.0, reserve=1.0)
    assert isinstance(told, str)
    assert told.endswith("% of reserve, 100 % are asked for")


@dataclass
class Stopped(Few):
    stopped: bool = True


def test_once_ctrl_c_has_come_a_few_are_rated_and_no_more(
    job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert chosen(job, set(), 4, monkeypatch, Stopped()) == ([0, 2], [], [0, 2])
    assert chosen(job, {0}, 4, monkeypatch, Stopped()) == ([2], ["row 0 fails"], [0, 2])
    good, _, rated = chosen(job, {0, 2}, 4, monkeypatch, Stopped())
    assert (good, rated) == ([1, 4], [0, 2, 1, 4])  # one is wanted


def test_ctrl_c_while_they_are_rated_keeps_the_first_of_them(
    job: Job, monkeypatch: pytest.MonkeyPatch, heard: list[str]
) -> None:
    """With one at work none of the others has begun."""
    came: list[int] = []

    def result(future: Future[object]) -> object:
        if not came:
            came.append(1)
            raise KeyboardInterrupt
        return plain(future)

    plain = Future.result
    monkeypatch.setattr(Future, "result", result)
    good, _, rated = chosen(job, set(), 4, monkeypatch)
    assert good[:2] == [0, 2]
    assert len(rated) <= 3  # one more may have been begun by then
    assert heard == ["the proposal of the best wheels found"]
