"""Each part's solid: one, valid, its box and volume by closed forms, and alike its blank."""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.outline import Arc, Circle
from platewheel.parts.geometry.solid import one_solid
from platewheel.parts.wheel.assembly import wheel, wheel_mass_kg, wheel_parts, wheel_solids
from platewheel.parts.wheel.flange import flange_blank, flange_cone
from platewheel.parts.wheel.hub_disc import disc_blank, hub_disc
from platewheel.parts.wheel.hub_tube import hub_tube
from platewheel.parts.wheel.kinds import KINDS, WELD_COLOUR, colour_of
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank, tread_ring
from platewheel.parts.wheel.welds import weld_beads
from tests.parts import shapes
from tests.parts.wheels import WHEELS, plain_wheel

SIDES = ("field", "gauge")
every_wheel = pytest.mark.parametrize("spec", WHEELS.values(), ids=WHEELS.keys())


def check_solid(solid: Any, volume_mm3: float, box: shapes.Box) -> None:
    """One valid closed solid of this volume in this box; mm."""
    assert len(solid.Solids()) == 1
    assert solid.isValid()
    assert solid.Volume() == pytest.approx(volume_mm3, rel=1e-9)
    found = solid.BoundingBox()
    corners = (found.xmin, found.ymin, found.zmin, found.xmax, found.ymax, found.zmax)
    assert corners == pytest.approx(box, abs=1e-5)


@every_wheel
def test_tread_ring(spec: WheelSpec) -> None:
    check_solid(tread_ring(spec), shapes.tread_mm3(spec), shapes.tread_box(spec))


@every_wheel
@pytest.mark.parametrize("side", SIDES)
def test_hub_disc(spec: WheelSpec, side: Any) -> None:
    check_solid(hub_disc(spec, side), shapes.disc_mm3(spec, side), shapes.disc_box(spec, side))


@every_wheel
def test_flange_segments(spec: WheelSpec) -> None:
    for i in range(spec.flange_segments):
        check_solid(
            flange_cone(spec, i), shapes.flange_segment_mm3(spec), shapes.flange_box(spec, i)
        )


@pytest.mark.parametrize("segment", [-1, 3])
def test_a_flange_has_no_more_segments_than_it_has(segment: int) -> None:
    with pytest.raises(IndexError, match=f"segment {segment} of a flange with 3"):
        flange_cone(plain_wheel(flange_segments=3), segment)


@every_wheel
def test_hub_tube(spec: WheelSpec) -> None:
    if spec.hub_tube_length_mm:
        check_solid(hub_tube(spec), shapes.tube_mm3(spec), shapes.tube_box(spec))
    else:
        with pytest.raises(GeometryError, match="hub_tube_length_mm = 0"):
            hub_tube(spec)


@every_wheel
def test_blank_area_times_thickness_is_the_solid(spec: WheelSpec) -> None:
    pairs = [(disc_blank(spec, side), hub_disc(spec, side)) for side in ("field", "gauge")]
    pairs.append((flange_blank(spec), flange_cone(spec)))
    tread = tread_blank(spec)
    assert (tread is None) == (spec.tread_from == "pipe")
    if tread:
        pairs.append((tread, tread_ring(spec)))
    for blank, solid in pairs:
        assert blank.area_mm2 * blank.thickness_mm == pytest.approx(solid.Volume(), rel=1e-6)


@every_wheel
def test_flange_arcs_are_as_long_as_the_mid_surface_circles(spec: WheelSpec) -> None:
    """The solid's root edge has a circle on each face; the mid-surface lies half way."""
    lengths = {}
    for edge in flange_cone(spec).Edges():
        if edge.geomType() == "CIRCLE":
            lengths[round(edge.radius(), 6)] = edge.Length()
    inwards = spec.flange_thickness_mm * math.cos(math.radians(spec.flange_angle_deg))
    root, tip = spec.tread_diameter_mm / 2, spec.tread_diameter_mm / 2 + spec.flange_depth_mm
    middles = [(lengths[round(r, 6)] + lengths[round(r - inwards, 6)]) / 2 for r in (root, tip)]

    blank = flange_blank(spec)
    arcs: dict[float, float] = {}
    for loop in (blank.outline, *blank.holes):
        for piece in (loop,) if isinstance(loop, Circle) else loop:
            if isinstance(piece, Circle):
                arcs[piece.radius_mm] = 2 * math.pi * piece.radius_mm
            elif isinstance(piece, Arc):
                arcs[piece.radius_mm] = arcs.get(piece.radius_mm, 0.0) + piece.length_mm
    assert [arcs[r] for r in sorted(arcs)] == pytest.approx(middles, rel=1e-9)


@every_wheel
def test_tapered_tread_arcs_are_as_long_as_the_mid_surface_circles(spec: WheelSpec) -> None:
    blank = tread_blank(spec)
    if blank is None:
        return
    edges = [e for e in tread_ring(spec).Edges() if e.geomType() == "CIRCLE"]
    edges.sort(key=lambda e: e.arcCenter().z)  # two circles at the field edge, two at the gauge
    field, gauge = sum(e.Length() for e in edges[:2]) / 2, sum(e.Length() for e in edges[2:]) / 2
    pieces = [] if isinstance(blank.outline, Circle) else list(blank.outline)
    if spec.tread_taper_1_in:
        # the outline's larger arc is the gauge edge; the square-cut edges tilt with the plate
        radii = sorted({p.radius_mm for p in pieces if isinstance(p, Arc)})
        lengths = [
            math.fsum(p.length_mm for p in pieces if getattr(p, "radius_mm", 0) == r) for r in radii
        ]
        assert lengths == pytest.approx([field, gauge], rel=1e-9)
    else:
        assert [pieces[0].length_mm, pieces[2].length_mm] == pytest.approx([field, gauge], rel=1e-9)


@every_wheel
@pytest.mark.parametrize("side", SIDES)
def test_vents_are_at_the_same_places_in_solid_and_blank(spec: WheelSpec, side: Any) -> None:
    solid, blank = hub_disc(spec, side), disc_blank(spec, side)
    radius, circle = spec.vent_diameter_mm / 2, spec.vent_circle_mm / 2
    vents = [h for h in blank.holes if isinstance(h, Circle) and h.centre != (0.0, 0.0)]
    assert len(vents) == spec.vent_count
    cylinders = [face.Center() for face in solid.Faces() if face.geomType() == "CYLINDER"]
    found = [(at.x, at.y) for at in cylinders if math.hypot(at.x, at.y) > 1]
    assert len(found) == spec.vent_count
    for i, vent in enumerate(vents):
        turn = math.tau * i / spec.vent_count
        assert vent.radius_mm == radius
        assert vent.centre == pytest.approx((circle * math.cos(turn), circle * math.sin(turn)))
        assert min(math.dist(vent.centre, at) for at in found) < 1e-6


@every_wheel
def test_both_discs_vent_opposite_the_axis(spec: WheelSpec) -> None:
    """An even number of vents: to each there is one on the far side, never one in the middle."""
    for side in ("field", "gauge"):
        centres = [h.centre for h in disc_blank(spec, side).holes if isinstance(h, Circle)]
        vents = [c for c in centres if c != (0.0, 0.0)]
        if spec.vent_count % 2 == 0:
            for x, y in vents:
                assert any(math.dist((-x, -y), other) < 1e-9 for other in vents)


@every_wheel
def test_the_wheel_has_every_part_named_and_coloured(spec: WheelSpec) -> None:
    assembly = wheel(spec)
    names = [child.name for child in assembly.children]
    pieces = spec.flange_segments
    wanted = ["tread", "disc-field", "disc-gauge"]
    wanted += ["flange"] if pieces == 1 else [f"flange-{i + 1}" for i in range(pieces)]
    wanted += ["hub-tube"] if spec.hub_tube_length_mm else []
    assert [n for n in names if not n.startswith("weld-")] == wanted
    assert len(set(names)) == len(names)
    assert [n for n in names if n.startswith("weld-")] == [b.name for b in weld_beads(spec)]
    for child in assembly.children:
        assert child.color.toTuple()[:3] == pytest.approx(colour_of(child.name), abs=1e-6)
    colours = {WELD_COLOUR, *(kind.look.colour for kind in KINDS)}
    assert len(colours) == len(KINDS) + 1
    plain = [child.name for child in wheel(spec, welds=False).children]
    assert plain == wanted


@every_wheel
def test_no_two_solids_interpenetrate(spec: WheelSpec) -> None:
    solids = list(wheel_solids(spec))
    for (one, a), (other, b) in itertools.combinations(solids, 2):
        common = a.intersect(b)
        assert sum(s.Volume() for s in common.Solids()) < 1e-6, f"{one} and {other}"


@every_wheel
def test_the_seam_beads_close_ring_and_flange(spec: WheelSpec) -> None:
    """Segments and their seams together turn through the whole circle: no gap, no overlap."""
    volumes = {name: solid.Volume() for name, solid in wheel_solids(spec)}
    flange = sum(v for n, v in volumes.items() if n.startswith(("flange", "weld-seam-flange")))
    slant = spec.flange_depth_mm / math.sin(math.radians(spec.flange_angle_deg))
    whole = shapes.shell_mm3(*shapes.flange_mid_radii_mm(spec), slant, spec.flange_thickness_mm)
    assert flange == pytest.approx(whole, rel=1e-9)
    tread = volumes["tread"] + volumes.get("weld-seam-tread", 0.0)
    share = 1 - shapes.tread_open_angle(spec) / math.tau
    assert tread == pytest.approx(shapes.tread_mm3(spec) / share, rel=1e-9)


@every_wheel
def test_the_list_of_parts_is_the_solids(spec: WheelSpec) -> None:
    solids = {name: solid.Volume() for name, solid in wheel_solids(spec)}
    listed = 0.0
    for part in wheel_parts(spec):
        assert part.solid().Volume() == pytest.approx(part.volume_mm3, rel=1e-9)
        if part.blank:
            assert part.blank.volume_mm3 == pytest.approx(part.volume_mm3, rel=1e-9)
        listed += part.volume_mm3 * part.count_per_wheel
    plates = sum(v for n, v in solids.items() if not n.startswith("weld-"))
    assert listed == pytest.approx(plates, rel=1e-9)
    # 7.85 kg per m2 and mm of plate: trade
    assert wheel_mass_kg(spec) == pytest.approx(sum(solids.values()) * 7.85e-6, rel=1e-9)


def test_discs_of_a_tapered_ring_are_two_blanks() -> None:
    names = [(p.name, p.count_per_wheel) for p in wheel_parts(WHEELS["tapered"])]
    assert ("disc-field", 1) in names
    assert ("disc-gauge", 1) in names
    same = [(p.name, p.count_per_wheel) for p in wheel_parts(WHEELS["plain"])]
    assert ("disc", 2) in same


def test_a_solid_that_falls_apart_is_refused_by_name() -> None:
    import cadquery as cq

    boxes = cq.Compound.makeCompound([cq.Solid.makeBox(1, 1, 1), cq.Solid.makeBox(1, 1, 1)])
    with pytest.raises(GeometryError, match="my-part: the modeller gave 2 solids"):
        one_solid(boxes, "my-part")
    with pytest.raises(GeometryError, match="not valid"):
        one_solid(cq.Solid(cq.Solid.makeBox(1, 1, 1).wrapped.Reversed()), "inside-out")
