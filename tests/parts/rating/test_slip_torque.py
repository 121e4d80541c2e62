"""Torque of a wheel that slips: torsion of circular welds, shares of the discs, balance."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from platewheel.parts.loads.spectrum import Block
from platewheel.parts.rating.detail import cycles_of
from platewheel.parts.rating.slip_torque import (
    greatest_share,
    slip_details,
    slip_shear_n_mm2,
)
from platewheel.parts.rating.vented_disc import bead_factor
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.load_series import PLACES, LoadSeries
from platewheel.parts.stress.response import Response, respond
from platewheel.parts.stress.throat import throat_of
from platewheel.parts.stress.turn import angles
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.welds import bead_words, weld_beads
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


def test_the_smaller_disc_of_a_tapered_ring() -> None:
    """Its bore grows to one edge; the smaller disc's edge counts. By hand as above."""
    spec = plain_wheel(tread_taper_1_in=20.0)
    outer = min(disc_diameter_mm(spec, side) for side in ("field", "gauge")) / 2
    assert outer < max(disc_diameter_mm(spec, side) for side in ("field", "gauge")) / 2 - 0.5
    disc, tube = 75.398 / (1 / 812.25 - 1 / outer**2), math.pi * (57**4 - 35**4) / 32 / 38
    assert greatest_share(spec) == pytest.approx((disc + tube) / (disc + 2 * tube), rel=1e-6)


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


def slid(response: Response, setting: Setting, slides: bool = True) -> dict[str, float]:
    """Range of each bead under 1 N, by its words."""
    block = Block("curve of 9 m", "loaded", 1.0, 1.0, 1.0, 0.0, 0.0, 0.0, slides)
    return {
        one.where: float(cycles_of(one, (block,), angles(response)).ranges[:, 0].max())
        for one in slip_details(response, setting)
    }


def test_ranges_of_the_slip(solved: Response) -> None:
    """One way and the other, held at one end: no less than the closed form, vents and the swell
    above it; in proportion to friction; nothing where nothing slides."""
    half, quarter = (setting_of(use={"friction_high": mu}) for mu in (0.5, 0.25))
    found = slid(solved, half)
    worst = max(found, key=lambda where: found[where])
    assert worst.startswith("tube bead")
    assert slid(solved, quarter)[worst] == pytest.approx(found[worst] / 2)
    closed = max(slip_shear_n_mm2(solved.spec, 150.0).values())
    more = bead_factor(solved.spec, "weld-tube-gauge")
    assert 1.0 < found[worst] / (2 * 0.5 * closed * more) < 1.6
    assert set(slid(solved, half, False).values()) == {0.0}


def test_a_tube_held_at_one_end_gets_the_greater_share(solved: Response) -> None:
    """To what the analysis has, half of the torque in either disc, the closed form adds what the
    nearer disc has above half: 150 N mm (g - 1/2) as a line weld; rims get none of it."""
    vented = solved.spec.model_copy(
        update={"vent_count": 4, "vent_circle_mm": 230.0, "vent_diameter_mm": 30.0}
    )
    found = slid(replace(solved, spec=vented), setting_of(use={"friction_high": 0.5}))
    above = (greatest_share(vented) - 0.5) * 150
    turns = np.outer(angles(solved), np.arange(solved.series.count))
    beads = {bead.name: bead for bead in weld_beads(vented)}
    factors = set()
    for name, amplitudes in solved.traction_forces.items():
        throat = throat_of(beads[name], solved.mesh)
        shear = np.abs(np.cos(turns) @ amplitudes).max() / (throat.radius_mm * throat.size_mm)
        if name.startswith("weld-tube"):
            diameter = 57 + 2 * math.sqrt(2)  # leg of 3 sqrt 2, a third of it out
            shear += above * diameter / 2 / (math.pi * diameter**3 / 4 * 3.0)
        factor = bead_factor(vented, name)
        # the gap under a fillet moves its centroid, by less than 1 % of the shear
        assert found[bead_words(name)] == pytest.approx(2 * 0.5 * factor * shear, rel=0.01)
        factors.add(factor)
    assert max(factors) > 1.05  # else they are not seen


def test_a_loose_wheel_has_no_torque(solved: Response) -> None:
    fixed, loose = setting_of(), setting_of(axle={"wheels_on_axle": "loose"})
    details = slip_details(solved, fixed)
    assert {(one.name, one.fat_n_mm2, one.in_shear) for one in details} == {
        ("slip in curves", 80.0, True)
    }
    assert slip_details(solved, loose) == []
