"""Lead-ins: on the scrap side, clear of other parts, inside the plate, ending where the cut
begins."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.gaps import loop_gap, point_gap
from nesting.kerf import torch_path
from nesting.layout import Layout, Placement, Wanted
from nesting.lead import Start, hole_start, outline_start
from nesting.nest import nest
from nesting.stock import Cutting
from parts.outline import Circle, Line, area_mm2, contains, length_mm, polygon, segments
from tests.nesting.plates import cutting, disc, offcut, plate, sector, strip

SHARES = [i / 20 for i in range(20)]  # along a lead, its end on the part left out


def at(lead: Line, share: float) -> tuple[float, float]:
    (ax, ay), (bx, by) = lead.start, lead.end
    return ax + share * (bx - ax), ay + share * (by - ay)


def assert_lead_good(start: Start, placement: Placement, layout: Layout, cut: Cutting) -> None:
    """What a machine needs of a lead, from exact gaps."""
    lead = start.lead
    assert lead is not None
    assert lead.length_mm == pytest.approx(cut.lead_in_mm)
    assert segments(start.path)[0].start == pytest.approx(lead.end, abs=1e-9)
    own = placement.outline
    for share in SHARES:
        point = at(lead, share)
        assert not contains(own, point)
        # never nearer to its own part than on the straight way in (hollow sides leave less)
        nearest = min(point_gap(point, segment) for segment in segments(own))
        assert nearest > 0.3 * math.dist(point, lead.end)
    for other in layout.placements:
        if other is not placement:
            assert not contains(other.outline, lead.start)
            assert loop_gap((lead,), other.outline) >= cut.kerf_mm
    edges = [polygon(ring) for ring in (layout.sheet.corners, *layout.sheet.holes)]
    for edge in edges:
        assert loop_gap((lead,), edge) >= cut.kerf_mm
    assert contains(edges[0], lead.start)
    assert not any(contains(hole, lead.start) for hole in edges[1:])


def starts(layout: Layout, cut: Cutting) -> list[tuple[Placement, Start]]:
    found = []
    for placement in layout.placements:
        kerf = cut.kerf_mm if cut.kerf_in_path else 0.0
        path = torch_path(placement.outline, kerf, hole=False)
        start = outline_start(placement, path, layout, cut.kerf_mm, cut.lead_in_mm)
        # the same cut, only begun elsewhere
        assert area_mm2(start.path) == pytest.approx(area_mm2(path), rel=1e-9)
        assert length_mm(start.path) == pytest.approx(length_mm(path), rel=1e-9)
        found.append((placement, start))
    return found


L_PLATE = offcut(
    "l",
    [(0.0, 0.0), (400.0, 0.0), (400.0, 150.0), (200.0, 150.0), (200.0, 300.0), (0.0, 300.0)],
    (((60.0, 60.0), (80.0, 60.0), (80.0, 80.0)),),
)


@pytest.mark.parametrize("kerf_in_path", [False, True])
@pytest.mark.parametrize("sheet", [plate(400.0, 300.0), L_PLATE], ids=["sheet", "offcut"])
def test_leads_in_a_nest_are_good(sheet, kerf_in_path: bool) -> None:
    cut = cutting(lead_in_mm=5.0, kerf_in_path=kerf_in_path)
    wanted = [Wanted(disc(70.0), 4), Wanted(strip(150.0, 20.0), 4)]
    layouts = nest(wanted, [sheet], cut).layouts
    leads = [
        (start, placement, layout)
        for layout in layouts
        for placement, start in starts(layout, cut)
        if start.lead
    ]
    assert len(leads) >= 4
    for start, placement, layout in leads:
        assert_lead_good(start, placement, layout, cut)


blanks = [disc(60.0), strip(90.0, 4.0), sector(30.0, 40.0, 300.0), strip(50.0, 30.0, "short")]


@settings(max_examples=150, deadline=None, derandomize=True)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(blanks),
            st.floats(0, 200),
            st.floats(0, 200),
            st.integers(0, 11).map(lambda n: n * 30.0),
        ),
        min_size=1,
        max_size=5,
    ),
    st.floats(1, 20),
    st.sampled_from([0.0, 0.5, 1.5, 3.0]),
)
def test_a_lead_given_is_always_good(placed, lead_mm: float, kerf_mm: float) -> None:
    """On parts strewn at random (clear of each other by 4 mm or left out), kerf 0 included."""
    sheet, kept = plate(260.0, 260.0), []
    edge = polygon(sheet.corners)
    for one in placed:
        loop = Placement(*one).outline
        inside = contains(edge, segments(loop)[0].start) and loop_gap(loop, edge) >= 4
        clear = all(
            loop_gap(loop, k.outline) >= 4
            and not contains(k.outline, segments(loop)[0].start)
            and not contains(loop, segments(k.outline)[0].start)
            for k in kept
        )
        if inside and clear:
            kept.append(Placement(*one))
    cut = Cutting(kerf_mm=kerf_mm, part_spacing_mm=4.0, sheet_margin_mm=4.0, lead_in_mm=lead_mm)
    layout = Layout(sheet, tuple(kept))
    for placement, start in starts(layout, cut):
        if start.lead is not None:
            assert_lead_good(start, placement, layout, cut)


def test_lone_part_in_the_open_gets_its_lead() -> None:
    for blank in blanks:
        layout = Layout(plate(400.0, 400.0), (Placement(blank, 200.0, 200.0, 0.0),))
        cut = cutting(lead_in_mm=6.0)
        ((placement, start),) = starts(layout, cut)
        assert_lead_good(start, placement, layout, cut)


def test_no_room_on_any_side_is_told_and_the_path_stays() -> None:
    layout = Layout(plate(120.0, 70.0), (Placement(strip(100.0, 50.0), 10.0, 10.0, 0.0),))
    part = layout.placements[0]
    start = outline_start(part, part.outline, layout, 1.5, 20.0)
    assert start == Start(part.outline, None)
    assert outline_start(part, part.outline, layout, 1.5, 8.0).lead is not None


def test_lead_goes_to_the_one_free_side() -> None:
    """A wide strip hemmed in by others at 6 mm on three sides: the lead comes from above."""
    layout = Layout(
        plate(300.0, 300.0),
        (
            Placement(strip(100.0, 60.0), 100.0, 100.0, 0.0),
            Placement(strip(84.0, 80.0, "left"), 10.0, 90.0, 0.0),
            Placement(strip(84.0, 80.0, "right"), 206.0, 90.0, 0.0),
            Placement(strip(100.0, 60.0, "below"), 100.0, 34.0, 0.0),
        ),
    )
    part = layout.placements[0]
    lead = outline_start(part, part.outline, layout, 1.5, 10.0).lead
    assert lead is not None
    assert lead.end[1] == pytest.approx(160)
    assert lead.start[1] == pytest.approx(170)


def test_kerf_nought_does_not_let_a_lead_cross_a_thin_part() -> None:
    """Four thin strips 4 mm off hem a square in: 10 mm of lead would reach across any."""
    layout = Layout(
        plate(400.0, 200.0),
        (
            Placement(strip(100.0, 100.0), 20.0, 20.0, 0.0),
            Placement(strip(100.0, 3.0, "below"), 20.0, 13.0, 0.0),
            Placement(strip(100.0, 3.0, "above"), 20.0, 124.0, 0.0),
            Placement(strip(3.0, 120.0, "left"), 13.0, 10.0, 0.0),
            Placement(strip(3.0, 120.0, "right"), 124.0, 10.0, 0.0),
        ),
    )
    part = layout.placements[0]
    assert outline_start(part, part.outline, layout, 0.5, 10.0).lead is None
    assert outline_start(part, part.outline, layout, 0.0, 10.0).lead is None


@pytest.mark.parametrize(("lead_mm", "length"), [(5.0, 5.0), (40.0, 20.0)])
def test_lead_of_a_hole_lies_in_it_and_ends_on_its_path(lead_mm: float, length: float) -> None:
    """At most from the centre: a longer lead would begin in the part across."""
    hole = Circle((30.0, 40.0), 20.0)
    start = hole_start(hole, lead_mm)
    assert start.lead is not None
    assert start.lead.length_mm == pytest.approx(length)
    assert segments(start.path)[0].start == pytest.approx(start.lead.end)
    assert all(contains(hole, at(start.lead, share)) for share in SHARES)
    assert area_mm2(start.path) == pytest.approx(area_mm2(hole))


def test_no_lead_wanted_none_made() -> None:
    hole = Circle((30.0, 40.0), 20.0)
    assert hole_start(hole, 0.0) == Start(hole, None)
    layout = Layout(plate(300.0, 300.0), (Placement(disc(60.0), 100.0, 100.0, 0.0),))
    part = layout.placements[0]
    assert outline_start(part, part.outline, layout, 1.5, 0.0) == Start(part.outline, None)
