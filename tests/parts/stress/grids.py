"""Bodies with a plain rectangle for a section, as the textbook cases have."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from platewheel.parts.stress.solid_of_revolution import Body

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    Fixed = Callable[[NDArray[np.float64], NDArray[np.float64]], NDArray[np.bool_]]


def rectangle_body(
    r_mm: tuple[float, float],
    z_mm: tuple[float, float],
    cells: tuple[int, int],
    *fixed: tuple[int, Fixed],
) -> Body:
    """Grid of r x z cells, two triangles each, a mirror image of itself where the counts are
    even; `fixed` are displacement components and a test of r, z that says where they are held."""
    rs = np.linspace(*r_mm, cells[0] + 1)
    zs = np.linspace(*z_mm, cells[1] + 1)
    r, z = (grid.ravel() for grid in np.meshgrid(rs, zs, indexing="ij"))
    index = np.arange(len(r)).reshape(cells[0] + 1, cells[1] + 1)
    triangles = []
    for i in range(cells[0]):
        for j in range(cells[1]):
            a, b, c, d = index[i, j], index[i + 1, j], index[i + 1, j + 1], index[i, j + 1]
            triangles += [(a, b, c), (a, c, d)] if (i + j) % 2 else [(a, b, d), (b, c, d)]
    held = tuple((component, where(r, z)) for component, where in fixed)
    return Body(np.column_stack([r, z]), np.array(triangles), held)


def node_at(body: Body, r_mm: float, z_mm: float) -> int:
    """Number of the node at a place; it must be there."""
    gap = np.hypot(body.points[:, 0] - r_mm, body.points[:, 1] - z_mm)
    assert gap.min() < 1e-6
    return int(np.argmin(gap))


def nodal_stress(
    body: Body, amplitudes: NDArray[np.float64], harmonics: NDArray[np.int64]
) -> NDArray[np.float64]:
    """(harmonics, 6, nodes) from amplitudes (harmonics, unknowns): COMPONENTS at every node."""
    s0, s1 = body.stress_terms(body.triangles)
    return np.stack(
        [
            (s0 @ u + n * (s1 @ u)).reshape(-1, 6).T
            for n, u in zip(harmonics.tolist(), amplitudes, strict=True)
        ]
    )


def along(body: Body, component: int) -> NDArray[np.int64]:
    """Every unknown of one displacement component."""
    basis: Any = body.basis
    return np.concatenate([basis.nodal_dofs[component], basis.facet_dofs[component]])


def held_forces(body: Body, n: int, moved: NDArray[np.float64], load: NDArray[np.float64]) -> Any:
    """Reactions on all unknowns, 0 on the free ones, per radian."""
    k0, k1, k2 = body.stiffness_terms()
    force = (k0 + n * k1 + n * n * k2) @ moved - load
    force[body.free] = 0.0
    return force
