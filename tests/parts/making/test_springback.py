"""Springback and pressing round, against sums through the plate and round the ring."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.making.springback import (
    bent_to_mm,
    flange_bent_mm,
    lasting_squeeze_mm,
    released_mm,
    rolled_to_mm,
    round_force_n,
)
from tests.parts.settings import demo_setting

E = 210000.0
WHEEL = demo_setting().wheel.model_copy(update={"tread_taper_1_in": 0.0})


def test_a_plate_by_hand() -> None:
    """Gardiner's formula by hand: Re 300, R 150, t 12, so X = 0.01786: let go at 1.0566 R."""
    assert released_mm(150, 12, 300) == pytest.approx(1.0566 * 150, rel=1e-3)


@given(st.floats(20, 2000), st.floats(2, 20), st.floats(150, 700))
def test_released_as_the_moment_of_the_yielded_plate_says(
    radius: float, thick: float, strength: float
) -> None:
    y = (np.arange(4000) + 0.5) / 4000 * thick - thick / 2
    stress = np.clip(E * y / radius, -strength, strength)
    moment = float((stress * y).sum() * thick / 4000)
    curvature = 1 / radius - moment * 12 / (E * thick**3)
    assert 1 / released_mm(radius, thick, strength) == pytest.approx(curvature, abs=2e-6 / radius)


@given(st.floats(30, 3000), st.floats(2, 20), st.floats(150, 700))
def test_bent_so_it_comes_back_to_the_radius_wanted(
    radius: float, thick: float, strength: float
) -> None:
    bent = bent_to_mm(radius, thick, strength)
    assert 0 < bent < radius
    assert released_mm(bent, thick, strength) == pytest.approx(radius, rel=1e-6)


def test_ring_of_the_demo_by_hand() -> None:
    """S235, R 146 mm, t 8: X = 235 R / 1.68e6; R 137.4 gives 4 X^3 - 3 X + 1 = 0.9424."""
    least, most = rolled_to_mm(WHEEL)
    assert most == pytest.approx(137.6 - 4, abs=0.1)
    assert least < most < WHEEL.bore_radius_mm(0.0)
    assert least + 4 == pytest.approx(bent_to_mm(146, 8, 1.5 * 235))


def test_a_flatter_cone_is_bent_less_and_comes_back_more() -> None:
    steep, flat = (WHEEL.model_copy(update={"flange_angle_deg": deg}) for deg in (60.0, 80.0))
    radius, (least, most) = flange_bent_mm(steep)
    assert radius == pytest.approx((150 + 7.5) / 0.5)
    assert least < most < radius
    wide, (_, loose) = flange_bent_mm(flat)
    assert wide > radius
    assert loose / wide < most / radius
    with pytest.raises(ZeroDivisionError):
        flange_bent_mm(WHEEL.model_copy(update={"flange_angle_deg": 90.0}))


def test_a_ring_is_pressed_round_as_a_sum_of_its_bending_says() -> None:
    """Thin ring of R 146, 60 x 8: Castigliano's integrals by a sum over a quarter."""
    angle = (np.arange(100000) + 0.5) / 100000 * math.pi / 2
    step = math.pi / 2 / 100000
    moment = 0.5 * np.cos(angle) - 1 / math.pi  # of F R, from the diameter across the force
    r, bending = 146.0, E * 60 * 8**3 / 12
    shorter = 4 * float((moment * 0.5 * np.cos(angle)).sum() * step)
    wider = -4 * float((moment * 0.5 * np.sin(angle)).sum() * step)  # M is even about both
    force = round_force_n(WHEEL, 1.0)
    assert force * r**3 / bending * (shorter + wider) == pytest.approx(1.0, rel=1e-3)
    assert round_force_n(WHEEL, 2.0) == pytest.approx(2 * force)


def test_a_ring_by_the_published_factors() -> None:
    """Roark's Formulas, circular ring, case 1: 0.1488 and 0.1366 F R^3 / (E I), 0.3183 F R."""
    r, bending = 146.0, E * 60 * 8**3 / 12
    assert round_force_n(WHEEL, 1.0) == pytest.approx(bending / (0.2854 * r**3), rel=1e-3)
    force = 235 * 60 * 64 / 6 / (0.3183 * r)
    assert lasting_squeeze_mm(WHEEL) == pytest.approx(0.1488 * force * r**3 / bending, rel=1e-3)
