"""Two versions of platewheel make the same job folders: `python -m tests.bench.same_bytes A B`.

A and B are commands, such as `.venv/bin/platewheel` of two checkouts; with `--folders`, two
folders that they have written already. Without B it is A again under other circumstances: on one
core, in another current folder, locale, time zone, umask, order of hashes, without caches. Three
jobs are built by each, mm and inches, and the demo is asked all else that writes: STEP, DXF, PDF,
TOML, CSV and JSON must be the same bytes; pages must show the same text and the same drawings,
however they are made.
"""

from __future__ import annotations

import argparse
import difflib
import os
import re
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from tests.places import DEMO, TRACKS

JOBS = {"demo": DEMO, "garden": TRACKS / "garden.toml", "quarry": TRACKS / "quarry.toml"}
SILENT = {"style", "script", "head", "title"}
VOID = {"meta", "link", "br", "hr", "img", "input", "col"}


class Seen(HTMLParser):
    """What a page shows: its words in order, and its drawings."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.open: list[str] = []
        self.drawings = [
            re.sub(r"\s+", " ", svg) for svg in re.findall(r"<svg.*?</svg>", page, re.S)
        ]
        self.feed(re.sub(r"<svg.*?</svg>", " ", page, flags=re.S))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        while tag in self.open and self.open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if not SILENT & set(self.open):
            self.words += data.split()


def differences(a: Path, b: Path) -> list[str]:
    """What differs between two folders, a line each."""
    names = sorted({str(p.relative_to(f)) for f in (a, b) for p in f.rglob("*") if p.is_file()})
    found = []
    for name in names:
        one, two = a / name, b / name
        if not (one.exists() and two.exists()):
            found.append(f"{name}: only in {a if one.exists() else b}")
        elif one.read_bytes() != two.read_bytes():
            found += [f"{name}: {line}" for line in _differ(one, two)]
    return found


def _differ(one: Path, two: Path) -> list[str]:
    if one.suffix == ".json":
        return ["figures differ"]
    if one.suffix != ".html":
        return ["bytes differ"]
    a, b = (Seen(path.read_text(encoding="utf-8")) for path in (one, two))
    told = []
    if a.words != b.words:
        diff = difflib.unified_diff(a.words, b.words, "before", "after", lineterm="", n=2)
        told.append("words differ\n    " + "\n    ".join([*diff][:60]))
    if a.drawings != b.drawings:
        told.append(f"drawings differ ({len(a.drawings)} and {len(b.drawings)})")
    return told


def _inches(job: Path, folder: Path) -> Path:
    """The job with its paper in inches and another name."""
    text = job.read_text(encoding="utf-8")
    text = re.sub(r"^units = .*$", "", text, flags=re.M).replace(
        "[paper]", '[paper]\nunits = "inch"'
    )
    text = re.sub(r'^name = "(.*?)"', r'name = "\1-inch"', text, count=1, flags=re.M)
    made = folder / f"{job.stem}-inch.toml"
    made.write_text(text, encoding="utf-8")
    return made


@dataclass(frozen=True)
class Run:
    """A command and its circumstances; `folder` takes what it writes and shows."""

    command: Path
    folder: Path
    elsewhere: bool = False

    def __call__(self, shown: str, *given: str | Path) -> None:
        """Run it so; what it shows goes into the file of that name."""
        more: dict[str, Any] = {}
        if self.elsewhere:
            env = {"LC_ALL": "de_DE.UTF-8", "TZ": "Asia/Tokyo", "PYTHONHASHSEED": "7"}
            env |= {"XDG_CACHE_HOME": str(self.folder.parent / "cache")}
            more = {"env": os.environ | env, "cwd": "/", "umask": 0o077, "preexec_fn": _one_core}
        done = subprocess.run([self.command, *given], capture_output=True, **more)
        assert done.returncode in (0, 1, 2, 3), done.stderr.decode()  # a job without axles, too
        told = b"exit %d\n" % done.returncode + (done.stdout + done.stderr).replace(
            bytes(self.folder), b"."
        )
        (self.folder / f"{shown}.txt").write_bytes(told)


def _one_core() -> None:
    os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})


def _written(run: Run) -> None:
    folder, demo = run.folder, JOBS["demo"]
    folder.mkdir(parents=True, exist_ok=True)
    for job in [*JOBS.values(), *(_inches(job, folder) for job in JOBS.values())]:
        out = folder / job.stem  # its own: no job warns of another's offcuts
        run(job.stem, "build", job, "--out", out)
        run(f"{job.stem}-check", "check", job, "--quick")
        run(f"{job.stem}-wheelset", "wheelset", job, "--out", folder / "wheelset")
    rings = folder / "rings.csv"
    run("rings", "rings", demo, "--out", rings)
    rings.write_text(re.sub(r"^(\d+),", _rolled, rings.read_text("utf-8"), flags=re.M), "utf-8")
    run("refit", "refit", demo, "--rings", rings, "--out", folder / "refit")
    run("record", "record", demo, "--rings", rings, "--out", folder / "record.pdf")
    run("quick", "build", demo, "--effort", "quick", "--out", folder / "quick")
    run("solids", "solids", demo, "--3mf", "8", "--stl", "8", "--out", folder / "solids")
    run("deck", "deck", demo, "--coarse", "3", "--out", folder / "deck")
    run("propose", "propose", demo, "--step", "40", "--json", "--out", folder / "propose")
    run("sensitivity", "sensitivity", demo)
    run("compare", "compare", demo, JOBS["quarry"])


def _rolled(ring: re.Match[str]) -> str:
    """Circumferences of the demo's rings as a small shop rolls them."""
    return f"{ring[1]},{942.5 + 0.3 * (int(ring[1]) * 7 % 11 - 5):.1f}"


def main() -> None:
    """Build with both, compare, exit 1 where anything differs."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("a")
    parser.add_argument("b", nargs="?")
    parser.add_argument("--folders", action="store_true", help="compare what is written already")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as aside:
        commands = [Path(given.a).absolute(), Path(given.b or given.a).absolute()]
        folders = commands
        if not given.folders:
            folders = [Path(aside) / "a", Path(aside) / "b"]
            _written(Run(commands[0], folders[0]))
            _written(Run(commands[1], folders[1], elsewhere=not given.b))
        found = differences(*folders)
        files = sum(path.is_file() for path in folders[0].rglob("*"))
    print("\n".join(found) or f"{files} files, no difference")
    sys.exit(bool(found))


if __name__ == "__main__":
    main()
