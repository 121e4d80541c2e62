"""Two versions of platewheel make the same job folders: `python -m tests.bench.same_bytes A B`.

A and B are commands, such as `.venv/bin/platewheel` of two checkouts; with `--folders`, two
folders that they have written already. Three jobs are built by each, mm and inches: STEP, DXF,
PDF, TOML, CSV and JSON must be the same bytes; pages must show the
same text and the same drawings, however they are made.
"""

from __future__ import annotations

import argparse
import difflib
import re
import subprocess
import sys
import tempfile
from html.parser import HTMLParser
from pathlib import Path

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


def _written(command: str, folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    jobs = [*JOBS.values(), *(_inches(job, folder) for job in JOBS.values())]
    for job in jobs:
        out = folder / job.stem  # its own: no job warns of another's offcuts
        done = subprocess.run([command, "build", job, "--out", out], capture_output=True)
        assert done.returncode in (0, 1), done.stderr.decode()
        (folder / f"{job.stem}.txt").write_bytes(done.stdout.replace(bytes(folder), b"."))
        for name in ("check", "wheelset"):
            extra = ["--out", folder / "wheelset"] if name == "wheelset" else ["--quick"]
            done = subprocess.run([command, name, job, *extra], capture_output=True)
            (folder / f"{job.stem}-{name}.txt").write_bytes(
                done.stdout.replace(bytes(folder), b".")
            )


def main() -> None:
    """Build with both, compare, exit 1 where anything differs."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("a")
    parser.add_argument("b")
    parser.add_argument("--folders", action="store_true", help="compare what is written already")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as aside:
        folders = [Path(given.a), Path(given.b)]
        if not given.folders:
            folders = [Path(aside) / "a", Path(aside) / "b"]
            for command, folder in zip((given.a, given.b), folders, strict=True):
                _written(command, folder)
        found = differences(*folders)
        files = sum(path.is_file() for path in folders[0].rglob("*"))
    print("\n".join(found) or f"{files} files, no difference")
    sys.exit(bool(found))


if __name__ == "__main__":
    main()
