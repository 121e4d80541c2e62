"""Tabs: evenly spread, off corners and leads; cuts and tabs together make the outline, and no
stretch is cut twice."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.cutting.part_cuts import PartCuts, sheet_cuts
from platewheel.nesting.cutting.tabs import opening_mm, outline_ring, tab_spots
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Loop, length_mm, polygon, segments
from tests.nesting.plates import along, cutting, disc, plate, sector, strip

L_PART = Blank(
    "angle",
    "extra",
    6.0,
    polygon([(0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (20.0, 20.0), (20.0, 50.0), (0.0, 50.0)]),
)
BLANKS = [disc(60.0), strip(90.0, 30.0), sector(40.0, 60.0, 200.0), L_PART]


def alone(blank: Blank, turn: float = 0.0) -> Layout:
    return Layout(plate(400.0, 400.0), (Placement(blank, 200.0, 200.0, turn),))


def only(layout: Layout, cut: Cutting) -> PartCuts:
    (part,) = sheet_cuts(layout, cut).parts
    return part


def drawn(path: Loop) -> shapely.LineString:
    ring = segments(path)
    return shapely.LineString([*(p for s in ring for p in along(s, 1e-3)), ring[-1].end])


@settings(max_examples=100, deadline=None, derandomize=True)
@given(
    st.sampled_from(BLANKS),
    st.integers(1, 5),
    st.floats(0.5, 4),
    st.floats(0, 2.5),
    st.booleans(),
    st.sampled_from([0.0, 4.0]),
    st.floats(0, 360),
)
def test_cuts_and_tabs_make_the_outline(
    blank: Blank, tabs: int, width: float, kerf: float, in_path: bool, lead: float, turn: float
) -> None:
    cut = Cutting(
        kerf_mm=kerf, kerf_in_path=in_path, tab_count=tabs, tab_width_mm=width, lead_in_mm=lead
    )
    layout = alone(blank, turn)
    pieces = [c for c in only(layout, cut).cuts if c.layer == "cut-outline"]
    assert sheet_cuts(layout, cut).warnings == ()
    assert len(pieces) == tabs + (1 if lead else 0)  # the lead's start parts one of the cuts
    assert not any(piece.closed for piece in pieces)
    whole = torch_path(layout.placements[0].outline, kerf if in_path else 0.0, hole=False)
    run = math.fsum(length_mm(piece.path) for piece in pieces)
    assert run + tabs * (width + kerf) == pytest.approx(length_mm(whole), rel=1e-9)
    # nothing twice: the cuts' shapes are apart by a tab, or meet at the lead alone
    lines = [drawn(piece.path) for piece in pieces]
    corridor = drawn(whole).buffer(0.01)
    for i, line in enumerate(lines):
        assert corridor.contains(line)
        for other in lines[:i]:
            assert line.intersection(other).length < 1e-9
    # each opening is as wide as steel and kerf together, seen straight across
    ends = [(p.path[-1].end, q.path[0].start) for p, q in itertools.pairwise(pieces)]
    ends.append((pieces[-1].path[-1].end, pieces[0].path[0].start))
    gaps = [math.dist(a, b) for a, b in ends]
    if lead:
        assert gaps.pop() == pytest.approx(0, abs=1e-6)
    for gap in gaps:  # a chord over the tightest arc, or straight
        assert gap == pytest.approx(width + kerf, rel=0.02)


@pytest.mark.parametrize("blank", BLANKS, ids=lambda b: b.name)
def test_tabs_keep_off_corners_and_lie_about_evenly(blank: Blank) -> None:
    cut = cutting(tab_count=4, tab_width_mm=2.0)
    ring = outline_ring(blank.outline, cut)
    spots, total = tab_spots(ring, cut), length_mm(blank.outline)
    corners, run = [], 0.0
    for segment in ring:
        corners.append(run)
        run += segment.length_mm
    if not isinstance(blank.outline, Circle):
        for spot in spots:
            near = min(abs((spot - corner + total / 2) % total - total / 2) for corner in corners)
            # arcs in pieces have smooth joints, no corners
            assert near > opening_mm(cut) / 2 or blank.kind == "flange"
    steps = [(b - a) % total for a, b in zip(spots, [*spots[1:], spots[0]], strict=True)]
    assert min(steps) > 3 * opening_mm(cut)
    assert max(steps) < 2 * total / 4


@pytest.mark.parametrize("shape", ["line", "arc"])
def test_the_lead_is_away_from_tabs_and_each_cut_has_one(shape: str) -> None:
    for blank in BLANKS:
        cut = cutting(tab_count=3, tab_width_mm=2.0, lead_in_mm=5.0, lead_shape=shape)
        pieces = only(alone(blank), cut).cuts
        first, *others = pieces
        assert first.lead_in is not None
        for piece in others:  # behind a tab, square to the cut: an arc would cut the bridge
            assert piece.lead_in is not None
            assert type(piece.lead_in).__name__ == "Line"
        start = shapely.Point(first.path[0].start)
        for a, b in itertools.pairwise(pieces):
            tab = shapely.LineString([a.path[-1].end, b.path[0].start])
            assert tab.distance(start) > opening_mm(cut) / 2
            # the bridge keeps its width: no lead runs over it
            lead = drawn((first.lead_in,))
            assert lead.distance(tab) > 1.5


def test_fewer_tabs_where_there_is_no_room_are_told() -> None:
    done = sheet_cuts(alone(strip(20.0, 6.0, "chip")), cutting(tab_count=6, tab_width_mm=2.0))
    (part,) = done.parts
    assert done.warnings == (f"chip: room for {len(part.cuts)} tabs of the 6 wanted",)
    assert 0 < len(part.cuts) < 6
    tiny = sheet_cuts(alone(disc(3.0, "dot")), cutting(tab_count=2, tab_width_mm=2.0))
    assert tiny.warnings == ("dot: room for 0 tabs of the 2 wanted",)
    assert [cut.closed for cut in tiny.parts[0].cuts] == [True]


def test_each_open_cut_is_a_pierce() -> None:
    blank = disc(60.0, holes=(Circle((0.0, 0.0), 10.0),))
    assert sheet_cuts(alone(blank), cutting()).pierces == 2
    assert sheet_cuts(alone(blank), cutting(tab_count=3)).pierces == 1 + 3
    assert sheet_cuts(alone(blank), cutting(tab_count=3, lead_in_mm=3.0)).pierces == 1 + 4


def test_a_lead_finds_room_although_a_tab_was_there() -> None:
    """Room for a lead on one short stretch only, where the first tab would lie: they move on."""
    part = strip(80.0, 80.0)
    cut = cutting(tab_count=4, tab_width_mm=2.0, lead_in_mm=8.0)
    ring = outline_ring(part.outline, cut)
    crowd = [
        Placement(strip(80.0, 20.0, "below"), 40.0, 14.0, 0.0),
        Placement(strip(20.0, 80.0, "left"), 14.0, 40.0, 0.0),
        Placement(strip(80.0, 20.0, "above"), 40.0, 126.0, 0.0),
        Placement(strip(20.0, 34.0, "low"), 126.0, 40.0, 0.0),
        Placement(strip(20.0, 34.0, "high"), 126.0, 86.0, 0.0),
    ]
    layout = Layout(plate(160.0, 160.0), (Placement(part, 40.0, 40.0, 0.0), *crowd))
    done = sheet_cuts(layout, cut)
    (mine,) = [p for p in done.parts if p.placement.blank.name == "tread"]
    lead = mine.cuts[0].lead_in
    assert lead is not None
    assert lead.start[0] == pytest.approx(128)
    assert len(mine.cuts) == 5
    # 4 tabs, a side's length apart: the first choice is the middle of each side
    assert tab_spots(ring, cut) == pytest.approx((40, 120, 200, 280))
