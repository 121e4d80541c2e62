"""A disc of the user's own in the deck: its true openings, its mirror lines, half or whole."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.deck.cards import deck_lines
from platewheel.parts.deck.deck import Deck, wheel_deck
from platewheel.parts.deck.own_disc import mirror_directions, off_openings_mm, open_mm, to_the_load
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Loop, moved, polygon
from platewheel.parts.loads.wheel_load import wheel_load_n
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_solids
from platewheel.parts.wheel.hub_disc import disc_blank
from tests.parts.deck.test_deck import small

SLOT = polygon([(42.0, -10.0), (66.0, -16.0), (66.0, 16.0), (42.0, 10.0)])
LEANING = polygon([(42.0, -10.0), (66.0, -2.0), (66.0, 20.0), (42.0, 10.0)])
COARSE = 3.0


def with_slots(slot: Loop, count: int = 4, first_deg: float = 20.0) -> Setting:
    """The small wheel with slots in its discs, the first so far round."""
    setting = small(vent_count=0)
    plain = disc_blank(setting.wheel)
    slots = tuple(moved(slot, 0.0, 0.0, first_deg + 360.0 / count * k) for k in range(count))
    return replace(setting, disc=replace(plain, name="disc", holes=(*plain.holes, *slots)))


def disc_of(setting: Setting) -> Blank:
    assert setting.disc is not None
    return setting.disc


def solids_mm3(setting: Setting) -> dict[str, float]:
    """Plates and beads of the wheel as its STEP files have them, seams closed: as the deck is."""
    wheel = unchecked(setting.wheel, {"seam_gap_mm": 0.0, "flange_segments": 1})
    solids = wheel_solids(wheel, disc=setting.disc)
    found: dict[str, float] = {}
    for name, solid in solids:
        key = "flange" if name.startswith("flange") else name
        found[key] = found.get(key, 0.0) + solid.Volume()
    return found


@pytest.fixture(scope="module")
def half() -> tuple[Setting, Deck]:
    setting = with_slots(SLOT)
    return setting, wheel_deck(setting, coarse=COARSE)


@pytest.fixture(scope="module")
def whole() -> tuple[Setting, Deck]:
    setting = with_slots(LEANING)
    return setting, wheel_deck(setting, coarse=COARSE)


def test_mirror_lines_go_through_slots_and_spokes() -> None:
    """Four slots, eight lines' ends, 45 degrees apart; slots that lean have none."""
    found = np.degrees(mirror_directions(disc_of(with_slots(SLOT))))
    assert found == pytest.approx([20.0 + 45.0 * k for k in range(8)])
    assert mirror_directions(disc_of(with_slots(LEANING))) == ()
    assert mirror_directions(disc_of(with_slots(SLOT, count=1))) == pytest.approx(
        [math.radians(20.0), math.radians(200.0)]
    )


@pytest.mark.parametrize(("over", "length"), [("vent", 24.0), ("web", 0.0)])
def test_the_patch_stands_over_a_slot_or_a_spoke(over: Any, length: float) -> None:
    turned, turn, mirrored = to_the_load(disc_of(with_slots(SLOT)), over)
    assert mirrored
    assert turn % 90 == pytest.approx(70.0 if over == "vent" else 25.0)
    assert open_mm(turned, 0.0) == pytest.approx(length, abs=1e-6)
    leaning, _, mirrored = to_the_load(disc_of(with_slots(LEANING)), over)
    assert not mirrored
    assert (open_mm(leaning, 0.0) > 20) == (over == "vent")


def test_the_mesh_is_what_the_solids_are(half: tuple[Setting, Deck]) -> None:
    """By part: true arcs of both, chords of elements aside."""
    setting, deck = half
    solids = solids_mm3(setting)
    assert set(deck.mesh.parts) == set(solids)
    assert not deck.whole
    for part, mm3 in solids.items():
        found = 2 * deck.mesh.jacobians()[deck.mesh.of(part)].sum() / 24
        assert found == pytest.approx(mm3, rel=1e-4 if part.startswith("disc") else 5e-3), part
    assert 2 * deck.mesh.volume_mm3() == pytest.approx(sum(solids.values()), rel=1e-3)
    assert deck.mesh.jacobians().min() > 0
    assert solids["disc-field"] == pytest.approx(disc_of(setting).volume_mm3)


def test_edges_of_the_openings_are_a_set(half: tuple[Setting, Deck]) -> None:
    """Corners of two slots and two halves, on both faces of two discs."""
    setting, deck = half
    rows = deck.sets["VENTS"]
    turned, _, _ = to_the_load(disc_of(setting), "vent")
    places = deck.mesh.points[rows, :2]
    assert off_openings_mm(turned, places).max() < 1e-3
    corners = {(round(x, 3), round(y, 3)) for hole in turned.holes[1:] for x, y in _corners(hole)}
    seen = {(round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in places.tolist()}
    assert {at for at in corners if at[1] > 0} <= seen


def _corners(hole: Loop) -> list[tuple[float, float]]:
    assert not isinstance(hole, Circle)
    return [piece.start for piece in hole]


def test_what_has_no_mirror_line_is_meshed_whole(whole: tuple[Setting, Deck]) -> None:
    setting, deck = whole
    assert deck.whole
    assert deck.mesh.volume_mm3() == pytest.approx(sum(solids_mm3(setting).values()), rel=1e-3)
    for part in deck.mesh.parts:  # both halves, each once
        rows = deck.mesh.of(part)
        below = deck.mesh.points[deck.mesh.tets[rows, :4], 1].mean(axis=1) < 0
        volumes = deck.mesh.jacobians()[rows].sum(axis=1)
        assert volumes[below].sum() == pytest.approx(volumes.sum() / 2, rel=1e-3)
    assert "MIRROR" not in deck.sets
    assert not any("MIRROR" in line for line in deck_lines(deck.mesh, deck.sets, deck.steps, ()))
    load = wheel_load_n(setting)
    for step in deck.steps[:3]:
        assert step.forces.sum(axis=0) == pytest.approx((-load, 0.0, 0.0))
        assert step.forces[:, 0] @ deck.mesh.points[:, 1] == pytest.approx(0.0, abs=0.02 * load)


def test_the_plain_disc_drawn_is_the_built_in_deck() -> None:
    """Three round vents, once by the wheel's keys and once as a disc of one's own."""
    plain = small()
    own = replace(small(vent_count=0), disc=disc_blank(plain.wheel))
    decks = [wheel_deck(one, coarse=COARSE) for one in (plain, own)]
    volumes = [deck.mesh.volume_mm3() for deck in decks]
    assert volumes[1] == pytest.approx(volumes[0], rel=1e-4)
    nodes = [len(deck.mesh.points) for deck in decks]
    assert nodes[1] == pytest.approx(nodes[0], rel=0.25)
    edges = [deck.mesh.points[deck.sets["VENTS"], :2] for deck in decks]
    for places in edges:
        assert off_openings_mm(disc_of(own), places).max() < 1e-3
    assert decks[1].turn_deg == 0.0
    assert [step.name for step in decks[1].steps] == [step.name for step in decks[0].steps]
