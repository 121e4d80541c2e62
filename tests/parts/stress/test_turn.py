"""One turn of the wheel: angles, cases, sums of harmonics worked term by term, von Mises."""

from __future__ import annotations

import math

import numpy as np
import pytest

from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.turn import Case, angles, around, cases, stress_fields, von_mises
from tests.parts.stress.made_response import CALM, SHARES, Stress, made_response
from tests.parts.wheels import plain_wheel

FIRST: Stress = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0)
SECOND: Stress = (-2.3, 3.1, -5.7, 7.9, -11.3, 13.6)
FOUND = made_response(
    plain_wheel(),
    [("tread", 143.0, 30.0), ("flange", 155.0, 63.0)],
    mean=[(0.5, 0.25, 0.75, 1.5, 0.0, 0.0), CALM],
    swing=[FIRST, SECOND],
    push=[SECOND, FIRST],
)


def test_angles_of_half_a_turn() -> None:
    """A quarter of the half length of 4 mm on a radius of 150 apart beside the patch, six patch
    half lengths far; then 60 even steps to the far side."""
    found = angles(FOUND)
    step = 1 / 150
    assert found[:24] == pytest.approx(np.arange(24) * step)
    assert len(found) == 84
    assert found[24] == pytest.approx(24 * step)
    assert np.diff(found[24:]) == pytest.approx(np.full(59, (math.pi - 24 * step) / 59))
    assert found[-1] == pytest.approx(math.pi)


def test_cases() -> None:
    """Every place without a push and with it; without lateral force only the one."""
    assert cases(0.0) == tuple(Case(place, 0.0) for place in range(PLACES))
    pushed = cases(0.3)
    assert len(pushed) == 2 * PLACES
    assert {(case.place, case.lateral_share) for case in pushed} == {
        (place, share) for place in range(PLACES) for share in (0.0, 0.3)
    }


def test_a_case_mixes_its_place_with_its_share_of_the_push() -> None:
    amplitudes = np.arange(2.0 * (PLACES + 1)).reshape(2, PLACES + 1) ** 2
    mixed = Case(2, 0.5).mix(amplitudes)
    assert mixed == pytest.approx(amplitudes[:, 2] + amplitudes[:, PLACES] / 2)


@pytest.mark.parametrize("sines", [1, 2])
def test_series_term_by_term(sines: int) -> None:
    """Each harmonic by hand: cosines, and of the last components sines."""
    rng = np.random.default_rng(5)
    amplitudes, turns = rng.normal(size=(5, 3, 2)), np.array([0.0, 0.4, 1.9, 3.0])
    found = around(amplitudes, turns, sines)
    assert found.shape == (4, 3, 2)
    for i, turn in enumerate(turns):
        for j in range(3):
            wave = math.sin if j >= 3 - sines else math.cos
            for k in range(2):
                by_hand = sum(amplitudes[n, j, k] * wave(n * turn) for n in range(5))
                assert found[i, j, k] == pytest.approx(by_hand)


@pytest.mark.parametrize("share", [0.0, 0.4])
def test_stress_of_every_case_as_it_was_made(share: float) -> None:
    """rr to rz run as cosines, zt and rt as sines; the push adds its share."""
    turns = angles(FOUND)
    waves = np.stack([np.cos(turns)] * 4 + [np.sin(turns)] * 2, axis=1)
    mean = np.array([(0.5, 0.25, 0.75, 1.5, 0.0, 0.0), CALM]).T
    swing, push = np.array([FIRST, SECOND]).T, np.array([SECOND, FIRST]).T
    given = list(stress_fields(FOUND, share))
    assert [case for case, _ in given] == list(cases(share))
    for case, field in given:
        patch = SHARES[case.place] * (mean + waves[:, :, None] * swing)
        wanted = patch + case.lateral_share * waves[:, :, None] * push
        assert field == pytest.approx(wanted, abs=1e-9)
    for (_, some), (_, every) in zip(stress_fields(FOUND, share, [1]), given, strict=True):
        assert some == pytest.approx(every[:, :, 1:])


def test_von_mises_of_all_six() -> None:
    """sqrt(3 J2) from the deviator itself, tensor against formula."""
    rr, zz, tt, rz, zt, rt = SECOND
    tensor = np.array([[rr, rz, rt], [rz, zz, zt], [rt, zt, tt]])
    deviator = tensor - np.trace(tensor) / 3 * np.eye(3)
    wanted = math.sqrt(1.5 * float((deviator**2).sum()))
    assert von_mises(np.array(SECOND).reshape(1, 6, 1)) == pytest.approx(np.array([[wanted]]))
