"""The worker beside a build: what it finds comes back, and Ctrl-C does not reach it."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool

import pytest
import typer

from platewheel.cli.terminal.exits import exit_codes
from platewheel.cli.work.beside import beside

ALONE = """
import os, signal
from platewheel.cli.work.beside import beside
for number in (signal.SIGTERM, signal.SIGHUP):
    signal.signal(number, lambda *told: None)  # the command line's own way to stop
with beside() as worker:
    other = worker.submit(os.getpid).result()
    assert other != os.getpid()
    assert worker.submit(signal.getsignal, signal.SIGINT).result() == signal.SIG_IGN
    for number in (signal.SIGTERM, signal.SIGHUP):
        assert worker.submit(signal.getsignal, number).result() == signal.SIG_DFL
print("ended")
"""
HALF = """
import os, signal, struct, sys
from platewheel.cli.work.beside import beside

def half():
    frame = sys._getframe()
    while "result_queue" not in frame.f_locals:
        frame = frame.f_back
    end = frame.f_locals["result_queue"]._writer.fileno()
    os.write(end, struct.pack("!i", 1000) + b"half of it")
    os.kill(os.getpid(), signal.SIGKILL)

os.cpu_count = lambda: 2
with beside() as worker:
    print(type(worker.submit(half).exception()).__name__)
"""


def test_what_it_finds_and_what_goes_wrong_comes_back() -> None:
    with beside() as worker:
        assert worker.submit(divmod, 17, 5).result() == (3, 2)
        with pytest.raises(ZeroDivisionError):
            worker.submit(divmod, 17, 0).result()


def test_beside_other_threads_it_stays_in_the_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("platewheel.cli.work.beside._alone", lambda: False)
    with beside() as worker:
        assert worker.submit(os.getpid).result() == os.getpid()


def test_a_stop_does_not_wait_for_a_thread(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("platewheel.cli.work.beside._alone", lambda: False)
    end, late = threading.Event(), list[Future[bool]]()

    def stopped() -> None:
        with beside() as worker:
            late.append(worker.submit(end.wait, 60))
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        stopped()
    assert not late[0].done()
    end.set()


def test_alone_it_takes_another_process_that_ctrl_c_does_not_stop() -> None:
    script = ALONE.replace("import os,", "import os; os.cpu_count = lambda: 2\nimport os,")
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert (done.stdout, done.returncode) == ("ended\n", 0), done.stderr


def test_a_worker_that_is_killed_in_the_midst_of_its_answer_is_noticed() -> None:
    """The length of an answer goes before it, as `multiprocessing.connection` sends it."""
    done = subprocess.run(
        [sys.executable, "-c", HALF], capture_output=True, text=True, check=False, timeout=60
    )
    assert (done.stdout, done.returncode) == ("BrokenProcessPool\n", 0), done.stderr


def test_a_worker_that_is_ended_is_told_in_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(typer.Exit) as left, exit_codes():
        raise BrokenProcessPool("A process was terminated abruptly")
    assert left.value.exit_code == 3
    assert capsys.readouterr().err.startswith("a process beside this one was ended")
