"""Files in inches hold the same drawing: read back and multiplied by 25.4, it is the one in mm."""

from __future__ import annotations

from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import ezdxf
import pytest
import shapely
from ezdxf import bbox

from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.nesting.drawings.read import read_outline
from platewheel.nesting.files.file_units import read_in_mm
from platewheel.nesting.files.write_dxf import write_blank_dxf, write_sheet_dxf
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank, MarkPoint
from platewheel.parts.geometry.outline import Arc, Circle, Line, area_mm2, bounds
from tests.nesting.files.test_sheet_file import FULL, LAYOUT, VERSIONS, facts, texts
from tests.nesting.plates import NAMED, cutting, disc, plate, sector

INCH = 25.4  # mm, exactly: international yard agreement of 1959
MARKED = Blank(
    "marked",
    "disc",
    6.0,
    Circle((10.0, -5.0), 60.0),
    (Circle((0.0, 0.0), 12.0),),
    (
        MarkPoint((20.0, 20.0)),
        Line((-30.0, 0.0), (-20.0, 10.0)),
        Arc((0.0, 0.0), 30.0, 100.0, -70.0),
        *NAMED.marks,
    ),
)


def numbers(path: Path, factor: float) -> list[tuple[str, str, list[float]]]:
    """Every entity with its lengths times the factor; bulges, turns and flags as they stand."""
    found = []
    for kind, layer, values in facts(path):
        scaled = [value * factor for value in values]
        if kind == "POLYLINE":
            scaled[0], scaled[3::3] = values[0], values[3::3]
        elif kind == "TEXT":
            scaled[3] = values[3]
        found.append((kind, layer, scaled))
    return found


def assert_same(
    inches: list[tuple[str, str, list[float]]], mm: list[tuple[str, str, list[float]]]
) -> None:
    assert [a[:2] for a in inches] == [b[:2] for b in mm]
    for a, b in zip(inches, mm, strict=True):
        assert a[2] == pytest.approx(b[2], abs=1e-6, rel=0)


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("more", [{}, FULL], ids=["plain", "full"])
def test_a_sheet_in_inches_is_the_sheet_in_mm(tmp_path: Path, version: str, more: dict) -> None:
    for units in ("mm", "in"):
        cut = cutting(dxf_version=version, file_units=units, **more)
        write_sheet_dxf(LAYOUT, cut, tmp_path / units)
    inches, mm = tmp_path / "in", tmp_path / "mm"
    words = [e for e in facts(inches) if e[1] == "text"]
    assert len(words) == len([e for e in facts(mm) if e[1] == "text"]) + (version == "R2000")
    said = texts(inches)
    assert said.count("all lines in inches") == 1
    assert "all sizes in mm" not in said
    one, two = numbers(inches, INCH), numbers(mm, 1.0)
    lines = [[e for e in all_of if e[1] != "text"] for all_of in (one, two)]
    assert_same(*lines)
    letters = [[e for e in all_of if e[1] == "text"] for all_of in (one, two)]
    assert_same(letters[0][: len(letters[1])], letters[1])  # places and heights


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("blank", [MARKED, sector(150.0, 165.0, 110.0), disc(80.0)])
def test_a_blank_in_inches_is_read_back_as_the_part(
    tmp_path: Path, version: str, blank: Blank
) -> None:
    """By the reader of users' drawings too, which takes the unit from the file, or as told."""
    write_blank_dxf(blank, tmp_path / "b.dxf", version, "in")
    unit = "file" if version == "R2000" else "inch"
    found = read_outline(tmp_path / "b.dxf", unit)
    assert area_mm2(found.outline) == pytest.approx(area_mm2(blank.outline), rel=1e-9)
    x0, y0, x1, y1 = bounds(blank.outline)
    assert bounds(found.outline) == pytest.approx((0.0, 0.0, x1 - x0, y1 - y0), abs=1e-6)
    assert len(found.holes) == len(blank.holes)
    write_blank_dxf(blank, tmp_path / "mm.dxf", version)
    read_in_mm(tmp_path / "b.dxf").saveas(tmp_path / "back.dxf")
    back, mm = (
        [e for e in facts(tmp_path / name) if e[1] != "text"] for name in ("back.dxf", "mm.dxf")
    )
    assert_same(back, mm)


def test_the_header_names_the_unit_as_the_format_has_it(tmp_path: Path) -> None:
    """Source: DXF reference, header variables: $INSUNITS 1 inches, 4 mm; $MEASUREMENT 0 English,
    1 metric."""
    for units, code, measure in (("mm", 4, 1), ("in", 1, 0)):
        write_sheet_dxf(LAYOUT, cutting(file_units=units), tmp_path / "s.dxf")
        header = ezdxf.readfile(tmp_path / "s.dxf").header
        assert (header["$INSUNITS"], header["$MEASUREMENT"]) == (code, measure)
    write_sheet_dxf(LAYOUT, cutting(file_units="in", dxf_version="R12"), tmp_path / "s.dxf")
    assert "$INSUNITS" not in (tmp_path / "s.dxf").read_text()
    assert "all lines in inches" in texts(tmp_path / "s.dxf")


@pytest.mark.parametrize("version", VERSIONS)
def test_the_picture_of_a_file_in_inches_is_as_large(tmp_path: Path, version: str) -> None:
    boxes = []
    for units in ("mm", "in"):
        write_blank_dxf(MARKED, tmp_path / "b.dxf", version, units)
        root = ElementTree.fromstring(dxf_picture(tmp_path / "b.dxf", "t"))
        boxes.append([float(n) for n in root.attrib["viewBox"].split()])
    assert boxes[0][::2] == pytest.approx(boxes[1][::2], abs=0.11)  # below it a line more of words
    assert boxes[1][3] >= boxes[0][3]


def test_a_reader_that_shares_no_code_sees_areas_in_square_inches(tmp_path: Path) -> None:
    """GDAL's DXF reader, through pyogrio; its chords of 4 degrees lose (4 deg)^2 / 6 = 8e-4."""
    import pyogrio

    write_sheet_dxf(LAYOUT, cutting(file_units="in"), tmp_path / "s.dxf")
    _, _, shapes, fields = pyogrio.raw.read(tmp_path / "s.dxf")
    named = zip(fields[0], shapely.from_wkb(shapes), strict=True)
    areas = [shapely.Polygon(s).area for layer, s in named if layer == "cut-outline"]
    wanted = [area_mm2(p.blank.outline) / INCH**2 for p in LAYOUT.placements]
    assert sorted(areas) == pytest.approx(sorted(wanted), rel=1e-3)


@pytest.mark.parametrize(("units", "mm"), [("mm", 1.0), ("in", INCH)])
@pytest.mark.parametrize("version", VERSIONS)
def test_the_header_tells_the_box_about_all_lines(
    tmp_path: Path, version: Any, units: Any, mm: float
) -> None:
    """Source: DXF reference, header variables: $EXTMIN and $EXTMAX. The box is the library's."""
    layout = Layout(plate(300.0, 200.0), (Placement(disc(70.0), 60.0, 60.0, 0.0),))
    write_blank_dxf(disc(70.0), tmp_path / "blank.dxf", version, units)
    cut = cutting(dxf_version=version, file_units=units, lead_in_mm=4.0)
    write_sheet_dxf(layout, cut, tmp_path / "sheet.dxf")
    for name, wide in (("blank", 70.0), ("sheet", 300.0)):
        drawing = ezdxf.readfile(tmp_path / f"{name}.dxf")
        box = bbox.extents(e for e in drawing.modelspace() if e.dxftype() != "TEXT")
        assert tuple(drawing.header["$EXTMIN"]) == pytest.approx(tuple(box.extmin), abs=1e-3)
        assert tuple(drawing.header["$EXTMAX"]) == pytest.approx(tuple(box.extmax), abs=1e-3)
        assert box.size.x == pytest.approx(wide / mm, abs=1e-3)
