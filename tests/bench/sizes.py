"""Time and memory of large jobs, `platewheel nest` as a whole, each a process of its own; by hand:

python -m tests.bench.sizes [--effort quick|normal|thorough] [CASE ...]

Without cases: all of them. CPU seconds count; wall seconds say how busy the machine was.
"""

from __future__ import annotations

import math
import os
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import ezdxf
import tomlkit

from platewheel.cli.start.every_key import every_key_text

Point = tuple[float, float]
Table = dict[str, Any]
MOST_S = 900


def wavy(corners: int, radius: float, arms: int) -> list[Point]:
    """A disc whose edge goes up and down by 6 mm."""
    turns = [2 * math.pi * i / corners for i in range(corners)]
    far = [radius + 6 * math.sin(arms * a) for a in turns]
    return [(r * math.cos(a), r * math.sin(a)) for r, a in zip(far, turns, strict=True)]


def comb(teeth: int, pitch: float, deep: float) -> list[Point]:
    """Teeth as wide as the gaps between them."""
    points = [(0.0, -20.0), (teeth * pitch, -20.0)]
    for k in reversed(range(teeth)):
        right, left = (k + 0.5) * pitch, k * pitch
        points += [(right + pitch / 2, 0.0), (right, 0.0), (right, deep), (left, deep)]
    return [*points[:2], *points[3:], (0.0, 0.0)]


def star(corners: int, inner: float, outer: float) -> list[Point]:
    """Points in turn far and near."""
    turns = [2 * math.pi * i / corners for i in range(corners)]
    return [
        (r * math.cos(a), r * math.sin(a))
        for a, r in zip(turns, [outer, inner] * (corners // 2), strict=True)
    ]


def spiral(corners: int, rounds: float, wide: float) -> list[Point]:
    """A band wound up, with a gap as wide as itself."""
    half = corners // 2
    turns = [2 * math.pi * rounds * i / (half - 1) for i in range(half)]

    def at(a: float, more: float) -> Point:
        r = 60 + wide * a / math.pi + more
        return r * math.cos(a), r * math.sin(a)

    return [*(at(a, wide) for a in turns), *(at(a, 0.0) for a in reversed(turns))]


def thin_c(corners: int, radius: float, wide: float) -> list[Point]:
    """A ring with a small mouth."""
    half = corners // 2
    turns = [0.05 + (2 * math.pi - 0.1) * i / (half - 1) for i in range(half)]
    out = [(radius * math.cos(a), radius * math.sin(a)) for a in turns]
    inside = radius - wide
    return [*out, *((inside * math.cos(a), inside * math.sin(a)) for a in reversed(turns))]


def holed(holes: Sequence[list[Point]]) -> list[list[Point]]:
    """A plate of 600 x 600 with holes."""
    return [[(-300, -300), (300, -300), (300, 300), (-300, 300)], *holes]


def square_holes(rows: int) -> list[list[Point]]:
    """Small squares in rows and columns."""
    pitch = 560 / rows
    at = [-280 + pitch * (k + 0.5) for k in range(rows)]
    return [
        [(x - 5, y - 5), (x + 5, y - 5), (x + 5, y + 5), (x - 5, y + 5)] for x in at for y in at
    ]


def drawn(path: Path, rings: Sequence[list[Point]]) -> None:
    """Closed polylines in a DXF file."""
    doc = ezdxf.new(units=4)
    for ring in rings:
        doc.modelspace().add_lwpolyline(ring, close=True)
    doc.saveas(path)


def own(table: Table, folder: Path, parts: Sequence[list[list[Point]]], count: int) -> None:
    """Those parts among the blanks of the wheels."""
    for k, rings in enumerate(parts):
        drawn(folder / f"part{k}.dxf", rings)
        row = {"name": f"part{k}", "file": f"part{k}.dxf", "thickness_mm": 6, "count": count}
        table.setdefault("extra", []).append(row)


def wheels(count: int) -> Callable[[Table, Path], None]:
    def make(table: Table, folder: Path) -> None:
        table["job"]["wheels"] = count

    return make


def one(rings: list[list[Point]]) -> Callable[[Table, Path], None]:
    return lambda table, folder: own(table, folder, [rings], 4)


def discs(corners: int) -> Callable[[Table, Path], None]:
    def make(table: Table, folder: Path) -> None:
        radii = [(80 if k % 2 == 0 else 60) + k for k in range(20)]
        parts = [[wavy(corners, r, 5 + k % 7)] for k, r in enumerate(radii)]
        own(table, folder, parts, 4)

    return make


def sheets(table: Table, folder: Path) -> None:
    """Twenty sizes of each stock."""
    sizes = [(1000.0 + 20 * k, 2000.0 + 37 * k) for k in range(20)]
    table["stock"] = [
        row | {"width_mm": width, "length_mm": length}
        for row in table["stock"]
        for width, length in sizes
    ]


def offcuts(table: Table, folder: Path) -> None:
    """Two hundred offcuts, no two alike."""
    sizes = ((k, 200.0 + 7 * (k * 37 % 101), 150.0 + 5 * (k * 53 % 97)) for k in range(200))
    table["offcut"] = [
        {
            "name": f"rest{k}",
            "thickness_mm": 6,
            "outline": [[0.0, 0.0], [x, 0.0], [x, y], [0.0, y]],
        }
        for k, x, y in sizes
    ]


def mix(table: Table, folder: Path) -> None:
    """Twenty drawings of all kinds, with what the kerf cannot follow."""
    parts: list[list[list[Point]]] = []
    for k in range(4):
        parts += [[wavy(3900, 120.0 + k, 9)], [star(1000, 90.0 + k, 120.0)]]
        parts += [[spiral(1600, 4 + k / 4, 9.0)], [comb(100 + k, 11.0, 60.0)]]
        parts.append(holed([wavy(1500, 200.0 + k, 9)]))
    own(table, folder, parts, 4)
    for row in table["extra"]:
        row["finer_than_kerf"] = True


def kinds(count: int) -> Callable[[Table, Path], None]:
    """So many brackets, no two alike."""
    sizes = [(60.0 + k * 37 % 201, 40.0 + k * 53 % 97, 10.0 + k % 19) for k in range(count)]
    parts = [[[(0, 0), (a, 0), (a, c), (c, c), (c, b), (0, b)]] for a, b, c in sizes]
    return lambda table, folder: own(table, folder, parts, 3)


def uneven_offcuts(table: Table, folder: Path) -> None:
    """Five offcuts of 4000 corners, and parts that find no straight edge there."""
    table["offcut"] = [
        {
            "name": f"rest{k}",
            "thickness_mm": 6,
            "outline": [[round(x, 3) + 0.0 for x in at] for at in wavy(4000, 600.0 + k, 31)],
        }
        for k in range(5)
    ]
    own(table, folder, [[wavy(3900, 90.0, 9)], [wavy(200, 60.0, 9)]], 40)


def spiral_slot(corners: int, wide: float) -> list[list[Point]]:
    """A plate of 1200 x 1200 with a slot of 40 rounds, a lead of 4 mm in no place of it."""
    half = corners // 2
    turns = [80 * math.pi * i / (half - 1) for i in range(half)]

    def at(turn: float, more: float) -> Point:
        r = 20 + wide * turn / math.pi + more
        return r * math.cos(turn), r * math.sin(turn)

    slot = [*(at(t, wide) for t in turns), *(at(t, 0.0) for t in reversed(turns))]
    return [[(-600, -600), (600, -600), (600, 600), (-600, 600)], slot]


def filled(ring: list[Point]) -> Callable[[Table, Path], None]:
    """A part of places finer than the kerf, which are filled."""

    def make(table: Table, folder: Path) -> None:
        own(table, folder, [[ring]], 4)
        table["extra"][-1]["finer_than_kerf"] = True

    return make


def slits(count: int) -> list[Point]:
    """A plate with slits of 0.6 mm at their mouths, no two of a depth."""
    deep = [50.0 + 900 * (k * 61 % 997) / 997 for k in range(count)]
    teeth = [at for k, y in enumerate(deep) for at in ((0.6 * k, y), (0.6 * k + 0.3, 20.0))]
    return [(0.0, 0.0), *teeth, (0.6 * count, 0.0)]


def through_points(table: Table, folder: Path) -> None:
    """A round part drawn as a spline through 9000 points."""
    doc = ezdxf.new(units=4)
    ring = wavy(9000, 300.0, 11)
    doc.modelspace().add_spline([(x, y, 0.0) for x, y in [*ring, ring[0]]])
    doc.saveas(folder / "part0.dxf")
    row = {"name": "part0", "file": "part0.dxf", "thickness_mm": 6, "count": 4}
    table.setdefault("extra", []).append(row)


def loose_lines(table: Table, folder: Path) -> None:
    """A round part drawn as 99 000 lines, none joined to the next."""
    doc = ezdxf.new(units=4)
    ring = wavy(99_000, 300.0, 11)
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        doc.modelspace().add_line(a, b)
    doc.saveas(folder / "part0.dxf")
    row = {"name": "part0", "file": "part0.dxf", "thickness_mm": 6, "count": 4}
    table.setdefault("extra", []).append(row)


CASES: dict[str, Callable[[Table, Path], None]] = {
    **{f"wheels-{n}": wheels(n) for n in (1, 10, 100, 1000, 5000)},
    "sheets-20": sheets,
    "offcuts-200": offcuts,
    **{f"discs-{n}": discs(n) for n in (100, 200, 1000, 4000)},
    "comb-2400": one([comb(600, 4.0, 150.0)]),
    "wide-comb-3900": one([comb(200, 11.0, 150.0)]),
    "star-3900": one([star(3900, 250.0, 300.0)]),
    "rays-3900": filled(star(3900, 300.0, 600.0)),
    "slits-1990": filled(slits(1990)),
    "through-9000": through_points,
    "spiral-3900": one([spiral(3900, 9.0, 12.0)]),
    "thin-c-3900": one([thin_c(3900, 300.0, 12.0)]),
    "holes-500": one(holed(square_holes(22))),
    "spiral-hole": lambda table, folder: own(table, folder, [spiral_slot(3980, 5.0)], 1),
    "hole-3900": one(holed([wavy(3900, 240.0, 9)])),
    "mix-20": mix,
    "kinds-100": kinds(100),
    "uneven-offcuts": uneven_offcuts,
    "loose-lines": loose_lines,
    "copies-500": lambda table, folder: own(table, folder, [[wavy(3900, 140.0, 9)]], 500),
}


def run(name: str, effort: str) -> str:
    """One line about a case."""
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home)
        table = tomllib.loads(every_key_text())
        CASES[name](table, folder)
        job = folder / "job.toml"
        job.write_text(tomlkit.dumps(table))
        command = ["nest", str(job), "--out", str(folder / "out"), "--effort", effort]
        code = "from platewheel.cli.commands.main import main; main()"
        began = time.perf_counter()
        with (folder / "err").open("wb") as err:
            child = subprocess.Popen(
                ["timeout", "-s", "INT", str(MOST_S), sys.executable, "-c", code, *command],
                stdout=subprocess.DEVNULL,
                stderr=err,
            )
            _, status, used = os.wait4(child.pid, 0)
        wall = time.perf_counter() - began
        ended = os.waitstatus_to_exitcode(status)
        told = (folder / "err").read_text(errors="replace").strip().splitlines()
        cpu, peak = used.ru_utime + used.ru_stime, used.ru_maxrss / 1024
        line = f"{name:16s} {cpu:8.1f} {wall:8.1f} {peak:8.0f}  {ended}"
        return line if not ended else f"{line}  {told[-1][:150] if told else ''}"


def main() -> None:
    """Print the table as it grows."""
    given = sys.argv[1:]
    effort = "quick"
    if given[:1] == ["--effort"]:
        effort, given = given[1], given[2:]
    print(f"effort {effort}, load {os.getloadavg()[0]:.1f}, {os.cpu_count()} cores")
    print(f"{'case':16s} {'CPU s':>8s} {'wall s':>8s} {'peak MB':>8s}  exit")
    for name in given or CASES:
        print(run(name, effort), flush=True)


if __name__ == "__main__":
    main()
