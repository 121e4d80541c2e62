"""A long calculation beside the rest of a build: on another core where that is safe."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Iterator
from concurrent.futures import Executor, ProcessPoolExecutor, ThreadPoolExecutor
from contextlib import contextmanager, suppress

from platewheel.cli.work.parent import end_with
from platewheel.cli.work.stopping import ASKED


@contextmanager
def beside(workers: int = 1) -> Iterator[Executor]:
    """One worker or more: forked processes where nothing else runs yet, else threads.

    A thread shares the interpreter's lock with the rest; a process started anew would load all
    libraries again. Ctrl-C is left to the build, which keeps what it has found.
    """
    if _alone() and "fork" in multiprocessing.get_all_start_methods():
        fork = multiprocessing.get_context("fork")
        pool: Executor = ProcessPoolExecutor(workers, fork, _begin, (os.getpid(),))
        pool.submit(int)  # all of them are forked now
        _let_go(pool)
    else:
        pool = ThreadPoolExecutor(workers)
    try:
        yield pool
    except BaseException:  # nobody asks any more
        processes = getattr(pool, "_processes", None) or {}
        for one in list(processes):
            with suppress(ProcessLookupError):
                os.kill(one, signal.SIGKILL)
        # threads go on to the end of what they do, and a stop does not wait for them
        pool.shutdown(wait=bool(processes), cancel_futures=True)
        raise
    pool.shutdown()


def _let_go(pool: Executor) -> None:
    """Leave the writing end of the pipe for results to the workers. Where one is killed in the
    midst of a result, its rest would be waited for as long as anyone may write it."""
    with suppress(AttributeError):  # no part of what the library promises
        pool._result_queue._writer.close()  # type: ignore[attr-defined]


def _alone() -> bool:
    """No other thread, which a fork would cut off, and a core to spare."""
    return threading.active_count() == 1 and (os.cpu_count() or 1) > 1


def _begin(parent: int) -> None:
    """In a new process: Ctrl-C is not for it, being told to stop ends it, whatever the build made
    of that, and so does the end of the build. Its linear algebra stays on one core, as the others
    have work of their own."""
    from threadpoolctl import threadpool_limits  # type: ignore[import-untyped]

    for number in {signal.SIGINT, ASKED, getattr(signal, "SIGALRM", ASKED)}:
        signal.signal(number, signal.SIG_IGN)
    for number in {signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)}:
        if signal.getsignal(number) != signal.SIG_IGN:  # nohup stays in force
            signal.signal(number, signal.SIG_DFL)
    end_with(parent)
    threadpool_limits(limits=1)
