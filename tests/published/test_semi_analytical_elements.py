"""Elements of revolution with Fourier series, against textbook cases.

Sources, named again beside each check:
- Lame's thick cylinder, plane strain: Timoshenko and Goodier, Theory of Elasticity.
- Thin ring with two opposite point loads: Roark's Formulas for Stress and Strain, table 9.2,
  case 1; curved bars: Winkler and Bach.
- Annular plates: Roark, table 11.2; trunnion: Timoshenko and Woinowsky-Krieger, Theory of
  Plates and Shells, plates under a moment.
- Balance of forces: statics.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from platewheel.parts.base.steel import E_N_MM2, POISSON
from platewheel.parts.stress.loads import face_load, raised_cosine, upward
from platewheel.parts.stress.solid_of_revolution import Body, R, T, Z
from tests.parts.stress.grids import along, held_forces, nodal_stress, node_at, rectangle_body

N0 = np.array([0])


def everywhere(r: np.ndarray, z: np.ndarray) -> np.ndarray:
    return np.ones(len(r), dtype=bool)


def test_thick_cylinder() -> None:
    """Lame, plane strain: radii 60 and 100, 100 N/mm2 inside: bore hoop 212.5, radial -100,
    u = 66.39 um."""
    inner, outer, length, pressure = 60.0, 100.0, 10.0, 100.0
    body = rectangle_body(
        (inner, outer),
        (0, length),
        (12, 4),
        (Z, lambda r, z: (z == 0) | (z == length)),
        (T, everywhere),
    )
    face = face_load(body, (inner, 0), (inner, length), 0, length)
    load = pressure * inner * length * face.spread(body.basis, R)  # per radian
    moved = body.solve(load[None, :, None], N0)[:, :, 0]
    stress = nodal_stress(body, moved, N0)[0]
    bore = node_at(body, inner, length / 2)
    assert stress[2, bore] == pytest.approx(212.5, rel=2e-3)
    assert stress[0, bore] == pytest.approx(-pressure, rel=5e-3)
    axial = POISSON * (stress[0, bore] + stress[2, bore])  # no strain along the axis
    assert stress[1, bore] == pytest.approx(axial, rel=1e-3)
    assert moved[0, body.basis.nodal_dofs[R][bore]] == pytest.approx(66.39e-3, rel=2e-4)


RADIUS, DEEP, WIDE, FORCE = 100.0, 4.0, 10.0, 1000.0  # ring: mean radius, section


@pytest.fixture(scope="module")
def ring() -> tuple[Body, np.ndarray, np.ndarray]:
    """Ring pinched by two opposite forces: body, harmonics, amplitudes."""
    span = (RADIUS - DEEP / 2, RADIUS + DEEP / 2)

    def middle(r: np.ndarray, z: np.ndarray) -> np.ndarray:
        return np.isclose(z, WIDE / 2)

    def pinch(body: Body, n: np.ndarray) -> np.ndarray:
        face = face_load(body, (span[1], 0), (span[1], WIDE), 0, WIDE).spread(body.basis, R)
        series = np.where(n == 0, -FORCE / math.pi, -2 * FORCE / math.pi)  # odd ones cancel
        loads = series[:, None, None] * face[None, :, None]
        return body.solve(loads, n)[:, :, 0]

    even = np.arange(2, 322, 2)
    free = rectangle_body(span, (0, WIDE), (4, 4), (Z, middle))
    untwisted = rectangle_body(span, (0, WIDE), (4, 4), (Z, middle), (T, everywhere))  # n = 0
    moved = np.concatenate([pinch(untwisted, N0), pinch(free, even)])
    return free, np.concatenate([N0, even]), moved


def test_pinched_ring_deflects(ring: tuple[Body, np.ndarray, np.ndarray]) -> None:
    """Roark, table 9.2 case 1: diameter under the forces shorter by 0.1488 F R^3 / (E I)
    = 13.29 mm, across by 0.1366 F R^3 / (E I) longer."""
    body, n, moved = ring
    unit = FORCE * RADIUS**3 / (E_N_MM2 * WIDE * DEEP**3 / 12)
    assert 0.1488 * unit == pytest.approx(13.29, abs=0.005)
    radial = moved[:, body.basis.nodal_dofs[R][node_at(body, RADIUS, WIDE / 2)]]
    assert -2 * radial.sum() == pytest.approx(0.1488 * unit, rel=5e-3)
    assert 2 * radial @ np.cos(n * math.pi / 2) == pytest.approx(0.1366 * unit, rel=5e-3)


def curved_bar(moment: float, fibre: float) -> float:
    """Bending stress of a curved bar at radius `fibre`; a moment that straightens it is positive
    and pulls the inside. Source: Winkler and Bach, rectangle."""
    neutral = DEEP / math.log((RADIUS + DEEP / 2) / (RADIUS - DEEP / 2))
    return moment * (neutral - fibre) / (WIDE * DEEP * (RADIUS - neutral) * fibre)


def test_pinched_ring_stresses(ring: tuple[Body, np.ndarray, np.ndarray]) -> None:
    """Roark, table 9.2 case 1: moments 0.3183 F R under the force, -0.1817 F R at 90 degrees,
    there with F/2 along the ring. Curvature adds 1.3 % inside."""
    body, n, moved = ring
    inside, plain = RADIUS - DEEP / 2, 6 / (WIDE * DEEP**2)
    assert curved_bar(1.0, inside) / plain == pytest.approx(1.013, abs=5e-4)
    nodes = [node_at(body, inside, z) for z in np.linspace(0, WIDE, 5)]
    boole = np.array([7, 32, 12, 32, 7]) / 90  # mean over the width: the bar is a little saddled
    hoop = nodal_stress(body, moved, n)[:, 2, nodes] @ boole
    under = curved_bar(0.3183 * FORCE * RADIUS, inside)
    beside = curved_bar(-0.1817 * FORCE * RADIUS, inside) - FORCE / 2 / (WIDE * DEEP)
    assert hoop.sum() == pytest.approx(under, rel=1e-2)
    assert hoop @ np.cos(n * math.pi / 2) == pytest.approx(beside, rel=5e-3)


def test_annular_plate() -> None:
    """Roark, table 11.2 case 1: outer edge free, inner edge fixed, line load w at the outer edge;
    by the table's own constants, b/a = 0.3. Radial moment further out by plate theory."""
    a, b, thick, w = 100.0, 30.0, 2.0, 1.0
    ratio, grow = b / a, math.log(a / b)
    c2 = (1 - ratio**2 * (1 + 2 * grow)) / 4
    c3 = ratio / 4 * ((ratio**2 + 1) * grow + ratio**2 - 1)
    c8 = (1 + POISSON + (1 - POISSON) * ratio**2) / 2
    c9 = ratio * ((1 + POISSON) / 2 * grow + (1 - POISSON) / 4 * (1 - ratio**2))
    stiff = E_N_MM2 * thick**3 / (12 * (1 - POISSON**2))
    moment = -w * a / c8 * (a / b * c9)  # at the inner edge; L9 = 0 at the outer edge
    sinks = moment * a**2 / stiff * c2 + w * a / b * a**3 / stiff * c3

    def inner(r: np.ndarray, z: np.ndarray) -> np.ndarray:
        return r == b

    body = rectangle_body((b, a), (0, thick), (36, 2), (R, inner), (T, inner), (Z, inner))
    edge = face_load(body, (a, 0), (a, thick), 0, thick)
    load = -w * a * edge.spread(body.basis, Z)
    moved = body.solve(load[None, :, None], N0)[:, :, 0]
    tip = moved[0, body.basis.nodal_dofs[Z][node_at(body, a, thick / 2)]]
    assert tip == pytest.approx(sinks, rel=5e-3)
    # off the sharp clamp the bending stress follows the same plate: M_r at r from statics
    stress = nodal_stress(body, moved, N0)[0]
    r = b + 10 * (a - b) / 36
    top = stress[0, node_at(body, r, thick)] - stress[0, node_at(body, r, 0)]
    assert top / 2 * thick**2 / 6 == pytest.approx(plate_moment(r, a, b, w, moment), rel=1e-2)


def plate_moment(r: float, a: float, b: float, w: float, at_b: float) -> float:
    """Radial moment of that plate, positive where it pulls the top: from D times the slope,
    A r + B / r + C r ln r, slope 0 at b, moment 0 at a. Source: Timoshenko and
    Woinowsky-Krieger, plates with a hole."""
    c, nu = w * a / 2, POISSON  # shear w a / r
    rows = np.array([[b, 1 / b], [1 + nu, -(1 - nu) / a**2]])
    right = -c * np.array([b * math.log(b), (1 + nu) * math.log(a) + 1])
    big_a, big_b = np.linalg.solve(rows, right)

    def moment(at: float) -> float:
        log = c * ((1 + nu) * math.log(at) + 1)
        return float((1 + nu) * big_a - (1 - nu) * big_b / at**2 + log)

    assert moment(b) == pytest.approx(at_b, rel=1e-9)  # the two sources agree
    return -moment(r)


def test_trunnion() -> None:
    """Timoshenko and Woinowsky-Krieger; Roark, table 11.2 case 21: plate held at its outer edge,
    rigid hub tilted by a moment, b/a = 0.3: tilt x E t^3 / M = 0.3208."""
    a, b, thick, tilt = 100.0, 30.0, 2.0, 1e-3

    def edges(r: np.ndarray, z: np.ndarray) -> np.ndarray:
        return (r == a) | (r == b)

    body = rectangle_body((b, a), (0, thick), (36, 2), (R, edges), (T, edges), (Z, edges))
    basis = body.basis
    hub = np.zeros(basis.N)  # u_z = tilt r cos, u_r = -tilt z cos, u_theta = tilt z sin
    for dofs, places in (
        (basis.nodal_dofs, body.points.T),
        (basis.facet_dofs, body.points[basis.mesh.facets].mean(axis=0).T),
    ):
        at = np.isclose(places[0], b)
        height = places[1, at] - thick / 2
        hub[dofs[Z][at]] = tilt * b
        hub[dofs[R][at]], hub[dofs[T][at]] = -tilt * height, tilt * height
    k0, k1, k2 = body.stiffness_terms()
    stiffness = k0 + k1 + k2  # n = 1
    loads = np.stack([np.zeros(basis.N), -(stiffness @ hub)])[:, :, None]
    moved = hub + body.solve(loads, np.array([0, 1]))[1, :, 0]
    moment = math.pi * hub @ (stiffness @ moved) / tilt  # work of the hub; cos^2 round is pi
    assert tilt * E_N_MM2 * thick**3 / moment == pytest.approx(0.3208, rel=5e-3)


@pytest.mark.parametrize("half_angle", [0.02, 0.05, 0.3])
def test_patch_and_reactions(half_angle: float) -> None:
    """Statics: a patch of 1 N pushing to -x, and what the clamp gives back, both 1 N to 1e-6."""

    def bore(r: np.ndarray, z: np.ndarray) -> np.ndarray:
        return r == 20

    body = rectangle_body((20, 60), (0, 30), (8, 6), (R, bore), (T, bore), (Z, bore))
    face = face_load(body, (60, 0), (60, 30), 4.0, 17.0)  # cuts across cells
    radial, tangential = upward(raised_cosine(half_angle, 120))
    load = np.stack(
        [
            r * face.spread(body.basis, R) + t * face.spread(body.basis, T)
            for r, t in zip(radial[:2], tangential[:2], strict=True)
        ]
    )
    applied = math.pi * (load[1, along(body, R)].sum() - load[1, along(body, T)].sum())
    assert applied == pytest.approx(-1.0, abs=1e-6)
    moved = body.solve(load[:, :, None], np.array([0, 1]))[:, :, 0]
    back = held_forces(body, 1, moved[1], load[1])
    given = math.pi * (back[along(body, R)].sum() - back[along(body, T)].sum())
    assert given == pytest.approx(1.0, abs=1e-6)
    # moment about the y axis through z = 0: the patch acts at the middle of its 4 to 17 mm
    basis = body.basis
    heights = np.zeros(basis.N)
    arms = np.zeros(basis.N)
    middles = body.points[basis.mesh.facets].mean(axis=0)
    for c, sign in ((R, 1.0), (T, -1.0)):
        heights[basis.nodal_dofs[c]] = sign * body.points[:, 1]
        heights[basis.facet_dofs[c]] = sign * middles[:, 1]
    arms[basis.nodal_dofs[Z]], arms[basis.facet_dofs[Z]] = body.points[:, 0], middles[:, 0]
    assert math.pi * (heights - arms) @ back == pytest.approx(10.5, rel=1e-6)


def test_push_and_reactions() -> None:
    """Statics: an axial push of 1 N spread over an arc: resultant, and reaction at the clamp."""

    def bore(r: np.ndarray, z: np.ndarray) -> np.ndarray:
        return r == 20

    body = rectangle_body((20, 60), (0, 30), (8, 6), (R, bore), (T, bore), (Z, bore))
    face = face_load(body, (40, 30), (60, 30), 3.0, 8.0)
    load = raised_cosine(0.1, 60)[0] * face.spread(body.basis, Z)
    assert 2 * math.pi * load.sum() == pytest.approx(1.0, abs=1e-6)
    moved = body.solve(load[None, :, None], N0)[0, :, 0]
    back = held_forces(body, 0, moved, load)
    assert 2 * math.pi * back[along(body, Z)].sum() == pytest.approx(-1.0, abs=1e-6)
