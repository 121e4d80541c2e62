"""What a disc leaves over: where it is open, where it is walled, where it is widest."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import shapely
import shapely.affinity
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.drawings.chords import Chords
from platewheel.nesting.drawings.mouths import (
    _on_rim,
    mouths_and_walls,
    neck,
    widest,
)

RIM = Chords(shapely.box(0, 0, 10, 10).boundary)


def test_sides_on_the_rim_are_known_by_their_corners_or_by_where_they_run() -> None:
    """Two rings, each with its first corner again; what joins one to the next is no side."""
    rings = [
        [(0.0, 0.0), (10.0, 0.0), (10.0, 5.0), (5.0, 5.0), (0.0, 5.0), (0.0, 0.0)],
        [(0.0, 6.0), (4.0, 6.0), (4.0, 10.0), (0.0, 10.0), (0.0, 6.0)],
    ]
    of = np.repeat([0, 1], [len(ring) for ring in rings])
    on = _on_rim(np.concatenate(rings), of, RIM).tolist()
    assert on[:5] == [True, True, False, False, True]
    assert on[6:10] == [False, False, True, True]


@given(st.floats(0.5, 3.0), st.floats(0.5, 4.0), st.booleans())
def test_mouths_and_walls_make_the_edge(wide: float, deep: float, twice: bool) -> None:
    """Pockets that open into a square."""
    pocket = shapely.Polygon([(2, 0), (2 + wide, 0), (2 + wide / 2, -deep)])
    rests = [pocket, shapely.box(10, 3, 10 + deep, 3 + wide)] if twice else [pocket]
    for rest, (mouths, walls) in zip(rests, mouths_and_walls(rests, RIM, 0.1), strict=True):
        assert shapely.length(mouths).sum() == pytest.approx(wide, abs=1e-6)
        assert shapely.length(walls).sum() == pytest.approx(rest.length - wide, abs=1e-6)
        assert all(RIM.line.distance(one) < 1e-6 for one in mouths)
    shut = mouths_and_walls(rests, RIM, wide + 0.01)
    assert [len(mouths) for mouths, _ in shut] == [0] * len(rests)


@given(st.floats(2.0, 30.0), st.floats(2.0, 30.0), st.floats(0.0, 1.0))
def test_the_widest_place_of_a_triangle_is_its_inscribed_circle(
    base: float, high: float, at: float
) -> None:
    """Radius of the circle in a triangle: twice its area by its edge (common knowledge)."""
    triangle = shapely.Polygon([(0, 0), (base, 0), (at * base, high)])
    expected = 4 * triangle.area / triangle.length
    place, width = widest(triangle)
    assert width == pytest.approx(expected, abs=0.005)
    assert 2 * triangle.boundary.distance(shapely.Point(place)) == pytest.approx(width)


@given(st.floats(0.1, 0.6), st.floats(300.0, 900.0), st.floats(0.0, 180.0))
def test_the_widest_place_of_a_long_slit_is_found_in_as_few_steps(
    wide: float, deep: float, turn: float
) -> None:
    slit = shapely.affinity.rotate(shapely.Polygon([(0, 0), (wide, 0), (wide / 2, deep)]), turn)
    shrunk: list[float] = []
    with pytest.MonkeyPatch.context() as patched:
        buffer = shapely.Polygon.buffer

        def counted(self: shapely.Polygon, distance: float, **how: Any) -> Any:
            shrunk.append(distance)
            return buffer(self, distance, **how)

        patched.setattr(shapely.Polygon, "buffer", counted)
        _, width = widest(slit)
    assert width == pytest.approx(4 * slit.area / slit.length, abs=0.003)
    assert 1 <= len(shrunk) <= 20


@pytest.mark.parametrize("more", [0, 60])
def test_the_neck_is_where_two_walls_are_nearest(more: int) -> None:
    walls = [shapely.LineString([(0, 0), (5, 1)]), shapely.LineString([(9, 4), (5, 3)])]
    walls += [shapely.LineString([(0, 20 + 9 * k), (9, 20 + 9 * k)]) for k in range(more)]
    found = neck(np.array(walls))
    assert found is not None
    (x, y), width = found
    assert width == pytest.approx(walls[0].distance(walls[1]))
    assert math.hypot(x - 5, y - 2) < 0.3
    assert neck(np.array(walls[:1])) is None
