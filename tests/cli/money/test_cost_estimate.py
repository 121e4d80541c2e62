"""What stronger welds cost before anything is laid, summed by hand."""

from __future__ import annotations

import math
import tomllib

import pytest

from platewheel.cli.job.job import Job, job_of
from platewheel.cli.money.cost_estimate import estimate_parts
from platewheel.parts.wheel.spec import WheelSpec
from tests.cli.jobs import job_text

PRICES = {
    "costs.labour_price_per_h": "30",
    "costs.filler_price_per_kg": "6",
    "costs.welding": '"rod"',
    "costs.bead_excess_percent": "10",
    "costs.grinding_minutes_per_m": "12",
    "finish.coating": '"bare"',
}
METAL = 1.1 * (6 / 0.6 + 30 / 1 / 0.2)  # a kg: rods at 60 %, 1 kg/h while 20 % of the time burns


def costs(**keys: str) -> float:
    job: Job = job_of(tomllib.loads(job_text(PRICES | keys)))
    wheel: WheelSpec = job.wheel
    return sum(part(wheel) for part in estimate_parts(job).values())


def test_a_backed_root() -> None:
    run = 2 * math.pi * 90 * math.pi * 2**2 / 2 * 7.85e-6
    grinding = 2 * 0.18 * math.pi * 12 / 60 * 30
    more = costs(**{"wheel.root_backed": "true"}) - costs()
    assert more == pytest.approx(run * METAL + grinding)


def test_a_first_disc_welded_inside() -> None:
    """Two more fillets, of the mass of the two outside on that disc."""
    leg, gap = 3 * math.sqrt(2), 0.5
    area, middle = leg * (leg + gap) / 2, (leg + gap) / 3
    swept = 2 * math.pi * area * ((84 - middle) + (21 + middle))
    more = costs(**{"wheel.first_disc_both_sides": "true"}) - costs()
    assert more == pytest.approx(swept * 7.85e-6 * METAL)


def test_dressed_seams() -> None:
    slant = 12 / math.sin(math.radians(65))
    grinding = (50 + 3 * 2 * slant) / 1000 * 12 / 60 * 30
    more = costs(**{"wheel.seam": '"dressed"'}) - costs()
    assert more == pytest.approx(grinding)
