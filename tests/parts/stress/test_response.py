"""Unit responses: spline over the harmonics, superposition, balance of what beads carry."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from platewheel.parts.stress import response
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.response import Response, respond
from tests.parts.wheels import WHEELS, plain_wheel

PATCH: dict[str, Any] = {"contact_width_mm": 20.0, "half_length_mm": 4.0, "size_mm": 4.0}
PUSH = PLACES  # number of the push among the cases


@pytest.fixture(scope="module", params=["plain", "tapered", "washer", "no-tube-no-vents"])
def solved(request: pytest.FixtureRequest) -> Response:
    return respond(WHEELS[request.param], **PATCH)


def field(found: Response, case: int) -> np.ndarray:
    """Hoop and axial stress from 0 to 180 degrees."""
    n = np.arange(len(found.stress))
    turns = np.linspace(0, math.pi, 181)
    return np.tensordot(np.cos(np.outer(turns, n)), found.stress[:, 1:3, :, case], axes=1)


def test_spline_over_the_harmonics(monkeypatch: pytest.MonkeyPatch) -> None:
    """Against every harmonic solved: stresses within 2e-4 of the largest."""
    few = respond(WHEELS["plain"], **PATCH)
    monkeypatch.setattr(response, "SOLVED_ALL", 10_000)
    every = respond(WHEELS["plain"], **PATCH)
    assert few.stress.shape == every.stress.shape
    for case in (0, 3, PUSH):
        truth = field(every, case)
        assert np.abs(field(few, case) - truth).max() < 2e-4 * np.abs(truth).max()
    for bead, forces in every.bead_forces.items():
        assert np.abs(few.bead_forces[bead] - forces).max() < 2e-4 * np.abs(forces).max()


def resultant(found: Response, beads: list[str], case: int) -> tuple[float, float]:
    """Vertical and axial force that the beads get from their first plate, N."""
    total = sum(found.bead_forces[bead][:, :, case] for bead in beads)
    return math.pi * float(total[1, 0] - total[1, 1]), 2 * math.pi * float(total[0, 2])


RIM = ["weld-disc-field", "weld-disc-gauge"]


def test_a_disc_welded_on_both_sides_shares_its_load() -> None:
    """Statics: all rim beads together give back 1 N, and so do all at the tube; the two of the
    gauge disc carry together about what its one bead did."""
    one = respond(plain_wheel(), **PATCH)
    two = respond(plain_wheel(first_disc_both_sides=True), **PATCH)
    inner = "weld-disc-gauge-inside"
    for case in (0, PLACES - 1):
        vertical, axial = resultant(two, [*RIM, inner], case)
        assert vertical == pytest.approx(1.0, rel=1e-6)
        assert axial == pytest.approx(0.0, abs=1e-6)
        shared = resultant(two, ["weld-disc-gauge", inner], case)[0]
        alone = resultant(one, ["weld-disc-gauge"], case)[0]
        assert shared == pytest.approx(alone, abs=0.1)  # the discs share as they did
    assert 0.2 < resultant(two, [inner], PLACES - 1)[0] / shared < 0.8
    tubes = [bead for bead in two.bead_forces if bead.startswith("weld-tube")]
    assert len(tubes) == 3
    assert abs(resultant(two, tubes, 0)[0]) == pytest.approx(1.0, rel=1e-6)


def test_rim_beads_carry_the_wheel_load(solved: Response) -> None:
    """Statics: ring and flange hang on the two rim beads, so the discs give back 1 N."""
    for place in range(PLACES):
        vertical, axial = resultant(solved, RIM, place)
        assert vertical == pytest.approx(1.0, rel=1e-6)
        assert axial == pytest.approx(0.0, abs=1e-6)


def test_rim_beads_carry_the_push(solved: Response) -> None:
    """Statics: 1 N along the axle on the flange, none of it up or down."""
    vertical, axial = resultant(solved, RIM, PUSH)
    assert abs(axial) == pytest.approx(1.0, rel=1e-6)
    assert vertical == pytest.approx(0.0, abs=1e-6)


def test_tube_beads_carry_all(solved: Response) -> None:
    """Statics: what the rim gives to the discs, the discs give to the tube."""
    beads = [bead for bead in solved.bead_forces if bead.startswith("weld-tube")]
    assert len(beads) == (2 if solved.spec.has_tube else 0)
    if beads:
        assert abs(resultant(solved, beads, 0)[0]) == pytest.approx(1.0, rel=1e-6)
        assert abs(resultant(solved, beads, PUSH)[1]) == pytest.approx(1.0, rel=1e-6)


def test_root_bead_carries_the_flange(solved: Response) -> None:
    """Statics: the flange hangs on the root bead alone, which so carries all of the push, and
    nothing along or across for a patch that stands clear of the root."""
    vertical, axial = resultant(solved, ["weld-root"], PUSH)
    assert abs(axial) == pytest.approx(1.0, rel=1e-2)
    assert vertical == pytest.approx(0.0, abs=1e-2)
    vertical, axial = resultant(solved, ["weld-root"], 0)
    assert vertical == pytest.approx(0.0, abs=1e-2)
    assert axial == pytest.approx(0.0, abs=1e-2)


def test_free_end_carries_nothing_along_the_axle(solved: Response) -> None:
    """The ring's field end is free: axial stress there is next to none, hoop stress is not."""
    ends = np.isclose(solved.points[:, 1], 0.0) & (np.array(solved.part_of) == "tread")
    stress = field(solved, 3)
    assert ends.sum() >= 1
    if not solved.spec.tread_taper_1_in:  # else the end is not square to the axle
        assert np.abs(stress[:, 0, ends]).max() < 0.03 * np.abs(stress[:, 0]).max()


def test_patch_places_reach_across_the_tread(solved: Response) -> None:
    """From half a patch inside one edge to half a patch inside the other."""
    along = 60.0 * math.hypot(1.0, math.tan(solved.spec.taper_half_angle))
    assert solved.places_mm[0] == pytest.approx(10.0)
    assert solved.places_mm[-1] == pytest.approx(along - 10.0, abs=1e-6)


def test_longer_patch_hurts_less() -> None:
    """A load spread further along the rail: lower peak, same stress far off (Saint-Venant)."""
    short, long = (respond(plain_wheel(), **(PATCH | {"half_length_mm": x})) for x in (4.0, 12.0))
    inside = np.isclose(short.points[:, 0], 142.0) & (np.array(short.part_of) == "tread")
    a, b = field(short, 3)[:, 1][:, inside], field(long, 3)[:, 1][:, inside]
    assert np.abs(b[0]).max() < np.abs(a[0]).max()
    assert np.abs(a[90] - b[90]).max() < 0.01 * np.abs(a).max()
