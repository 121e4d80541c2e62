"""Parts drawn, written and read back: the wheel's own blanks, and random ones by shapely."""

from __future__ import annotations

import math
import random
from collections.abc import Iterable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from platewheel.cli.job.job import read_job
from platewheel.nesting.drawings.read import Outline, read_outline
from platewheel.nesting.files.write_dxf import write_blank_dxf
from platewheel.parts.geometry.blank import MarkPoint
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Loop,
    area_mm2,
    bounds,
    moved,
    segments,
    signed_area_mm2,
)
from platewheel.parts.wheel.assembly import wheel_parts
from tests.nesting.drawn_files import add_loose, drawing, parts_with_holes, save
from tests.nesting.plates import SAG_MM, faceted
from tests.places import DEMO

MANY = settings(
    max_examples=30, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True
)


def edges(loops: Iterable[Loop]) -> list[tuple[float, ...]]:
    """Ends and middle of every edge, whichever way it runs and wherever its loop starts."""
    found = []
    for s in (s for loop in loops for s in segments(loop)):
        (ax, ay), (bx, by) = s.start, s.end
        middle = ((ax + bx) / 2, (ay + by) / 2)
        if isinstance(s, Arc):
            middle = s.at(s.start_deg + s.sweep_deg / 2)
        found.append((*middle, ax + bx, ay + by, abs(ax - bx), abs(ay - by)))
    return found


def assert_same_edges(was: Iterable[Loop], now: Iterable[Loop]) -> None:
    left = edges(now)
    for edge in edges(was):
        near = min(left, key=lambda other: math.dist(edge, other))
        assert near == pytest.approx(edge, abs=1e-6)
        left.remove(near)
    assert not left


def net_area(drawn: Outline) -> float:
    return area_mm2(drawn.outline) - math.fsum(area_mm2(hole) for hole in drawn.holes)


WHEELS = [{}, {"tread_from": "sheet", "tread_taper_1_in": 20.0}, {"flange_segments": 1}]


@pytest.mark.parametrize("changed", WHEELS)
def test_the_wheels_own_blanks_come_back(changed: dict, tmp_path: Path) -> None:
    wheel = read_job(DEMO).wheel
    wheel = type(wheel)(**(wheel.model_dump() | changed))
    blanks = [part.blank for part in wheel_parts(wheel) if part.blank]
    assert len(blanks) >= 3
    for blank in blanks:
        write_blank_dxf(blank, tmp_path / "part.dxf")
        drawn = read_outline(tmp_path / "part.dxf")
        x0, y0, _, _ = blank.bounds
        assert_same_edges([moved(blank.outline, -x0, -y0)], [drawn.outline])
        assert_same_edges([moved(hole, -x0, -y0) for hole in blank.holes], drawn.holes)
        assert [type(h) for h in drawn.holes] == [type(h) for h in blank.holes]
        assert net_area(drawn) == pytest.approx(blank.area_mm2, abs=1e-6)
        points = sorted(m.at for m in blank.marks if isinstance(m, MarkPoint))
        back = sorted(m.at for m in drawn.marks if isinstance(m, MarkPoint))
        assert [(x + x0, y + y0) for x, y in back] == [pytest.approx(p, abs=1e-6) for p in points]


@MANY
@given(
    part=parts_with_holes(),
    version=st.sampled_from(["R12", "R2000", "R2010"]),
    unit=st.sampled_from([("inch", 1, 25.4), ("mm", 4, 1.0), ("cm", 5, 10.0), ("m", 6, 1000.0)]),
    loose=st.booleans(),
    seed=st.integers(0, 10**6),
)
def test_random_parts_come_back(part, version, unit, loose, seed, tmp_path: Path) -> None:
    outline, holes = part
    name, code, unit_mm = unit
    doc = drawing(version, None if version == "R12" else code)
    rng = random.Random(seed)
    space = doc.modelspace()
    if loose:
        add_loose(space, (outline, *holes), unit_mm, rng)
    else:
        for loop in (outline, *holes):
            points = [(s.start[0] / unit_mm, s.start[1] / unit_mm, s.bulge) for s in segments(loop)]
            if version == "R12":
                space.add_polyline2d(points, format="xyb", close=True)
            else:
                space.add_lwpolyline(points, format="xyb", close=True)
    path = save(doc, tmp_path)
    drawn = read_outline(path, name if version == "R12" else "file")
    assert bounds(drawn.outline)[:2] == pytest.approx((0, 0), abs=1e-9)
    for one in (drawn.outline, *drawn.holes):
        assert signed_area_mm2(one) > 0
        run = segments(one)
        for a, b in zip(run, [*run[1:], run[0]], strict=True):
            assert math.dist(a.end, b.start) < 1e-9
        assert all(abs(s.sweep_deg) <= 180 + 1e-9 for s in run if isinstance(s, Arc))
    loops = zip((outline, *sorted(holes, key=bounds)), (drawn.outline, *drawn.holes), strict=True)
    for was, now in loops:
        shape = faceted(was)  # the chords lie off the arcs by the sag, all along at the most
        assert area_mm2(now) == pytest.approx(shape.area, abs=SAG_MM * shape.length)
        x0, y0, _, _ = bounds(outline)
        if not isinstance(now, Circle):
            assert_same_edges([moved(was, -x0, -y0)], [now])
    assert [isinstance(h, Circle) for h in drawn.holes] == [
        isinstance(h, Circle) for h in sorted(holes, key=bounds)
    ]
    assert read_outline(path, name if version == "R12" else "file") == drawn
