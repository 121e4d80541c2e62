"""Cutting files read back by ezdxf: kinds, layers, order, direction, areas, kerf."""

from __future__ import annotations

import itertools
import math
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest

from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.files.write_dxf import write_blank_dxf, write_sheet_dxf
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.small_holes import without_small_holes
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, area_mm2, length_mm
from platewheel.parts.wheel.flange import flange_blank
from platewheel.parts.wheel.hub_disc import disc_blank, vent_centres
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank
from tests.nesting.plates import assert_sound, cutting, disc, offcut, plate, strip

CUTS = ("cut-outline", "cut-hole")
# layers of a cutting file, the words of the format for versions and units
LAYERS = {"cut-outline", "cut-hole", "lead", "mark", "text", "sheet-edge", "offcut", "skeleton"}
R2000, MILLIMETRES = "AC1015", 4  # source: DXF reference, $ACADVER and $INSUNITS


def wheel(**more: Any) -> WheelSpec:
    about: dict[str, Any] = {
        "tread_diameter_mm": 200.0,
        "tread_width_mm": 50.0,
        "tread_thickness_mm": 6.0,
        "flange_depth_mm": 14.0,
        "flange_angle_deg": 70.0,
        "flange_thickness_mm": 6.0,
        "flange_segments": 2,
        "disc_thickness_mm": 6.0,
        "hub_bore_mm": 30.0,
        "vent_circle_mm": 150.0,
    }
    return WheelSpec(**(about | more))


def blanks(spec: WheelSpec) -> list[Blank]:
    tread = tread_blank(spec)
    assert tread is not None
    return [tread, disc_blank(spec, "field"), flange_blank(spec)]


ALL = {
    **{f"plain {b.name}": b for b in blanks(wheel())},
    **{f"tapered {b.name}": b for b in blanks(wheel(tread_taper_1_in=20.0, flange_segments=1))},
    "flat washer": flange_blank(wheel(flange_angle_deg=90.0, flange_segments=1, seam_gap_mm=0.0)),
}


def cuts(space: Any, *layers: str) -> list[Any]:
    return [entity for entity in space if entity.dxf.layer in (layers or CUTS)]


def corners(entity: Any) -> list[tuple[float, float, float]]:
    return [tuple(point) for point in entity.get_points("xyb")]


def signed_area(entity: Any) -> float:
    """Shoelace and circular segments from points and bulges. Source: DXF reference, code 42:
    the bulge is the tangent of a quarter of the arc's angle, negative clockwise."""
    if entity.dxftype() == "CIRCLE":
        return math.pi * entity.dxf.radius**2
    points = corners(entity)
    total = 0.0
    for (ax, ay, bulge), (bx, by, _) in zip(points, [*points[1:], points[0]], strict=True):
        total += (ax * by - bx * ay) / 2
        if bulge:
            turn = 4 * math.atan(bulge)
            radius = math.dist((ax, ay), (bx, by)) / 2 / math.sin(turn / 2)
            total += radius**2 * (turn - math.sin(turn)) / 2
    return total


def middle(entity: Any) -> tuple[float, float]:
    """Centre of a circle, or of the corners of a polyline: of two half turns its centre too."""
    if entity.dxftype() == "CIRCLE":
        return entity.dxf.center.x, entity.dxf.center.y
    points = corners(entity)
    return sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points)


def texts(space: Any) -> str:
    return " | ".join(entity.dxf.text for entity in space.query("TEXT"))


def read(path: Path, *, sheet: bool = False) -> Any:
    """Modelspace of a file that is sound, in the version and unit promised."""
    drawing = ezdxf.readfile(path)
    audit = drawing.audit()
    assert not audit.errors
    assert not audit.fixes
    assert drawing.dxfversion == R2000
    assert drawing.header["$INSUNITS"] == MILLIMETRES
    assert {layer.dxf.name for layer in drawing.layers} >= LAYERS
    space = drawing.modelspace()
    for entity in space:
        kind, layer = entity.dxftype(), entity.dxf.layer
        assert layer in LAYERS
        if layer in (*CUTS, "sheet-edge"):
            assert (kind == "CIRCLE" and not sheet) or (kind == "LWPOLYLINE" and entity.closed)
        elif kind == "LWPOLYLINE":  # a stroke of words
            assert (layer, entity.closed, entity.has_arc) == ("mark", False, False)
        else:
            assert kind in {"LINE", "ARC", "POINT", "TEXT"}
            assert (kind == "TEXT") == (layer == "text")
            assert layer != "lead" or kind == "LINE"
    return space


@pytest.mark.parametrize("name", ALL)
def test_blank_is_read_back_as_it_was(tmp_path: Path, name: str) -> None:
    blank, path = ALL[name], tmp_path / "blank.dxf"
    write_blank_dxf(blank, path)
    space = read(path)
    found = cuts(space)
    assert [e.dxf.layer for e in found] == ["cut-hole"] * len(blank.holes) + ["cut-outline"]
    *holes, edge = found
    assert abs(signed_area(edge)) == pytest.approx(area_mm2(blank.outline), rel=1e-9)
    for entity, hole in zip(holes, blank.holes, strict=True):
        assert isinstance(hole, Circle)
        assert middle(entity) == pytest.approx(hole.centre, abs=1e-9)
        assert entity.dxf.radius == pytest.approx(hole.radius_mm)
    assert blank.name in texts(space)
    assert "no kerf" in texts(space)
    if edge.dxftype() == "LWPOLYLINE":
        assert signed_area(edge) < 0  # clockwise: the part lies right of the torch
        assert max(abs(bulge) for _, _, bulge in corners(edge)) <= 1 + 1e-9  # half a turn


def test_an_arc_stays_an_arc(tmp_path: Path) -> None:
    """A flange segment of less than half a turn: four corners, two bulges, radii as designed."""
    blank = ALL["plain flange"]
    write_blank_dxf(blank, tmp_path / "b.dxf")
    (edge,) = cuts(read(tmp_path / "b.dxf"))
    points = corners(edge)
    assert len(points) == 4
    radii = [math.hypot(x, y) for x, y, _ in points]
    sizes = blank.sizes
    assert sorted(radii) == pytest.approx(
        [sizes["inner_radius_mm"]] * 2 + [sizes["outer_radius_mm"]] * 2
    )
    bulges = sorted(bulge for _, _, bulge in points)
    quarter = math.tan(math.radians(sizes["sweep_deg"]) / 4)
    assert bulges == pytest.approx([-quarter, 0, 0, quarter])


SHEET = plate(700.0, 420.0)
L_PLATE = offcut(
    "corner-1",
    [(0.0, 0.0), (800.0, 0.0), (800.0, 210.0), (450.0, 210.0), (450.0, 500.0), (0.0, 500.0)],
    (((700.0, 100.0), (720.0, 100.0), (720.0, 120.0)),),
)


@pytest.fixture(scope="module", params=[SHEET, L_PLATE], ids=["sheet", "offcut"])
def layout(request: pytest.FixtureRequest) -> Layout:
    """One plate of real blanks."""
    tread, hub, flange = blanks(wheel())
    places = (
        Placement(tread, 20.0, 12.0, 0.0),
        Placement(hub, 115.0, 170.0, 0.0),
        Placement(hub, 315.0, 170.0, 30.0),
        Placement(flange, 130.0, 275.0, 0.0),
        Placement(flange, 540.0, 72.0, 0.0),
    )
    done = Layout(request.param, places)
    assert_sound(done, 6.0, 10.0)
    return done


def groups(space: Any) -> list[list[Any]]:
    """Cuts in file order, each run of holes with the outline that ends it."""
    runs: list[list[Any]] = [[]]
    for entity in cuts(space):
        runs[-1].append(entity)
        if entity.dxf.layer == "cut-outline":
            runs.append([])
    assert runs.pop() == []  # nothing after the last outline
    return runs


@pytest.mark.parametrize("lead_in_mm", [0.0, 4.0])
@pytest.mark.parametrize("kerf_in_path", [False, True])
def test_sheet_is_read_back_as_it_was(
    tmp_path: Path, layout: Layout, kerf_in_path: bool, lead_in_mm: float
) -> None:
    cut = cutting(kerf_mm=1.5, kerf_in_path=kerf_in_path, lead_in_mm=lead_in_mm)
    write_sheet_dxf(layout, cut, tmp_path / "s.dxf")
    space = read(tmp_path / "s.dxf", sheet=True)
    half = 0.75 if kerf_in_path else 0.0
    runs = groups(space)
    assert len(runs) == len(layout.placements)
    placed = [part.placement for part in sheet_cuts(layout, cut).parts]
    for run, placement in zip(runs, placed, strict=True):
        *holes, edge = run
        # Steiner's formula for the area within a parallel curve; a hole's runs inside it
        part = placement.blank.outline
        wide = area_mm2(part) + length_mm(part) * half + math.pi * half**2
        assert abs(signed_area(edge)) == pytest.approx(wide, rel=1e-7)
        if edge.dxftype() == "LWPOLYLINE":
            assert signed_area(edge) < 0
        for entity, hole in zip(holes, placement.holes, strict=True):
            assert isinstance(hole, Circle)
            assert middle(entity) == pytest.approx(hole.centre, abs=1e-6)
            narrow = math.pi * (hole.radius_mm - half) ** 2
            assert signed_area(entity) == pytest.approx(narrow, rel=1e-9)  # counter-clockwise
    said = texts(space)
    assert ("lines are the torch path: 1.5 mm kerf" in said) == kerf_in_path
    assert ("lines are the finished parts" in said) == (not kerf_in_path)
    assert layout.sheet.name in said


def test_each_lead_ends_where_the_next_cut_begins(tmp_path: Path, layout: Layout) -> None:
    cut = cutting(kerf_mm=1.5, kerf_in_path=True, lead_in_mm=4.0)
    told = write_sheet_dxf(layout, cut, tmp_path / "s.dxf")
    followers = [e for e in read(tmp_path / "s.dxf", sheet=True) if e.dxf.layer in (*CUTS, "lead")]
    leads = 0
    for lead, after in itertools.pairwise(followers):
        if lead.dxf.layer == "lead":
            leads += 1
            assert after.dxf.layer in CUTS
            assert corners(after)[0][:2] == pytest.approx(
                (lead.dxf.end.x, lead.dxf.end.y), abs=1e-6
            )
    pierces = sum(1 + len(p.holes) for p in layout.placements)
    assert leads == pierces
    assert told == ()


def test_a_part_without_room_for_its_lead_is_told(tmp_path: Path) -> None:
    hemmed = Layout(plate(104.0, 54.0), (Placement(strip(100.0, 50.0), 2.0, 2.0, 0.0),))
    long, path = cutting(lead_in_mm=20.0), tmp_path / "s.dxf"
    assert write_sheet_dxf(hemmed, long, path) == (
        "no room for a lead-in of 20 mm: tread 1 at (2, 2)",
    )
    assert not cuts(read(path, sheet=True), "lead")
    wide = Layout(plate(120.0, 70.0), (Placement(strip(100.0, 50.0), 10.0, 10.0, 0.0),))
    assert write_sheet_dxf(wide, cutting(lead_in_mm=5.0), path) == ()
    assert len(cuts(read(path, sheet=True), "lead")) == 1


def test_sheet_edge_is_the_plate(tmp_path: Path, layout: Layout) -> None:
    write_sheet_dxf(layout, cutting(), tmp_path / "s.dxf")
    edge, *holes = cuts(read(tmp_path / "s.dxf", sheet=True), "sheet-edge")
    assert [p[:2] for p in corners(edge)] == list(layout.sheet.corners)
    assert [[p[:2] for p in corners(h)] for h in holes] == list(map(list, layout.sheet.holes))


def test_how_many_to_cut_is_said(tmp_path: Path) -> None:
    many = Layout(SHEET, (Placement(disc(100.0), 100.0, 100.0, 0.0),), repeat=17)
    write_sheet_dxf(many, cutting(), tmp_path / "s.dxf")
    assert "cut 17 off" in texts(read(tmp_path / "s.dxf", sheet=True))
    assert "6 mm" in texts(read(tmp_path / "s.dxf", sheet=True))


def test_centres_in_holes_and_beside_their_part_are_not_punched(
    tmp_path: Path, layout: Layout
) -> None:
    """The apex of a flange, hub bore and vents are marks of their blanks; on a sheet they lie in
    scrap, or in a neighbour."""
    blank = ALL["plain disc"]
    write_blank_dxf(blank, tmp_path / "b.dxf")
    assert len(read(tmp_path / "b.dxf").query("POINT")) == 3  # its own drawing keeps them
    write_sheet_dxf(layout, cutting(), tmp_path / "s.dxf")
    space = read(tmp_path / "s.dxf", sheet=True)
    assert not space.query("POINT")
    hubs = [e for e in space.query("LINE") if e.dxf.layer == "mark"]
    for line in hubs:  # nor the cross in the hub hole
        for disc_at in (p for p in layout.placements if p.blank.kind == "disc"):
            assert math.dist(line.dxf.start.vec2, (disc_at.x_mm, disc_at.y_mm)) > 15.0


@pytest.mark.parametrize("version", ["R2000", "R12"])
def test_centres_to_drill_stay(tmp_path: Path, version: str) -> None:
    """Vents of 7 mm below a least hole of 8 mm are not cut: their centres are punched."""
    cut = cutting(least_hole_mm=8.0, dxf_version=version)
    spec = wheel(vent_diameter_mm=7.0)
    blank = without_small_holes(disc_blank(spec, "field"), cut)
    assert len(blank.holes) == 1
    write_sheet_dxf(Layout(SHEET, (Placement(blank, 200.0, 150.0, 0.0),)), cut, tmp_path / "s.dxf")
    points = ezdxf.readfile(tmp_path / "s.dxf").modelspace().query("POINT")
    found = sorted((e.dxf.location.x, e.dxf.location.y) for e in points)
    wanted = sorted((200.0 + x, 150.0 + y) for x, y in vent_centres(spec))
    assert np.array(found) == pytest.approx(np.array(wanted))


def test_marks_move_and_turn_with_their_part(tmp_path: Path) -> None:
    blank = ALL["plain disc"]
    turned = Layout(SHEET, (Placement(blank, 200.0, 150.0, 90.0),))
    write_sheet_dxf(turned, cutting(), tmp_path / "s.dxf")
    space = read(tmp_path / "s.dxf", sheet=True)
    other = blank.marks[-1]
    (d_text,) = (t for t in space.query("TEXT") if t.dxf.text == other.text)
    x, y = other.at
    assert d_text.get_placement()[1].vec2.isclose((200 - y, 150 + x), abs_tol=1e-6)
    assert d_text.dxf.rotation == pytest.approx(90)
    assert d_text.dxf.height == pytest.approx(other.height_mm)


def test_arc_marks_are_where_the_blank_has_them(tmp_path: Path) -> None:
    """Rolling arrow of a tapered strip: an arc about the strip's own centre, at mid width."""
    blank = ALL["tapered tread"]
    write_blank_dxf(blank, tmp_path / "b.dxf")
    (arc,) = read(tmp_path / "b.dxf").query("ARC")
    inner, outer = blank.sizes["inner_radius_mm"], blank.sizes["outer_radius_mm"]
    assert arc.dxf.radius == pytest.approx((inner + outer) / 2)
    assert (arc.dxf.center.x, arc.dxf.center.y) == pytest.approx((0, -inner))
    assert arc.dxf.end_angle - arc.dxf.start_angle == pytest.approx(0.4 * blank.sizes["sweep_deg"])
    assert (arc.dxf.end_angle + arc.dxf.start_angle) / 2 == pytest.approx(90)
