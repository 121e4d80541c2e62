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
from platewheel.cli.commands.entry import _mend
from platewheel.cli.output.alone import alone_in
from platewheel.cli.terminal.run import run
from platewheel.cli.work import guard, stopping
from platewheel.cli.work.guard import guarded, tell_guard
from platewheel.parts.base.interruptible import kept

def ready():
    print(os.getpid(), flush=True)

def command():
"""
TAIL = "\nguard.GRACE_S = 0.4\nguarded(lambda: run(command), _mend)\n"
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
BUSY = """
    import ctypes, itertools, signal
    told = map(ctypes.PyDLL(None).kill, [os.getpid()], [signal.SIGTERM])
    ready()
    max(itertools.chain(told, itertools.repeat(1, 10**10)))  # no step of Python's own
"""
KEEPS_LATE = """
    import signal
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGTERM, signal.SIGUSR1})  # as in a library
    ready()
    while not {signal.SIGTERM, signal.SIGUSR1} <= signal.sigpending():
        time.sleep(0.01)
    tell_guard("keeps")
    time.sleep(60)
"""
PLACED = """
    import signal
    from platewheel.cli.work.whole_file import write_whole
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGTERM, signal.SIGUSR1})  # as in a library
    write_whole(Path("pond.pdf"), b"pond")
    ready()
    time.sleep(60)
"""
DONE = """
    import signal

    class Last:
        def __del__(self, told=os.write, number=signal.SIGTERM, kill=os.kill, own=os.getpid()):
            kill(own, number)
            told(1, b"0\\n")

    sys.modules["last"] = Last()
"""
DONE_LATE = """
    from platewheel.cli.work.whole_file import write_whole
    write_whole(Path("pond.pdf"), b"pond")

    class Last:
        def __del__(self, told=os.write, own=os.getpid(), wait=time.sleep):
            told(1, f"{own}\\n".encode())
            wait(0.2)

    sys.modules["last"] = Last()
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


def started(
    body: str, folder: Path, errors: int = subprocess.PIPE
) -> tuple[subprocess.Popen[str], int]:
    """The guard, and the number that the run has told."""
    run = subprocess.Popen(
        [sys.executable, "-c", HEAD + body + TAIL],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=errors,
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
    assert (run.returncode, told) == (3, "stopped; nothing is written, all is as it was\n")
    assert not lives(inner)


def test_a_run_deep_in_a_library_is_ended_and_what_it_left_cleared(tmp_path: Path) -> None:
    run, inner = started(DEEP, tmp_path)
    assert (tmp_path / "out" / ".pond.lock").exists()
    run.send_signal(signal.SIGTERM)
    _, told = run.communicate(timeout=60)
    assert (run.returncode, told) == (3, "stopped; nothing is written, all is as it was\n")
    assert not lives(inner)
    assert list(tmp_path.iterdir()) == []


def test_one_that_is_told_itself_deep_in_a_library_is_ended_too(tmp_path: Path) -> None:
    """A person who looks for what is busy finds the run, not its guard."""
    run, _ = started(BUSY, tmp_path)
    _, told = run.communicate(timeout=60)
    assert (run.returncode, told) == (3, "stopped; nothing is written, all is as it was\n")


def test_on_a_terminal_the_line_stands_alone_and_the_cursor_is_back(tmp_path: Path) -> None:
    """ECMA-48: EL, erase in line; DECTCEM of terminals since the VT220, cursor shown."""
    seen, terminal = os.openpty()
    run, _ = started(DEEP, tmp_path, terminal)
    run.send_signal(signal.SIGTERM)
    run.wait(timeout=60)
    told = os.read(seen, 1000).decode()
    assert told == "\r\x1b[K\x1b[?25hstopped; nothing is written, all is as it was\r\n"
    os.close(seen)
    os.close(terminal)


def test_no_search_that_is_kept_outlives_being_told(tmp_path: Path) -> None:
    run, _ = started(KEEPS_LATE, tmp_path)
    run.send_signal(signal.SIGINT)
    time.sleep(0.1)
    run.send_signal(signal.SIGTERM)
    run.communicate(timeout=30)
    assert run.returncode == 3


def test_what_is_kept_may_go_on_until_ctrl_c_is_said_again(tmp_path: Path) -> None:
    run, _ = started(SEARCHES, tmp_path)
    run.send_signal(signal.SIGINT)
    assert run.stdout is not None
    run.stdout.readline()  # it has gone on
    run.send_signal(signal.SIGINT)
    _, told = run.communicate(timeout=60)
    first, second = told.splitlines()
    assert first == "stopped: writing the best plan found; Ctrl-C again ends at once"
    assert second.startswith("stopped; ")
    assert run.returncode == 3


def test_a_library_that_crashes_is_told(tmp_path: Path) -> None:
    run, _ = started(CRASHES, tmp_path)
    _, told = run.communicate(timeout=60)
    assert run.returncode == 3
    why = "a library has crashed (SIGABRT), please report it"
    assert told == f"{why}; nothing is written, all is as it was\n"


def test_what_is_in_place_is_told_even_of_a_run_that_cannot_tell(tmp_path: Path) -> None:
    run, _ = started(PLACED, tmp_path)
    run.send_signal(signal.SIGTERM)
    _, told = run.communicate(timeout=60)
    assert (run.returncode, told) == (3, "stopped; pond.pdf is written\n")
    assert [one.name for one in tmp_path.iterdir()] == ["pond.pdf"]


def test_a_run_that_is_done_ends_as_done(tmp_path: Path) -> None:
    """While the interpreter takes itself apart, signals would have their own way again."""
    run, _ = started(DONE, tmp_path)
    _, told = run.communicate(timeout=60)
    assert (run.returncode, told) == (0, "")


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_a_stop_that_comes_too_late_is_told_as_such(number: int, tmp_path: Path) -> None:
    """The files are new ones, though somebody has stopped the run: nothing said so."""
    run, _ = started(DONE_LATE, tmp_path)
    run.send_signal(number)
    _, told = run.communicate(timeout=60)
    line = "stopped when all was done; pond.pdf is written\n"
    assert (run.returncode, told) == (3, line)


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
    stopping._heard(stopping.ASKED, None)  # no search may keep what it has, and go on


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
