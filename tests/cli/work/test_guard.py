"""A run that is watched over: signals end it in time, and the job folder is put right after it."""

from __future__ import annotations

import io
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from platewheel.cli.terminal.run import run
from platewheel.cli.work import stopping
from platewheel.cli.work.stopping import ToldToStop, undisturbed

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="no processes of this kind")
HEAD = """
import os, sys, time
from pathlib import Path
from platewheel.cli.output.alone import alone_in, mend
from platewheel.cli.terminal.run import run
from platewheel.cli.work.guard import guarded
from platewheel.cli.work import stopping
from platewheel.parts.base.interruptible import kept

def ready():
    print(os.getpid(), flush=True)

def command():
"""
TAIL = "\nguarded(lambda: run(command), mend)\n"
SLEEPS = "    ready(); time.sleep(60)\n"
SWALLOWED = """
    import signal

    class Dropped:
        def __del__(self):
            ready()
            while not signal.sigpending() and not stopping.stopped():
                time.sleep(0.01)

    Dropped()
    time.sleep(60)
"""
DEEP = """
    import signal
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGTERM, signal.SIGUSR1})  # as in a library
    with alone_in(Path("out"), "pond"):
        (Path("out") / ".pond-ab3_5678").mkdir()
        ready()
        time.sleep(60)
"""
SEARCHES = """
    for _ in range(2):
        try:
            ready()
            time.sleep(60)
        except KeyboardInterrupt:
            kept("the best plan found")
"""
CRASHES = "    ready(); os.abort()\n"
SHARED = """
    from platewheel.cli.work.beside import beside
    os.cpu_count = lambda: 2
    with beside() as pool:
        pool.submit(os.getpid).result()
        pool.submit(time.sleep, 60)
        print(next(iter(pool._processes)), flush=True)
        time.sleep(60)
"""


def started(body: str, folder: Path) -> tuple[subprocess.Popen[str], int]:
    """The guard, and the number that the run has told."""
    run = subprocess.Popen(
        [sys.executable, "-c", HEAD + body + TAIL],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert run.stdout is not None
    return run, int(run.stdout.readline())


def lives(number: int) -> bool:
    """Waits for its end a while."""
    for _ in range(200):
        try:
            os.kill(number, 0)
            stat = Path(f"/proc/{number}/stat").read_text()
            if stat.rpartition(")")[2].split()[0] == "Z":
                return False
        except OSError:
            return False
        time.sleep(0.02)
    return True


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP])
@pytest.mark.parametrize("body", [SLEEPS, SWALLOWED], ids=["anywhere", "where-it-is-swallowed"])
def test_a_signal_ends_a_run_with_a_line(body: str, number: int, tmp_path: Path) -> None:
    run, inner = started(body, tmp_path)
    run.send_signal(number)
    _, told = run.communicate(timeout=60)
    assert (run.returncode, told) == (3, "stopped; the former job folder is as it was\n")
    assert not lives(inner)


def test_a_run_deep_in_a_library_is_ended_and_what_it_left_cleared(tmp_path: Path) -> None:
    run, inner = started(DEEP, tmp_path)
    assert (tmp_path / "out" / ".pond.lock").exists()
    run.send_signal(signal.SIGTERM)
    _, told = run.communicate(timeout=60)
    assert (run.returncode, told) == (3, "stopped; the former job folder is as it was\n")
    assert not lives(inner)
    assert list((tmp_path / "out").iterdir()) == []


def test_what_is_kept_may_go_on_until_ctrl_c_is_said_again(tmp_path: Path) -> None:
    run, _ = started(SEARCHES, tmp_path)
    run.send_signal(signal.SIGINT)
    assert run.stdout is not None
    run.stdout.readline()  # it has gone on
    run.send_signal(signal.SIGINT)
    _, told = run.communicate(timeout=60)
    first, second = told.splitlines()
    assert first == "stopped: the best plan found is kept and written; Ctrl-C again ends the run"
    assert second.startswith("stopped; ")
    assert run.returncode == 3


def test_a_library_that_crashes_is_told(tmp_path: Path) -> None:
    run, _ = started(CRASHES, tmp_path)
    _, told = run.communicate(timeout=60)
    assert run.returncode == 3
    assert told.startswith("a library has crashed (SIGABRT), please report it; the former job")


@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGTERM])
def test_no_worker_outlives_the_run(number: int, tmp_path: Path) -> None:
    run, worker = started(SHARED, tmp_path)
    run.send_signal(number)
    run.communicate(timeout=60)
    assert not lives(worker)


def test_what_may_not_be_disturbed_is_done_to_its_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stopping, "_STATE", stopping._State())
    done = []

    def work() -> None:
        with undisturbed():
            stopping._heard(signal.SIGTERM, None)
            done.append("whole")

    with pytest.raises(ToldToStop):
        work()
    assert done == ["whole"]
    stopping._heard(signal.SIGTERM, None)  # said again while it ends


def test_a_library_is_loaded_before_the_stop(monkeypatch: pytest.MonkeyPatch) -> None:
    """A frame of the import system below: half a library is not left behind."""
    monkeypatch.setattr(stopping, "_STATE", stopping._State())
    monkeypatch.setattr(signal, "setitimer", lambda *given: None)
    code = compile("heard(number, frame())", "<frozen importlib._bootstrap>", "exec")
    exec(code, {"heard": stopping._heard, "number": signal.SIGTERM, "frame": sys._getframe})
    with pytest.raises(ToldToStop):
        stopping._heard(signal.SIGALRM, None)


def test_no_stop_breaks_in_once_the_work_is_done(monkeypatch: pytest.MonkeyPatch) -> None:
    """It comes while what was done is shown."""

    class Shown(io.StringIO):
        def flush(self) -> None:
            os.kill(os.getpid(), signal.SIGTERM)

    monkeypatch.setattr(stopping, "_STATE", stopping._State())
    monkeypatch.setattr(sys, "stdout", Shown())
    before = signal.signal(signal.SIGTERM, stopping._heard)
    try:
        assert run(lambda: None) == 0
        assert stopping.stopped()
    finally:
        signal.signal(signal.SIGTERM, before)
