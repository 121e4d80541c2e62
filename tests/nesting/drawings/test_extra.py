"""The user's own parts: keys, names, blanks and what is wanted of which steel."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from platewheel.cli.job.job import RESERVED
from platewheel.nesting.drawings.extra import (
    Extra,
    extra_parts,
    read_extras,
)
from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.outline import Circle, segments
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
            if field.examples and (field.is_required() or key == "vent_circle_mm")
        }
    )
    assert {part.name for part in wheel_parts(wheel)} <= RESERVED
    sections = {name for name, _ in wheel_sections(wheel)}
    assert {name for name in sections if not name.startswith("weld-")} <= RESERVED


@pytest.mark.parametrize("name", ["../a", "", "a b", ".a", "a.", "x" * 41, "a\n"])
def test_names_are_fit_for_files(name: str) -> None:
    with pytest.raises(SpecError, match="name: found"):
        Extra(**(ROW | {"name": name}))


def slit(folder: Path, unit: int = 4) -> Path:
    """A plate of 100 x 50 drawn from 200, 300 on, a slit of 1 x 10 in its upper edge, and two
    holes of 8 and 1.2 mm."""
    scale = 1 if unit == 4 else 1 / 25.4
    doc = drawing(insunits=unit)
    corners = [(0, 0), (100, 0), (100, 50), (50.5, 50), (50.5, 40), (49.5, 40), (49.5, 50), (0, 50)]
    space = doc.modelspace()
    space.add_lwpolyline([(scale * (200 + x), scale * (300 + y)) for x, y in corners], close=True)
    for x, y, diameter in ((220, 320, 20), (240, 320, 1.2)):
        space.add_circle((scale * x, scale * y), scale * diameter / 2)
    return save(doc, folder, "slit.dxf")


SLIT = ROW | {"file": "slit.dxf"}


@pytest.mark.parametrize("in_path", [False, True])
@pytest.mark.parametrize("unit", [4, 1])
def test_what_is_finer_than_the_kerf_is_told_and_refused(
    in_path: bool, unit: int, tmp_path: Path
) -> None:
    slit(tmp_path, unit)
    cut = Cutting(kerf_in_path=in_path)
    read, (fault,) = read_extras([SLIT], tmp_path, cutting=cut)
    assert read == []
    assert (fault.key, fault.value) == ("extra[0].file", "slit.dxf")
    place = "(250, 344.91)" if unit == 4 else "(9.84252, 13.5791)"
    assert "nothing narrower than the kerf of 1.7 mm; bracket has a hollow 1.00 mm wide at " in (
        fault.allowed
    )
    assert place in fault.allowed
    assert "draw it 1.8 mm wide" in fault.advice
    assert "finer_than_kerf = true: it is not cut, its steel stays" in fault.advice


def test_a_narrower_kerf_follows_it(tmp_path: Path) -> None:
    slit(tmp_path)
    read, faults = read_extras([SLIT], tmp_path, cutting=Cutting(process="laser", kerf_mm=0.3))
    assert faults == []
    assert len(segments(read[0][1].outline)) == 8


def test_it_may_be_allowed_and_then_what_is_lost_is_told(tmp_path: Path) -> None:
    slit(tmp_path)
    rows = [SLIT | {"finer_than_kerf": True}]
    read, faults = read_extras(rows, tmp_path, cutting=Cutting())
    assert faults == []
    (part,) = extra_parts(read, "S235")
    assert part.blank.area_mm2 == pytest.approx(5000 - math.pi * (100 + 0.36))
    assert len(part.blank.holes) == 2  # the small one is to be drilled: no matter of the kerf
    assert part.warnings == (
        "slit.dxf: a hollow 1.00 mm wide at (250, 344.91), narrower than the kerf of 1.7 mm: it "
        "is not cut, its steel stays",
    )


def test_a_small_hole_that_is_cut_all_the_same_is_held_against_the_kerf(tmp_path: Path) -> None:
    slit(tmp_path)
    cut = Cutting(least_hole_mm=0.0)
    _, faults = read_extras([SLIT], tmp_path, cutting=cut)
    assert any("a hole 1.20 mm wide at (240, 320)" in fault.allowed for fault in faults)
    read, _ = read_extras([SLIT | {"finer_than_kerf": True}], tmp_path, cutting=cut)
    assert len(read[0][1].holes) == 1


def test_a_thin_web_is_told_and_may_stay(tmp_path: Path) -> None:
    doc = drawing()
    doc.modelspace().add_lwpolyline([(0, 0), (100, 0), (100, 50), (0, 50)], close=True)
    for x in (30, 50.6):
        doc.modelspace().add_circle((x, 25), 10)
    save(doc, tmp_path, "slit.dxf")
    _, (fault,) = read_extras([SLIT], tmp_path, cutting=Cutting())
    assert "no web thinner than 1 mm between two cuts; bracket has a web 0.60 mm" in fault.allowed
    assert "at (40.3, 25)" in fault.allowed
    assert "draw it 1.1 mm wide" in fault.advice
    rows = [SLIT | {"finer_than_kerf": True}]
    ((_, drawn),), faults = read_extras(rows, tmp_path, cutting=Cutting())
    assert faults == []
    assert len(drawn.holes) == 2
    assert drawn.notes == (
        "a web 0.60 mm wide at (40.3, 25), narrower than the 1 mm that stand: it stays as drawn "
        "and may burn or break away",
    )


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("join_tolerance_mm", 0.0),
        ("join_tolerance_mm", 1.01),
        ("join_tolerance_mm", "0.05"),
        ("finer_than_kerf", 1),
    ],
)
def test_keys_of_the_drawing_have_bounds(key: str, value: object, folder: Path) -> None:
    _, (fault,) = read_extras([ROW | {key: value}], folder)
    assert fault.key == f"extra[0].{key}"
    assert ("0.001 up to 1 mm" in fault.allowed) == (key == "join_tolerance_mm")


def test_the_joint_is_as_wide_as_the_key_says(tmp_path: Path) -> None:
    doc = drawing()
    for a, b in (((0, 0), (50, 0)), ((50, 0.3), (25, 40)), ((25, 40), (0, 0))):
        doc.modelspace().add_line(a, b)
    save(doc, tmp_path, "slit.dxf")
    _, (fault,) = read_extras([SLIT], tmp_path)
    assert "within 0.05 mm" in fault.allowed
    assert read_extras([SLIT | {"join_tolerance_mm": 0.4}], tmp_path)[1] == []


def test_so_many_places_finer_than_the_kerf_that_reading_would_not_end(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The drawing that has one too many is refused, and those behind it are not looked at."""
    monkeypatch.setattr("platewheel.nesting.drawings.extra.MOST_FINE", 5)
    slits = [(x + d, y) for x in (60, 40, 20) for d, y in ((1, 50), (1, 30), (0, 30), (0, 50))]
    doc = ezdxf.new(units=4)
    ring = [(0, 0), (80, 0), (80, 50), *slits, (0, 50)]
    doc.modelspace().add_lwpolyline(ring, close=True)
    doc.saveas(tmp_path / "fine.dxf")
    one = {"file": "fine.dxf", "thickness_mm": 6, "count": 1, "finer_than_kerf": True}
    rows = [one | {"name": name} for name in ("a", "b", "c")]
    read, faults = read_extras(rows, tmp_path, cutting=Cutting(kerf_mm=1.7))
    assert [extra.name for extra, _ in read] == ["a"]
    assert [(fault.key, fault.value) for fault in faults] == [
        ("extra[1].file", "fine.dxf"),
        ("extra[2].file", "fine.dxf"),
    ]
    most = "at most 5 places finer than the kerf in all drawings; "
    assert faults[0].allowed == f"{most}b: it has 3, those before it 3"
    assert faults[1].allowed == f"{most}c: there are 6 before it, and it is not looked at"
    assert "several jobs" in faults[0].advice
