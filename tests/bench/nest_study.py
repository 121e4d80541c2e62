"""Kits on a sheet, sheets for a job, density of published polygons; and spyrrow beside them:

    python -m tests.bench.nest_study [ESICUP_FOLDER] [--only=NAME,NAME] [--alone]

Run by hand (some ten minutes). Discs of radius 126, flange blanks 150/179 of 311.8 degrees in K
segments, sheet 1250 x 2500, spacing 6, margin 10, all of one thickness; effort `normal`. The
polygons are ESICUP instances scaled to a strip 1250 high. spyrrow (MIT, strip packing, stops on the
clock) gets the same wall time, gap and margin; without it (pip install spyrrow) its columns stay
empty. Printed as a table for the README.
"""

from __future__ import annotations

import math
import multiprocessing
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from platewheel.nesting.geometry.facets import outer_polygon
from platewheel.nesting.search.compaction import reach_mm
from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.layout import Nest, Sheet, Turns, Wanted
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.geometry import outline
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Circle, polygon
from tests.bench.published_packings import polygons_of

SPACING, MARGIN = 6.0, 10.0
LENGTH, WIDTH = 2500.0, 1250.0
CUTTING = Cutting(part_spacing_mm=SPACING, sheet_margin_mm=MARGIN)
TOUCHING = unchecked(CUTTING, {"part_spacing_mm": 0.0, "sheet_margin_mm": 0.0})
DISC = Blank("disc", "disc", 8.0, Circle((0.0, 0.0), 126.0))
STRIP = Blank("tread", "tread", 8.0, polygon([(0, 0), (800, 0), (800, 60), (0, 60)]))
SHEET = Sheet("1250 x 2500", 8.0, LENGTH, WIDTH, None, 1.0)
BESIDE = False  # whether spyrrow is run too
CORNER = (
    (0.0, 0.0),
    (1500.0, 0.0),
    (1500.0, 550.0),
    (950.0, 550.0),
    (950.0, 1250.0),
    (0.0, 1250.0),
)


def kit(segments: int, wheels: int, strip: bool = False) -> list[Wanted]:
    """Blanks of so many wheels with their flanges in `segments` pieces."""
    edge = annular_sector(150.0, 179.0, 311.8 / segments)
    sector = Blank("flange", "flange", 8.0, edge, many_turns=True)
    rows = [Wanted(DISC, 2 * wheels), Wanted(sector, segments * wheels)]
    return [*rows, Wanted(STRIP, wheels)] if strip else rows


@dataclass(frozen=True)
class Row:
    """A line of the table."""

    what: str
    wanted: str
    ours: str
    seconds: float
    beside: str = ""


def timed(
    wanted: Sequence[Wanted], sheets: Sequence[Sheet], cutting: Cutting
) -> tuple[Nest, float]:
    """A nest and its seconds."""
    started = time.perf_counter()
    done = nest(wanted, sheets, cutting)
    return done, time.perf_counter() - started


def kits_row(segments: int, aim: int, strip: bool = False) -> Row:
    """Most kits on one sheet, and sheets for the job that fills three with the number aimed at."""
    done, seconds = timed(kit(segments, 3 * aim, strip), [SHEET], CUTTING)
    most = max(lay.counts["disc"] // 2 for lay in done.layouts)
    name = f"kits on a sheet, K = {segments}" + (", with strips 800 x 60" if strip else "")
    beside = strip_beside(kit(segments, most, strip), seconds, WIDTH - 2 * MARGIN, SPACING)
    if beside:
        beside = f"{most} kits take {float(beside) + 2 * MARGIN:.0f} mm of {LENGTH:.0f}"
    elif BESIDE:
        beside = "no answer"
    used = sum(lay.repeat for lay in done.layouts)
    ours = f"{most}; {used} sheets for {3 * aim} wheels"
    return Row(name, str(aim), ours, seconds, beside)


def job_row(segments: int, wheels: int, aim: int) -> Row:
    """Sheets for a job, and the largest rectangle that stays on the last one."""
    done, seconds = timed(kit(segments, wheels), [SHEET], CUTTING)
    used = sum(lay.repeat for lay in done.layouts)
    split = " + ".join(f"{lay.repeat} x {lay.counts['disc'] // 2}" for lay in done.layouts)
    last = min(done.layouts, key=lambda lay: len(lay.placements))
    left = LENGTH - reach_mm(last.placements) - CUTTING.kerf_mm
    ours = f"{used} ({split} kits), leaves {WIDTH:.0f} x {left:.0f}"
    return Row(f"sheets for {wheels} wheels, K = {segments}", str(aim), ours, seconds)


def offcut_row() -> Row:
    """Kits on an offcut less its corner."""
    piece = Sheet("corner", 8.0, 1500.0, 1250.0, 1, 0.0, "S235", CORNER)
    done, seconds = timed(kit(3, 9), [piece], CUTTING)
    most = min(lay.counts["disc"] // 2 for lay in done.layouts)
    return Row("kits on 1500 x 1250 less its corner of 550 x 700, K = 3", "8", str(most), seconds)


def circles_row() -> Row:
    """Equal circles in a square: hexagonal 216, best known 219 (Specht's tables, from memory)."""
    small = Blank("disc", "disc", 8.0, Circle((0.0, 0.0), 35.0))
    square = Sheet("square", 8.0, 1000.0, 1000.0, 1, 1.0)
    done, seconds = timed([Wanted(small, 230)], [square], TOUCHING)
    return Row(
        "discs of 70 in a square of 1000", "216", str(len(done.layouts[0].placements)), seconds
    )


def polygons_row(path: Path) -> Row:
    """Density of a published instance on as short a strip as is found."""
    height, pieces = polygons_of(path)
    scale = WIDTH / height
    wanted = []
    for piece, count, turns in pieces:
        ring = [(scale * s.start[0], scale * s.start[1]) for s in outline.segments(piece.outline)]
        way: Turns = {1: "fixed", 2: "half"}.get(turns, "quarter")  # type: ignore[assignment]
        wanted.append(Wanted(Blank(piece.name, "extra", 8.0, polygon(ring)), count, way))
    area = math.fsum(w.blank.area_mm2 * w.count for w in wanted)
    strip = Sheet("strip", 8.0, 2.2 * area / WIDTH, WIDTH, None, 1.0)
    done, seconds = timed(wanted, [strip], TOUCHING)
    ours = 100 * area / (WIDTH * reach_mm(done.layouts[0].placements))
    length = strip_beside(wanted, seconds, WIDTH, 0.0)
    beside = f"{100 * area / (WIDTH * float(length)):.1f} %" if length else ""
    return Row(f"density of {path.stem}", "3 points", f"{ours:.1f} %", seconds, beside)


def strip_beside(wanted: Sequence[Wanted], seconds: float, height: float, gap: float) -> str:
    """Length that spyrrow needs for the same parts in the same time; empty without it, or where
    it has no answer a while after."""
    if not BESIDE:
        return ""
    told: Any = multiprocessing.get_context("spawn").Queue()
    given = (list(wanted), max(2, round(seconds)), height, gap, told)
    other = multiprocessing.get_context("spawn").Process(target=_spyrrow, args=given)
    other.start()
    other.join(1.5 * seconds + 10)
    if other.is_alive():
        other.kill()
    return str(told.get()) if not told.empty() else ""


def _spyrrow(wanted: list[Wanted], seconds: int, height: float, gap: float, told: Any) -> None:
    import spyrrow

    allowed: dict[str, Any] = {
        "any": None,
        "half": [0.0, 180.0],
        "fixed": [0.0],
        "quarter": [0.0, 90.0, 180.0, 270.0],
    }
    items = [
        spyrrow.Item(w.blank.name, outer_polygon(w.blank.outline), w.count, allowed[w.turns])
        for w in wanted
    ]
    config = spyrrow.StripPackingConfig(
        total_computation_time=seconds,
        min_items_separation=gap or None,
        num_workers=2,
        seed=0,
        early_termination=False,
    )
    told.put(f"{spyrrow.StripPackingInstance('beside', height, items).solve(config).width:.1f}")


def main(arguments: Sequence[str]) -> int:
    """Print the table, row by row as it is found."""
    folders = [Path(a) for a in arguments if not a.startswith("--")]
    only = next((a.split("=", 1)[1].split(",") for a in arguments if a.startswith("--only=")), [])
    global BESIDE
    BESIDE = "--alone" not in arguments and find_spec("spyrrow") is not None
    jobs: dict[str, Any] = {}
    for k, aim in ((1, 16), (2, 17), (3, 18), (4, 18)):
        jobs[f"kits-{k}"] = lambda k=k, aim=aim: kits_row(k, aim)
    jobs["strips"] = lambda: kits_row(3, 13, strip=True)
    for k in (1, 2, 3, 4):
        jobs[f"48-{k}"] = lambda k=k: job_row(k, 48, 3)
    jobs["480-3"] = lambda: job_row(3, 480, 27)
    jobs["offcut"] = offcut_row
    jobs["circles"] = circles_row
    for folder in folders:
        for name in ("albano", "trousers", "shapes0", "swim"):
            jobs[name] = lambda path=folder / f"{name}.xml": polygons_row(path)
    nest(kit(3, 12), [SHEET], CUTTING)  # compiled code warm
    print("| case | wanted | platewheel | seconds | spyrrow, same time |")
    print("|---|---|---|---|---|")
    for name, job in jobs.items():
        if not only or name in only:
            row = job()
            print(
                f"| {row.what} | {row.wanted} | {row.ours} | {row.seconds:.0f} | {row.beside} |",
                flush=True,
            )
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
