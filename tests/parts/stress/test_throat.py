"""The throat of a bead: beam theory of its rectangle, and plane geometry of its triangle."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pytest

from platewheel.parts.stress.section_mesh import Leg, SectionMesh, section_mesh
from platewheel.parts.stress.throat import Throat, throat_of
from platewheel.parts.wheel.welds import Bead, weld_beads
from tests.parts.wheels import plain_wheel

if TYPE_CHECKING:
    from platewheel.parts.geometry.section import RZ

THROAT = Throat(
    size_mm=4.0,
    middle=np.array([10.0, 20.0]),
    pull=np.array([0.6, 0.8]),
    turn_sign=-1.0,
    radius_mm=1.0,
)


def moment_about_origin(at: RZ, force: RZ) -> float:
    """r F_z - z F_r."""
    return at[0] * force[1] - at[1] * force[0]


def test_a_force_through_the_middle_bends_nothing() -> None:
    """Closed form: (3, 5) N through (10, 20): along the pull 3 x 0.6 + 5 x 0.8 = 5.8; over 4 mm."""
    moment = moment_about_origin((10.0, 20.0), (3.0, 5.0))
    root, square, along = THROAT.stresses(np.array([[3.0, 5.0, 2.0, moment]]))
    assert root == pytest.approx([5.8 / 4])
    assert square == pytest.approx(np.array([[3 / 4, 5 / 4]]))
    assert along == pytest.approx([2 / 4])


def test_a_moment_alone_bends_as_a_beam() -> None:
    """Closed form: 6 M / a^2 with M = 7, a = 4, against the side that the sign names; and
    forces add to it, every angle for itself."""
    moment = moment_about_origin((10.0, 20.0), (3.0, 5.0))
    line = np.array([[0.0, 0.0, 0.0, 7.0], [3.0, 5.0, 0.0, moment + 7.0]])
    root, square, along = THROAT.stresses(line)
    assert root == pytest.approx([-6 * 7 / 16, 5.8 / 4 - 6 * 7 / 16])
    assert square[0] == pytest.approx([0.0, 0.0])
    assert along == pytest.approx([0.0, 0.0])


CORNER = np.array([100.0, 50.0])  # where the plates meet
TURNS = [
    0.0,
    25.0,
    61.0,
    104.0,
    140.0,
    187.0,
    250.0,
    333.0,
]  # deg, of the whole joint
Sizes = tuple[float, float, float, float]  # leg and gap on the first plate, leg and gap on the next
RIGHT_ANGLES: list[Sizes] = [
    (6.0, 0.0, 6.0, 0.0),
    (6.0, 0.0, 4.0, 0.0),
    (6.0, 0.0, 6.0, 1.5),
    (5.0, 2.0, 7.0, 0.0),
    (5.0, 1.0, 3.0, 2.0),
]


def joint(sizes: Sizes, turn_deg: float, mirrored: bool) -> tuple[Bead, SectionMesh]:
    """Two plates at a right angle: leg and gap on plate `a`, leg and gap on plate `b`. Other
    beads, named before and after it, lie elsewhere."""
    leg_a, gap_a, leg_b, gap_b = sizes
    turn = math.radians(turn_deg)
    one = np.array([math.cos(turn), math.sin(turn)])
    two = np.array([-one[1], one[0]]) * (-1 if mirrored else 1)

    def at(way: np.ndarray, far: float) -> RZ:
        r, z = CORNER + far * way
        return float(r), float(z)

    first = Leg("weld-k", "a", at(one, gap_a), at(one, gap_a + leg_a))
    second = Leg("weld-k", "b", at(two, gap_b), at(two, gap_b + leg_b))
    others = tuple(
        Leg(name, p, (0.0, 0.0), (1.0, 0.0)) for name in ("weld-a", "weld-z") for p in "ab"
    )
    mesh = SectionMesh(
        np.zeros((0, 2)),
        np.zeros((0, 3), dtype=np.int64),
        (),
        (),
        (*others[:2], second, first, *others[2:]),
        (),
    )
    return Bead("weld-k", ((90.0, 1.0), (100.0, 3.0), (104.0, 2.0)), (6.0, 6.0), 6.0), mesh


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("turn_deg", TURNS)
@pytest.mark.parametrize("sizes", RIGHT_ANGLES)
def test_throat_of_a_right_angle(sizes: Sizes, turn_deg: float, mirrored: bool) -> None:
    """Closed form: with legs A, B from the corner to the tips, the distance of a notch at g on
    the first leg to the face is (A - g) B / sqrt(A^2 + B^2); the nearer of the two notches counts.
    """
    leg_a, gap_a, leg_b, gap_b = sizes
    throat = throat_of(*joint(sizes, turn_deg, mirrored))
    far_a, far_b = leg_a + gap_a, leg_b + gap_b
    face = math.hypot(far_a, far_b)
    assert throat.size_mm == pytest.approx(min(leg_a * far_b, leg_b * far_a) / face)
    turn = math.radians(turn_deg)
    one = np.array([math.cos(turn), math.sin(turn)])
    two = np.array([-one[1], one[0]]) * (-1 if mirrored else 1)
    assert throat.pull == pytest.approx((far_a * one - far_b * two) / face)
    inwards = -(far_b * one + far_a * two) / face  # square to the face, to the corner
    notch = CORNER + (gap_a * one if leg_a * far_b < leg_b * far_a else gap_b * two)
    assert throat.middle == pytest.approx(notch - inwards * throat.size_mm / 2)
    assert throat.radius_mm == pytest.approx(98.0)  # mean of 90, 100 and 104


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("turn_deg", TURNS)
def test_a_pull_at_the_notch_opens_it(turn_deg: float, mirrored: bool) -> None:
    """Closed form, eccentric pull on a rectangle: at the notch's own edge F/a (1 + 6 (a/2) / a) =
    4 F/a, at the far edge F/a (1 - 3) = -2 F/a; whichever way the joint lies."""
    throat = throat_of(*joint((6.0, 0.0, 4.0, 0.0), turn_deg, mirrored))
    force = 12.0 * throat.pull
    to_notch = CORNER - throat.middle
    edges = [throat.middle + to_notch, throat.middle, throat.middle - to_notch]
    line = np.array(
        [[*force, 0.0, moment_about_origin((at[0], at[1]), (force[0], force[1]))] for at in edges]
    )
    root, _, _ = throat.stresses(line)
    assert root == pytest.approx(np.array([4.0, 1.0, -2.0]) * 12 / throat.size_mm)


def test_throats_of_a_whole_wheel() -> None:
    """Fillets of throat 3, legs L = 3 sqrt 2, over a fit gap c of 0.5: from the gap's edge, so
    L^2 / sqrt(L^2 + (L + c)^2), for rim and tube alike; `a` is what the drawing asks for."""
    spec = plain_wheel(weld_throat_mm=3.0, fit_clearance_mm=0.5, disc_field_inset_mm=6.0)
    mesh = section_mesh(spec, size_mm=6.0)
    leg = 3 * math.sqrt(2)
    beads = {bead.name: bead for bead in weld_beads(spec)}
    for name in ("weld-disc-field", "weld-disc-gauge", "weld-tube-field"):
        throat = throat_of(beads[name], mesh)
        assert throat.size_mm == pytest.approx(leg**2 / math.hypot(leg, leg + 0.5)), name
        assert throat.size_mm == pytest.approx(3.0, rel=0.07)
