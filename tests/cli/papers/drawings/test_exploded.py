"""The wheel pulled apart: valid, named, hidden lines gone, nothing on top of anything else."""

from __future__ import annotations

import itertools
import math
import re
from xml.etree import ElementTree

import pytest

from platewheel.cli.papers.drawings.exploded import exploded_picture
from platewheel.cli.papers.drawings.pulled_apart import pulled_apart
from platewheel.cli.papers.drawings.visible_edges import Eye, visible_edges
from platewheel.cli.papers.drawings.wheel_mesh import cut_mesh, solid_mesh
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.section import rectangle, revolved_volume_mm3
from platewheel.parts.wheel.assembly import wheel_solids
from tests.parts.drawn_text import outside, overlaps
from tests.parts.wheels import WHEELS

SVG = "{http://www.w3.org/2000/svg}"
SOLIDS = {name: dict(wheel_solids(spec)) for name, spec in WHEELS.items()}


@pytest.mark.parametrize("name", sorted(WHEELS))
def test_parts_are_named_and_lie_in_the_picture(name: str) -> None:
    spec = WHEELS[name]
    tree = ElementTree.fromstring(exploded_picture(spec, SOLIDS[name]))
    named = [g.get("data-part") for g in tree.iter(f"{SVG}g") if g.get("class") == "part"]
    tube = ["hub-tube"] if spec.has_tube else []
    assert named == [*tube, "disc-field", "tread", "disc-gauge", "flange"]
    left, top, wide, high = map(float, tree.get("viewBox", "").split())
    drawn = tree.findall(f"{SVG}path")[-1].get("d", "")
    points = [tuple(map(float, p.split())) for p in re.split("[ML]", drawn) if p]
    assert len(points) > 100
    assert all(left < x < left + wide and top < y < top + high for x, y in points)


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("name", sorted(WHEELS))
def test_no_text_lies_on_another_or_out_of_the_picture(name: str, units: Units) -> None:
    svg = exploded_picture(WHEELS[name], SOLIDS[name], units)
    assert overlaps(svg) == []
    assert outside(svg) == []


@pytest.mark.parametrize("name", sorted(WHEELS))
def test_parts_stand_clear_of_each_other(name: str) -> None:
    ends = []
    for part in pulled_apart(WHEELS[name], SOLIDS[name]):
        boxes = [solid.BoundingBox() for solid in part.solids]
        low, high = min(b.zmin for b in boxes), max(b.zmax for b in boxes)
        ends.append((low + part.shift_mm, high + part.shift_mm))
    assert all(before[1] < after[0] for before, after in itertools.pairwise(ends))


def test_the_far_half_of_a_drum_is_hidden() -> None:
    """A solid drum seen end on from 45 degrees: one full rim, half of the other, two sides."""
    import cadquery as cq

    drum = cq.Solid.makeCylinder(100, 50)
    strokes = visible_edges([drum], Eye((0.0, 1.0, -1.0)), 0.05)
    run = sum(math.dist(a, b) for s in strokes for a, b in itertools.pairwise(s))
    a, b = 100.0, 100 * math.sin(math.radians(45))  # half axes of a rim as seen
    h = ((a - b) / (a + b)) ** 2
    # perimeter of an ellipse: Ramanujan, Quart. J. Math. 45 (1914) 350-372
    rim = math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))
    sides = 2 * 50 * math.cos(math.radians(45))
    assert run == pytest.approx(1.5 * rim + sides, rel=2e-3)


def test_the_eye_turns_without_mirroring() -> None:
    right, up, towards = Eye((0.3, 0.8, -0.5)).axes
    cross = (
        right[1] * up[2] - right[2] * up[1],
        right[2] * up[0] - right[0] * up[2],
        right[0] * up[1] - right[1] * up[0],
    )
    assert cross == pytest.approx(towards)


def test_mesh_encloses_the_volume_of_the_ring() -> None:
    """Divergence theorem over the triangles against Pappus: closed, and facing outwards."""
    import cadquery as cq

    ring = cq.Solid.makeCylinder(150, 60).cut(cq.Solid.makeCylinder(142, 60)).Solids()[0]
    mesh = solid_mesh(ring, 0.02)
    six = 0.0
    for corners in mesh.triangles:
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = (mesh.points[i] for i in corners)
        six += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
    volume = revolved_volume_mm3(rectangle(142, 150, 0, 60))
    assert six / 6 == pytest.approx(volume, rel=0.01)


def test_edges_of_a_drum_are_its_rims() -> None:
    """Two circles; the line where its side closes on itself is no edge. Run of 2 x 2 pi r."""
    import cadquery as cq

    mesh = solid_mesh(cq.Solid.makeCylinder(100, 50), 0.01)
    assert len(mesh.edges) == 2
    for rim in mesh.edges:
        points = [mesh.points[i] for i in rim]
        run = sum(math.dist(a, b) for a, b in itertools.pairwise(points))
        assert run == pytest.approx(2 * math.pi * 100, rel=0.01)
        assert {round(math.hypot(x, y), 6) for x, y, _ in points} == {100.0}


def test_a_ring_cut_open_shows_both_sides_of_its_section() -> None:
    import cadquery as cq

    ring = cq.Solid.makeCylinder(150, 60).cut(cq.Solid.makeCylinder(142, 60))
    mesh = cut_mesh(ring, 150, 0.02)
    area = 0.0
    for corners in mesh.triangles:
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = (mesh.points[i] for i in corners)
        assert (ay, by, cy) == pytest.approx((0, 0, 0), abs=1e-9)
        area += ((bz - az) * (cx - ax) - (bx - ax) * (cz - az)) / 2  # turned to +y
    assert area == pytest.approx(2 * 8 * 60)
    assert len(mesh.edges) == 8


def test_what_the_cut_misses_has_no_section() -> None:
    import cadquery as cq

    beside = cq.Solid.makeBox(5, 5, 5, cq.Vector(0, 10, 0))
    assert cut_mesh(beside, 20, 0.1).triangles == ()
