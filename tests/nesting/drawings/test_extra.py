"""The user's own parts: keys, names, blanks and what is wanted of which steel."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.job.job import RESERVED
from platewheel.nesting.drawings.extra import (
    Extra,
    extra_parts,
    read_extras,
)
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.outline import Circle
from platewheel.parts.wheel.assembly import wheel_parts, wheel_sections
from platewheel.parts.wheel.spec import WheelSpec
from tests.nesting.drawn_files import drawing, save

ROW: dict[str, Any] = {"name": "bracket", "file": "bracket.dxf", "thickness_mm": 6.0, "count": 20}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A bracket of 80 x 50 with a hole of 20, and a round plate of 60, both off the origin."""
    doc = drawing()
    space = doc.modelspace()
    space.add_lwpolyline([(10, 5), (90, 5), (90, 55), (10, 55)], close=True)
    space.add_circle((30, 30), 10)
    space.add_text("bracket")
    save(doc, tmp_path, "bracket.dxf")
    doc = drawing()
    doc.modelspace().add_circle((-7, 400), 30)
    (tmp_path / "drawings").mkdir()
    save(doc, tmp_path / "drawings", "round.dxf")
    return tmp_path


def test_a_drawing_becomes_a_blank_that_starts_at_0_0(folder: Path) -> None:
    read, faults = read_extras([ROW, ROW | {"name": "r", "file": "drawings/round.dxf"}], folder)
    assert faults == []
    bracket, round_plate = extra_parts(read, "S275")
    assert bracket.blank.bounds == pytest.approx((0, 0, 80, 50))
    assert bracket.blank.holes == (Circle((20.0, 25.0), 10.0),)
    assert bracket.blank.area_mm2 == pytest.approx(80 * 50 - 100 * math.pi)
    assert bracket.blank.sizes == {"length_mm": 80.0, "width_mm": 50.0}
    assert (bracket.blank.name, bracket.blank.kind, bracket.steel) == ("bracket", "extra", "S275")
    assert bracket.warnings == ("bracket.dxf: 1 TEXT left out",)
    assert round_plate.blank.outline == Circle((30.0, 30.0), 30.0)
    assert round_plate.blank.sizes == {"diameter_mm": 60.0}


def test_every_fault_of_every_row_at_once(folder: Path) -> None:
    rows = [
        ROW | {"count": 0, "file": "gone.dxf"},
        ROW | {"name": "Disc", "turns": "double"},
        ROW | {"name": "BRACKET", "thickness_mm": -1, "colour": "red"},
        ROW | {"name": "a/b", "unit": "feet"},
        {"name": "c", "file": 7},
    ]
    read, faults = read_extras(rows, folder, RESERVED)
    assert read == []
    keys = {fault.key for fault in faults}
    assert keys == {
        *("extra[0].count", "extra[0].file", "extra[1].name", "extra[1].turns"),
        *("extra[2].name", "extra[2].thickness_mm", "extra[2].colour", "extra[3].name"),
        *("extra[3].unit", "extra[4].file", "extra[4].thickness_mm", "extra[4].count"),
    }
    (gone,) = (fault for fault in faults if fault.key == "extra[0].file")
    assert gone.value == "gone.dxf"
    assert "no such file" in gone.advice


def test_no_extra_is_named_like_a_part_of_the_wheel() -> None:
    wheel = WheelSpec(
        **{
            key: field.examples[0]
            for key, field in WheelSpec.model_fields.items()
            if field.is_required() and field.examples
        }
    )
    assert {part.name for part in wheel_parts(wheel)} <= RESERVED
    sections = {name for name, _ in wheel_sections(wheel)}
    assert {name for name in sections if not name.startswith("weld-")} <= RESERVED


@pytest.mark.parametrize("name", ["../a", "", "a b", ".a", "a.", "x" * 41, "a\n"])
def test_names_are_fit_for_files(name: str) -> None:
    with pytest.raises(SpecError, match="name: found"):
        Extra(**(ROW | {"name": name}))
