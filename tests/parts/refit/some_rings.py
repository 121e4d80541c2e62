"""Rings of any windows, to be trued for fewer sizes or not."""

from __future__ import annotations

from hypothesis import strategies as st

from platewheel.parts.refit.shared_blanks import Window
from platewheel.parts.refit.tried_sizes import Ring


def some_ring(
    at: int, sides: int, apart: int, uneven: int, resize: tuple[int, int], flange: int
) -> Ring:
    """Windows in fifths of a tenth of a mm, so that not all ends are steps; two discs unlike where
    `apart`, none alike to a flange's."""
    now, whole = [], []
    for side in range(2):
        low = (at + side * apart) / 50
        now.append(Window(low + uneven / 50, low + 0.1, low + (sides - uneven) / 50))
        whole.append(Window(low, low + 0.1, low + sides / 50))
    taken = (Window(at / 50, at / 50, (at + flange) / 50),) if flange else ()
    low, high = -resize[0] / 50, resize[1] / 50
    return Ring((tuple(now), taken), (tuple(whole), taken), (low, high))


SOME_RING = st.builds(
    some_ring,
    st.integers(0, 90),
    st.integers(6, 20),
    st.sampled_from([0, 0, 7]),
    st.integers(0, 3),
    st.sampled_from([(0, 0), (15, 15), (0, 15), (20, 20)]),
    st.sampled_from([0, 11, 23]),
)
