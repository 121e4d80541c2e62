"""Elastic solid of revolution under a load that is not symmetric: Fourier series around it.

Displacements u_r, u_z run as cos(n theta), u_theta as sin(n theta); each harmonic n is one small
sparse system over the r-z section, quadratic triangles. With strains e0 + n e1, the stiffness is
K0 + n K1 + n^2 K2, put together once. Source: Zienkiewicz and Taylor, The Finite Element Method,
vol. 2, semi-analytical finite element processes, axisymmetric solids with non-symmetric load.
Elements and numbering of unknowns by scikit-fem; units N, mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from platewheel.parts.base.steel import E_N_MM2, POISSON

if TYPE_CHECKING:
    from numpy.typing import NDArray

COMPONENTS = ("rr", "zz", "tt", "rz", "zt", "rt")  # the last two run as sin(n theta)
R, T, Z = 0, 1, 2  # of a displacement


def elasticity(e_n_mm2: float = E_N_MM2, poisson: float = POISSON) -> NDArray[np.float64]:
    """Isotropic stiffness for COMPONENTS, shear strains as gamma."""
    mu = e_n_mm2 / (2 * (1 + poisson))
    lam = e_n_mm2 * poisson / ((1 + poisson) * (1 - 2 * poisson))
    d = np.zeros((6, 6))
    d[:3, :3] = lam
    d[range(3), range(3)] += 2 * mu
    d[range(3, 6), range(3, 6)] = mu
    return d


def _strains(value: Any, grad: Any, r: Any) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Strain of one shape function in two parts, e0 + n e1; each (6, elements, points)."""
    u, v, w = value
    u_r, u_z, v_r, v_z, w_r, w_z = (grad[i][j] for i in (R, T, Z) for j in (0, 1))
    none = np.zeros_like(u_r)
    e0 = np.stack([u_r + none, w_z + none, u / r + none, u_z + w_r, v_z + none, v_r - v / r])
    e1 = np.stack([none, none, v / r + none, none, -w / r + none, -u / r + none])
    return e0, e1


def harmonic_sum(terms: Sequence[Any], n: int) -> Any:
    """k0 + n k1 + n^2 k2 of three matrices that hold entries at the same places."""
    k0, k1, k2 = terms
    found = k0.copy()
    found.data = k0.data + n * k1.data + n * n * k2.data
    return found


@dataclass(frozen=True)
class Body:
    """A meshed section: points (n, 2) as r, z and triangles (m, 3); `fixed` names the clamped
    displacement components at points."""

    points: NDArray[np.float64]
    triangles: NDArray[np.int64]
    fixed: tuple[tuple[int, NDArray[np.bool_]], ...]  # (component, mask over points)
    e_n_mm2: float = E_N_MM2
    poisson: float = POISSON

    @cached_property
    def basis(self) -> Any:
        """Quadratic vector triangles over the section."""
        return self._basis(None)

    def _basis(self, quadrature: Any) -> Any:
        from skfem import Basis, ElementTriP2, ElementVector, MeshTri

        mesh = MeshTri(self.points.T.copy(), self.triangles.T.copy(), sort_t=False)
        element = ElementVector(ElementTriP2(), 3)
        if quadrature is None:
            return Basis(mesh, element, intorder=4)
        return Basis(mesh, element, quadrature=quadrature)

    def strain_terms(self, basis: Any) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """e0 and e1 of all 18 shape functions: (18, 6, elements, points)."""
        r = basis.global_coordinates()[0]
        both = [_strains(np.asarray(f[0]), f[0].grad, r) for f in basis.basis]
        return np.stack([b[0] for b in both]), np.stack([b[1] for b in both])

    def stiffness_terms(self, rows: Any = slice(None)) -> tuple[Any, Any, Any]:
        """K0, K1, K2 of the elements named by `rows`; sparse over all unknowns, per radian."""
        from scipy.sparse import coo_matrix

        basis = self.basis
        e0, e1 = (e[:, :, rows] for e in self.strain_terms(basis))
        weight = (basis.dx * basis.global_coordinates()[0])[rows]
        d = elasticity(self.e_n_mm2, self.poisson)
        s0, s1 = (np.einsum("ab,ibeq,eq->iaeq", d, e, weight, optimize=True) for e in (e0, e1))
        dofs = basis.element_dofs[:, rows]
        count = dofs.shape[0]
        row = np.repeat(dofs[:, None, :], count, axis=1).ravel()
        column = np.repeat(dofs[None, :, :], count, axis=0).ravel()

        def whole(local: NDArray[np.float64]) -> Any:
            return coo_matrix((local.ravel(), (row, column)), shape=(basis.N, basis.N)).tocsr()

        def product(s: NDArray[np.float64], e: NDArray[np.float64]) -> NDArray[np.float64]:
            flat_s = s.transpose(2, 0, 1, 3).reshape(s.shape[2], count, -1)
            flat_e = e.transpose(2, 1, 3, 0).reshape(e.shape[2], -1, count)
            return np.ascontiguousarray((flat_s @ flat_e).transpose(1, 2, 0))

        mixed = product(s0, e1)
        return (
            whole(product(s0, e0)),
            whole(mixed + mixed.transpose(1, 0, 2)),
            whole(product(s1, e1)),
        )

    @cached_property
    def free(self) -> NDArray[np.int64]:
        """Unknowns that are not clamped."""
        basis, held = self.basis, []
        mesh = basis.mesh
        for component, mask in self.fixed:
            held.append(basis.nodal_dofs[component][mask])
            both = mask[mesh.facets].all(axis=0)
            held.append(basis.facet_dofs[component][both])
        clamped = np.concatenate(held) if held else np.array([], dtype=int)
        return np.setdiff1d(np.arange(basis.N), clamped)

    def solve(
        self, loads: NDArray[np.float64], harmonics: NDArray[np.int64]
    ) -> NDArray[np.float64]:
        """Displacement amplitudes (harmonics, unknowns, cases) for load amplitudes of the same
        shape, both per radian. Raises: ValueError where a harmonic's reactions do not balance."""
        from scipy.sparse.linalg import splu

        terms = self.stiffness_terms()
        order = self.free[self._least_fill(harmonic_sum(terms, 1)[self.free][:, self.free])]
        inner = [k[order][:, order].tocsc() for k in terms]
        result = np.zeros_like(loads)
        for i, n in enumerate(harmonics.tolist()):
            factor = splu(
                harmonic_sum(inner, n),
                permc_spec="NATURAL",  # in good order already
                diag_pivot_thresh=0.0,
                options={"SymmetricMode": True},
            )
            result[i, order] = factor.solve(loads[i, order])
            if n in (0, 1):
                reaction = harmonic_sum(terms, n) @ result[i] - loads[i]
                self._check_balance(n, loads[i], reaction)
        return result

    @staticmethod
    def _least_fill(stiffness: Any) -> NDArray[np.int64]:
        """Order of the unknowns in which the factors stay sparse; one does for all harmonics."""
        from scipy.sparse.linalg import splu

        factor = splu(
            stiffness.tocsc(),
            permc_spec="MMD_AT_PLUS_A",  # symmetric: half the fill of the default order
            diag_pivot_thresh=0.0,
            options={"SymmetricMode": True},
        )
        return np.argsort(factor.perm_c)

    def _check_balance(
        self, n: int, load: NDArray[np.float64], reaction: NDArray[np.float64]
    ) -> None:
        """Reactions at the clamp carry the load to 1e-6 of it: axial for n = 0, across for 1."""
        basis = self.basis
        held = np.setdiff1d(np.arange(basis.N), self.free)
        sums = []
        for force, only in ((load, slice(None)), (reaction, held)):
            kept = np.zeros_like(force)
            kept[only] = force[only]
            r, t, z = (
                kept[np.concatenate([basis.nodal_dofs[c], basis.facet_dofs[c]])].sum(axis=0)
                for c in (R, T, Z)
            )
            sums.append(z if n == 0 else r - t)
        scale = np.abs(load).sum(axis=0) + 1e-30
        if not np.all(np.abs(sums[0] + sums[1]) <= 1e-6 * scale):
            raise ValueError("the reactions at the hub do not carry the load: parts are loose")

    def stress_terms(self, groups: NDArray[np.int64]) -> tuple[Any, Any]:
        """Sparse maps from unknowns to mean stresses of groups, s0 + n s1, in COMPONENTS order.

        `groups` (elements, 3) numbers the reading point that each element corner belongs to;
        row 6 g + c is component c of group g.
        """
        from scipy.sparse import coo_matrix

        corners = np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])
        basis = self._basis((corners, np.full(3, 1 / 6)))
        d = elasticity(self.e_n_mm2, self.poisson)
        share = 1.0 / np.bincount(groups.ravel())[groups]
        dofs = basis.element_dofs
        count = int(groups.max()) + 1
        row = 6 * groups[None, None] + np.arange(6)[None, :, None, None]
        result = []
        for e in self.strain_terms(basis):
            s = np.einsum("ab,ibeq,eq->iaeq", d, e, share, optimize=True)
            rows = np.broadcast_to(row, s.shape).ravel()
            columns = np.broadcast_to(dofs[:, None, :, None], s.shape).ravel()
            shape = (6 * count, basis.N)
            result.append(coo_matrix((s.ravel(), (rows, columns)), shape=shape).tocsr())
        return result[0], result[1]
