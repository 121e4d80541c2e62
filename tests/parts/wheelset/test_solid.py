"""The wheelset's solids: none overlaps, gauge and back-to-back as measured on them."""

from __future__ import annotations

import math
import re
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from platewheel.parts.wheelset.assembly import wheelset
from platewheel.parts.wheelset.solid import (
    Named,
    axle_section,
    wheelset_solids,
    write_wheelset_step,
)
from tests.parts.checks.settings import setting_of

KINDS: dict[str, dict[str, Any]] = {
    "stepped": {"journal_diameter_mm": 30.0, "body_diameter_mm": 45.0},
    "loose": {"wheels_on_axle": "loose", "bearing": "deep-groove", "frames": "inside"},
}


@pytest.fixture(scope="module", params=KINDS)
def made(request: pytest.FixtureRequest) -> tuple[dict[str, Any], list[Named]]:
    axle = KINDS[request.param]
    return axle, wheelset_solids(setting_of(wheel={"tread_taper_1_in": 20.0}, axle=axle))


def box(solid: Any) -> tuple[tuple[float, float], ...]:
    found = solid.BoundingBox(tolerance=1e-6)
    return (found.xmin, found.xmax), (found.ymin, found.ymax), (found.zmin, found.zmax)


def test_no_two_solids_overlap(made: tuple[dict[str, Any], list[Named]]) -> None:
    boxes = {name: box(solid) for name, solid, _ in made[1]}
    assert len(boxes) == len(made[1])
    met = 0
    for (a, first, _), (b, second, _) in combinations(made[1], 2):
        if a.split("-")[0] == b.split("-")[0] in ("left", "right"):
            continue  # parts of one wheel: the wheel's own tests
        if all(
            min(p[1], q[1]) - max(p[0], q[0]) > 1e-4
            for p, q in zip(boxes[a], boxes[b], strict=True)
        ):
            met += 1
            assert first.intersect(second).Volume() < 1e-3, (a, b)
    assert met > 4  # axle through hubs, treads over rails


def test_gauge_and_back_to_back_as_measured(made: tuple[dict[str, Any], list[Named]]) -> None:
    solids = {name: box(solid) for name, solid, _ in made[1]}
    assert solids["rail-right"][2][0] - solids["rail-left"][2][1] == pytest.approx(457.0)
    found = wheelset(setting_of(axle=made[0]))
    flange_to_flange = solids["right-flange"][2][0] - solids["left-flange"][2][1]
    assert flange_to_flange == pytest.approx(setting_of(axle=made[0]).back_to_back_mm, abs=1e-4)
    assert solids["axle"][2][1] - solids["axle"][2][0] == pytest.approx(found.axle_length_mm)


def test_wheels_stand_on_the_rails(made: tuple[dict[str, Any], list[Named]]) -> None:
    """A hair higher, and rail and tread would overlap: a rail raised by 0.1 mm does."""
    import cadquery as cq

    solids = {name: solid for name, solid, _ in made[1]}
    raised = solids["rail-right"].moved(cq.Location(cq.Vector(0.1, 0, 0)))
    assert raised.intersect(solids["right-tread"]).Volume() > 0.1


def test_the_axles_volume_is_that_of_its_steps(made: tuple[dict[str, Any], list[Named]]) -> None:
    found = wheelset(setting_of(axle=made[0]))
    steps = sum(math.pi / 4 * d * d * (z1 - z0) for z0, z1, d in found.steps)
    solid = next(solid for name, solid, _ in made[1] if name == "axle")
    assert solid.Volume() == pytest.approx(steps, rel=1e-9)
    assert axle_section(found)[0][0] == 0.0


def test_step_file_names_every_solid(tmp_path: Path) -> None:
    setting = setting_of()
    write_wheelset_step(setting, tmp_path / "wheelset.step")
    text = (tmp_path / "wheelset.step").read_text()
    products = set(re.findall(r"PRODUCT\('([^']*)'", text))
    assert products == {"wheelset", *(name for name, _, _ in wheelset_solids(setting))}
