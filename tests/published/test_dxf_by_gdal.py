"""Cutting files as another reader sees them: areas, layers and places.

Source: the DXF reader of GDAL/OGR (through pyogrio), which turns bulges and circles into fine
chords by its own code.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

import pyogrio
import pytest
import shapely

from platewheel.nesting.files.write_dxf import write_blank_dxf, write_sheet_dxf
from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Circle, area_mm2, bounds, moved, polygon

STEP_DEG = 0.05  # of its chords: areas low by (0.05 deg)^2 / 6 = 1.3e-7


@pytest.fixture(scope="module", autouse=True)
def _fine_chords() -> Iterator[None]:
    before = pyogrio.get_gdal_config_option("OGR_ARC_STEPSIZE")
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": STEP_DEG})
    yield
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": before})


def read(path: Path) -> list[tuple[str, shapely.Geometry]]:
    """Layer and geometry of every entity, in file order."""
    meta, _, geometry, columns = pyogrio.raw.read(path)
    layers = columns[list(meta["fields"]).index("Layer")]
    return list(zip(layers, shapely.from_wkb(geometry), strict=True))


def polygons(found: list[tuple[str, shapely.Geometry]], layer: str) -> list[shapely.Polygon]:
    shapes = [shape for name, shape in found if name == layer]
    for shape in shapes:  # one closed line for each cut
        assert shape.geom_type in ("LineString", "Polygon")
        ring = shape.exterior if shape.geom_type == "Polygon" else shape
        assert shapely.get_point(ring, 0).distance(shapely.get_point(ring, -1)) < 1e-6
    return [s if s.geom_type == "Polygon" else shapely.Polygon(s) for s in shapes]


VENTS = (Circle((60.0, 0.0), 8.0), Circle((-60.0, 0.0), 8.0), Circle((0.0, 0.0), 17.5))
SECTOR_170 = moved(annular_sector(100.0, 118.0, 170.0), 0.0, 0.0, 0.0)
BLANKS = {
    "disc": Blank("disc", "disc", 6.0, Circle((0.0, 0.0), 88.0), VENTS),
    "tread": Blank(
        "tread", "tread", 6.0, polygon([(0.0, 0.0), (600.0, 0.0), (600.0, 50.0), (0.0, 50.0)])
    ),
    "flange": Blank("flange", "flange", 6.0, SECTOR_170),
    "cone": Blank("cone", "flange", 6.0, annular_sector(100.0, 118.0, 338.0)),
    "tapered": Blank(
        "tapered", "tread", 6.0, moved(annular_sector(1980.0, 2030.0, 17.0), 0.0, -1980.0, 81.5)
    ),
    "washer": Blank(
        "washer", "flange", 6.0, Circle((0.0, 0.0), 118.0), (Circle((0.0, 0.0), 100.0),)
    ),
}


@pytest.mark.parametrize("name", BLANKS)
def test_areas_and_places_of_a_blank(tmp_path: Path, name: str) -> None:
    blank = BLANKS[name]
    write_blank_dxf(blank, tmp_path / "b.dxf")
    found = read(tmp_path / "b.dxf")
    (edge,) = polygons(found, "cut-outline")
    assert edge.area == pytest.approx(area_mm2(blank.outline), rel=1e-5)
    assert edge.bounds == pytest.approx(bounds(blank.outline), abs=1e-3)
    holes = polygons(found, "cut-hole")
    assert len(holes) == len(blank.holes)
    for shape, hole in zip(holes, blank.holes, strict=True):
        assert isinstance(hole, Circle)
        assert shape.area == pytest.approx(math.pi * hole.radius_mm**2, rel=1e-5)
        assert shape.centroid.coords[0] == pytest.approx(hole.centre, abs=1e-6)
    net = edge.area - sum(shape.area for shape in holes)
    assert net == pytest.approx(blank.area_mm2, rel=1e-5)


@pytest.mark.parametrize("lead_in_mm", [0.0, 4.0])
def test_areas_and_places_on_a_sheet(tmp_path: Path, lead_in_mm: float) -> None:
    """Each blank once or twice, turned; kerf not in the path."""
    sheet = Sheet("1000 x 2000", 6.0, 2000.0, 1000.0, None, 0.0)
    placements = (
        Placement(BLANKS["disc"], 120.0, 120.0, 0.0),
        Placement(BLANKS["disc"], 320.0, 120.0, 0.0),
        Placement(BLANKS["tread"], 900.0, 20.0, 90.0),
        Placement(BLANKS["flange"], 200.0, 420.0, 210.0),
        Placement(BLANKS["cone"], 650.0, 450.0, 60.0),
        Placement(BLANKS["tapered"], 1300.0, 700.0, 180.0),
        Placement(BLANKS["washer"], 1300.0, 250.0, 0.0),
    )
    cut = Cutting(lead_in_mm=lead_in_mm)
    assert write_sheet_dxf(Layout(sheet, placements), cut, tmp_path / "s.dxf") == ()
    found = read(tmp_path / "s.dxf")
    names = {"cut-outline", "cut-hole", "mark", "sheet-edge", "text"} | (
        {"lead"} if lead_in_mm else set()
    )
    assert {layer for layer, _ in found} == names
    (edge,) = polygons(found, "sheet-edge")
    assert edge.area == pytest.approx(2e6)

    outlines, holes = polygons(found, "cut-outline"), polygons(found, "cut-hole")
    assert len(outlines) == len(placements)
    assert len(holes) == 3 + 3 + 1
    for placement in placements:
        box = bounds(placement.outline)
        near = [o for o in outlines if o.bounds == pytest.approx(box, abs=2e-3)]
        assert len(near) == 1
        assert near[0].area == pytest.approx(area_mm2(placement.blank.outline), rel=1e-5)
    gross = sum(shape.area for shape in outlines)
    net = gross - sum(shape.area for shape in holes)
    assert net == pytest.approx(sum(p.blank.area_mm2 for p in placements), rel=1e-5)


def test_holes_come_before_the_outline_of_their_part(tmp_path: Path) -> None:
    """In the order that this reader hands them out, which is the file's."""
    placements = tuple(Placement(BLANKS["disc"], 120.0 + 200 * i, 120.0, 0.0) for i in range(3))
    sheet = Sheet("300 x 700", 6.0, 700.0, 300.0, None, 0.0)
    write_sheet_dxf(Layout(sheet, placements), Cutting(), tmp_path / "s.dxf")
    order = [layer for layer, _ in read(tmp_path / "s.dxf") if layer.startswith("cut-")]
    assert order == ["cut-hole", "cut-hole", "cut-hole", "cut-outline"] * 3
