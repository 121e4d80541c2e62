"""Random jobs laid with the full search, each layout proved and nothing lost; run by hand:

python -m tests.bench.random_nests [COUNT]
"""

from __future__ import annotations

import sys
import time

from hypothesis import HealthCheck, given, settings

from platewheel.nesting.search.nest import nest
from platewheel.nesting.stock.layout import Sheet, Wanted
from tests.nesting.plates import cutting
from tests.nesting.search.test_nest import (
    MARGIN,
    SPACING,
    assert_all_accounted_for,
    assert_laid_well,
    jobs,
)


def main(count: int) -> None:
    """Lay that many; raises on the first that is not sound."""
    done = 0

    @settings(
        max_examples=count,
        deadline=None,
        database=None,
        derandomize=True,
        suppress_health_check=list(HealthCheck),
    )
    @given(jobs())
    def lay(job: tuple[list[Wanted], list[Sheet]]) -> None:
        nonlocal done
        wanted, stock = job
        found = nest(wanted, stock, cutting(SPACING, MARGIN))
        assert_all_accounted_for(found, wanted)
        assert_laid_well(found, SPACING, MARGIN)
        done += 1

    started = time.perf_counter()
    lay()
    print(f"{done} random jobs laid and proved in {time.perf_counter() - started:.0f} s")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
