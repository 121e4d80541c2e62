"""What is left of a plate: free by exact gaps, and by the job's keys all of it or rectangles."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.nesting.offcuts.remnant import Remnant, clear_distance_mm, rectangle, remnants
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.stock import Offcut
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, contains, polygon, segments
from tests.nesting.plates import cutting, disc, offcut, on_plate, plate, sector, steel, strip

NOTCHED = offcut(
    "notched",
    [(0.0, 0.0), (803.0, 0.0), (803.0, 250.0), (350.0, 250.0), (350.0, 602.0), (0.0, 602.0)],
    (((500.0, 100.0), (540.0, 100.0), (520.0, 140.0)),),
)
BLANKS = [disc(90.0), strip(300.0, 40.0), sector(100.0, 120.0, 330.0), sector(90.0, 110.0, 100.0)]
places = st.tuples(st.sampled_from(BLANKS), st.floats(0, 800), st.floats(0, 600), st.floats(0, 360))
layouts = st.builds(
    lambda placed, sheet: Layout(sheet, tuple(Placement(*one) for one in placed)),
    st.lists(places, min_size=1, max_size=5),
    st.sampled_from([plate(803.0, 602.0), NOTCHED]),
)


def shape_of(piece: Remnant) -> shapely.Polygon:
    return shapely.Polygon(piece.corners, piece.holes)


def assert_free(piece: Remnant, clear_mm: float) -> None:
    """By the verifier's exact gaps: every edge of the piece keeps clear, no part lies in it."""
    rings = [polygon(ring) for ring in (piece.corners, *piece.holes)]
    for placement in piece.layout.placements:
        for ring in rings:
            assert loop_gap(ring, placement.outline) >= clear_mm - 1e-9
        start = segments(placement.outline)[0].start
        in_hole = any(contains(ring, start) for ring in rings[1:])
        assert in_hole or not contains(rings[0], start)
        assert not contains(placement.outline, piece.corners[0])
    assert steel(piece.layout.sheet).buffer(1e-4).covers(shape_of(piece))


def assert_taken_by_the_next_job(piece: Remnant) -> None:
    sheet = piece.layout.sheet
    row = Offcut(
        name="piece",
        steel=sheet.steel,
        thickness_mm=sheet.thickness_mm,
        outline=[list(corner) for corner in piece.corners],
        holes=[[list(corner) for corner in ring] for ring in piece.holes],
    )
    assert len(row.holes) == len(piece.holes)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(
    layouts,
    st.sampled_from(["rectangle", "real"]),
    st.sampled_from([80.0, 150.0]),
    st.sampled_from([(1.5, 0.0), (8.0, 6.0)]),
)
def test_every_piece_is_free_and_wide_enough(
    layout: Layout, kind: str, least_mm: float, kerf_lead: tuple[float, float]
) -> None:
    rules = cutting(
        20.0,
        20.0,
        kerf_mm=kerf_lead[0],
        lead_in_mm=kerf_lead[1],
        offcut_outline=kind,
        least_offcut_mm=least_mm,
    )
    kept = remnants(layout, rules)
    for piece in kept:
        assert_free(piece, 2 * kerf_lead[0] + 1 + kerf_lead[1])
        assert_taken_by_the_next_job(piece)
        assert piece.area_mm2 == pytest.approx(shape_of(piece).area)
        assert not shape_of(piece).buffer(-0.49 * least_mm, join_style="mitre").is_empty
        if kind == "rectangle":
            assert piece.is_rectangle
            assert min(piece.length_mm, piece.width_mm) >= least_mm
    for i, piece in enumerate(kept):
        assert all(shape_of(piece).distance(shape_of(b)) >= kerf_lead[0] - 1e-9 for b in kept[:i])


@settings(max_examples=25, deadline=None, derandomize=True)
@given(layouts)
def test_real_outline_keeps_nearly_all_that_is_wide_enough(layout: Layout) -> None:
    """Against the reference's own opening of the free region with round edges.

    That one misses its outward corners, ours is made of few straight sides: within 12 %.
    """
    rules = cutting(offcut_outline="real")
    taken = shapely.union_all([on_plate(p) for p in layout.placements])
    free = steel(layout.sheet).difference(taken.buffer(clear_distance_mm(rules, 6.0)))
    least = rules.least_offcut_mm
    wide = free.buffer(-0.51 * least, join_style="mitre").buffer(0.5 * least)
    kept = sum(piece.area_mm2 for piece in remnants(layout, rules))
    assert kept >= 0.88 * wide.intersection(free).area


def test_real_outline_of_a_corner_laid_is_an_l() -> None:
    """A part of 400 x 300 at the lower left: an L round it, two kerfs of 1.5 and a web away."""
    layout = Layout(plate(1000.0, 800.0), (Placement(strip(400.0, 300.0), 0.0, 0.0, 0.0),))
    (piece,) = remnants(layout, cutting(offcut_outline="real"))
    corners = {(405, 0), (1000, 0), (1000, 800), (0, 800), (0, 305), (405, 305)}
    assert set(piece.corners) == corners
    assert piece.area_mm2 == 1000 * 800 - 405 * 305
    assert not piece.is_rectangle


def test_a_part_in_the_middle_leaves_a_hole_of_few_corners() -> None:
    layout = Layout(plate(1000.0, 800.0), (Placement(disc(180.0), 500.0, 400.0, 0.0),))
    (piece,) = remnants(layout, cutting(offcut_outline="real"))
    assert set(piece.corners) == {(0, 0), (1000, 0), (1000, 800), (0, 800)}
    (hole,) = piece.holes
    assert 4 <= len(hole) <= 12
    assert_free(piece, 4.0)
    assert_taken_by_the_next_job(piece)


def test_what_falls_out_of_a_hole_is_kept() -> None:
    """A frame over the whole plate with a round hole of 400 mm: at least a square in it."""
    square = polygon([(0.0, 0.0), (500.0, 0.0), (500.0, 500.0), (0.0, 500.0)])
    frame = Blank("frame", "extra", 6.0, square, (Circle((250.0, 250.0), 200.0),))
    layout = Layout(plate(500.0, 500.0), (Placement(frame, 0.0, 0.0, 0.0),))
    for kind, share in (("rectangle", 2 / math.pi), ("real", 0.95)):
        (piece,) = remnants(layout, cutting(offcut_outline=kind, least_offcut_mm=200.0))
        assert share * 0.97 <= piece.area_mm2 / (math.pi * 196.0**2) <= 1
        assert_taken_by_the_next_job(piece)


def test_narrow_arms_are_dropped() -> None:
    """A strip 100 mm from the upper edge all along: only the lower side is 150 mm wide."""
    layout = Layout(plate(1000.0, 500.0), (Placement(strip(1000.0, 40.0), 0.0, 360.0, 0.0),))
    (piece,) = remnants(layout, cutting(offcut_outline="real", least_offcut_mm=150.0))
    assert set(piece.corners) == {(0, 0), (1000, 0), (1000, 355), (0, 355)}
    wider = remnants(layout, cutting(offcut_outline="real", least_offcut_mm=90.0))
    assert [p.area_mm2 for p in wider] == [1000 * 355, 1000 * (500 - 405)]


def test_several_rectangles_largest_first_with_a_kerf_between() -> None:
    """A wall at x = 500: 496 mm to its left, 456 to its right, in whole mm."""
    layout = Layout(plate(1000.0, 500.0), (Placement(strip(500.0, 40.0), 540.0, 0.0, 90.0),))
    kept = remnants(layout, cutting())
    assert [p.bounds for p in kept] == [(545, 0, 1000, 500), (0, 0, 495, 500)]
    few = remnants(layout, cutting(least_offcut_mm=470.0))
    assert [p.bounds for p in few] == [(0, 0, 495, 500)]


def test_leads_cut_into_what_is_left() -> None:
    layout = Layout(plate(1000.0, 500.0), (Placement(strip(500.0, 40.0), 540.0, 0.0, 90.0),))
    kept = remnants(layout, cutting(lead_in_mm=4.0, lead_out_mm=2.0, spacing_mm=12.0))
    assert kept[0].bounds == (549, 0, 1000, 500)
    assert clear_distance_mm(cutting(kerf_mm=0.2, lead_out_mm=3.0), 6.0) == pytest.approx(4.4)


@pytest.mark.filterwarnings("error")
def test_a_plate_just_as_wide_as_the_least_is_kept() -> None:
    """600 x 150 with a disc at one end, 400 of it free; the same but for a millimetre."""
    for width, count in ((150.0, 1), (149.0, 0)):
        layout = Layout(plate(600.0, width), (Placement(disc(140.0), 128.5, 75.0, 0.0),))
        assert len(remnants(layout, cutting(least_offcut_mm=150.0))) == count
        real = remnants(layout, cutting(offcut_outline="real", least_offcut_mm=150.0))
        assert len(real) == count
        assert all(0.95 * 400 * 150 <= piece.area_mm2 <= 600 * 150 for piece in real)


def test_size_and_area_of_a_piece_with_a_hole() -> None:
    layout = Layout(plate(1000.0, 500.0), ())
    piece = Remnant(
        layout,
        ((100.0, 50.0), (300.0, 50.0), (100.0, 250.0)),
        (((120.0, 70.0), (130.0, 70.0), (130.0, 80.0), (120.0, 80.0)),),
    )
    assert piece.area_mm2 == 200 * 200 / 2 - 10 * 10
    assert (piece.length_mm, piece.width_mm) == (200, 200)
    assert rectangle(layout, (10.0, 20.0, 110.0, 60.0)).area_mm2 == 100 * 40


def test_an_empty_plate_is_kept_whole_either_way() -> None:
    layout = Layout(plate(903.5, 402.0), ())
    for kind in ("rectangle", "real"):
        (piece,) = remnants(layout, cutting(offcut_outline=kind))
        assert piece.area_mm2 == pytest.approx(903.5 * 402)
