"""Runs that are killed, told or asked to stop at random and chosen moments.

    python -m tests.bench.kills [RUNS [SEED [SIGNAL ...]]]   as `60 7 SIGKILL`; all four else

Each run builds over a former job folder. Whatever ends it, the folder must be the former or a whole
new one, no process may live longer than two seconds, nothing may be left beside it once the next
run has looked, and what is told is one line without a traceback. Prints each fault and the sums.
"""

from __future__ import annotations

import hashlib
import json
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import uuid
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from platewheel.cli.output.alone import mend
from tests.cli.jobs import NAME, job_text

SIGNALS = (signal.SIGKILL, signal.SIGTERM, signal.SIGINT, signal.SIGHUP)
ALL_OF_IT = 0.4  # of the strikes are at the whole group, as by a terminal or `timeout`
COMMANDS = (
    ("build", "--effort", "quick"),
    ("build",),
    ("nest",),
    ("solids",),
    ("templates",),
    ("check",),
)
ENDS_S = 2.0
LONG_S = 240.0
MARK = "PLATEWHEEL_KILLS"


def state(home: Path) -> str:
    """Digest of all that is in a folder."""
    digest = hashlib.sha256()
    for path in sorted(home.rglob("*")):
        digest.update(str(path.relative_to(home)).encode())
        digest.update(path.read_bytes() if path.is_file() else b"")
    return digest.hexdigest()


def living(mark: str) -> list[int]:
    """Processes that were started with the mark. Linux."""
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                marked = f"{MARK}={mark}".encode() in (entry / "environ").read_bytes()
                dead = (entry / "stat").read_text().rpartition(")")[2].split()[0] == "Z"
            except OSError:
                continue
            if marked and not dead:
                found.append(int(entry.name))
    return found


def moments(out: Path, chance: random.Random, long_s: float) -> tuple[str, Callable[[], bool]]:
    """When to strike: a name for it, and whether it is now."""
    start, after = time.monotonic(), chance.random() * long_s
    asides: list[Path] = []

    def aside() -> bool:
        asides[:] = [one for one in out.glob(f".{NAME}-*") if one.is_dir()] or asides
        return bool(asides)

    def made() -> bool:
        return aside() and any((one / "made" / "report.json").exists() for one in asides)

    ways = {
        "at random": lambda: time.monotonic() - start >= after,
        "loading": lambda: time.monotonic() - start >= after / 8,
        "locked": lambda: (out / f".{NAME}.lock").exists(),
        "written aside": aside,
        "report written": made,
        "put in place": lambda: aside() and not all((one / "made").exists() for one in asides),
    }
    name = chance.choice(list(ways))
    return name, ways[name]


def faults_of(
    place: Path, chance: random.Random, signals: Sequence[signal.Signals], sums: Counter[str]
) -> Iterator[str]:
    """One run, ended; what went wrong."""
    out, mark, command = place / "out", uuid.uuid4().hex, chance.choice(COMMANDS)
    before = state(out / NAME)
    number, long_s = chance.choice(signals), 30.0 if command[0] == "build" else 12.0
    name, now = moments(out, chance, long_s)
    run = subprocess.Popen(
        [sys.executable, "-m", "platewheel", command[0], "job.toml", *command[1:]],
        cwd=place,
        env=os.environ | {MARK: mark},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    since = time.monotonic()
    while run.poll() is None and not now() and time.monotonic() - since < LONG_S:
        time.sleep(0.002)
    struck = run.poll() is None
    at = time.monotonic()
    whole = chance.random() < ALL_OF_IT
    if struck and whole:
        os.killpg(run.pid, number)
    elif struck:
        run.send_signal(number)
    to = " to all of it" if whole else ""
    words = f"{' '.join(command)}, {number.name}{to} {name} after {at - since:.2f} s"
    sums[f"{number.name} {'struck' if struck else 'too late'}"] += 1
    while time.monotonic() - at < ENDS_S and living(mark):
        time.sleep(0.02)
    late = living(mark)
    _, told = run.communicate(timeout=LONG_S)
    took = time.monotonic() - at
    kept = "Ctrl-C again" in told
    if late and not (kept and number == signal.SIGINT) and struck:
        sums["orphans"] += len(late)
        yield f"{words}: {len(late)} processes live on, ended after {took:.1f} s: {told[-300:]!r}"
    for one in living(mark):
        os.kill(one, signal.SIGKILL)
    # the interpreter had not begun with ours: nothing told, or the fault of its own start
    early = (run.returncode == -number and not told) or ("Fatal Python error: init_" in told)
    sums["before it began"] += early and number != signal.SIGKILL
    # at the very end: the work was done, and is told as done
    done = run.returncode in (0, 1) and not told and took < ENDS_S
    sums["done as it was struck"] += done and struck
    if struck and number != signal.SIGKILL and not early and not done:
        sums[f"exit {run.returncode}{' kept' if kept else ''}"] += 1
        if run.returncode not in ((0, 1, 3) if kept else (3,)):
            yield f"{words}: exit {run.returncode}: {told[-300:]!r}"
        if not kept and told.splitlines()[-1:] != [told.strip()]:
            yield f"{words}: told {told[-500:]!r}"
        if not kept and "stopped" not in told:
            yield f"{words}: told {told[-500:]!r}"
    for word in (
        ()
        if early
        else ("Traceback", "Segmentation", "Fatal Python", "Exception ignored", "has crashed")
    ):
        if word in told:
            yield f"{words}: {word}: {told[-800:]!r}"
    left = [one.name for one in out.iterdir() if one.name != NAME]
    sums["left by SIGKILL"] += bool(left) and number == signal.SIGKILL
    if left and number != signal.SIGKILL:
        sums["leftovers"] += 1
        yield f"{words}: left {left}"
    mend(out, NAME)
    left = [one.name for one in out.iterdir() if one.name != NAME]
    if left:
        sums["leftovers"] += 1
        yield f"{words}: left by the next run: {left}"
    if not (out / NAME).is_dir():
        yield f"{words}: no job folder"
        return
    after = state(out / NAME)
    sums["folder new" if after != before else "folder as it was"] += 1
    if "as it was" in told and after != before:
        yield f"{words}: told as it was, but is not"
    report = out / NAME / "report.json"
    if report.exists() and "job" not in json.loads(report.read_text()):
        yield f"{words}: the report is cut off"


def main() -> None:
    """Runs, faults, sums."""
    given = sys.argv[1:]
    runs, seed = (int(one) for one in (*given[:2], *("20", "0")[len(given[:2]) :]))
    signals = [signal.Signals[name] for name in given[2:]] or SIGNALS
    chance, sums = random.Random(seed), Counter[str]()
    signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's "&" has it ignored
    signal.signal(signal.SIGHUP, signal.SIG_DFL)  # and nohup this
    place = Path(tempfile.mkdtemp(prefix="kills-"))
    (place / "job.toml").write_text(job_text(), encoding="utf-8")
    subprocess.run(
        [sys.executable, "-m", "platewheel", "build", "job.toml", "--effort", "quick"],
        cwd=place,
        stdout=subprocess.DEVNULL,
        check=False,
    )
    first = place / "first"
    shutil.copytree(place / "out", first)
    for _ in range(runs):
        shutil.rmtree(place / "out")
        shutil.copytree(first, place / "out")
        (place / "out" / NAME / "standards.pdf").write_text("former")  # so that a new one shows
        for line in faults_of(place, chance, signals, sums):
            sums["faults"] += 1
            print(line, flush=True)
    shutil.rmtree(place)
    for name, count in sorted(sums.items()):
        print(f"{count:5d} {name}")
    print(f"{runs} runs, seed {seed}: faults {sums['faults']}, orphans {sums['orphans']}, ", end="")
    print(f"leftovers {sums['leftovers']}")
    raise SystemExit(bool(sums["faults"]))


if __name__ == "__main__":
    main()
