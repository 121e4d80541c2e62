"""The flange in numbers: section, development on the mid-surface, seams, marks of its blank."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.blank import MarkPoint, MarkText
from platewheel.parts.geometry.outline import Arc, Circle, Line
from platewheel.parts.wheel import flange
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.wheels import plain_wheel

SIN, COS = math.sin(math.radians(70)), math.cos(math.radians(70))
# Plain wheel: R 150, W 60, depth 15, 70 deg, 6 thick, seam gap 2. Mid-surface of its root:
ROOT = 150 - 3 * COS
MEAN = (ROOT + 7.5) / SIN  # mean radius of the blank, cone development s = r / sin
SWEEP = 360 * SIN - math.degrees(2 / MEAN)  # of a whole ring's blank


def test_section() -> None:
    """Square-edged plate: 6 along the normal (-cos, sin) of a face rising 15 out, 15 / tan on."""
    run = 15 / math.tan(math.radians(70))
    wanted = [
        (150.0, 60.0),
        (165.0, 60 + run),
        (165 - 6 * COS, 60 + run + 6 * SIN),
        (150 - 6 * COS, 60 + 6 * SIN),
    ]
    assert flange.flange_section(plain_wheel()) == pytest.approx(np.array(wanted))
    assert flange.flange_reach_mm(plain_wheel()) == pytest.approx(run + 6 * SIN)


def test_radii() -> None:
    assert flange.mid_radii_mm(plain_wheel()) == pytest.approx((ROOT, ROOT + 15))
    assert flange.slant_radii_mm(plain_wheel()) == pytest.approx((ROOT / SIN, (ROOT + 15) / SIN))


@pytest.mark.parametrize("segments", [1, 3, 4])
def test_sweep_seams_and_volume(segments: int) -> None:
    """Sweep 360 sin / segments less the gap; on the wheel 360 / segments less the gap; Pappus:
    slant x thickness x mean radius x turn."""
    spec = plain_wheel(flange_segments=segments)
    sweep = 360 * SIN / segments - math.degrees(2 / MEAN)
    assert flange.blank_sweep_deg(spec) == pytest.approx(sweep)
    turn = math.tau / segments - 2 / (ROOT + 7.5)
    assert flange.segment_turn(spec) == pytest.approx(turn)
    assert flange.flange_volume_mm3(spec) == pytest.approx(turn * (ROOT + 7.5) * 15 / SIN * 6)
    assert flange.seam_length_mm(spec) == pytest.approx(segments * 15 / SIN)
    assert flange.seam_weld_m(spec, 48) == pytest.approx(48 * segments * 15 / SIN / 1000)


def washer(**changes: Any) -> WheelSpec:
    return plain_wheel(flange_angle_deg=90.0, seam_gap_mm=0.0, **changes)


def test_only_a_flat_whole_ring_has_no_seam() -> None:
    """90 degrees, one piece, no gap; two halves or a gap are welded over 15 mm each."""
    assert flange.seam_length_mm(washer()) == 0.0
    assert flange.seam_length_mm(washer(flange_segments=2)) == pytest.approx(30.0)
    gap = plain_wheel(flange_angle_deg=90.0, seam_gap_mm=0.5)
    assert flange.seam_length_mm(gap) == pytest.approx(15.0)
    assert flange.seam_length_mm(plain_wheel(seam_gap_mm=0.0)) == pytest.approx(15 / SIN)


def test_blank_of_a_washer() -> None:
    blank = flange.flange_blank(washer())
    assert blank.outline == Circle((0.0, 0.0), 165.0)
    assert blank.holes == (Circle((0.0, 0.0), 150.0),)
    assert blank.sizes["sweep_deg"] == pytest.approx(360.0)
    assert (blank.name, blank.kind, blank.thickness_mm) == ("flange", "flange", 6.0)


def arcs(spec: WheelSpec, longer_mm: float = 0.0) -> dict[float, float]:
    """Length of the blank's arcs by radius."""
    blank = flange.flange_blank(spec, longer_mm)
    assert not isinstance(blank.outline, Circle)
    assert blank.holes == ()
    assert (blank.name, blank.kind, blank.thickness_mm) == ("flange", "flange", 6.0)
    found: dict[float, float] = {}
    for piece in blank.outline:
        if isinstance(piece, Arc):
            found[piece.radius_mm] = found.get(piece.radius_mm, 0.0) + piece.length_mm
    return found


@pytest.mark.parametrize("longer_mm", [0.0, 3.0, -2.0])
def test_blank_of_a_cone(longer_mm: float) -> None:
    """Arcs radius x sweep; what is added is a length at the mean radius."""
    spec = plain_wheel(flange_segments=2)
    sweep = math.pi * SIN - 2 / MEAN + longer_mm / MEAN
    wanted = {ROOT / SIN: ROOT / SIN * sweep, (ROOT + 15) / SIN: (ROOT + 15) / SIN * sweep}
    found = arcs(spec, longer_mm)
    assert sorted(found) == pytest.approx(sorted(wanted))
    assert sorted(found.values()) == pytest.approx(sorted(wanted.values()))
    sizes = flange.flange_blank(spec, longer_mm).sizes
    assert sizes["sweep_deg"] == pytest.approx(math.degrees(sweep))
    assert sizes["inner_radius_mm"] == pytest.approx(ROOT / SIN)
    assert sizes["outer_radius_mm"] == pytest.approx((ROOT + 15) / SIN)


def test_a_blank_grown_to_a_whole_ring_is_refused() -> None:
    """At 70 degrees a whole ring's blank leaves 360 - sweep open: so much longer it is shut."""
    spec = plain_wheel()
    room = math.radians(360 - SWEEP) * MEAN
    assert flange.flange_blank(spec, room - 0.1).sizes["sweep_deg"] < 360
    with pytest.raises(GeometryError, match=r"mm longer: sweep 360\.0"):
        flange.flange_blank(spec, room + 0.1)
    with pytest.raises(GeometryError, match=r"longer: sweep -0\.0"):
        flange.flange_blank(spec, -math.radians(SWEEP) * MEAN - 0.01)
    with pytest.raises(GeometryError, match=r"\+1 mm longer"):
        flange.flange_blank(washer(), 1.0)
    nearly = math.radians(360 - 1e-7 - SWEEP) * MEAN
    assert not isinstance(flange.flange_blank(spec, nearly).outline, Circle)


def generators(spec: WheelSpec) -> list[float]:
    """Angles of the marked generators, each checked to lie astride the mid-line."""
    inner, outer = flange.slant_radii_mm(spec)
    found = []
    for mark in flange.flange_blank(spec).marks:
        if isinstance(mark, Line):
            radii = math.hypot(*mark.start), math.hypot(*mark.end)
            middle, half = (inner + outer) / 2, (outer - inner) / 8
            assert radii == pytest.approx((middle - half, middle + half))
            angles = [math.degrees(math.atan2(y, x)) % 360 for x, y in (mark.start, mark.end)]
            assert angles[0] == pytest.approx(angles[1])
            found.append(angles[0])
    return found


@pytest.mark.parametrize("segments", [1, 2, 3, 4, 5, 7, 11, 12])
@pytest.mark.parametrize("angle", [45.0, 70.0, 90.0])
def test_a_generator_every_30_degrees_of_the_wheel(segments: int, angle: float) -> None:
    """From the segment's middle both ways, 30 sin(angle) apart on the blank, none at its ends."""
    spec = plain_wheel(flange_segments=segments, flange_angle_deg=angle)
    sweep, step = flange.blank_sweep_deg(spec), 30 * math.sin(math.radians(angle))
    every = [sweep / 2 + k * step for k in range(-20, 21)]
    wanted = [at for at in every if 0.5 < at < sweep - 0.5]
    assert generators(spec) == pytest.approx(wanted)


@pytest.mark.parametrize(("from_end_deg", "count"), [(0.3, 1), (0.7, 3)])
def test_no_generator_within_half_a_degree_of_an_end(from_end_deg: float, count: int) -> None:
    """Fifths of a small flange, the gap chosen so that the outer two lie so far from its ends."""
    small = {
        "tread_diameter_mm": 84.0,
        "tread_thickness_mm": 3.0,
        "hub_bore_mm": 20.0,
        "hub_tube_outside_mm": 26.9,
        "vent_count": 0,
        "flange_segments": 5,
    }
    bare = plain_wheel(**small, seam_gap_mm=0.0)
    mean = sum(flange.slant_radii_mm(bare)) / 2
    excess = 360 * SIN / 5 / 2 - 30 * SIN - from_end_deg  # of half the sweep
    spec = plain_wheel(**small, seam_gap_mm=2 * math.radians(excess) * mean)
    assert len(generators(spec)) == count


@pytest.mark.parametrize(
    ("changes", "height"), [({}, 15 / SIN / 3), ({"flange_depth_mm": 25.0}, 6.0)]
)
@pytest.mark.parametrize("segments", [1, 3, 12])
def test_names_lie_along_the_mid_line(
    segments: int, changes: dict[str, Any], height: float
) -> None:
    """The part's name half way between two generators, or in the middle where there is one
    alone; `seam` a quarter along, at most half way to the second generator; letters of a third
    of the width, 6 mm at most, read from outside."""
    spec = plain_wheel(flange_segments=segments, **changes)
    marks = flange.flange_blank(spec).marks
    sweep, step = flange.blank_sweep_deg(spec), 30 * SIN
    middle = sum(flange.slant_radii_mm(spec)) / 2
    name = sweep / 2 + (0 if segments == 12 else step / 2)
    seam = sweep / 4 if segments == 12 else step / 2
    texts = [mark for mark in marks if isinstance(mark, MarkText)]
    assert [text.text for text in texts] == ["flange", "seam"]
    for text, angle in zip(texts, (name, seam), strict=True):
        turn = math.radians(angle)
        assert text.at == pytest.approx((middle * math.cos(turn), middle * math.sin(turn)))
        assert text.turn_deg == pytest.approx(angle - 90)
        assert text.height_mm == pytest.approx(height)
    assert [mark.at for mark in marks if isinstance(mark, MarkPoint)] == [(0.0, 0.0)]


def test_segments_follow_each_other() -> None:
    """Solid of segment i: its middle at (i + 1/2) x 120 degrees, its volume Pappus'."""
    spec = plain_wheel(flange_segments=3)
    for i in range(3):
        solid = flange.flange_cone(spec, i)
        at = solid.Center()
        assert math.degrees(math.atan2(at.y, at.x)) % 360 == pytest.approx((i + 0.5) * 120)
        assert solid.Volume() == pytest.approx(flange.flange_volume_mm3(spec))
    assert flange.flange_cone(spec).Center().y > 0  # the first, unless told
    for segment in (-1, 3):
        with pytest.raises(IndexError, match=f"segment {segment} of a flange with 3"):
            flange.flange_cone(spec, segment)
