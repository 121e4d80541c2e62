"""What the writer makes stands its proof; what it tells the user is passed on."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from platewheel.nesting.files.asked import asked_of
from platewheel.nesting.files.write_dxf import write_sheet_dxf
from platewheel.nesting.offcuts.remnant import rectangle
from platewheel.nesting.proof.asked import Told
from platewheel.nesting.proof.cuts import prove_cuts
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, polygon
from tests.nesting.plates import SLOT, cutting, disc, offcut, plate, sector, strip

RING = disc(160.0, "ring", holes=(Circle((0.0, 0.0), 60.0),))
PARTS = (
    Placement(disc(120.0, "slotted", holes=(SLOT,)), 80.0, 80.0, 20.0),
    Placement(sector(60.0, 80.0, 250.0), 240.0, 190.0, 40.0),
    Placement(strip(180.0, 30.0), 200.0, 40.0, 0.0),
    Placement(RING, 400.0, 190.0, 0.0),
    Placement(disc(50.0, "guest"), 400.0, 190.0, 0.0),
)
LAYOUT = Layout(plate(500.0, 300.0), PARTS)
WANTED = [
    {"lead_in_mm": 4.0},
    {"lead_in_mm": 4.0, "lead_out_mm": 3.0, "lead_shape": "arc"},
    {"lead_in_mm": 4.0, "lead_out_mm": 3.0, "tab_count": 2},
    {"lead_in_mm": 6.0, "lead_shape": "arc", "tab_count": 3},
]


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("in_path", [False, True])
@pytest.mark.parametrize("more", WANTED, ids=str)
def test_a_written_file_stands_its_proof(
    tmp_path: Path, version: str, in_path: bool, more: dict
) -> None:
    cut = cutting(dxf_version=version, kerf_in_path=in_path, text_marks=False, **more)
    assert write_sheet_dxf(LAYOUT, cut, tmp_path / "s.dxf") == ()
    assert prove_cuts(tmp_path / "s.dxf", asked_of(LAYOUT, cut)) == []


def test_a_plate_of_any_outline_with_holes_is_asked_as_it_is(tmp_path: Path) -> None:
    edge = [(0.0, 0.0), (300.0, 0.0), (300.0, 150.0), (150.0, 150.0), (150.0, 300.0), (0.0, 300.0)]
    sheet = offcut("rest", edge, (((60.0, 200.0), (100.0, 200.0), (100.0, 260.0)),))
    layout = Layout(sheet, (Placement(disc(100.0), 80.0, 80.0, 0.0),))
    cut = cutting(lead_in_mm=4.0, text_marks=False)
    write_sheet_dxf(layout, cut, tmp_path / "s.dxf")
    assert prove_cuts(tmp_path / "s.dxf", asked_of(layout, cut)) == []
    assert prove_cuts(tmp_path / "s.dxf", replace(asked_of(layout, cut), plate_holes=())) != []


def test_what_the_user_is_told_is_taken_from_the_warnings(tmp_path: Path) -> None:
    """An outline without its lead is told and still no sound file: parts are laid with room."""
    hemmed = Layout(plate(104.0, 54.0), (Placement(strip(100.0, 50.0), 2.0, 2.0, 0.0),))
    led = cutting(lead_in_mm=5.0)
    assert asked_of(hemmed, led).told == Told()
    write_sheet_dxf(hemmed, led, tmp_path / "s.dxf")
    (fault,) = prove_cuts(tmp_path / "s.dxf", asked_of(hemmed, led))
    assert "lead-in" in fault
    hemmed = Layout(plate(120.0, 70.0), (Placement(strip(100.0, 50.0), 10.0, 10.0, 0.0),))
    assert asked_of(hemmed, led).told == Told()
    both = cutting(lead_in_mm=5.0, lead_out_mm=20.0)  # without the lead-out alone
    assert asked_of(hemmed, both).told == Told()
    small = Layout(plate(500.0, 300.0), (Placement(disc(60.0, "dot"), 60.0, 60.0, 0.0), *PARTS[1:]))
    tabbed = asked_of(small, cutting(tab_count=12, tab_width_mm=5.0))
    assert tabbed.told.fewer_tabs >= {p.number for p in tabbed.parts if p.name == "dot"}
    far = cutting(lead_in_mm=8.0, pierce_clear_mm=7.0)  # in a hole of radius 6
    narrow = Placement(disc(60.0, "nut", holes=(Circle((0.0, 0.0), 6.0),)), 60.0, 60.0, 0.0)
    wide = Placement(disc(60.0, "nut-wide"), 140.0, 140.0, 0.0)
    nut = asked_of(Layout(plate(200.0, 200.0), (narrow, wide)), far)
    told = frozenset(part.number for part in nut.parts if part.name == "nut")
    assert nut.told == Told(near_pierce=told)
    wide = Placement(disc(60.0, "nut"), 140.0, 140.0, 0.0)
    narrow = replace(narrow, blank=replace(narrow.blank, name="nut-wide"))
    nut = asked_of(Layout(plate(200.0, 200.0), (narrow, wide)), far)
    told = frozenset(part.number for part in nut.parts if part.name == "nut-wide")
    assert nut.told == Told(near_pierce=told)


@pytest.mark.parametrize("count", [1, 3])
def test_holes_without_a_lead_are_told_however_many_a_part_has(count: int, tmp_path: Path) -> None:
    """Zigzags 4 mm wide, in which no line of 4 mm goes inwards."""
    low = [(4.0 * i, 8.0 * (i % 2)) for i in range(12)]
    zigzag = [*low, *((x, y + 4.0) for x, y in reversed(low))]
    holes = tuple(polygon([(x + 20, y + 20 + 25 * k) for x, y in zigzag]) for k in range(count))
    blank = Blank("saw", "extra", 6.0, polygon([(0, 0), (90, 0), (90, 110), (0, 110)]), holes)
    layout = Layout(plate(200.0, 200.0), (Placement(blank, 30.0, 30.0, 0.0),))
    led = cutting(lead_in_mm=4.0, text_marks=False)
    (line,) = write_sheet_dxf(layout, led, tmp_path / "s.dxf")
    assert line.endswith(("a hole of " if count == 1 else "3 holes of ") + "saw 1 at (30, 30)")
    asked = asked_of(layout, led)
    assert asked.told.no_lead == {1}
    assert prove_cuts(tmp_path / "s.dxf", asked) == []


def test_only_what_is_kept_of_the_layout_is_asked() -> None:
    other = Layout(plate(300.0, 300.0), PARTS[:1])
    kept = [rectangle(other, (150.0, 0.0, 300.0, 300.0))]
    assert asked_of(LAYOUT, cutting(), kept).kept == ()
    assert len(asked_of(other, cutting(), kept).kept) == 1
