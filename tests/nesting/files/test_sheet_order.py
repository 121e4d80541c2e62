"""A sheet's file stands in the order in which it is made: edge, marks, cuts, grid, words."""

from __future__ import annotations

import itertools
import math
import re
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from platewheel.nesting.cutting.cut_order import held_by
from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.files.write_dxf import write_sheet_dxf
from platewheel.nesting.quick.greedy import greedy_plan
from platewheel.nesting.stock.layout import Layout, Placement, Wanted
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, bounds
from platewheel.parts.wheel.flange import flange_blank
from platewheel.parts.wheel.hub_disc import disc_blank
from platewheel.parts.wheel.spec import WheelSpec
from tests.nesting.files.test_write_dxf import signed_area, wheel
from tests.nesting.plates import assert_sound, cutting, disc, plate
from tests.places import ROOT

ORDER = ("sheet-edge", "mark", "cuts", "offcut", "skeleton", "text")
CUTS = ("lead", "cut-hole", "cut-outline")
FULL = {"lead_in_mm": 4.0, "lead_out_mm": 3.0, "tab_count": 2, "skeleton_piece_mm": 250.0}


@pytest.fixture(scope="module")
def layout() -> Layout:
    """Discs and flanges of a wheel, and washers with plugs in their holes."""
    spec: WheelSpec = wheel()
    washer = disc(220.0, "washer", holes=(Circle((0.0, 0.0), 80.0),))
    wanted = [
        Wanted(washer, 2),
        Wanted(disc_blank(spec, "field"), 3),
        Wanted(flange_blank(spec), 4),
    ]
    layouts, left = greedy_plan(wanted, [plate(900.0, 700.0)], cutting(14.0, 12.0), 1, (1, 1))
    assert not left
    assert len(layouts) == 1
    laid = layouts[0]
    plug = disc(100.0, "plug")
    guests = [Placement(plug, p.x_mm, p.y_mm, 0.0) for p in laid.placements if p.blank is washer]
    assert len(guests) == 2
    full = Layout(laid.sheet, (*laid.placements, *guests))
    assert_sound(full, 14.0, 12.0)
    return full


def step(entity: Any) -> str:
    return "cuts" if entity.dxf.layer in CUTS else entity.dxf.layer


def entities(layout: Layout, path: Path, **more: Any) -> list[Any]:
    write_sheet_dxf(layout, cutting(14.0, 12.0, **more), path)
    return list(ezdxf.readfile(path).modelspace())


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("more", [{}, FULL], ids=["plain", "full"])
def test_layers_stand_in_the_order_of_making(
    tmp_path: Path, layout: Layout, version: str, more: dict
) -> None:
    found = entities(layout, tmp_path / "s.dxf", dxf_version=version, **more)
    runs = [name for name, _ in itertools.groupby(found, step)]
    there = {step(e) for e in found}
    assert runs == [name for name in ORDER if name in there]
    assert there == {"sheet-edge", "mark", "cuts", "text"} | ({"skeleton"} if more else set())
    assert all((e.dxftype() == "TEXT") == (e.dxf.layer == "text") for e in found)


def test_marks_and_cuts_follow_the_same_order_of_parts(tmp_path: Path, layout: Layout) -> None:
    """Guests before their host; each part's marks in the place that its cuts have."""
    found = entities(layout, tmp_path / "s.dxf")
    done = [part.placement for part in sheet_cuts(layout, cutting(14.0, 12.0)).parts]
    table = held_by(done)
    assert table.any()  # there are guests
    for i, j in zip(*table.nonzero(), strict=True):
        assert i < j
    owners = []
    for e in found:
        if e.dxf.layer == "mark" and e.dxftype() == "LWPOLYLINE":
            x, y = e.get_points("xy")[0]
            homes = [
                (bounds(p.outline), k)
                for k, p in enumerate(done)
                if bounds(p.outline)[0] <= x <= bounds(p.outline)[2]
                and bounds(p.outline)[1] <= y <= bounds(p.outline)[3]
            ]
            owners.append(max(k for _, k in homes) if len(homes) == 1 else None)
    known = [k for k in owners if k is not None]
    assert known == sorted(known)
    assert len(set(known)) >= 3


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("lead_in_mm", [0.0, 4.0])
def test_circles_that_are_cut_are_two_half_turns_with_a_direction(
    tmp_path: Path, layout: Layout, version: str, lead_in_mm: float
) -> None:
    """Bulge of half a turn: tan(180 / 4) = 1, less than 0 clockwise (DXF reference, code 42)."""
    found = entities(layout, tmp_path / "s.dxf", dxf_version=version, lead_in_mm=lead_in_mm)
    assert not [e for e in found if e.dxftype() == "CIRCLE"]
    seen = {"cut-outline": 0, "cut-hole": 0}
    for before, e in itertools.pairwise(found):
        if e.dxf.layer not in seen:
            continue
        if e.dxftype() == "LWPOLYLINE":
            assert e.closed
            points = [tuple(p) for p in e.get_points("xyb")]
        else:
            assert e.is_closed
            points = [(*v.dxf.location.vec2, v.dxf.bulge) for v in e.vertices]
        if len(points) != 2:
            continue
        seen[e.dxf.layer] += 1
        turn = 1.0 if e.dxf.layer == "cut-hole" else -1.0
        assert [bulge for *_, bulge in points] == pytest.approx([turn, turn])
        if lead_in_mm:
            assert before.dxf.layer == "lead"
            assert math.dist(before.dxf.end.vec2, points[0][:2]) < 1e-6
        else:  # from the right
            assert points[0][0] > points[1][0]
            assert points[0][1] == pytest.approx(points[1][1])
    assert seen == {"cut-outline": 2 + 3 + 2, "cut-hole": 2 + 3 * 3}


def test_outlines_run_clockwise_and_holes_do_not(tmp_path: Path, layout: Layout) -> None:
    for e in entities(layout, tmp_path / "s.dxf"):
        if e.dxf.layer in ("cut-outline", "cut-hole"):
            assert (signed_area(e) < 0) == (e.dxf.layer == "cut-outline")


def test_the_readme_tells_this_order() -> None:
    """Layers in the first column of its table, line by line."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    table = text.split("\n| in this order | layer |")[1].split("\n\n")[0]
    rows = [re.findall(r"`([^`]+)`", line.split("|")[2]) for line in table.splitlines()[2:]]
    steps = [row for row in rows if row]
    assert [("cuts" if set(row) <= set(CUTS) else row[0]) for row in steps] == list(ORDER)
    assert {name for row in steps for name in row} == {*CUTS, *ORDER} - {"cuts"}


def test_a_blank_of_its_own_keeps_its_circles(tmp_path: Path) -> None:
    from platewheel.nesting.files.write_dxf import write_blank_dxf

    washer: Blank = disc(220.0, "washer", holes=(Circle((0.0, 0.0), 80.0),))
    write_blank_dxf(washer, tmp_path / "b.dxf")
    circles = ezdxf.readfile(tmp_path / "b.dxf").modelspace().query("CIRCLE")
    assert [e.dxf.layer for e in circles] == ["cut-hole", "cut-outline"]
