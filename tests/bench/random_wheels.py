"""Builds and checks the solids of many random wheels; run by hand, prints one line.

python -m tests.bench.random_wheels [COUNT] [SEED]
"""

from __future__ import annotations

import argparse
import time

from hypothesis import HealthCheck, given, seed, settings

from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.wheel.test_wheel_properties import check_numbers, check_solids
from tests.parts.wheels import valid_wheels


def main() -> None:
    """Count of wheels and seed from the command line; a failing wheel is told in full."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", nargs="?", type=int, default=1000)
    parser.add_argument("seed", nargs="?", type=int, default=0)
    given_args = parser.parse_args()
    built: set[str] = set()

    @seed(given_args.seed)
    @settings(
        max_examples=given_args.count,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(valid_wheels())
    def check(spec: WheelSpec) -> None:
        check_numbers(spec)
        check_solids(spec)
        built.add(repr(spec))

    began = time.perf_counter()
    check()
    took = time.perf_counter() - began
    verdict = "every solid valid, volumes by closed form"
    print(f"{len(built)} different wheels: {verdict}, seed {given_args.seed}, {took:.0f} s")


if __name__ == "__main__":
    main()
