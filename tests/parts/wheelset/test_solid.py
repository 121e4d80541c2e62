"""The wheelset's solids: none overlaps, gauge and back-to-back as measured on them."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from platewheel.parts.geometry.product import bodies_in
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import wheelset
from platewheel.parts.wheelset.bodies.bearing import REFERENCE
from platewheel.parts.wheelset.solid import wheelset_group, write_wheelset_step
from tests.parts.checks.settings import setting_of

KINDS: dict[str, dict[str, Any]] = {
    "stepped": {"journal_diameter_mm": 30.0, "body_diameter_mm": 45.0, "retention": "screws"},
    "keyed": {"bearing": "insert"},
    "loose": {"wheels_on_axle": "loose", "bearing": "deep-groove", "frames": "inside"},
    "bushes": {"wheels_on_axle": "loose", "bearing": "bush"},
}
Bodies = dict[str, Any]


@pytest.fixture(scope="module", params=KINDS)
def made(request: pytest.FixtureRequest) -> tuple[Setting, Bodies]:
    setting = setting_of(wheel={"tread_taper_1_in": 20.0}, axle=KINDS[request.param])
    return setting, {name: shape for name, _, shape in bodies_in(wheelset_group(setting))}


def box(solid: Any) -> tuple[tuple[float, float], ...]:
    found = solid.BoundingBox(tolerance=1e-6)
    return (found.xmin, found.xmax), (found.ymin, found.ymax), (found.zmin, found.zmax)


def test_no_two_solids_overlap(made: tuple[Setting, Bodies]) -> None:
    solids = {name: shape for name, shape in made[1].items() if shape.Solids()}
    boxes = {name: box(solid) for name, solid in solids.items()}
    met = 0
    for (a, first), (b, second) in combinations(solids.items(), 2):
        if a.split("/")[0] == b.split("/")[0]:
            continue  # parts of one wheel: the wheel's own tests
        if all(
            min(p[1], q[1]) - max(p[0], q[0]) > 1e-4
            for p, q in zip(boxes[a], boxes[b], strict=True)
        ):
            met += 1
            assert first.intersect(second).Volume() < 1e-3, (a, b)
    assert met > 4  # axle through hubs, treads over rails


def test_gauge_and_back_to_back_as_measured(made: tuple[Setting, Bodies]) -> None:
    """Axle along Y, rails along X, Z up."""
    setting, solids = made
    boxes = {name: box(solid) for name, solid in solids.items()}
    head = setting.track.rail_head_width_mm
    middles = [sum(boxes[f"rail-{side} ({REFERENCE})"][1]) / 2 for side in ("left", "right")]
    assert middles[1] - middles[0] - head == pytest.approx(457.0)
    flanges = boxes["wheel-right/flange"][1][0] - boxes["wheel-left/flange"][1][1]
    assert flanges == pytest.approx(setting.back_to_back_mm, abs=1e-4)
    along = boxes["axle"][1]
    assert along[1] - along[0] == pytest.approx(wheelset(setting).axle_length_mm)
    assert along[1] + along[0] == pytest.approx(0.0, abs=1e-6)


def test_wheels_stand_on_the_rails(made: tuple[Setting, Bodies]) -> None:
    """A hair higher, and rail and tread would overlap: a rail raised by 0.1 mm does."""
    import cadquery as cq

    rail, tread = made[1][f"rail-right ({REFERENCE})"], made[1]["wheel-right/tread"]
    raised = rail.moved(cq.Location(cq.Vector(0, 0, 0.1)))
    assert raised.intersect(tread).Volume() > 0.1
    axis = made[1][f"track axis ({REFERENCE})"]
    assert box(axis)[2][0] == pytest.approx(box(rail)[2][1], abs=1e-4)
    assert box(axis)[1] == pytest.approx((0, 0), abs=1e-4)


@pytest.fixture(scope="module")
def keyed(tmp_path_factory: pytest.TempPathFactory) -> str:
    file = tmp_path_factory.mktemp("keyed") / "wheelset.step"
    write_wheelset_step(setting_of(axle=KINDS["keyed"]), file)
    return file.read_text()


def test_step_file_has_both_wheels_once(keyed: str) -> None:
    products = re.findall(r"PRODUCT\('([^']*)'", keyed)
    assert len(products) == len(set(products))
    assert {"wheelset", "wheel", "tread", "hub-tube", "axle", "key", "spacer"} <= set(products)
    placed = re.findall(r"OCCURRENCE\('\d+','([^']*)'", keyed)
    assert {"wheel-left", "wheel-right", "key-left", "key-right", "axle"} <= set(placed)


def test_what_is_bought_or_track_is_for_reference(keyed: str) -> None:
    """By name, and on a layer that the reader can switch off."""
    told = {name for name in re.findall(r"PRODUCT\('([^']*)'", keyed) if REFERENCE in name}
    bearing = ("bearing UC207", "inner ring", "outer ring", "ball", "housing")
    words = (*bearing, "rail", "sleeper", "track axis")
    assert told == {f"{word} ({REFERENCE})" for word in words}
    assert keyed.count("PRESENTATION_LAYER_ASSIGNMENT('for reference'") == 1


def test_the_same_bytes_twice(tmp_path: Path, keyed: str) -> None:
    write_wheelset_step(setting_of(axle=KINDS["keyed"]), tmp_path / "again.step")
    assert (tmp_path / "again.step").read_text() == keyed
