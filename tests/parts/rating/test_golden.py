"""Pinned ratings of three wheels, new and worn: what the analysis found when it was checked.

The loads, N, are pinned, not derived: cells of 4 mm, from the analysis whose stress fields were
set once beside independent ten-node tetrahedra in three dimensions (tests.bench.solid_elements),
at the bore under the patch and 10 and 30 degrees from it; the largest differences are below.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from platewheel.cli.job.job import read_job
from platewheel.parts.rating.rate import Rating, rate
from tests.places import DEMO, TRACKS

SIZE_MM = 4.0
RIM_BEAD = "rim bead of the gauge disc"  # governs all three, new and worn
TUBE_TOE = "disc-gauge beside the tube bead at the gauge disc"
RIM_TOE = "disc-gauge beside the rim bead of the gauge disc"

# (job, wear mm) -> pinned load of every limit, N; the first governs.
PINNED: dict[tuple[Path, float], dict[str, float]] = {
    # solid elements, cells of 3 mm: stress within 0.9 % of the largest, deflection 0.04 %
    (DEMO, 0.0): {
        "weld roots": 3528.6,
        "opened weld roots": 4152.0,
        "vent edges": 4511.9,
        "weld toes": 4774.6,
        "vent holes": 9433.6,
        "static strength": 10635.3,
        "weld throats": 18545.2,
        "contact pressure": 20449.2,
        "flange stiffness": 29535.8,
    },
    (DEMO, 1.0): {
        "weld roots": 3271.2,
        "opened weld roots": 3503.0,
        "vent edges": 4296.7,
        "weld toes": 4766.4,
        "static strength": 8407.6,
        "vent holes": 8933.2,
        "weld throats": 17058.4,
        "contact pressure": 20449.2,
        "flange stiffness": 28133.1,
    },
    # solid elements, cells of 3 mm: stress within 1.5 % of the largest, deflection 0.03 %
    (TRACKS / "garden.toml", 0.0): {
        "weld roots": 2035.6,
        "weld toes": 2497.5,
        "vent edges": 2802.7,
        "opened weld roots": 2827.4,
        "vent holes": 5100.1,
        "static strength": 6952.3,
        "contact pressure": 10104.3,
        "weld throats": 10151.0,
        "flange stiffness": 34517.5,
    },
    (TRACKS / "garden.toml", 1.0): {
        "weld roots": 1855.7,
        "opened weld roots": 2196.6,
        "weld toes": 2479.7,
        "vent edges": 2697.2,
        "vent holes": 4869.9,
        "static strength": 5446.4,
        "weld throats": 9125.9,
        "contact pressure": 10104.3,
        "flange stiffness": 31636.1,
    },
    # solid elements, cells of 3 mm: stress within 0.9 % of the largest, deflection 0.04 %
    (TRACKS / "quarry.toml", 0.0): {
        "weld roots": 6556.9,
        "opened weld roots": 7530.7,
        "vent edges": 9776.7,
        "weld toes": 11267.5,
        "vent holes": 18560.6,
        "static strength": 24817.6,
        "weld throats": 34577.1,
        "contact pressure": 37530.3,
        "flange stiffness": 80569.4,
    },
    (TRACKS / "quarry.toml", 1.0): {
        "weld roots": 6233.2,
        "opened weld roots": 6943.4,
        "vent edges": 9503.1,
        "weld toes": 10775.8,
        "vent holes": 18019.6,
        "static strength": 21341.5,
        "weld throats": 32688.5,
        "contact pressure": 37530.3,
        "flange stiffness": 77384.7,
    },
}
TOES = {"demo": TUBE_TOE, "garden": TUBE_TOE, "quarry": RIM_TOE}


@pytest.fixture(
    scope="module", params=PINNED, ids=lambda key: f"{key[0].stem}-{'worn' if key[1] else 'new'}"
)
def pinned(request: pytest.FixtureRequest) -> tuple[Path, dict[str, float], Rating]:
    job, worn_mm = request.param
    rating, _ = rate(read_job(job).setting, worn_mm=worn_mm, size_mm=SIZE_MM)
    return job, PINNED[request.param], rating


def test_rated_load_and_what_governs_it(pinned: tuple[Path, dict[str, float], Rating]) -> None:
    """Load at 1 %, the limit that governs and its place."""
    _, loads, rating = pinned
    assert rating.load_n == pytest.approx(min(loads.values()), rel=0.01)
    assert rating.governs.name == min(loads, key=lambda name: loads[name])
    assert rating.governs.where == RIM_BEAD


def test_every_other_limit(pinned: tuple[Path, dict[str, float], Rating]) -> None:
    """Each limit at 1 %, least first, and the places of those that a welder can go to."""
    job, loads, rating = pinned
    found = {limit.name: limit.load_n for limit in rating.limits}
    assert found == pytest.approx(loads, rel=0.01)
    assert list(found) == list(loads)
    where = {limit.name: limit.where for limit in rating.limits}
    assert where["weld toes"] == TOES[job.stem]
    assert where["opened weld roots"] == "bead between ring and flange"
    assert where["weld throats"] == RIM_BEAD
    assert where["vent holes"] == "vent holes of disc-gauge"
