"""Torque of a wheel that slips: torsion of circular welds, shares of the discs, balance."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from platewheel.parts.rating.fatigue import cycles_to_failure_shear
from platewheel.parts.rating.load_series import PLACES, LoadSeries
from platewheel.parts.rating.rate import Rating, life_km
from platewheel.parts.rating.response import Response, respond
from platewheel.parts.rating.slip_torque import (
    allowed_shear_range,
    greatest_share,
    slip_limit,
    slip_limits,
    slip_shear_n_mm2,
)
from platewheel.parts.rating.throat import throat_of
from platewheel.parts.wheel.welds import weld_beads
from tests.parts.checks.settings import setting_of
from tests.parts.wheels import plain_wheel

PATCH: dict[str, Any] = {"contact_width_mm": 20.0, "half_length_mm": 4.0, "size_mm": 4.0}


def test_torsion_of_a_circular_line_weld() -> None:
    """T (d / 2) over its polar moment pi d^3 / 4 x throat. Source: Blodgett, welds as lines."""
    spec = plain_wheel(fit_clearance_mm=0.0)
    found = slip_shear_n_mm2(spec, 1e6)
    leg = 3 * math.sqrt(2)
    diameter = 2 * (142 - leg / 3)  # through the bead's centroid
    wanted = greatest_share(spec) * 1e6 * diameter / 2 / (math.pi * diameter**3 / 4 * 3.0)
    assert found["weld-disc-field"] == pytest.approx(wanted)
    diameter = 57 + 2 * leg / 3
    wanted = greatest_share(spec) * 1e6 * diameter / 2 / (math.pi * diameter**3 / 4 * 3.0)
    assert found["weld-tube-gauge"] == pytest.approx(wanted)
    assert not [name for name in found if "root" in name or "seam" in name]


def test_two_beads_of_one_joint_share() -> None:
    one, two = (
        slip_shear_n_mm2(plain_wheel(first_disc_both_sides=both), 1e6) for both in (False, True)
    )
    assert two["weld-disc-gauge"] == pytest.approx(one["weld-disc-gauge"] / 2)
    assert two["weld-disc-gauge-inside"] == pytest.approx(one["weld-disc-gauge"] / 2)
    assert two["weld-disc-field"] == pytest.approx(one["weld-disc-field"])


def test_share_of_the_nearer_disc() -> None:
    """Springs in a row: half where the tube is stiff beside the discs, all where it is soft."""
    stiff = plain_wheel(disc_thickness_mm=1.0, hub_bore_mm=10.0)
    soft = plain_wheel(hub_bore_mm=56.0)
    assert greatest_share(stiff) < 0.65 < 0.95 < greatest_share(soft) < 1.0
    assert greatest_share(plain_wheel(hub_tube_length_mm=0.0, hub_tube_outside_mm=0.0)) == 1.0
    # by hand: disc 4 pi 6 / (1 / 28.5^2 - 1 / 141.5^2), tube pi (57^4 - 35^4) / 32 / 38
    disc, tube = 75.398 / (1 / 812.25 - 1 / 20022.25), math.pi * (57**4 - 35**4) / 32 / 38
    share = (disc + tube) / (disc + 2 * tube)
    assert greatest_share(plain_wheel()) == pytest.approx(share, rel=1e-4)


def test_a_drag_of_one_newton() -> None:
    """The raised cosine: 1 N in all, and its peak 1 / half angle."""
    series = LoadSeries(np.arange(400), 400, 0.05, 0.07)
    amplitudes = series.drag(np.ones((400, 1)))[:, 0]
    assert 2 * math.pi * amplitudes[0] == pytest.approx(1.0)
    assert amplitudes.sum() == pytest.approx(1 / 0.05, rel=1e-3)


@pytest.fixture(scope="module")
def solved() -> Response:
    return respond(plain_wheel(), **PATCH)


@pytest.mark.parametrize("joint", ["disc", "tube"])
def test_the_beads_carry_the_torque(solved: Response, joint: str) -> None:
    """Statics: 1 N at the tread is 150 N mm in all, half of it through either disc to 2 %, since
    the ring is stiff beside the discs and the bore is held all along."""
    beads = {bead.name: bead for bead in weld_beads(solved.spec)}
    shares = []
    for side in ("field", "gauge"):
        name = f"weld-{joint}-{side}"
        radius = throat_of(beads[name], solved.mesh).radius_mm
        even = np.abs(solved.traction_forces[name][0])
        shares.append(2 * math.pi * radius * even / 150)
    assert shares[0] + shares[1] == pytest.approx(np.ones(PLACES), rel=0.06)  # legs off the throat
    assert shares[0] / (shares[0] + shares[1]) == pytest.approx(np.full(PLACES, 0.5), abs=0.02)


def test_the_drag_is_felt_where_it_enters(solved: Response) -> None:
    """At the rim the shear swells under the rail. Torque and the drag itself, which the wheel
    gives to its axle, add there and take from each other on the far side."""
    amplitudes = solved.traction_forces["weld-disc-gauge"][:, -1]
    turns = np.outer([0.0, math.pi], np.arange(solved.series.count))
    under, beyond = np.cos(turns) @ amplitudes
    assert under / amplitudes[0] > 3
    assert abs(beyond / amplitudes[0]) < 0.3


def test_limit_of_the_slip(solved: Response) -> None:
    limit = slip_limit(solved, 0.5, 2e6, 1.15)
    assert limit.where.startswith("tube bead")
    assert limit.load_n == pytest.approx(80 / 1.15 / limit.range_per_n)
    assert slip_limit(solved, 0.25, 2e6, 1.15).load_n == pytest.approx(2 * limit.load_n)
    # one way and the other, held at one end: no less than the closed form, swell and all above it
    closed = max(slip_shear_n_mm2(solved.spec, 150.0).values())
    assert 1.0 < limit.range_per_n / (2 * 0.5 * closed) < 1.6


def test_a_loose_wheel_has_no_torque(solved: Response) -> None:
    fixed, loose = setting_of(), setting_of(axle={"wheels_on_axle": "loose"})
    assert [limit.name for limit in slip_limits(solved, fixed, 2e6)] == ["slip in curves"]
    assert slip_limits(solved, loose, 2e6) == []


# EN 1993-1-9:2005, 7.1: 80 at 2e6, slope 5, 0.457 of it at 1e8; from memory
@pytest.mark.parametrize(
    ("cycles", "share"), [(2e6, 1.0), (1e8, 0.457), (6.4e7, 0.5), (62500.0, 2.0)]
)
def test_points_of_the_shear_curve(cycles: float, share: float) -> None:
    assert allowed_shear_range(cycles, 1.35) == pytest.approx(80 * share / 1.35, rel=1e-3)
    assert cycles_to_failure_shear(80 * share, 80.0) == pytest.approx(cycles, rel=5e-3)


def test_nothing_shears_nothing() -> None:
    assert cycles_to_failure_shear(0.0, 80.0) == math.inf
    for wrong in ((-1.0, 80.0), (1.0, 0.0)):
        with pytest.raises(ValueError, match="allowed"):
            cycles_to_failure_shear(*wrong)


def test_the_life_of_a_slipping_wheel_is_read_off_the_shear_curve(solved: Response) -> None:
    setting = setting_of(2000.0)
    limit = slip_limit(solved, 0.5, setting.turns_in_life, setting.fatigue_factor)
    km, ends = life_km(Rating((limit,), 0.0, 1.0), setting)
    stress = limit.range_per_n * setting.wheel_load_n * setting.fatigue_factor
    assert ends is limit
    assert km == pytest.approx(2e6 * (80 / stress) ** 5 * math.pi * 0.3 / 1000)
