"""Work that the caller need not wait for once Ctrl-C is pressed."""

from __future__ import annotations

import signal
import threading

import pytest

from platewheel.parts.base.interruptible import (
    hear_kept,
    interruptible,
    kept,
    kept_already,
    side_by_side,
)


def test_each_gives_what_it_gives_in_their_order() -> None:
    later = threading.Event()

    def first() -> int:
        later.wait(20)
        return 1

    def second() -> int:
        later.set()
        return 2

    assert side_by_side([first, second], 2) == [1, 2]
    assert side_by_side([lambda: 3, lambda: 4, lambda: 5], 2) == [3, 4, 5]
    assert side_by_side([], 2) == []


def test_what_goes_wrong_is_raised_where_it_is_asked_for() -> None:
    with pytest.raises(ZeroDivisionError):
        interruptible(lambda: 1 / 0)


def test_what_is_kept_is_heard_and_where_nobody_hears_ctrl_c_goes_on(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def searched() -> None:
        try:
            raise KeyboardInterrupt
        except KeyboardInterrupt:
            kept("the best plan")

    told: list[str] = []
    for name in ("_HEARERS", "_KEPT"):
        monkeypatch.setattr(f"platewheel.parts.base.interruptible.{name}", [])
    with pytest.raises(KeyboardInterrupt):
        searched()
    assert not kept_already()
    hear_kept(told.append)
    searched()
    assert told == ["the best plan"]
    assert kept_already()


def test_ctrl_c_leaves_work_that_never_ends() -> None:
    begun, end = threading.Event(), threading.Event()

    def endless() -> bool:
        begun.set()
        return end.wait(60)

    def press() -> None:
        begun.wait(20)
        signal.raise_signal(signal.SIGINT)  # to the process; its main thread meets it

    threading.Thread(target=press, daemon=True).start()
    with pytest.raises(KeyboardInterrupt):
        interruptible(endless)
    assert not end.is_set()
    end.set()


def test_work_of_another_thread_stays_in_it() -> None:
    where: list[threading.Thread] = []

    def ask() -> None:
        interruptible(lambda: where.append(threading.current_thread()))

    other = threading.Thread(target=ask)
    other.start()
    other.join()
    assert where == [other]
