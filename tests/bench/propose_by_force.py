"""The search of `propose` against the analysis of every screened wheel, on a larger grid:

    python -m tests.bench.propose_by_force

Run by hand (some two minutes). The demo's track and wagon at several payloads; elements of the
search's own size. Prints, for each payload, the cheapest two kinds by search and by force, and
the analyses that each took.
"""

from __future__ import annotations

from dataclasses import replace

from platewheel.parts.propose.choices import Ring
from platewheel.parts.propose.rate_until_known import families
from tests.cli.propose.test_propose_search import (
    KNOWN,
    SMALL,
    cheapest_by_force,
    searched,
    with_payload,
)

LARGER = replace(
    SMALL,
    diameter=(260.0, 280.0, 300.0),
    ring=(Ring("bar", 50.0, 8.0), *SMALL.ring),
    root=(5.0, 6.0, 8.0),
)


def main() -> None:
    """Each payload in turn."""
    for share in (0.5, 0.7, 0.85, 1.0):
        job = with_payload(share)
        found, asked = searched(job, LARGER)
        ours = [round(float(found.cost[row]), 4) for row in families(found, 2)]
        force = [round(cost, 4) for cost, _ in cheapest_by_force(job, asked, LARGER)[:2]]
        print(
            f"{job.wagon.payload_kg:.0f} kg: search {ours} in {found.analyses} analyses; by force "
            f"{force}, {len(KNOWN)} analyses so far of {found.wheels.count} kinds; "
            f"{'same' if ours == force else 'NOT THE SAME'}",
            flush=True,
        )


if __name__ == "__main__":
    main()
