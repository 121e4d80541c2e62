"""Hostile and mutated input, for as long as it is given.

    python -m tests.bench.fuzz [SECONDS [SEED [WHAT ...]]]

WHAT: job, rings, drawing, ledger, offcuts, build, states (all of them). Each file is what a person
or a program may leave: lines cut, moved, doubled, numbers replaced by the least and the most, bytes
changed, another encoding, letters nobody sees, names that no system has. `offcuts`: the record
of a job beside it; `states`: parts of a folder made one by one of a job that changes. Every
run must end in time with a code that README lists and, where it is refused, a line that says why;
no traceback, no fault of platewheel's own, no number in JSON that is none. Prints each fault, with
the folder that its files are kept in, and the sums.
"""

from __future__ import annotations

import json
import math
import os
import random
import re
import shutil
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ezdxf
from typer.testing import CliRunner

from platewheel.cli.commands.main import app
from platewheel.cli.ledger.keep import HEAD, START
from platewheel.cli.refit.rings_file import COLUMNS
from tests.cli.jobs import job_text

NUMBER = re.compile(r"-?\d+(\.\d+)?")
NUMBERS = "0 -1 -0.0 5e-324 1e-300 1e-6 0.001 1 7 1e3 1e6 1e12 1e300 1e999 inf nan 0x10 1_0 true"
NUMBERS += " 99999999999 " + "9" * 5000
WORDS = '"" "CON" "nul.txt" "../up" "~" "a\\u0000b" "\\u202e" "a\\u200bb" "=1+1" "<b>&" "\\u5b57" '
WORDS += "true [] {} [[1,2]] 1979-05-27 07:32:00 ''' \"\"\" a.a.a=1 [[[[1]]]] " + f'"{"x" * 300}"'
ENCODINGS = ("utf-8", "utf-8", "utf-8", "utf-8", "utf-8-sig", "utf-16", "cp1252", "utf-32")
LONG_S = 120.0
DEMO = (Path(__file__).parents[2] / "cli" / "job" / "demo.toml").read_text(encoding="utf-8")


def changed(text: str, chance: random.Random) -> str:
    """The text with one to three of its lines, numbers or letters changed."""
    for _ in range(chance.choice((1, 1, 2))):
        lines = text.split("\n")
        at = chance.randrange(len(lines))
        way = chance.randrange(8)
        if way == 0:
            del lines[at]
        elif way == 1:
            lines.insert(at, chance.choice(lines))
        elif way == 2 and "=" in lines[at]:
            lines[at] = lines[at].split("=")[0] + "= " + chance.choice(WORDS.split(" "))
        elif way == 3:
            place = chance.randrange(len(lines[at]) + 1)
            mark = chance.choice("\x00\x1b\"'[]{}=#,.\u202e\ud7ff é\t")
            lines[at] = lines[at][:place] + mark + lines[at][place:]
        else:
            where = [
                m for m in NUMBER.finditer(text) if "#" not in text[: m.start()].split("\n")[-1]
            ]
            if where:
                one = chance.choice(where)
                number = chance.choice(NUMBERS.split())
                if chance.random() < 0.7:  # near what it was
                    number = f"{float(one[0]) * chance.choice((0.1, 0.5, 0.9, 1.1, 2, 10)):.6g}"
                text = text[: one.start()] + number + text[one.end() :]
                continue
        text = "\n".join(lines)
    return text


def written(file: Path, text: str, chance: random.Random) -> None:
    """As an editor may: another encoding, other ends of lines."""
    text = text.replace("\n", chance.choice(("\n", "\n", "\n", "\r\n", "\r")))
    file.write_bytes(text.encode(chance.choice(ENCODINGS), "replace"))


def job(place: Path, chance: random.Random) -> list[str]:
    base = chance.choice((DEMO, job_text()))
    written(place / "job.toml", changed(base, chance), chance)
    return ["check", "job.toml", "--quick", "--json"]


def rings(place: Path, chance: random.Random) -> list[str]:
    (place / "job.toml").write_text(job_text(), encoding="utf-8")
    rows = [",".join(COLUMNS)]
    for number in range(chance.randint(1, 5)):
        round_mm = 565.5 + chance.gauss(0, 2)
        rows.append(f"{number},{round_mm:.1f},6,{round_mm - 37.7:.1f},,,{chance.gauss(0, 2):.1f},,")
    text = changed("\n".join(rows), chance)
    written(place / "rings.csv", text, chance)
    return ["refit", "job.toml", "--rings", "rings.csv", "--no-nest", "--json"]


def drawing(place: Path, chance: random.Random) -> list[str]:
    made = ezdxf.new("R2000", units=4)
    space = made.modelspace()
    space.add_lwpolyline([(0, 0), (80, 0), (80, 50), (0, 50)], close=True)
    space.add_circle((40, 25), 10)
    made.saveas(place / "own.dxf")
    text = (place / "own.dxf").read_text(encoding="utf-8")
    head, mark, body = text.partition("ENTITIES")  # what is drawn, more than tables
    text = head + mark + changed(body, chance) if chance.random() < 0.8 else changed(text, chance)
    (place / "own.dxf").write_text(text, encoding="utf-8", errors="replace")
    own = '[[extra]]\nname = "own"\nfile = "own.dxf"\nthickness_mm = 5\ncount = 2\n'
    (place / "job.toml").write_text(job_text() + own, encoding="utf-8")
    return ["check", "job.toml", "--quick", "--json"]


def ledger(place: Path, chance: random.Random) -> list[str]:
    offcut = (
        '[[offcut]]\nname = "rest"\nthickness_mm = 5\nstate = "free"\n'
        "outline = [[0, 0], [300, 0], [300, 200], [0, 200]]\n"
    )
    text = changed(HEAD + START + offcut, chance)
    written(place / "stock.toml", text, chance)
    (place / "job.toml").write_text(
        job_text({"job.ledger": '"stock.toml"'}), encoding="utf-8", errors="replace"
    )
    return chance.choice(
        (
            ["stock", "list", "--json"],
            ["check", "job.toml", "--quick", "--json"],
            ["nest", "job.toml", "--effort", "quick", "--json"],
        )
    )


OFFCUT = """
[[offcut]]
name = "rest"
thickness_mm = 5
outline = [[0, 0], [450, 0], [450, 400], [0, 400]]
"""


def offcuts(place: Path, chance: random.Random) -> list[str]:
    (place / "job.toml").write_text(job_text() + OFFCUT, encoding="utf-8")
    beside = place / "out" / chance.choice(("lake", "L\u00e4ke", "lake\udcff", ".lake"))
    beside.mkdir(parents=True)
    text = changed('# used\n\n[[used]]\nname = "rest"\n\n[[used]]\nname = "lid"\n', chance)
    written(beside / "offcuts-used.toml", text, chance)
    return ["nest", "job.toml", "--effort", "quick", "--json"]


def states(place: Path, chance: random.Random) -> list[str]:
    """One part of the folder of the job as it was, then another of the job as it is."""
    parts = ["solids", "nest", "templates"]
    (place / "job.toml").write_text(job_text(), encoding="utf-8")
    CliRunner().invoke(app, [chance.choice(parts), "job.toml"])
    (place / "job.toml").write_text(changed(job_text(), chance), encoding="utf-8", errors="replace")
    return [chance.choice(parts), "job.toml", "--json"]


def build(place: Path, chance: random.Random) -> list[str]:
    (place / "job.toml").write_text(changed(job_text(), chance), encoding="utf-8", errors="replace")
    return ["build", "job.toml", "--effort", "quick", "--json"]


WHATS: dict[str, Callable[[Path, random.Random], list[str]]] = {
    "job": job,
    "rings": rings,
    "drawing": drawing,
    "ledger": ledger,
    "offcuts": offcuts,
    "states": states,
    "build": build,
}


def fault(done: Any, took_s: float, out: Path, before: list[str]) -> str:
    """What is wrong with a run; empty where nothing is. `before`: what was in `out`."""
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        return f"{done.exception!r}"
    if "a fault of platewheel itself" in done.stderr or "Traceback" in done.stderr:
        return str(done.stderr)[:500]
    if done.exit_code not in (0, 1, 2, 3):
        return f"exit {done.exit_code}"
    if done.exit_code > 1 and not done.stderr.strip():
        return f"exit {done.exit_code} without a word"
    if took_s > LONG_S:
        return f"{took_s:.0f} s"
    now = [*map(str, sorted(out.rglob("*")))] if out.is_dir() else []
    left = [one for one in now if "/out/." in one and one not in before]
    if left or (done.exit_code > 1 and (now != before or (out.is_dir() and not before))):
        return f"exit {done.exit_code}, left {left or 'a folder'}"
    return _no_number(done.stdout) if done.exit_code < 2 else ""


def _no_number(text: str) -> str:
    def refused(word: str) -> None:
        raise ValueError(word)

    try:
        numbers = json.loads(text, parse_constant=refused)
    except ValueError as error:
        return f"JSON: {error}"
    return "" if all(map(math.isfinite, _numbers(numbers))) else "JSON: a number without bound"


def _numbers(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [n for one in value.values() for n in _numbers(one)]
    if isinstance(value, list):
        return [n for one in value for n in _numbers(one)]
    return [value] if isinstance(value, float) else []


def main() -> None:
    """Faults and sums."""
    given = [*sys.argv[1:], *("120", "0")[len(sys.argv) - 1 :]]
    seconds, seed, whats = float(given[0]), int(given[1]), given[2:] or [*WHATS]
    sums, end, number = Counter[str](), time.monotonic() + seconds, 0

    while time.monotonic() < end:
        number += 1
        chance = random.Random(f"{seed} {number}")
        what = whats[number % len(whats)]
        place = Path(tempfile.mkdtemp(prefix=f"fuzz-{what}-"))
        os.chdir(place)
        arguments = WHATS[what](place, chance)
        before = [*map(str, sorted((place / "out").rglob("*")))]
        start = time.monotonic()
        done = CliRunner().invoke(app, arguments)
        wrong = fault(done, time.monotonic() - start, place / "out", before)
        sums[f"{what} exit {done.exit_code}"] += 1
        if wrong:
            sums["faults"] += 1
            print(f"{' '.join(arguments)} in {place}: {wrong}", flush=True)
        else:
            shutil.rmtree(place)
    for name, count in sorted(sums.items()):
        print(f"{count:5d} {name}")
    raise SystemExit(bool(sums["faults"]))


if __name__ == "__main__":
    main()
