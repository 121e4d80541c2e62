"""Seams: hoop stress of a pinched ring, and limits of a stress that is known outright."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from platewheel.parts.rating.seam_limit import seam_details, seam_histories
from platewheel.parts.stress.cells import Plate, plate_cells
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.loads import face_load, raised_cosine
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.section_mesh import SectionMesh
from platewheel.parts.stress.solid_of_revolution import Body, R
from platewheel.parts.stress.turn import angles
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_section
from tests.parts.rating.worst import worst
from tests.parts.stress.made_response import SHARES, Stress, made_response
from tests.parts.wheels import plain_wheel

WALL, WIDE, MIDDLE = 4.0, 10.0, 150.0  # mm
HARMONICS = np.arange(2, 121, 2)
THIN: dict[str, Any] = {
    "tread_diameter_mm": 2 * MIDDLE + WALL,
    "tread_width_mm": WIDE,
    "tread_thickness_mm": WALL,
    "disc_thickness_mm": 1.0,
    "disc_field_inset_mm": 1.0,
    "disc_gauge_inset_mm": 1.0,
    "weld_throat_mm": 0.5,
    "hub_tube_length_mm": 0.0,
    "hub_tube_outside_mm": 0.0,
    "root_weld_mm": 2.0,
}


@pytest.fixture(scope="module")
def pinched() -> tuple[Response, np.ndarray]:
    """A free thin ring between two forces of 1 N, and the angles that it is read at."""
    spec: WheelSpec = plain_wheel(**THIN)
    wall = tread_section(spec)
    points, triangles = plate_cells(Plate("tread", wall, 4, fine=True), [], 1.0)
    body = Body(points, triangles, ())
    load = face_load(body, wall[0], wall[1], 0.0, WIDE).spread(body.basis, R)
    solved = body.solve(np.repeat(load[None, :, None], len(HARMONICS), axis=0), HARMONICS)
    s0, s1 = body.stress_terms(triangles)
    stress = np.stack([(s0 @ u + n * (s1 @ u)) for n, u in zip(HARMONICS, solved, strict=True)])
    unit = np.zeros((2 * PLACES + 1, len(HARMONICS), 6, len(points)))
    unit[:PLACES] = stress.reshape(len(HARMONICS), -1, 6).transpose(0, 2, 1)
    q = raised_cosine(0.02, HARMONICS[-1])[HARMONICS]

    def weights(turns: np.ndarray) -> tuple[tuple[np.ndarray, np.ndarray], ...]:
        two = -2 * q * np.cos(np.outer(turns, HARMONICS))  # inwards, at 0 and 180 degrees
        return (two, two), (0 * two, 0 * two), (0 * two, 0 * two)

    mesh = SectionMesh(points, triangles, ("tread",) * len(triangles), (), (), ())
    found = Response(
        spec,
        mesh,
        ("tread",) * len(points),
        np.arange(len(points)),
        SimpleNamespace(weights=weights),  # type: ignore[arg-type]
        unit,
        np.zeros((0, 3, PLACES + 1)),
        (WIDE / 2,) * PLACES,
        0.1,
        0.1,
        {},
    )
    return found, angles(found)


def test_hoop_stress_of_a_pinched_ring(pinched: tuple[Response, np.ndarray]) -> None:
    """Thin ring under two opposite forces F: moment F R (1 / pi - sin / 2), normal force
    -F sin / 2, less its mean F / pi, which the even harmonics from 2 on leave out.

    Source: Timoshenko, Strength of Materials, ring under two forces; from memory, by integration.
    """
    found, turns = pinched
    history = seam_histories(found)[0]
    assert history.name == "ring seam"
    moment = MIDDLE * (1 / math.pi - np.sin(turns) / 2)
    along = (1 / math.pi - np.sin(turns) / 2) / (WALL * WIDE)
    bent = moment * 6 / (WIDE * WALL**2)
    away = turns > 0.35  # a wall or two from the force, where the ring is a beam
    radii = found.points[:, 0]
    checked = 0
    for point, words in enumerate(history.where):
        inside = words.startswith(f"ring at r {MIDDLE - WALL / 2:.0f}")
        wanted = along + (bent if inside else -bent)
        got = history.vertical[3][:, point]
        assert np.abs(got - wanted)[away].max() < 0.02 * np.abs(bent).max(), words
        checked += inside
    assert 0 < checked < len(history.where)
    assert radii.min() == pytest.approx(MIDDLE - WALL / 2)


def test_range_of_a_pinched_ring(pinched: tuple[Response, np.ndarray]) -> None:
    """Inside: + F R / pi under the force, F R (1 / 2 - 1 / pi) less at the side: range F R / 2
    over the section modulus, and F / 2 over the section. Peak rounded by the force's length."""
    found, _ = pinched
    limit = worst(seam_details(found), found)["ring seam"]
    wanted = MIDDLE / 2 * 6 / (WIDE * WALL**2) + 0.5 / (WALL * WIDE)
    assert limit.range_per_n == pytest.approx(wanted, rel=0.04)
    assert limit.fat_n_mm2 == 80.0


def tt(value: float) -> Stress:
    return (9.0, 9.0, value, 9.0, 9.0, 9.0)  # only hoop stress is across a seam


INSIDE, OUTSIDE = ("tread", 142.0, 30.0), ("tread", 150.0, 30.0)
MID_WALL = ("tread", 146.0, 30.0)
# plain flange: rail-side face from (150, 60) at 70 degrees to the axle, 6 mm thick
TURN = math.radians(70)
ALONG, BACK = (math.sin(TURN), math.cos(TURN)), (-math.cos(TURN), math.sin(TURN))
RAIL_SIDE = ("flange", 150 + 14 * ALONG[0], 60 + 14 * ALONG[1])
BEHIND = ("flange", RAIL_SIDE[1] + 6 * BACK[0], RAIL_SIDE[2] + 6 * BACK[1])
BEHIND_MIDDLE = ("flange", RAIL_SIDE[1] + 3 * BACK[0], RAIL_SIDE[2] + 3 * BACK[1])
BEHIND_TIP = ("flange", BEHIND[1] - 9 * ALONG[0], BEHIND[2] - 9 * ALONG[1])
NEAR_PUSH = ("flange", 150 + 6 * ALONG[0], 60 + 6 * ALONG[1])


def test_superposition_of_patch_and_push() -> None:
    """Closed form: the last place swings by 0.03, the push by 0.01 in every newton of its own."""
    found = made_response(
        plain_wheel(flange_segments=2),
        [INSIDE, MID_WALL, OUTSIDE, BEHIND, BEHIND_MIDDLE, RAIL_SIDE],
        mean=[tt(5.0)] * 6,  # a steady stress is no range
        swing=[tt(0.03), tt(0.9), tt(0.01), tt(0.02), tt(0.9), tt(0.01)],
        push=[tt(0.01), tt(0.9), tt(0.01), tt(-0.005), tt(0.9), tt(-0.001)],
    )
    ring, flange = seam_histories(found)
    assert (ring.name, flange.name) == ("ring seam", "flange seams")
    assert ring.vertical.shape[0] == PLACES
    assert ring.vertical.shape[2] == ring.push.shape[1] == len(ring.where) == 2  # the faces alone
    assert len(flange.where) == 2
    assert np.ptp(ring.vertical[0, :, 0]) == pytest.approx(2 * SHARES[0] * 0.03)
    assert np.ptp(ring.push[:, 0]) == pytest.approx(2 * 0.01)
    assert ring.push[0, 0] > 0
    calm, pushed = (worst(seam_details(found), found, share) for share in (0.0, 0.5))
    assert calm["ring seam"].range_per_n == pytest.approx(2 * 0.03)
    assert calm["ring seam"].where == "ring at r 142, z 30 mm"
    assert pushed["ring seam"].range_per_n == pytest.approx(2 * (0.03 + 0.5 * 0.01))
    # the push relieves the flange
    assert calm["flange seams"].range_per_n == pytest.approx(2 * 0.02)
    assert pushed["flange seams"].range_per_n == pytest.approx(2 * (0.02 - 0.5 * 0.005))
    feels = {one.name: one.feels_push for one in seam_details(found)}
    assert feels == {"ring seam": False, "flange seams": True}


def test_under_the_patch_the_tread_keeps_what_it_had_beside_it() -> None:
    """Hidden within half length 4 mm and a wall of 8 mm; the bore is not."""
    swing = [tt(0.03), tt(0.03)]
    found = made_response(plain_wheel(), [INSIDE, OUTSIDE], swing=swing)
    ring = seam_histories(found)[0]
    turns = angles(found)
    first = turns[turns * 150 >= 12][0]
    assert first > 0
    assert ring.where[1] == "ring at r 150, z 30 mm"
    held = 0.03 * math.cos(first)
    assert ring.vertical[-1, turns <= first, 1] == pytest.approx(held)
    assert ring.vertical[-1, 0, 0] == pytest.approx(0.03)
    assert ring.vertical[-1, -1, 1] == pytest.approx(-0.03)


def test_under_the_push_the_flange_keeps_what_it_had_beside_it() -> None:
    """Hidden within 10 mm and the plate's 6 on the rail's side, 12 mm up the plate."""
    push = [tt(0.03)] * 3
    found = made_response(plain_wheel(), [NEAR_PUSH, RAIL_SIDE, BEHIND], push=push)
    flange = seam_histories(found)[1]
    turns = angles(found)
    first = turns[turns * 150 >= 16][0]
    assert flange.push[0] == pytest.approx([0.03 * math.cos(first), 0.03, 0.03])
    assert len(flange.where) == 3


def test_every_point_of_both_faces_counts() -> None:
    places = [NEAR_PUSH, RAIL_SIDE, BEHIND, BEHIND_TIP, BEHIND_MIDDLE]
    flange = seam_histories(made_response(plain_wheel(), places, push=[tt(0.01)] * 5))[1]
    assert len(flange.where) == 4


def test_a_wheel_without_seams_has_no_limit_of_them() -> None:
    bare = plain_wheel(tread_from="pipe", flange_angle_deg=90.0, seam_gap_mm=0.0)
    assert seam_details(made_response(bare, [INSIDE])) == []
    pipe = made_response(plain_wheel(tread_from="pipe"), [INSIDE, RAIL_SIDE])
    assert {one.name for one in seam_details(pipe)} == {"flange seams"}


def test_a_dressed_seam_takes_the_higher_class() -> None:
    plain, dressed = (
        seam_details(made_response(plain_wheel(seam=s), [INSIDE]))[0].fat_n_mm2
        for s in ("as-welded", "dressed")
    )
    assert (plain, dressed) == (80.0, 90.0)
