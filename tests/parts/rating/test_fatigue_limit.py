"""Places that may crack: a toe under a known stress, a bead under a known force."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from platewheel.parts.loads.spectrum import Block
from platewheel.parts.rating.detail import cycles_of
from platewheel.parts.rating.fatigue_limit import root_details, throat_limit, toe_details
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.section_mesh import Toe, section_mesh
from platewheel.parts.stress.throat import Throat, throat_of
from platewheel.parts.stress.turn import angles
from platewheel.parts.wheel.welds import weld_beads
from tests.parts.rating.worst import Found, worst
from tests.parts.stress.made_response import HARMONICS, SHARES, Stress, made_response
from tests.parts.wheels import plain_wheel

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from platewheel.parts.stress.response import Response

FAT_TOE, FAT_ROOT, FAT_BENT = 90.0, 36.0, 80.0  # IIW, EN 1993-1-9 table 8.5, IIW; from memory
STATIC = 360 / (math.sqrt(3) * 0.8 * 1.25) / 1.5  # S235, EN 1993-1-8 4.5.3.3 and table 4.1


NOWHERE = Found(0.0, "", 0.0)


def toes(response: Response, share: float = 0.0) -> Found:
    return worst(toe_details(response), response, share).get("weld toes", NOWHERE)


TURNS = [0.0, 30.0, 90.0, 215.0]  # deg, of the plate's face in the section
THICK = 5.0


def at_toe(turn_deg: float, reading_mm: float) -> tuple[float, float]:
    turn = math.radians(turn_deg)
    return 100 + reading_mm * math.cos(turn), 50 + reading_mm * math.sin(turn)


def along_face(pull: float, across: float, shear: float, turn_deg: float) -> Stress:
    """Plane stress of the face in r, z: Mohr's circle, turned back by the face's angle."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    rr = pull * c * c + across * s * s - 2 * shear * s * c
    zz = pull * s * s + across * c * c + 2 * shear * s * c
    rz = (pull - across) * s * c + shear * (c * c - s * s)
    return rr, zz, 1000.0, rz, 1000.0, 1000.0  # hoop and out of plane do not count


def toe_on(turn_deg: float, room_mm: float, plate: str = "tread") -> Toe:
    turn = math.radians(turn_deg)
    way = math.cos(turn), math.sin(turn)
    return Toe("weld-root", plate, at_toe(turn_deg, 0.0), way, THICK, room_mm)


def one_toe(turn_deg: float, near: float, far: float, room_mm: float = 20.0, **kind: Any) -> Found:
    """Worst of a toe with swings `near` and `far` (N/mm2 for 1 N) at 0.4 and 1.0 thicknesses
    on its plate; another plate with far more stress lies over it, and elsewhere on its own."""
    near_at, far_at = at_toe(turn_deg, 0.4 * THICK), at_toe(turn_deg, THICK)
    points = [
        ("flange", *near_at),
        ("tread", 2 * near_at[0], 2 * near_at[1]),
        ("tread", *far_at),
        ("weld-root", *near_at),
        ("tread", *near_at),
    ]
    much: Stress = (9e3, 9e3, 9e3, 9e3, 9e3, 9e3)
    stress = {"near": near, "far": far}
    swing = [
        much,
        much,
        along_face(stress["far"], 3.0, 2.0, turn_deg),
        much,
        along_face(stress["near"], -4.0, 1.0, turn_deg),
    ]
    found = made_response(
        plain_wheel(vent_count=0), points, swing=swing, toes=(toe_on(turn_deg, room_mm),), **kind
    )
    return toes(found)


@pytest.mark.parametrize("turn_deg", TURNS)
def test_a_toe_under_plane_stress(turn_deg: float) -> None:
    """Closed form: even stress 0.02 cos along the face is its own hot spot: range 0.04 a turn."""
    limit = one_toe(turn_deg, 0.02, 0.02)
    assert limit.range_per_n == pytest.approx(0.04)
    assert limit.fat_n_mm2 == FAT_TOE
    assert limit.where == "tread beside the bead between ring and flange"


# IIW, two points at 0.4 t and 1.0 t: 1.67 and -0.67 of them, from memory; which is the straight
# line through both, read at the toe: near + (near - far) 0.4 / 0.6.
@pytest.mark.parametrize("turn_deg", TURNS)
def test_a_stress_that_falls_off_is_read_at_the_toe(turn_deg: float) -> None:
    hot = 0.05 + (0.05 - 0.02) * 0.4 / 0.6
    limit = one_toe(turn_deg, 0.05, 0.02)
    assert limit.range_per_n == pytest.approx(2 * (1.67 * 0.05 - 0.67 * 0.02))
    assert limit.range_per_n == pytest.approx(2 * hot, rel=0.005)


def test_a_stress_that_rises_is_read_where_it_is_largest() -> None:
    """Extrapolated 1.67 x 0.02 - 0.67 x 0.05 = -0.0001: less than either reading."""
    assert one_toe(30.0, 0.02, 0.05).range_per_n == pytest.approx(2 * 0.05)
    assert one_toe(30.0, 0.05, 0.05 * 1.01).range_per_n == pytest.approx(2 * 0.05 * 1.01)


def test_a_toe_near_its_plates_edge() -> None:
    """Room for one reading: that one; for none: no limit of its own."""
    assert one_toe(30.0, 0.02, 0.09, room_mm=THICK).range_per_n == pytest.approx(2 * 0.02)
    assert one_toe(30.0, 0.02, 0.09, room_mm=THICK + 0.1).range_per_n > 0.1
    bare = one_toe(30.0, 0.02, 0.09, room_mm=0.4 * THICK)
    assert bare == NOWHERE


@pytest.mark.parametrize(("off_mm", "counts"), [(0.0005, True), (0.01, False)])
def test_only_a_point_at_the_reading_place_is_read(off_mm: float, counts: bool) -> None:
    r, z = at_toe(0.0, 0.4 * THICK)
    swing = [along_face(0.02, 0.0, 0.0, 0.0)]
    points = [("tread", r, z + off_mm)]
    found = made_response(plain_wheel(vent_count=0), points, swing=swing, toes=(toe_on(0.0, 20.0),))
    wanted = pytest.approx(0.04) if counts else 0.0
    assert toes(found).range_per_n == wanted


def test_the_worst_toe_and_case_count() -> None:
    """Two toes: the one in the disc has more stress, and the push adds its share of it."""
    disc = Toe("weld-disc-field", "disc-field", (60.0, 10.0), (1.0, 0.0), THICK, 2.5)
    quiet, loud = (0.01, 0.0, 0.0, 0.0, 0.0, 0.0), (0.03, 0.0, 0.0, 0.0, 0.0, 0.0)
    found = made_response(
        plain_wheel(vent_count=0),
        [("tread", *at_toe(0.0, 2.0)), ("disc-field", 62.0, 10.0)],
        mean=[quiet, quiet],
        swing=[quiet, loud],
        push=[quiet, quiet],
        toes=(toe_on(0.0, 3.0), disc),
    )
    calm, pushed = toes(found), toes(found, 0.5)
    assert calm.range_per_n == pytest.approx(2 * 0.03)  # the mean does not count
    assert pushed.range_per_n == pytest.approx(2 * (0.03 + 0.5 * 0.01))
    assert pushed.where == "disc-field beside the rim bead of the field disc"


MESHED = section_mesh(plain_wheel(vent_count=0), size_mm=8.0)
BEADS = {bead.name: bead for bead in weld_beads(plain_wheel(vent_count=0))}
NAME = "weld-disc-gauge"
TURN = np.linspace(0.0, math.pi, 20_001)


def a_bead(forces: NDArray[np.float64], name: str = NAME) -> tuple[Response, Throat]:
    """A wheel whose one bead carries `forces` (harmonics, 4: r, t, z, moment), N per radian, at
    the patch's last place and less elsewhere; the push carries a tenth of it."""
    every = np.zeros((HARMONICS, 4, PLACES + 1))
    every[: len(forces), :, :PLACES] = forces[:, :, None] * SHARES
    every[: len(forces), :, PLACES] = forces / 10
    bare = made_response(plain_wheel(vent_count=0), [], legs=MESHED.legs, bead_forces={name: every})
    return bare, throat_of(BEADS[name], MESHED)


def limits_of(found: Response, share: float = 0.0) -> dict[str, Found]:
    return worst(root_details(found), found, share)


def test_a_bead_that_is_pulled_and_let_go() -> None:
    """Closed form: r 300 + 500 cos, z 200 cos N per radian through the throat's middle. Range of
    force over the throat 2 sqrt(500^2 + 200^2); opened: the throat's share of the largest pull."""
    forces = np.zeros((2, 4))
    forces[:, 0], forces[:, 2] = (300.0, 500.0), (0.0, 200.0)
    _, throat = a_bead(forces)
    forces[:, 3] = throat.middle[0] * forces[:, 2] - throat.middle[1] * forces[:, 0]
    found, throat = a_bead(forces)
    limits = limits_of(found)
    per = throat.size_mm * throat.radius_mm  # N per radian over this is N/mm2
    force = limits["weld roots"]
    assert force.range_per_n == pytest.approx(2 * math.hypot(500, 200) / per)
    assert force.fat_n_mm2 == FAT_ROOT
    pulled = throat.pull[0] * (300 + 500 * np.cos(TURN)) + throat.pull[1] * 200 * np.cos(TURN)
    opened = limits["opened weld roots"]
    assert min(pulled) < 0 < max(pulled)  # shut for a part of the turn, which counts as nothing
    assert opened.range_per_n == pytest.approx(max(pulled) / per)
    assert opened.fat_n_mm2 == FAT_BENT
    throats = throat_limit(found, 0.0, 0.0)
    assert throats.load_n == pytest.approx(STATIC / (math.hypot(800, 200) / per))
    assert throats.damage is None
    for where in (throats.where, *(limit.where for limit in limits.values())):
        assert where == "rim bead of the gauge disc"


def test_a_bead_that_is_always_pulled() -> None:
    """Closed form: 600 + 100 cos N per radian along the pull: open all the turn, so its range is
    the swing's, twice 100."""
    _, throat = a_bead(np.zeros((2, 4)))
    forces = np.zeros((2, 4))
    forces[:, 0], forces[:, 2] = (np.outer(throat.pull, [600.0, 100.0])[i] for i in (0, 1))
    forces[:, 3] = throat.middle[0] * forces[:, 2] - throat.middle[1] * forces[:, 0]
    limits = limits_of(a_bead(forces)[0])
    swing = 200 / throat.size_mm / throat.radius_mm
    assert limits["opened weld roots"].range_per_n == pytest.approx(swing)
    assert limits["weld roots"].range_per_n == pytest.approx(swing)


def test_a_bead_that_is_bent_open() -> None:
    """Closed form: a moment of 900 cos N mm per radian alone: 6 M / a^2, either way once a turn."""
    forces = np.zeros((2, 4))
    forces[1, 3] = 900.0
    forces[0, 1] = forces[1, 1] = 1.0  # a little along the bead, or nothing limits its throat
    found, throat = a_bead(forces)
    limits = limits_of(found)
    bent = 6 * 900 / throat.size_mm**2 / throat.radius_mm
    assert limits["opened weld roots"].range_per_n == pytest.approx(bent)
    assert limits["weld roots"].range_per_n == 0.0


def test_a_bead_that_is_sheared_along() -> None:
    """Closed form: 500 cos N per radian across and 700 sin along: the most is 700, a quarter turn
    from the rail, as the two are never large together; across the root the range is 2 x 500."""
    forces = np.zeros((2, 4))
    forces[1, 0], forces[1, 1] = 500.0, 700.0
    found, throat = a_bead(forces)
    limits = limits_of(found)
    per = throat.size_mm * throat.radius_mm
    assert throat_limit(found, 0.0, 0.0).load_n == pytest.approx(STATIC / (700 / per), rel=1e-3)
    assert limits["weld roots"].range_per_n == pytest.approx(1000 / per)


def test_the_push_adds_its_share_to_a_bead() -> None:
    """The push carries a tenth of the patch's force: half a push, a twentieth more."""
    forces = np.zeros((2, 4))
    forces[:, 2] = 100.0, 400.0
    found, _ = a_bead(forces)
    calm, pushed = limits_of(found), limits_of(found, 0.5)
    for name, limit in calm.items():
        assert pushed[name].range_per_n / limit.range_per_n == pytest.approx(1.05), name
    for shares in ((0.5, 0.0), (0.5, 0.9)):  # no flange's bead: the side force alone counts
        ratio = throat_limit(found, 0.0, 0.0).load_n / throat_limit(found, *shares).load_n
        assert ratio == pytest.approx(1.05)


def test_the_flanges_bead_feels_the_push() -> None:
    """The root bead by the push, whatever the wheel hands on; a rim bead the other way round."""
    forces = np.zeros((2, 4))
    forces[:, 2] = 100.0, 400.0
    for name, block_share in (("weld-root", (0.5, 0.0)), (NAME, (0.0, 0.5))):
        found, _ = a_bead(forces, name)
        block = Block("straight", "loaded", 1.0, 1.0, 1.0, 0.0, *block_share)
        detail = next(one for one in root_details(found) if one.name == "weld roots")
        size = cycles_of(detail, (block,), angles(found)).ranges[:, 0].max()
        assert size / limits_of(found)["weld roots"].range_per_n == pytest.approx(1.05)
        throats = throat_limit(found, block_share[1], block_share[0])
        assert throat_limit(found, 0.0, 0.0).load_n / throats.load_n == pytest.approx(1.05)


def test_the_worst_bead_is_named() -> None:
    """The same force through the rim's bead and the tube's, which lies on a smaller circle."""
    forces = np.zeros((2, 4))
    forces[1, 0] = 400.0
    every: dict[str, NDArray[np.float64]] = {}
    for name in ("weld-tube-field", NAME):
        every |= a_bead(forces, name)[0].bead_forces
    found = made_response(plain_wheel(vent_count=0), [], legs=MESHED.legs, bead_forces=every)
    assert limits_of(found)["weld roots"].where == "tube bead at the field disc"
    assert throat_limit(found, 0.0, 0.0).where == "tube bead at the field disc"


def pulled_and_pressed(name: str, **keys: bool) -> tuple[Response, Throat]:
    """A bead with 300 + 500 cos N per radian along its pull, through its throat's middle."""
    spec = plain_wheel(vent_count=0, **keys)
    mesh = section_mesh(spec, size_mm=8.0)
    throat = throat_of({bead.name: bead for bead in weld_beads(spec)}[name], mesh)
    forces = np.zeros((HARMONICS, 4, PLACES + 1))
    for i, axis in ((0, 0), (2, 1)):
        forces[:2, i, :PLACES] = np.outer([300.0, 500.0], SHARES) * throat.pull[axis]
    forces[:, 3] = throat.middle[0] * forces[:, 2] - throat.middle[1] * forces[:, 0]
    return made_response(spec, [], legs=mesh.legs, bead_forces={name: forces}), throat


def test_a_backed_root_counts_its_whole_range_by_its_own_class() -> None:
    """Closed form: 800 to -200 N per radian; open it counts 800 by class 80, backed 1000 by 90."""
    found, throat = pulled_and_pressed("weld-root")
    per = throat.size_mm * throat.radius_mm
    assert limits_of(found)["opened weld roots"].range_per_n == pytest.approx(800 / per)
    assert "backed root" not in limits_of(found)
    found, _ = pulled_and_pressed("weld-root", root_backed=True)
    limits = limits_of(found)
    assert limits["backed root"].range_per_n == pytest.approx(1000 / per)
    assert limits["backed root"].fat_n_mm2 == 90.0
    assert limits["backed root"].where == "bead between ring and flange"
    assert set(limits) == {"backed root"}
    assert throat_limit(found, 0.0, 0.0).load_n < math.inf


def test_only_the_flanges_root_is_backed() -> None:
    found, throat = pulled_and_pressed(NAME, root_backed=True)
    per = throat.size_mm * throat.radius_mm
    assert limits_of(found)["opened weld roots"].range_per_n == pytest.approx(800 / per)
    assert "backed root" not in limits_of(found)


def test_a_whole_range_counts_what_presses_a_root_shut() -> None:
    """EN 1993-1-9:2005, 7.2.1, as welded: 800 to -200 is 1000; from memory."""
    found, throat = pulled_and_pressed(NAME)
    limit = limits_of(found)["weld roots, full range"]
    assert limit.range_per_n == pytest.approx(1000 / throat.size_mm / throat.radius_mm)
    assert limit.fat_n_mm2 == 80.0
    backed, _ = pulled_and_pressed("weld-root", root_backed=True)
    assert "weld roots, full range" not in limits_of(backed)
