"""Random jobs nested quickly, written, and their cutting files proved; run by hand:

python -m tests.bench.cuts [COUNT] [SEED]

Job k is that of seed SEED + k, so that one alone is `1 SEED+k`. Faults are told by kind, with the
seeds where they stand and the first of each in full.
"""

from __future__ import annotations

import random
import re
import sys
import tempfile
import time
import tomllib
from collections import Counter, defaultdict
from pathlib import Path
from typing import Any

import ezdxf

from platewheel.cli.job.job import Job, job_of
from platewheel.cli.job.plan import plan_job
from platewheel.cli.output.write import sheet_files, write_sheets
from platewheel.cli.start.every_key import every_key_text
from platewheel.nesting.files.asked import asked_of
from platewheel.nesting.proof.cuts import prove_cuts
from platewheel.nesting.stock.layout import NestingError
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import annular_sector
from platewheel.parts.geometry.outline import Circle, Loop, polygon
from tests.nesting.drawn_files import add_loose

PLACES_SHOWN = 6
SHOWN = 150  # of a refusal


def random_job(seed: int, folder: Path) -> Job:
    """A job that the reader takes: drawn again until it does, from the same seed."""
    rng = random.Random(seed)
    while True:
        table = _table(rng, folder)
        try:
            return job_of(table, folder)
        except SpecError:
            continue


def _table(rng: random.Random, folder: Path) -> dict[str, Any]:
    table = tomllib.loads(every_key_text())
    thick = rng.choice([4.0, 5.0, 6.0, 8.0, 10.0])
    diameter = float(rng.randrange(200, 520, 10))
    table["job"]["wheels"] = rng.choice([1, 2, 4, 8])
    table["wheel"] |= {
        "tread_diameter_mm": diameter,
        "vent_circle_mm": round(diameter * rng.uniform(0.5, 0.75), 1),
        "vent_count": rng.choice([0, 3, 4, 6]),
        "vent_diameter_mm": float(rng.randrange(8, 40)),
        "flange_segments": rng.choice([1, 2, 3, 4]),
        "flange_depth_mm": float(rng.randrange(12, 22)),
        "flange_thickness_mm": thick,
        "disc_thickness_mm": thick,
        "tread_thickness_mm": thick,
        "tread_taper_1_in": rng.choice([0.0, 20.0]),
    }
    kerf = rng.choice([0.2, 0.8, 1.5, 1.7, 2.5])
    table["cutting"] |= {
        "process": rng.choice(["plasma", "laser", "oxy-fuel"]),
        "kerf_mm": kerf,
        "kerf_in_path": rng.random() < 0.5,
        "part_spacing_mm": round(2 * kerf + rng.uniform(1.0, 12.0), 1),
        "sheet_margin_mm": round(kerf + rng.uniform(1.0, 12.0), 1),
        "lead_in_mm": rng.choice([0.0, 2.0, 4.0, 6.0, 10.0]),
        "lead_out_mm": rng.choice([0.0, 0.0, 2.0, 5.0]),
        "lead_shape": rng.choice(["line", "arc"]),
        "tab_count": rng.choice([0, 0, 1, 2, 3]),
        "tab_width_mm": rng.choice([0.8, 1.5, 3.0]),
        "dxf_version": rng.choice(["R2000", "R12"]),
        "skeleton_piece_mm": rng.choice([0.0, 0.0, 250.0, 500.0]),
        "offcut_outline": rng.choice(["rectangle", "real"]),
        "text_marks": rng.random() < 0.8,
    }
    sizes = [(1000.0, 2000.0), (1250.0, 2500.0), (800.0, 900.0)]
    table["stock"] = [
        {"thickness_mm": thick, "width_mm": wide, "length_mm": long}
        for wide, long in rng.sample(sizes, rng.choice([1, 2]))
    ]
    if rng.random() < 0.3:
        table["offcut"] = [_plate_left_over(rng, thick)]
    table["extra"] = [
        _own_part(rng, thick, name, folder) for name in "abc"[: rng.choice([0, 1, 2, 3])]
    ]
    return table


def _plate_left_over(rng: random.Random, thick: float) -> dict[str, Any]:
    """An L with a hole that was cut before."""
    a, b = float(rng.randrange(500, 900)), float(rng.randrange(400, 700))
    corners = [[0, 0], [a, 0], [a, b / 2], [a / 2, b / 2], [a / 2, b], [0, b]]
    hole = [[60, 60], [160, 60], [160, 140], [60, 140]]
    return {"name": "rest", "thickness_mm": thick, "outline": corners, "holes": [hole]}


def _own_part(rng: random.Random, thick: float, name: str, folder: Path) -> dict[str, Any]:
    """A part of the user's own: angle, slotted plate, washer or ring with a gap."""
    a, b = rng.uniform(60, 220), rng.uniform(40, 160)
    shape: list[Loop] = rng.choice(
        [
            [polygon([(0, 0), (a, 0), (a, b / 3), (a / 3, b / 3), (a / 3, b), (0, b)])],
            [
                polygon([(0, 0), (a, 0), (a, b), (0, b)]),
                polygon([(a / 3, b / 3), (2 * a / 3, b / 3), (2 * a / 3, b / 2), (a / 3, b / 2)]),
                Circle((a / 6, b / 2), b / 12),
            ],
            [Circle((0.0, 0.0), b), Circle((0.0, 0.0), 0.6 * b)],
            [annular_sector(0.6 * a, a, rng.uniform(90, 320))],
        ]
    )
    drawing = ezdxf.new("R2000", units=4)
    add_loose(drawing.modelspace(), shape)
    drawing.saveas(folder / f"{name}.dxf")
    count = rng.choice([1, 3, 10])
    return {"name": name, "file": f"{name}.dxf", "thickness_mm": thick, "count": count}


def kind_of(fault: str) -> str:
    """A fault without its numbers, places and names."""
    plain = re.sub(r"\([-0-9., ]+\)", "()", fault)
    plain = re.sub(r"part \d+, [^ ,]+, at", "part", plain)
    return re.sub(r"-?\d+(\.\d+)?", "#", plain)


def main(count: int, first: int) -> None:
    """Prove that many; faults by kind."""
    where: dict[str, set[int]] = defaultdict(set)
    full: dict[str, str] = {}
    found, done = Counter[str](), Counter[str]()
    proving = slowest = 0.0
    for seed in range(first, first + count):
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            job = random_job(seed, folder)
            try:
                plan = plan_job(job, seed, lambda text: None, "quick")
            except NestingError as error:  # a fault of ours
                done["jobs not nested"] += 1
                print(f"{seed}: {str(error)[:SHOWN]}")
                continue
            try:
                write_sheets(job, plan, folder)
            except NestingError as error:  # a hollow narrower than the kerf, or a proof's refusal
                done["jobs refused"] += 1
                print(f"{seed}: {str(error)[:SHOWN]}")
            for layout, file in zip(plan.layouts, sheet_files(plan), strict=True):
                if not (folder / file).exists():
                    continue
                wanted = asked_of(layout, job.cutting, plan.kept)
                began = time.process_time()
                faults = prove_cuts(folder / file, wanted)
                took = time.process_time() - began
                proving, slowest = proving + took, max(slowest, took)
                done["sheets"] += 1
                done["parts"] += len(wanted.parts)
                done["pierces"] += wanted.pierces
                done["faulty sheets"] += bool(faults)
                for fault in faults:
                    kind = kind_of(fault)
                    found[kind] += 1
                    where[kind].add(seed)
                    full.setdefault(kind, fault)
    for kind, times in found.most_common():
        seeds = sorted(where[kind])
        more = " ..." if len(seeds) > PLACES_SHOWN else ""
        print(f"{times} x {kind}\n    seeds {', '.join(map(str, seeds[:PLACES_SHOWN]))}{more}")
        print(f"    {full[kind]}")
    told = ", ".join(f"{n} {what}" for what, n in done.items())
    print(f"{count} jobs: {told}; {sum(found.values())} faults")
    print(f"proved in {proving:.1f} s of a processor, the slowest sheet {slowest:.2f} s")


if __name__ == "__main__":
    main(*(int(sys.argv[i]) if len(sys.argv) > i else default for i, default in ((1, 200), (2, 0))))
