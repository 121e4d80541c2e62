"""Pinned ratings of three wheels, new and worn: what the analysis found when it was checked.

The loads, N, are pinned, not derived: cells of 4 mm, from the analysis whose stress fields were
set once beside independent ten-node tetrahedra in three dimensions (tests.bench.solid_elements),
at the bore under the patch and 10 and 30 degrees from it; the largest differences are below.
Plates are as drawn there, `thickness_tolerance = "nominal"`.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from platewheel.cli.job.job import read_job
from platewheel.parts.rating.rate import Rating, rate
from platewheel.parts.setting.shop import ShopSpec
from tests.places import DEMO, TRACKS

SIZE_MM = 4.0
PLAY_MM, WIDENING_MM = 8.0, {DEMO: 4.0}  # whatever the job has
RIM_BEAD = "rim bead of the gauge disc"
BESIDE = "weld roots, full range"  # the least of all, and not judged
OWN = {"load_unevenness": 1.25, "shock_factor": 1.5}  # whatever track and wagon give
RIM_TOE = "disc-gauge beside the rim bead of the gauge disc"

# (job, wear mm) -> pinned load of every limit, N; the first governs.
PINNED: dict[tuple[Path, float], dict[str, float]] = {
    # solid elements, cells of 3 mm: stress within 0.9 % of the largest, deflection 0.04 %
    (DEMO, 0.0): {
        "weld roots, full range": 3101.8,
        "weld roots": 6485.9,
        "ring seam": 6999.3,
        "vent edges": 8653.7,
        "vent holes": 9433.6,
        "weld toes": 9973.0,
        "static strength": 10635.3,
        "opened weld roots": 14371.8,
        "weld throats": 18927.3,
        "contact pressure": 20449.2,
        "flange seams": 26387.9,
        "slip in curves": 27360.8,
        "flange stiffness": 51185.8,
    },
    (DEMO, 1.0): {
        "weld roots, full range": 2790.4,
        "ring seam": 5484.4,
        "weld roots": 5893.6,
        "vent edges": 8205.9,
        "static strength": 8407.6,
        "vent holes": 8933.2,
        "weld toes": 9270.3,
        "opened weld roots": 12073.3,
        "weld throats": 17258.3,
        "contact pressure": 20449.2,
        "flange seams": 25749.8,
        "slip in curves": 27436.2,
        "flange stiffness": 48755.0,
    },
    # solid elements, cells of 3 mm: stress within 1.5 % of the largest, deflection 0.03 %
    (TRACKS / "garden.toml", 0.0): {
        "weld roots, full range": 1748.7,
        "weld roots": 3337.4,
        "ring seam": 3930.4,
        "vent edges": 5136.9,
        "vent holes": 5324.0,
        "weld toes": 5418.2,
        "static strength": 7289.4,
        "opened weld roots": 8265.6,
        "contact pressure": 10104.3,
        "weld throats": 10311.6,
        "flange seams": 12338.4,
        "slip in curves": 20035.3,
        "flange stiffness": 47603.7,
    },
    (TRACKS / "garden.toml", 1.0): {
        "weld roots, full range": 1524.5,
        "ring seam": 2841.7,
        "weld roots": 2947.7,
        "vent edges": 4836.2,
        "weld toes": 4900.6,
        "vent holes": 5059.5,
        "static strength": 5494.0,
        "opened weld roots": 6421.0,
        "weld throats": 9194.7,
        "contact pressure": 10104.3,
        "flange seams": 12189.1,
        "slip in curves": 20140.9,
        "flange stiffness": 43629.9,
    },
    # solid elements, cells of 3 mm: stress within 0.9 % of the largest, deflection 0.04 %
    (TRACKS / "quarry.toml", 0.0): {
        "weld roots, full range": 6307.4,
        "weld roots": 11995.2,
        "ring seam": 14122.3,
        "vent edges": 19374.1,
        "vent holes": 19396.2,
        "weld toes": 20835.1,
        "static strength": 24817.6,
        "opened weld roots": 25903.3,
        "weld throats": 35160.1,
        "contact pressure": 37530.3,
        "flange seams": 49932.3,
        "slip in curves": 74884.3,
        "flange stiffness": 134181.2,
    },
    (TRACKS / "quarry.toml", 1.0): {
        "weld roots, full range": 5867.6,
        "weld roots": 11252.0,
        "ring seam": 12029.4,
        "vent holes": 18748.9,
        "vent edges": 18753.8,
        "weld toes": 19827.2,
        "static strength": 21341.5,
        "opened weld roots": 23713.2,
        "weld throats": 33070.8,
        "contact pressure": 37530.3,
        "flange seams": 49267.8,
        "slip in curves": 74985.2,
        "flange stiffness": 128877.4,
    },
}


@pytest.fixture(
    scope="module", params=PINNED, ids=lambda key: f"{key[0].stem}-{'worn' if key[1] else 'new'}"
)
def pinned(request: pytest.FixtureRequest) -> tuple[Path, dict[str, float], Rating]:
    job, worn_mm = request.param
    setting = read_job(job).setting
    shop = ShopSpec(**setting.shop.model_dump() | {"thickness_tolerance": "nominal"})
    wagon = setting.wagon.model_copy(update=OWN)
    use = setting.use.model_copy(update={"lateral_share": 0.4})
    back = setting.track.gauge_mm - PLAY_MM - 2 * setting.flange_reach_mm
    axle = setting.axle.model_copy(update={"back_to_back_mm": back})
    widening = WIDENING_MM.get(job, setting.track.gauge_widening_mm)
    track = setting.track.model_copy(update={"gauge_widening_mm": widening})
    setting = replace(setting, shop=shop, wagon=wagon, use=use, axle=axle, track=track)
    rating, _ = rate(setting, worn_mm=worn_mm, size_mm=SIZE_MM)
    return job, PINNED[request.param], rating


def test_rated_load_and_what_governs_it(pinned: tuple[Path, dict[str, float], Rating]) -> None:
    """Load at 1 %, the limit that governs and its place."""
    _, loads, rating = pinned
    judged = {name: load for name, load in loads.items() if name != BESIDE}
    assert rating.load_n == pytest.approx(min(judged.values()), rel=0.01)
    assert rating.governs.name == min(judged, key=lambda name: judged[name])
    assert rating.governs.where == RIM_BEAD or rating.governs.where.startswith("ring at r ")
    assert [limit.name for limit in rating.beside] == [BESIDE]


def test_every_other_limit(pinned: tuple[Path, dict[str, float], Rating]) -> None:
    """Each limit at 1 %, least first, and the places of those that a welder can go to."""
    _, loads, rating = pinned
    found = {limit.name: limit.load_n for limit in rating.limits}
    assert found == pytest.approx(loads, rel=0.01)
    assert list(found) == list(loads)
    where = {limit.name: limit.where for limit in rating.limits}
    assert where["weld toes"] == RIM_TOE
    assert where["opened weld roots"] == "bead between ring and flange"
    assert where["weld throats"] == where["weld roots"] == RIM_BEAD
    assert where["vent holes"] == "vent holes of disc-gauge"
