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
RIM_BEAD = "rim bead of the gauge disc"  # governs all three, but the demo worn: its ring bends
MIDDLE = "ring at r 142, z 36 mm"  # of the bore, between the discs
TUBE_TOE = "disc-gauge beside the tube bead at the gauge disc"
RIM_TOE = "disc-gauge beside the rim bead of the gauge disc"

# (job, wear mm) -> pinned load of every limit, N; the first governs.
PINNED: dict[tuple[Path, float], dict[str, float]] = {
    # solid elements, cells of 3 mm: stress within 0.9 % of the largest, deflection 0.04 %
    (DEMO, 0.0): {
        "weld roots": 3577.5,
        "ring seam": 4076.7,
        "opened weld roots": 4276.5,
        "weld toes": 4841.9,
        "vent holes": 6698.9,
        "flange seams": 9109.6,
        "slip in curves": 10130.1,
        "static strength": 10635.3,
        "weld throats": 18802.4,
        "contact pressure": 20449.2,
        "flange stiffness": 30035.8,
    },
    (DEMO, 1.0): {
        "ring seam": 3199.2,
        "weld roots": 3316.5,
        "opened weld roots": 3608.1,
        "weld toes": 4833.5,
        "vent holes": 6230.7,
        "static strength": 8407.6,
        "flange seams": 8450.5,
        "slip in curves": 10158.0,
        "weld throats": 17295.0,
        "contact pressure": 20449.2,
        "flange stiffness": 28609.4,
    },
    # solid elements, cells of 3 mm: stress within 1.5 % of the largest, deflection 0.03 %
    (TRACKS / "garden.toml", 0.0): {
        "weld roots": 2057.2,
        "ring seam": 2593.0,
        "weld toes": 2742.4,
        "opened weld roots": 2883.9,
        "vent holes": 4180.7,
        "flange seams": 6944.2,
        "static strength": 6952.3,
        "slip in curves": 9099.3,
        "contact pressure": 10104.3,
        "weld throats": 10258.5,
        "flange stiffness": 35993.5,
    },
    (TRACKS / "garden.toml", 1.0): {
        "weld roots": 1875.3,
        "ring seam": 1877.7,
        "opened weld roots": 2240.6,
        "weld toes": 2722.8,
        "vent holes": 3900.7,
        "static strength": 5446.4,
        "flange seams": 6067.8,
        "slip in curves": 9147.3,
        "weld throats": 9222.6,
        "contact pressure": 10104.3,
        "flange stiffness": 32988.9,
    },
    # solid elements, cells of 3 mm: stress within 0.9 % of the largest, deflection 0.04 %
    (TRACKS / "quarry.toml", 0.0): {
        "weld roots": 6651.0,
        "opened weld roots": 7704.5,
        "ring seam": 8200.1,
        "weld toes": 12465.9,
        "vent holes": 14816.9,
        "flange seams": 17042.6,
        "static strength": 24817.6,
        "slip in curves": 29759.6,
        "weld throats": 35073.1,
        "contact pressure": 37530.3,
        "flange stiffness": 82972.2,
    },
    (TRACKS / "quarry.toml", 1.0): {
        "weld roots": 6322.7,
        "ring seam": 6990.0,
        "opened weld roots": 7103.6,
        "weld toes": 11921.9,
        "vent holes": 14240.0,
        "flange seams": 16165.1,
        "static strength": 21341.5,
        "slip in curves": 29799.7,
        "weld throats": 33157.4,
        "contact pressure": 37530.3,
        "flange stiffness": 79692.6,
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
    job, loads, rating = pinned
    assert rating.load_n == pytest.approx(min(loads.values()), rel=0.01)
    assert rating.governs.name == min(loads, key=lambda name: loads[name])
    bends = job == DEMO and rating.worn_mm
    assert rating.governs.where == (MIDDLE if bends else RIM_BEAD)


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
    assert where["slip in curves"] == "tube bead at the gauge disc"
