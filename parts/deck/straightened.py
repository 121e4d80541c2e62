"""Elements turned inside out by their curved edges are put right: the edges are made straighter.

gmsh has optimisers for it, but they go through elements by their addresses in memory: the same
wheel would get other coordinates each time, from its seventh digit on.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from platewheel.parts.deck.solid_mesh import EDGES, SolidMesh

# of the determinant that the element with straight edges has: what gmsh's own optimisers ask for
LEAST_SHARE = 0.1
MOST_ROUNDS = 12  # after which an edge is straight within 1/4096 of its bow


def straightened(mesh: SolidMesh) -> SolidMesh:
    """The mesh with the middle nodes of bad elements moved half way to the middles of their edges,
    again until none is bad. Elements whose edges are sound keep their nodes, all keep corners.

    What is inside out with straight edges stays so.
    """
    middles = np.array(mesh.points)
    for i, (a, b) in enumerate(EDGES, start=4):
        ends = mesh.tets[:, [a, b]]
        middles[mesh.tets[:, i]] = mesh.points[ends].mean(axis=1)
    least = LEAST_SHARE * replace(mesh, points=middles).jacobians().min(axis=1)
    for _ in range(MOST_ROUNDS):
        bad = mesh.jacobians().min(axis=1) < least
        if not bad.any():
            break
        nodes = np.unique(mesh.tets[bad][:, 4:])
        points = np.array(mesh.points)
        points[nodes] = (points[nodes] + middles[nodes]) / 2
        mesh = replace(mesh, points=points)
    return mesh
