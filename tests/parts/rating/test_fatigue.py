"""S-N curves to the last digit: their points in closed form."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.rating.fatigue import damage_a_cycle

IIW_KNEE = 0.2 ** (1 / 3)  # of the class, at 1e7 cycles; IIW (Hobbacher), from memory


@pytest.mark.parametrize(
    ("share", "cycles"),
    [(2.0, 2e6 / 8), (1.0, 2e6), (IIW_KNEE * 1.0001, 1e7 / 1.0001**3), (IIW_KNEE / 2, 3.2e8)],
)
def test_iiw_curve(share: float, cycles: float) -> None:
    """IIW, loads of varying size, from memory: slope 3 to 1e7, slope 5 without end."""
    assert damage_a_cycle(np.array([36 * share]), 36.0)[0] == pytest.approx(1 / cycles, rel=1e-9)


@given(
    st.tuples(st.floats(0, 500), st.floats(0, 500)).map(sorted), st.floats(20, 160), st.booleans()
)
def test_larger_ranges_harm_more(pair: list[float], category: float, in_shear: bool) -> None:
    small, large = damage_a_cycle(np.array(pair), category, in_shear)
    assert small <= large
    assert damage_a_cycle(np.array(pair[1:]), category * 1.1, in_shear)[0] <= large


@pytest.mark.parametrize("in_shear", [False, True])
def test_nothing_harms_nothing(in_shear: bool) -> None:
    assert damage_a_cycle(np.zeros(3), 36.0, in_shear).tolist() == [0, 0, 0]
