"""Threads of a script are answered one at a time."""

from __future__ import annotations

import pickle
import threading
import time
from collections.abc import Callable, Iterator

import pytest

import platewheel
from platewheel.parts.base.one_at_a_time import one_at_a_time


class Room:
    """Counts who is inside at once."""

    def __init__(self) -> None:
        self.inside = self.most = 0

    def visit(self) -> None:
        self.inside += 1
        self.most = max(self.most, self.inside)
        time.sleep(0.02)  # long enough that another who may come in does
        self.inside -= 1


def side_by_side(*calls: Callable[[], object]) -> None:
    ready = threading.Barrier(len(calls))

    def run(call: Callable[[], object]) -> None:
        ready.wait()
        call()

    threads = [threading.Thread(target=run, args=(call,)) for call in calls]
    for one in threads:
        one.start()
    for one in threads:
        one.join(30)
    assert not any(one.is_alive() for one in threads)


@pytest.fixture(scope="module")
def job() -> platewheel.JobFile:
    return platewheel.demo()


def test_a_job_and_a_wheel_are_never_asked_at_once(
    job: platewheel.JobFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    room = Room()

    def solids(*_: object, **__: object) -> Iterator[tuple[str, object]]:
        room.visit()
        yield "tread", None

    def checks(*_: object) -> list[object]:
        room.visit()
        return []

    monkeypatch.setattr("platewheel.parts.wheel.assembly.wheel_solids", solids)
    monkeypatch.setattr("platewheel.cli.job.wheelset.checks_with_advice", checks)
    spec, asked = job.job.wheel, platewheel.wheel_solids  # made of the function put in its place
    both = (lambda: job.check(quick=True), job.solids, lambda: [*asked(spec)])
    side_by_side(*both, *both)
    assert room.most == 1


@pytest.mark.parametrize("name", ["changed", "with_part", "with_disc", "rate", "nest", "cost"])
def test_every_question_waits_for_its_turn(name: str) -> None:
    assert hasattr(vars(platewheel.JobFile)[name], "__wrapped__")


def test_one_that_yields_leaves_others_their_turn_between_its_steps() -> None:
    steps = one_at_a_time(lambda: 1), one_at_a_time(_two)()
    assert next(steps[1]) == 1
    side_by_side(steps[0])
    assert [*steps[1]] == [2]


def _two() -> Iterator[int]:
    yield 1
    yield 2


def test_a_function_of_a_wheel_is_one_and_goes_to_other_processes() -> None:
    one = platewheel.wheel_mass_kg
    assert one is platewheel.wheel_mass_kg
    assert pickle.loads(pickle.dumps(one)) is one
