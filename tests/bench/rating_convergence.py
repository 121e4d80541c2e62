"""Does the rating move with the mesh or with the harmonics? The demo wheel, run by hand.

python -m tests.bench.rating_convergence [WORN_MM]
Cells of 2 and 1 mm, one and two times the harmonics; the governing load must move < 2 %.
"""

from __future__ import annotations

import argparse

from platewheel.cli.job.job import read_job
from platewheel.parts.rating.rate import Rating, rate
from tests.places import DEMO

RUNS = ((2.0, 1.0), (1.0, 1.0), (2.0, 2.0), (1.0, 2.0))  # cell size mm, times the harmonics
MOST = 0.02


def main() -> None:
    """One line a limit; exit 1 where the governing load moves too far."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("worn_mm", nargs="?", type=float, default=0.0)
    worn = parser.parse_args().worn_mm
    setting = read_job(DEMO).setting
    ratings: list[Rating] = [
        rate(setting, worn_mm=worn, size_mm=size, more_harmonics=more)[0] for size, more in RUNS
    ]
    first = ratings[0]
    print(f"{'N':20}" + "".join(f"{size:7g} mm x {more:g}  " for size, more in RUNS) + " where")
    for limit in first.limits:
        loads = [next(x for x in r.limits if x.name == limit.name) for r in ratings]
        changes = [f"{x.load_n:8.0f} {x.load_n / limit.load_n - 1:+6.1%}" for x in loads]
        places = " | ".join(dict.fromkeys(x.where for x in loads))
        print(f"{limit.name:20}" + "".join(changes) + f" {places}")
    moved = max(abs(rating.load_n / first.load_n - 1) for rating in ratings)
    names = ", ".join(dict.fromkeys(rating.governs.name for rating in ratings))
    print(f"governing ({names}): moves {moved:.1%} at most; allowed {MOST:.0%}")
    if moved > MOST:
        raise SystemExit(1)


if __name__ == "__main__":
    main()
