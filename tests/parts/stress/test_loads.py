"""Loads as Fourier series, against numerical integrals and statics."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from platewheel.parts.stress.loads import face_load, raised_cosine, upward
from platewheel.parts.stress.solid_of_revolution import R
from tests.parts.stress.grids import rectangle_body


@pytest.mark.parametrize("half_angle", [0.01, 0.0267, 0.3, 1.0, math.pi / 3, math.pi])
def test_raised_cosine(half_angle: float) -> None:
    """Each coefficient by quadrature; pi / 3 and pi meet the form's 0 / 0 (n half angle = pi)."""
    series = raised_cosine(half_angle, 100)

    def shape(angle: float) -> float:
        return math.cos(math.pi * angle / 2 / half_angle) ** 2 / half_angle

    for n in (0, 1, 2, 3, 7, 50, 100):
        area, _ = quad(
            lambda a, n=n: shape(a) * math.cos(n * a), -half_angle, half_angle, limit=400
        )
        assert series[n] == pytest.approx(area / (math.pi if n else 2 * math.pi), abs=1e-9)


@given(st.floats(0.005, 3.0))
def test_raised_cosine_is_one_newton(half_angle: float) -> None:
    assert 2 * math.pi * raised_cosine(half_angle, 10)[0] == pytest.approx(1.0, rel=1e-12)


@given(st.floats(0.02, 1.0))
def test_upward_is_a_vertical_force(half_angle: float) -> None:
    """Resultant to -x of 1 N, and the two series are one traction of constant direction."""
    q = raised_cosine(half_angle, 400)
    radial, tangential = upward(q)
    assert math.pi * (radial[1] - tangential[1]) == pytest.approx(-1.0, rel=1e-12)
    n = np.arange(len(radial))
    for angle in (0.0, half_angle / 3, half_angle / 2):
        pressure = math.cos(math.pi * angle / 2 / half_angle) ** 2 / half_angle
        out, round_ = radial @ np.cos(n * angle), tangential @ np.sin(n * angle)
        slack = 5e-3 / half_angle  # of the peak 1 / half angle: series cut at 400
        assert out == pytest.approx(-pressure * math.cos(angle), abs=slack)
        assert round_ == pytest.approx(pressure * math.sin(angle), abs=slack)


@given(st.floats(0.0, 15.0), st.floats(0.5, 14.0))
def test_face_load_stands_where_it_is_put(low: float, wide: float) -> None:
    """Sum 1 N, and its middle in the middle, though the ends cut across cells."""
    body = rectangle_body((50, 60), (0, 30), (2, 7))
    face = face_load(body, (60, 0), (60, 30), low, low + wide)
    load = face.spread(body.basis, R)
    assert load.sum() == pytest.approx(1.0, abs=1e-12)
    middles = body.points[body.basis.mesh.facets].mean(axis=0)[:, 1]
    moment = load[body.basis.nodal_dofs[R]] @ body.points[:, 1]
    moment += load[body.basis.facet_dofs[R]] @ middles
    assert moment == pytest.approx(low + wide / 2, rel=1e-9)


def test_face_load_off_the_face() -> None:
    """Never a load in silence where there is no steel."""
    body = rectangle_body((50, 60), (0, 30), (2, 7))
    with pytest.raises(ValueError, match="no element edge"):
        face_load(body, (60, 0), (60, 30), 31.0, 40.0)
