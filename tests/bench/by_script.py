"""Time and memory of the demo by script and by command, each a process of its own; by hand:

python -m tests.bench.by_script

CPU seconds and peak memory of the process and those that it starts; a script pays for its imports
in each row, as a command does.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

DEMO = Path(__file__).parents[2] / "cli" / "job" / "demo.toml"
LOAD = "import platewheel; job = platewheel.load('job.toml')"
ROWS: tuple[tuple[str, str, Sequence[str]], ...] = (
    ("import", "import platewheel", ("--help",)),
    ("load", LOAD, ()),
    ("check, quick", f"{LOAD}; job.check(quick=True)", ("check", "job.toml", "--quick")),
    ("check", f"{LOAD}; job.check()", ("check", "job.toml")),
    ("rate", f"{LOAD}; job.rate()", ()),
    ("cost", f"{LOAD}; job.cost()", ()),
    ("nest, quick", f"{LOAD}; job.nest(effort='quick')", ("nest", "job.toml", "--effort=quick")),
    ("nest", f"{LOAD}; job.nest()", ("nest", "job.toml")),
    ("solids", f"{LOAD}; job.solids()", ("solids", "job.toml")),
    ("build", f"{LOAD}; job.build('made')", ("build", "job.toml")),
)
COMMAND = "from platewheel.cli.commands.main import main; main()"


def used(code: str, words: Sequence[str], folder: Path) -> tuple[float, float, float, int]:
    """CPU seconds, wall seconds, peak MB and exit code of Python code in that folder."""
    began = time.perf_counter()
    child = subprocess.Popen(
        [sys.executable, "-c", code, *words],
        cwd=folder,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    _, status, sums = os.wait4(child.pid, 0)
    wall = time.perf_counter() - began
    ended = os.waitstatus_to_exitcode(status)
    return sums.ru_utime + sums.ru_stime, wall, sums.ru_maxrss / 1024, ended


def said(code: str, words: Sequence[str]) -> str:
    """One side of a row, on a job folder of its own."""
    with tempfile.TemporaryDirectory() as home:
        shutil.copy(DEMO, Path(home) / "job.toml")
        cpu, wall, peak, ended = used(code, words, Path(home))
    return f"{cpu:7.1f} {wall:7.1f} {peak:7.0f}{f'  exit {ended}' if ended else ''}"


def main() -> None:
    """Print the table as it grows."""
    print(f"load {os.getloadavg()[0]:.1f}, {os.cpu_count()} cores")
    print(f"{'':14s}{'by script':>24s}{'by command':>26s}")
    print(f"{'':14s}{'CPU s   wall s      MB':>23s}  {'CPU s   wall s      MB':>24s}")
    for name, script, words in ROWS:
        by_script = said(script, ())
        print(f"{name:14s}{by_script}  {said(COMMAND, words) if words else ''}", flush=True)


if __name__ == "__main__":
    main()
