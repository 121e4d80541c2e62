"""Weld metal of a wheel by closed forms, and what filler, gas and time it takes."""

from __future__ import annotations

import math
import tomllib

import pytest

from platewheel.cli.job.job import Job, job_of
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.making.weld_metal import weld_metal
from platewheel.parts.setting.costs import Costs
from tests.cli.jobs import job_text


def job(**changes: str) -> Job:
    """The small job without fit clearance, so that each fillet is an equal-leg triangle."""
    values = {"wheel.fit_clearance_mm": "0", "wheel.disc_field_inset_mm": "9"}
    return job_of(tomllib.loads(job_text(values | changes)))


def drawn_kg() -> float:
    """Beads of that wheel from plane triangles. Source: plain geometry, Pappus' theorem.

    Wheel: tread 180 x 50 x 6, flange 12 deep at 65 degrees and 5 thick in 3 pieces, tube 42,
    throat 3, root leg 5, seam gap 2 (defaults).
    """
    throat, leg = 3.0, 3.0 * math.sqrt(2)
    area = throat**2  # leg^2 / 2
    rims = 2 * area * 2 * math.pi * (90 - 6 - leg / 3)
    tubes = 2 * area * 2 * math.pi * (21 + leg / 3)
    slope = math.radians(65)
    root = 5 * 5 * math.sin(slope) / 2 * 2 * math.pi * (90 - (5 + 5 * math.cos(slope)) / 3)
    seams = 2 * 50 * 6 + 3 * 2 * 5 * 12 / math.sin(slope)
    return (rims + tubes + root + seams) * 7.85e-6


def test_weld_metal_is_the_triangles_mass() -> None:
    metal = weld_metal(job().wheel, Costs(bead_excess_percent=0.0))
    assert metal.deposited_kg == pytest.approx(drawn_kg(), rel=2e-3)


def test_excess_yield_deposition_and_arc_time_are_plain_proportion() -> None:
    costs = Costs(
        welding="wire",
        bead_excess_percent=20.0,
        filler_yield_percent=80.0,
        deposition_kg_per_h=3.0,
        arc_on_percent=25.0,
        gas_l_per_min=10.0,
    )
    metal = weld_metal(job().wheel, costs)
    deposited = 1.2 * drawn_kg()
    assert metal.deposited_kg == pytest.approx(deposited, rel=2e-3)
    assert metal.filler_kg == pytest.approx(deposited / 0.8, rel=2e-3)
    assert metal.arc_hours == pytest.approx(deposited / 3, rel=2e-3)
    assert metal.hours == pytest.approx(deposited / 3 * 4, rel=2e-3)
    assert metal.gas_m3 == pytest.approx(deposited / 3 * 60 * 10 / 1000, rel=2e-3)


def test_rods_take_more_filler_and_time_and_no_gas() -> None:
    rod, wire = (weld_metal(job().wheel, Costs(welding=w)) for w in ("rod", "wire"))  # type: ignore[arg-type]
    assert rod.gas_m3 == 0
    assert wire.gas_m3 > 0
    assert rod.filler_kg > 1.5 * wire.filler_kg
    assert rod.hours > 2 * wire.hours


def test_mass_grows_with_the_square_of_the_throat() -> None:
    thin, thick = (job(**{"wheel.weld_throat_mm": t}).wheel for t in ("2", "4"))
    bare = unchecked(thin, {"weld_throat_mm": 1e-6})  # root and seams alone
    none, small, large = (
        weld_metal(w, Costs(bead_excess_percent=0.0)).deposited_kg for w in (bare, thin, thick)
    )
    assert (large - none) / (small - none) == pytest.approx(4, rel=0.01)
