"""The ring in numbers: section, seam, development to a strip or a sector, marks of its blank."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from platewheel.parts.geometry.blank import MarkText
from platewheel.parts.geometry.outline import Arc, Circle, Line, Point, polygon
from platewheel.parts.geometry.section import first_moment_mm3
from platewheel.parts.wheel import tread_ring
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.wheels import plain_wheel

# Plain wheel: D 300, W 60, wall 8, seam gap 2. Tapered 1 in 20: field edge 147 mm, slope HALF.
PLAIN, TAPERED = plain_wheel(seam_gap_mm=2.0), plain_wheel(seam_gap_mm=2.0, tread_taper_1_in=20.0)
PIPE = plain_wheel(tread_from="pipe", tread_taper_1_in=20.0)
HALF = math.atan(1 / 20)
SIN, COS = math.sin(HALF), math.cos(HALF)
FIELD, GAUGE = 147 - 4 * COS, 150 - 4 * COS  # mid-surface radii of the taper
MEAN = (FIELD + GAUGE) / 2


def test_sections() -> None:
    """A plate along the tread, square edges; a pipe's bore is straight, its outside turned."""
    assert tread_ring.tread_section(PLAIN) == pytest.approx(
        np.array([(150.0, 0.0), (150.0, 60.0), (142.0, 60.0), (142.0, 0.0)])
    )
    assert tread_ring.tread_section(TAPERED) == pytest.approx(
        np.array(
            [(147.0, 0.0), (150.0, 60.0), (150 - 8 * COS, 60 + 8 * SIN), (147 - 8 * COS, 8 * SIN)]
        )
    )
    assert tread_ring.tread_section(PIPE) == pytest.approx(
        np.array([(142.0, 0.0), (147.0, 0.0), (150.0, 60.0), (142.0, 60.0)])
    )


def test_mid_surface_and_seam() -> None:
    """Half a wall in from the outside, along the normal; the gap is measured at mid radius."""
    assert tread_ring.mid_radii_mm(PLAIN) == pytest.approx((146.0, 146.0))
    assert tread_ring.mid_radii_mm(TAPERED) == pytest.approx((FIELD, GAUGE))
    assert tread_ring.seam_angle(PLAIN) == pytest.approx(2 / 146)
    assert tread_ring.seam_angle(TAPERED) == pytest.approx(2 / MEAN)
    assert tread_ring.seam_angle(PIPE) == 0.0


def test_volumes() -> None:
    """Pappus: mid radius x what the gap leaves of the turn x area; a pipe turns whole."""
    assert tread_ring.tread_volume_mm3(PLAIN) == pytest.approx((math.tau * 146 - 2) * 480)
    assert tread_ring.tread_volume_mm3(TAPERED) == pytest.approx(
        (math.tau * MEAN - 2) * 8 * 60 / COS
    )
    pipe = tread_ring.tread_volume_mm3(PIPE)
    assert pipe == pytest.approx(math.tau * first_moment_mm3(tread_ring.tread_section(PIPE)))


@pytest.mark.parametrize("spec", [PLAIN, TAPERED, PIPE], ids=["plain", "tapered", "pipe"])
def test_solid(spec: WheelSpec) -> None:
    """The gap is centred on +x: the centroid lies opposite; the field edge is at z = 0."""
    solid = tread_ring.tread_ring(spec)
    assert solid.Volume() == pytest.approx(tread_ring.tread_volume_mm3(spec))
    assert solid.Center().y == pytest.approx(0.0, abs=1e-6)
    assert (solid.Center().x < -1e-3) == (spec is not PIPE)
    assert solid.BoundingBox().zmin == pytest.approx(0.0, abs=1e-5)


def texts_of(spec: WheelSpec) -> list[MarkText]:
    blank = tread_ring.tread_blank(spec)
    assert blank
    assert (blank.name, blank.kind, blank.thickness_mm) == ("tread", "tread", 8.0)
    assert blank.holes == ()
    found = [mark for mark in blank.marks if isinstance(mark, MarkText)]
    assert [mark.text for mark in found] == ["tread  seam at this end", "gauge edge: top"]
    return found


NARROW = {"tread_width_mm": 36.0, "disc_thickness_mm": 4.0, "hub_tube_length_mm": 50.0}
WIDTHS: list[tuple[dict[str, Any], float]] = [({}, 60.0), (NARROW, 36.0)]


@pytest.mark.parametrize(("changes", "width"), WIDTHS)
def test_strip_of_a_straight_ring(changes: dict[str, Any], width: float) -> None:
    """Length pi (D - t) less the gap; an arrow over the middle, a mark opposite the seam."""
    spec = plain_wheel(seam_gap_mm=2.0, **changes)
    blank = tread_ring.tread_blank(spec)
    assert blank
    length = math.pi * 292 - 2
    assert blank.sizes == pytest.approx({"length_mm": length, "width_mm": width})
    corners = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]
    assert not isinstance(blank.outline, Circle)
    for side, wanted in zip(blank.outline, polygon(corners), strict=True):
        assert (*side.start, *side.end) == pytest.approx((*wanted.start, *wanted.end))
    head = min(width / 4, 12.0)  # our choice
    tip = (0.7 * length, width / 2)
    ends: list[tuple[Point, Point]] = [
        ((0.3 * length, width / 2), tip),
        (tip, (tip[0] - head, width / 2 + head / 3)),
        (tip, (tip[0] - head, width / 2 - head / 3)),
        ((length / 2, 0.0), (length / 2, 0.15 * width)),
    ]
    lines = [(mark.start, mark.end) for mark in blank.marks if isinstance(mark, Line)]
    assert np.array(lines) == pytest.approx(np.array(ends))
    for text, share in zip(texts_of(spec), (0.12, 0.88), strict=True):
        assert text.at == pytest.approx((share * length, width / 2))
        assert text.height_mm == pytest.approx(min(8.0, width / 6))
        assert text.turn_deg == 0.0


@pytest.mark.parametrize(("changes", "width"), WIDTHS)
def test_sector_of_a_tapered_ring(changes: dict[str, Any], width: float) -> None:
    """Cone frustum: radii r / sin(half), sweep (2 pi - gap) sin(half); field edge below, its
    middle on the origin; marks as on the strip, bent round the sector's centre."""
    spec = plain_wheel(seam_gap_mm=2.0, tread_taper_1_in=20.0, **changes)
    field = 150 - width / 20 - 4 * COS
    inner, outer = field / SIN, GAUGE / SIN
    sweep = (math.tau - 2 / ((field + GAUGE) / 2)) * SIN
    blank = tread_ring.tread_blank(spec)
    assert blank
    mid, wide = (inner + outer) / 2, outer - inner
    assert blank.sizes == pytest.approx(
        {
            "length_mm": sweep * mid,
            "width_mm": width / COS,
            "inner_radius_mm": inner,
            "outer_radius_mm": outer,
            "sweep_deg": math.degrees(sweep),
        }
    )

    def at(radius: float, share: float) -> Point:
        """So far along, from the left end."""
        turn = sweep * (share - 0.5)
        return radius * math.sin(turn), radius * math.cos(turn) - inner

    assert not isinstance(blank.outline, Circle)
    ends = [piece.start for piece in blank.outline]
    for corner in (at(inner, 0), at(inner, 1), at(outer, 0), at(outer, 1)):
        assert min(math.dist(corner, end) for end in ends) < 1e-6
    (arrow,) = (mark for mark in blank.marks if isinstance(mark, Arc))
    assert arrow.start == pytest.approx(at(mid, 0.3))
    assert arrow.end == pytest.approx(at(mid, 0.7))
    assert arrow.centre == pytest.approx((0.0, -inner))
    lines = [mark for mark in blank.marks if isinstance(mark, Line)]
    assert (*lines[-1].start, *lines[-1].end) == pytest.approx((0.0, 0.0, 0.0, 0.15 * wide))
    head, turn = min(wide / 4, 12.0), -0.2 * sweep  # along the arc's end
    assert len(lines) == 3
    for line, up in zip(lines, (head / 3, -head / 3), strict=False):
        assert line.start == pytest.approx(at(mid, 0.7))
        away = line.end[0] - line.start[0], line.end[1] - line.start[1]
        assert away == pytest.approx(
            (
                -head * math.cos(turn) - up * math.sin(turn),
                -head * math.sin(turn) + up * math.cos(turn),
            )
        )
    for text, share in zip(texts_of(spec), (0.12, 0.88), strict=True):
        assert text.at == pytest.approx(at(mid, share))
        assert text.height_mm == pytest.approx(min(8.0, wide / 6))
        assert text.turn_deg == pytest.approx(math.degrees(sweep) * (0.5 - share))


def test_a_pipe_needs_no_blank() -> None:
    assert tread_ring.tread_blank(PIPE) is None
