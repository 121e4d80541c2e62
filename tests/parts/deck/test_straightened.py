"""Elements with too much of a bow are put right by a rule of our own, the same each time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.deck import meshing
from platewheel.parts.deck.deck import wheel_deck
from platewheel.parts.deck.solid_mesh import EDGES, SolidMesh
from platewheel.parts.deck.straightened import straightened
from tests.parts.deck.test_deck import small

CORNERS = np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1], [1, 1, 1]])


def two_elements(bow: float) -> SolidMesh:
    """A tetrahedron whose first edge bows inwards, and one on its far face."""
    points, numbers, rows = [*CORNERS], dict[frozenset[int], int](), []
    for corners in ((0, 1, 2, 3), (1, 2, 3, 4)):
        row = list(corners)
        for a, b in EDGES:
            key = frozenset((corners[a], corners[b]))
            if key not in numbers:
                numbers[key] = len(points)
                points.append(CORNERS[[*key]].mean(axis=0))
            row.append(numbers[key])
        rows.append(row)
    points[numbers[frozenset((0, 1))]] += np.array([0.0, bow, bow])
    mesh = SolidMesh(np.array(points), np.array(rows), np.zeros(2, dtype=np.int64), ("tread",))
    if mesh.jacobians()[1].max() < 0:  # its corners the other way round
        rows[1] = [rows[1][i] for i in (1, 0, 2, 3, 4, 6, 5, 8, 7, 9)]
        mesh = replace(mesh, tets=np.array(rows))
    return mesh


@given(st.floats(-0.1, 1.5))
def test_what_is_inside_out_is_put_right_and_no_more(bow: float) -> None:
    drawn = two_elements(bow)
    made = straightened(drawn)
    straight = 1.0  # determinant of this tetrahedron: six times its volume of 1/6
    assert made.jacobians()[0].min() >= 0.1 * straight - 1e-12
    moved = np.nonzero((made.points != drawn.points).any(axis=1))[0]
    assert set(moved) <= {drawn.tets[0][4]}
    assert bool(len(moved)) == (drawn.jacobians()[0].min() < 0.1 * straight)
    for node in moved:  # on the line to the edge's middle, never past it
        assert 0 < made.points[node][1] < bow


def test_what_is_inside_out_with_straight_edges_stays_so() -> None:
    drawn = two_elements(0.0)
    drawn = replace(drawn, tets=drawn.tets[:, [1, 0, 2, 3, 4, 6, 5, 8, 7, 9]])
    assert straightened(drawn).jacobians().max() < 0


def test_a_coarse_wheel_has_the_same_nodes_each_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """No optimiser of gmsh moves any: those go by addresses in memory."""
    put_right: list[float] = []
    straight: Callable[[SolidMesh], SolidMesh] = meshing.straightened

    def counted(mesh: SolidMesh) -> SolidMesh:
        put_right.append(float(mesh.jacobians().min()))
        return straight(mesh)

    monkeypatch.setattr(meshing, "straightened", counted)
    first, second = (wheel_deck(small(), coarse=4.0).mesh for _ in range(2))
    assert [least < 0 for least in put_right] == [True, True]
    assert first.points.tobytes() == second.points.tobytes()
    assert first.tets.tobytes() == second.tets.tobytes()
    assert first.jacobians().min() > 0
