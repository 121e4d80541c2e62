"""Boxes side by side on pages: none lost, none overlapping, none over the edge."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from platewheel.nesting.templates.free_space import clear_boxes
from platewheel.nesting.templates.shared_page import GAP_MM, pages_of_boxes

SIZES = st.lists(st.tuples(st.floats(10, 200), st.floats(10, 260)), max_size=12)


@given(SIZES, st.floats(100, 200), st.floats(100, 250))
def test_boxes_lie_apart_on_their_pages(
    sizes: list[tuple[float, float]], width: float, height: float
) -> None:
    pages = pages_of_boxes(sizes, width, height)
    numbers = sorted(spot.number for page in pages for spot in page)
    assert numbers == [i for i, (w, h) in enumerate(sizes) if w <= width and h <= height]
    for page in pages:
        laid = []
        for spot in page:
            (x, y), (w, h) = spot.at, sizes[spot.number]
            laid.append(box(x, y - h, x + w, y))
            assert box(-1e-6, -1e-6, width + 1e-6, height + 1e-6).contains(laid[-1])
        assert all(one.distance(other) >= GAP_MM - 1e-6 for one, other in combinations(laid, 2))


def test_four_quarters_take_one_page() -> None:
    assert len(pages_of_boxes([(90.0, 60.0)] * 4, 190.0, 130.0)) == 1
    assert len(pages_of_boxes([(90.0, 60.0)] * 5, 190.0, 130.0)) == 2


@settings(max_examples=20, deadline=None)  # the geometry library is loaded in the first
@given(SIZES.map(lambda sizes: sizes[:4]), st.floats(5, 80), st.floats(5, 80))
def test_clear_boxes_are_clear(
    sizes: list[tuple[float, float]], width: float, height: float
) -> None:
    solid = [(20.0 * i, 15.0 * i, 20.0 * i + w, 15.0 * i + h) for i, (w, h) in enumerate(sizes)]
    found = list(clear_boxes((0.0, 0.0, 200.0, 250.0), width, height, solid))
    assert found or solid  # an empty page always has room
    for one in found[:: max(1, len(found) // 20)]:
        assert box(0, 0, 200, 250).buffer(1e-6).contains(box(*one))
        assert all(box(*one).distance(box(*other)) >= 2 for other in solid)
