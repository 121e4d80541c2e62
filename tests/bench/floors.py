"""What commands take beside what the libraries that they use take alone; by hand:

python -m tests.bench.floors [ROUNDS]

CPU seconds, user and system, of a process and all those beside it, the least of ROUNDS (3) runs
each (one of 480 wheels): a busy machine makes wall seconds longer, these little. The floor of a
command: the modules that it loads, imported and nothing else; the same systems of equations
factorized and solved; the same wheelset by plain cadquery (`raw_solids.py`); the documents of the
same STEP files written; each DXF read once and written once; the same sources set by Typst; the
bytes of its output copied. The search for a layout, leads, checks and proofs have no floor: they
are what the command is for.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.bench.floor_work import kept
from tests.places import DEMO, ROOT

ALL = ("solves", "solids", "step", "dxf", "typst", "copy")
ROWS: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (  # name, command, floor
    ("start-up (--help)", ("--help",), ()),
    ("check --quick", ("check", "--quick", "JOB"), ()),
    ("check", ("check", "JOB"), ("solves",)),
    ("solids", ("solids", "JOB"), ("solids", "step", "copy")),
    ("nest --effort quick", ("nest", "JOB", "--effort", "quick"), ("dxf", "copy")),
    ("templates", ("templates", "JOB"), ("copy",)),
    ("build", ("build", "JOB", "--effort", "quick"), ALL),
)
MANY = 480
PLATEWHEEL = str(Path(sys.executable).with_name("platewheel"))


def cpu_s(command: Sequence[str]) -> tuple[float, str]:
    """CPU seconds of a process and of all that it waited for, and what it printed."""
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    env["OPENBLAS_NUM_THREADS"] = "1"  # threads that wait for each other count as work
    with tempfile.TemporaryFile("w+") as out, tempfile.TemporaryFile("w+") as err:
        child = subprocess.Popen(command, stdout=out, stderr=err, cwd=ROOT, env=env)
        _, status, used = os.wait4(child.pid, 0)
        out.seek(0)
        err.seek(0)
        said = err.read()
        if os.waitstatus_to_exitcode(status) not in (0, 1) or "Traceback" in said:
            raise SystemExit(f"{' '.join(command)}: {said[-2000:]}")
        return used.ru_utime + used.ru_stime, out.read()


def row(name: str, ours: float, floor: float) -> str:
    return f"{name:34s} {ours:8.2f} {floor:8.2f} {ours / floor:7.1f}"


def measured(name: str, command: Sequence[str], wanted: Sequence[str], rounds: int) -> list[str]:
    """Lines about a command; of a build also one each of its papers and STEP files."""
    with tempfile.TemporaryDirectory() as home:
        folder, out = Path(home, "kept"), Path(home, "out")
        folder.mkdir()
        given = [*command, *(("--out", str(out)) if "copy" in wanted else ())]
        child = [sys.executable, "-m", "tests.bench.floor_work"]
        cpu_s([*child, "record", str(folder), *given])  # also warms caches
        ours = min(cpu_s([PLATEWHEEL, *given])[0] for _ in range(rounds))
        made = next(out.iterdir(), out) if out.exists() else out
        runs = [
            json.loads(cpu_s([*child, "floor", str(folder), str(made), *wanted])[1])
            for _ in range(rounds)
        ]
        least = {what: min(run[what] for run in runs) for what in runs[0]}
        parts = ", ".join(f"{what} {spent:.2f}" for what, spent in least.items())
        lines = [f"{row(name, ours, sum(least.values()))}  {parts}"]
        for what, alone in (("papers", "typst"), ("step", "step")):
            spent = sum(kept(folder, f"ours-{what}"))
            if spent:
                lines.append(row(f"  of it {what}, no imports", spent, least[alone]))
        return lines


def many(folder: Path) -> Path:
    """The demo with more wheels."""
    text = DEMO.read_text("utf-8")
    job = folder / "many.toml"
    job.write_text(text.replace("\nwheels = 48 ", f"\nwheels = {MANY} ", 1), "utf-8")
    return job


def main() -> None:
    """Print the table as it grows."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    print(f"CPU seconds; load {os.getloadavg()[0]:.1f}, {os.cpu_count()} cores")
    print(f"{'what':34s} {'ours s':>8s} {'floor s':>8s} {'ratio':>7s}")
    for name, command, wanted in ROWS:
        given = [str(DEMO) if word == "JOB" else word for word in command]
        print(*measured(name, given, wanted, rounds), sep="\n", flush=True)
    with tempfile.TemporaryDirectory() as home:
        given = ["build", str(many(Path(home))), "--effort", "quick"]
        print(*measured(f"build of {MANY} wheels", given, ALL, 1), sep="\n", flush=True)


if __name__ == "__main__":
    main()
