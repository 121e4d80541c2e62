"""What a ring is resized by: against every hundredth of a mm that it may be."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.refit.resizing import least_shift, reach
from platewheel.parts.refit.shared_blanks import Window
from platewheel.parts.refit.tried_sizes import Ring, Sizes
from tests.parts.refit.some_rings import SOME_RING

POINTS = st.lists(st.integers(-6, 30), min_size=1, max_size=3, unique=True).map(sorted)


def holds(window: Window, points: list[int], hundredths: int) -> bool:
    """Whether a window that is moved by so much holds a point, in tenths of a mm; one that lies
    between two holds the lower."""
    low, high = (round(100 * end) + hundredths for end in (window.least_mm, window.greatest_mm))
    lowest = min(low, 10 * math.floor(high / 10))
    return any(lowest <= 10 * point <= high for point in points)


def all_that_do(ring: Ring, sizes: tuple[list[int], list[int]]) -> list[int]:
    low, high = (round(100 * end) for end in ring.resize_mm)
    return [
        by
        for by in range(low, high + 1)
        if all(
            holds(window, points, by)
            for windows, points in zip(ring.round, sizes, strict=True)
            for window in windows
        )
    ]


@given(SOME_RING, POINTS, POINTS)
def test_no_less_would_do_and_all_between_least_and_most_does(
    ring: Ring, discs: list[int], flanges: list[int]
) -> None:
    do = all_that_do(ring, (discs, flanges))
    found = least_shift(ring, (discs, flanges))
    if found is None:
        assert not do
        return
    assert 100 * abs(found) == pytest.approx(min(map(abs, do)), abs=1e-6)
    least, most = reach(ring, (discs, flanges), found)
    assert least == pytest.approx(found, abs=1e-9)
    first, last = sorted((round(100 * least), round(100 * most)))
    assert set(range(first, last + 1)) <= set(do)


def test_worked_by_hand() -> None:
    """A disc window of 10.12 to 10.34 mm holds 10.2 as it is; moved down by 0.02 it holds 10.1,
    by 0.24 no more; moved up by 0.16 it holds 10.5, and by 0.38 no more."""
    ring = Ring((), ((Window(10.12, 10.2, 10.34),), ()), (-0.3, 0.5))
    sizes: Sizes = [101], []
    assert least_shift(ring, sizes) == pytest.approx(-0.02)
    assert reach(ring, sizes, -0.02) == pytest.approx((-0.02, -0.24))
    assert least_shift(ring, ([105], [])) == pytest.approx(0.16)
    assert reach(ring, ([105], []), 0.16) == pytest.approx((0.16, 0.38))
    assert least_shift(ring, ([102], [])) == 0.0
    assert least_shift(ring, ([110], [])) is None
