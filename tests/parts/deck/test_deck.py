"""The deck: volume, loads, sets and cards of a small wheel, meshed coarsely."""

from __future__ import annotations

import math
import sys
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.deck.deck import Deck, wheel_deck
from platewheel.parts.deck.meshing import sections
from platewheel.parts.deck.solid_mesh import EDGES, FACES
from platewheel.parts.geometry.section import revolved_volume_mm3
from platewheel.parts.loads.wheel_load import flange_push_n, wheel_load_n
from platewheel.parts.rating.rate import contact_patch_mm, least_place_mm
from platewheel.parts.setting.setting import Setting
from tests.parts.settings import demo_setting

WHEEL: dict[str, Any] = {
    "tread_diameter_mm": 180.0,
    "tread_width_mm": 40.0,
    "tread_thickness_mm": 8.0,
    "flange_depth_mm": 10.0,
    "flange_thickness_mm": 6.0,
    "disc_thickness_mm": 6.0,
    "hub_bore_mm": 30.0,
    "hub_tube_outside_mm": 48.0,
    "hub_tube_length_mm": 50.0,
    "vent_count": 3,
    "vent_diameter_mm": 26.0,
    "vent_circle_mm": 112.0,
}


def small(**wheel: Any) -> Setting:
    demo = demo_setting()
    spec = demo.wheel.model_copy(update=WHEEL | wheel)
    return replace(demo, wheel=spec, use=demo.use.model_copy(update={"lateral_share": 0.4}))


@pytest.fixture(scope="module")
def setting() -> Setting:
    return small()


@pytest.fixture(scope="module")
def deck(setting: Setting) -> Deck:
    return wheel_deck(setting, coarse=2.0)


def test_volume_is_that_of_the_section_turned_less_the_vents(deck: Deck, setting: Setting) -> None:
    """Pappus' theorem for half a turn; three vents through two discs, half of them in the half."""
    turned = sum(revolved_volume_mm3(section, math.pi) for _, section in sections(setting.wheel))
    vents = 3 * math.pi / 4 * 26.0**2 * 6.0
    assert deck.mesh.volume_mm3() == pytest.approx(turned - vents, rel=1e-3)
    assert deck.mesh.jacobians().min() > 0


def test_every_part_has_its_own_volume(deck: Deck, setting: Setting) -> None:
    vents = 1.5 * math.pi / 4 * 26.0**2 * 6.0
    for name, section in sections(setting.wheel):
        whole = revolved_volume_mm3(section, math.pi) - (vents if "disc-" in name[:5] else 0.0)
        found = deck.mesh.jacobians()[deck.mesh.of(name)].sum() / 24
        assert found == pytest.approx(whole, rel=0.01), name


@pytest.mark.parametrize(("over", "angle"), [("vent", 0.0), ("web", math.pi / 3)])
def test_what_the_patch_stands_over(setting: Setting, over: Any, angle: float) -> None:
    """The nearest vent's middle is at the patch, or half a pitch from it; discs hold no more."""
    made = wheel_deck(setting, over=over, coarse=3.0)
    rows = made.sets["VENTS"]
    middles = 56.0 * np.array([[math.cos(angle + k * 2 * math.pi / 3)] for k in range(3)])
    others = 56.0 * np.array([[math.sin(angle + k * 2 * math.pi / 3)] for k in range(3)])
    x, y = made.mesh.points[rows, 0], made.mesh.points[rows, 1]
    away = np.hypot(x[None] - middles, y[None] - others)
    assert np.abs(away.min(axis=0) - 13.0).max() < 1e-3
    assert (np.abs(away - 13.0) < 1e-3).any(axis=1).sum() == 2  # of three, one below the mirror
    tread = made.mesh.radius[made.mesh.tets[made.mesh.of("tread")]]
    assert tread.min() > 13.0 + 56.0


def test_loads_are_half_of_what_is_told(deck: Deck, setting: Setting) -> None:
    """Up at +X is to -x; the push to +z. Each step by itself."""
    load = wheel_load_n(setting)
    assert (deck.load_n, deck.push_n) == (load, pytest.approx(flange_push_n(setting)))
    names = [step.name for step in deck.steps]
    assert names == ["VERTICAL-MIDDLE", "VERTICAL-FLANGE-SIDE", "VERTICAL-FIELD-SIDE", "PUSH"]
    for step in deck.steps:
        whole = (0, 0, flange_push_n(setting) / 2) if step.name == "PUSH" else (-load / 2, 0, 0)
        assert step.forces.sum(axis=0) == pytest.approx(whole)


def test_the_patch_is_the_ratings(deck: Deck, setting: Setting) -> None:
    """Middle of force at the place told; cosine squared: mean square of the angle is
    (1/3 - 2/pi^2) of the half angle's square, by integration; at least 4 mm of half length."""
    width, _ = contact_patch_mm(setting)
    places = (deck.patch.places_mm[2], deck.patch.places_mm[1])
    assert places == pytest.approx((max(least_place_mm(setting, width), width / 2), 40 - width / 2))
    assert deck.patch.half_length_mm == 4.0
    half = 4.0 / 90.0
    for step, place in zip(deck.steps, deck.patch.places_mm, strict=False):
        weight = -step.forces[:, 0] / (wheel_load_n(setting) / 2)
        assert weight @ deck.mesh.points[:, 2] == pytest.approx(place, abs=0.15)
        square = (1 / 3 - 2 / math.pi**2) * half**2
        assert weight @ deck.mesh.angle**2 == pytest.approx(square, rel=0.05)
        assert np.abs(deck.mesh.radius[weight != 0] - 90.0).max() < 0.02


def test_the_push_is_on_the_flanges_face_near_its_root(deck: Deck) -> None:
    forces = deck.steps[-1].forces[:, 2]
    rows = np.nonzero(forces)[0]
    radius = deck.mesh.radius[rows]
    assert radius.min() >= 90.0 - 0.01
    mean = forces[rows] @ radius / forces.sum()
    assert mean == pytest.approx(92.5, abs=0.1)  # 5 mm deep from the root, evenly


def test_sets_hold_the_nodes_that_they_name(deck: Deck) -> None:
    mesh, sets = deck.mesh, deck.sets
    assert set(sets) == {"BORE", "MIRROR", "TREAD_FACE", "VENTS"}
    assert all(len(rows) > 10 for rows in sets.values())
    assert mesh.radius[sets["BORE"]] == pytest.approx(15.0, abs=0.05)
    assert np.ptp(mesh.points[sets["BORE"], 2]) == pytest.approx(50.0)
    assert np.abs(mesh.points[sets["MIRROR"], 1]).max() < 1e-4
    assert np.abs(mesh.radius[sets["TREAD_FACE"]] - 90.0).max() < 0.05
    assert mesh.points[:, 1].min() > -1e-4


def test_middle_nodes_lie_between_their_corners(deck: Deck) -> None:
    """In the order of C3D10, also round the vents; faces likewise."""
    places = deck.mesh.points[deck.mesh.tets]
    for node, (i, j) in enumerate(EDGES, 4):
        gap = np.linalg.norm(places[:, node] - (places[:, i] + places[:, j]) / 2, axis=1)
        length = np.linalg.norm(places[:, i] - places[:, j], axis=1)
        assert (gap < 0.25 * length).all()
    for a, b, c, *middles in FACES:
        sides = [tuple(sorted(pair)) for pair in ((a, b), (b, c), (c, a))]
        assert [tuple(sorted(EDGES[m - 4])) for m in middles] == sides


def test_plates_touch_only_through_their_beads(deck: Deck) -> None:
    """No node is shared by disc and ring or disc and tube; each bead shares with both its own."""
    nodes = {part: set(np.unique(deck.mesh.tets[deck.mesh.of(part)])) for part in deck.mesh.parts}
    for side in ("field", "gauge"):
        assert not nodes[f"disc-{side}"] & (nodes["tread"] | nodes["hub-tube"])
        assert len(nodes[f"weld-disc-{side}"] & nodes["tread"]) > 20
        assert len(nodes[f"weld-disc-{side}"] & nodes[f"disc-{side}"]) > 20
        assert len(nodes[f"weld-tube-{side}"] & nodes["hub-tube"]) > 20


def cards(lines: list[str]) -> list[tuple[str, list[str]]]:
    """Each card with its lines; comments left out."""
    found: list[tuple[str, list[str]]] = []
    for line in lines:
        if line.startswith("*") and not line.startswith("**"):
            found.append((line, []))
        elif not line.startswith("**"):
            found[-1][1].append(line)
    return found


def test_the_cards_say_all_of_it(deck: Deck) -> None:
    lines = list(deck.lines(("a head",)))
    assert lines[0] == "** a head"
    assert max(len(line) for line in lines if not line.startswith("**")) < 132
    read = cards(lines)
    nodes = next(body for card, body in read if card.startswith("*NODE, NSET"))
    points = {int(line.split(",")[0]): line for line in nodes}
    assert sorted(points) == list(range(1, len(deck.mesh.points) + 1))
    elements = [line for card, body in read if "TYPE=C3D10" in card for line in body]
    numbers = np.array([[int(x) for x in line.split(",")] for line in elements])
    assert sorted(numbers[:, 0]) == list(range(1, len(deck.mesh.tets) + 1))
    assert set(np.unique(numbers[:, 1:])) == set(points)
    groups = [card.split("ELSET=")[1] for card, _ in read if "TYPE=C3D10" in card]
    wheel = next(body for card, body in read if card == "*ELSET, ELSET=WHEEL")
    assert wheel == groups
    for card, body in read:
        if card.startswith("*NSET"):
            there = {int(x) for line in body for x in line.rstrip(",").split(",")}
            assert there
            assert there <= set(points)
    assert ("*ELASTIC", ["210000, 0.3"]) in read
    assert ("*BOUNDARY", ["BORE, 1, 3", "MIRROR, 2, 2"]) in read
    loads = [body for card, body in read if card == "*CLOAD, OP=NEW"]
    assert len(loads) == sum(card == "*END STEP" for card, _ in read) == len(deck.steps)
    for step, body in zip(deck.steps, loads, strict=True):
        rows = np.array([[float(x) for x in line.split(",")] for line in body])
        sums = [rows[rows[:, 1] == axis, 2].sum() for axis in (1, 2, 3)]
        assert sums == pytest.approx(step.forces.sum(axis=0), abs=1e-3)


def test_without_clearance_plates_still_are_bodies_of_their_own() -> None:
    made = wheel_deck(small(fit_clearance_mm=0.0, vent_count=0), coarse=3.0)
    assert "VENTS" not in made.sets
    nodes = {part: set(np.unique(made.mesh.tets[made.mesh.of(part)])) for part in made.mesh.parts}
    assert not nodes["disc-field"] & nodes["tread"]


def test_loose_parts_are_no_deck() -> None:
    with pytest.raises(GeometryError, match="do not hold together"):
        wheel_deck(small(disc_field_inset_mm=0.0))


@pytest.mark.parametrize("coarse", [0.3, 4.5, math.nan])
def test_elements_too_small_or_large_are_refused(setting: Setting, coarse: float) -> None:
    with pytest.raises(ValueError, match="coarse: found"):
        wheel_deck(setting, coarse=coarse)


def test_without_gmsh_it_is_told_what_to_install(
    setting: Setting, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "gmsh", None)
    with pytest.raises(ImportError, match="pip install gmsh"):
        wheel_deck(setting)
