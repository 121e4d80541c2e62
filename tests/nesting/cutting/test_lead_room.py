"""Where a lead finds room, case by case; what has none is told."""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest
import shapely

from platewheel.nesting.cutting.lead_search import LeadSearch
from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.geometry.gaps import loop_gap
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, contains, polygon
from tests.nesting.leads import (
    assert_leads_clear,
    assert_same_cuts,
    drawn,
    leads,
)
from tests.nesting.plates import (
    cutting,
    disc,
    offcut,
    plate,
    strip,
)


def test_too_little_room_on_all_sides_slants_the_lead_and_is_told() -> None:
    """10 mm of plate all round: 1.5 of them clear, and 15 mm at 30 degrees are 7.5 mm across."""
    layout = Layout(plate(120.0, 70.0), (Placement(strip(100.0, 50.0), 10.0, 10.0, 0.0),))
    done = sheet_cuts(layout, cutting(lead_in_mm=20.0))
    assert done.warnings == (
        "1 part lies too close for a lead-in of 20 mm, it is shorter or slanted there "
        "(down to 15.0 mm): tread 1 at (10, 10)",
    )
    (lead,) = leads(done.parts[0].cuts[0])
    assert lead.length_mm == pytest.approx(15)
    assert abs(lead.end[1] - lead.start[1]) == pytest.approx(7.5)
    assert_same_cuts(done)
    assert_leads_clear(done, layout, cutting(lead_in_mm=20.0))
    assert sheet_cuts(layout, cutting(lead_in_mm=8.0)).warnings == ()


def test_no_room_at_all_is_told_by_name_number_and_place() -> None:
    """2 mm of plate all round leave none for a pierce that keeps 1.5 clear and its own kerf."""
    layout = Layout(plate(104.0, 54.0), (Placement(strip(100.0, 50.0), 2.0, 2.0, 0.0),))
    done = sheet_cuts(layout, cutting(lead_in_mm=20.0))
    assert done.warnings == ("no room for a lead-in of 20 mm: tread 1 at (2, 2)",)
    assert leads(done.parts[0].cuts[0]) == []


def test_a_run_off_without_room_is_told_and_the_lead_in_stays() -> None:
    layout = Layout(plate(120.0, 70.0), (Placement(strip(100.0, 50.0), 10.0, 10.0, 0.0),))
    done = sheet_cuts(layout, cutting(lead_in_mm=5.0, lead_out_mm=20.0))
    (cut,) = done.parts[0].cuts
    assert cut.lead_in is not None
    assert cut.lead_out is None
    (told,) = done.warnings
    assert told == "no room for a lead-out of 20 mm beside the lead-in: tread 1 at (10, 10)"


def hemmed(thick: float, gap: float, reach: float) -> Layout:
    """A square of 100 mm with a strip along each side."""
    return Layout(
        plate(400.0, 300.0),
        (
            Placement(strip(100.0, 100.0), 50.0, 50.0, 0.0),
            Placement(strip(100.0, thick, "below"), 50.0, 50.0 - gap - thick, 0.0),
            Placement(strip(100.0, thick, "above"), 50.0, 150.0 + reach, 0.0),
            Placement(strip(thick, 120.0, "left"), 50.0 - gap - thick, 40.0, 0.0),
            Placement(strip(thick, 120.0, "right"), 150.0 + gap, 40.0, 0.0),
        ),
    )


def test_lead_goes_to_the_one_free_side() -> None:
    layout = hemmed(20.0, 6.0, 60.0)
    done = sheet_cuts(layout, cutting(lead_in_mm=10.0))
    (part,) = [p for p in done.parts if p.placement.blank.name == "tread"]
    lead = part.cuts[0].lead_in
    assert lead is not None
    assert lead.end[1] == pytest.approx(150)
    assert lead.start[1] == pytest.approx(160)


@pytest.mark.parametrize("kerf_mm", [0.0, 0.5])
def test_no_lead_crosses_a_thin_part(kerf_mm: float) -> None:
    """Thin strips 4 mm off on all sides: 10 mm of lead would reach across any."""
    layout, cut = hemmed(3.0, 4.0, 4.0), cutting(lead_in_mm=10.0, kerf_mm=kerf_mm)
    done = sheet_cuts(layout, cut)
    assert_leads_clear(done, layout, cut)
    (part,) = [p for p in done.parts if p.placement.blank.name == "tread"]
    assert part.cuts[0].lead_in is not None


def test_leads_of_two_parts_do_not_meet_between_them() -> None:
    """Two squares with room for a lead only in the 14 mm between them: 8 mm each."""
    layout = Layout(
        plate(124.0, 60.0),
        (
            Placement(strip(50.0, 50.0, "a"), 5.0, 5.0, 0.0),
            Placement(strip(50.0, 50.0, "b"), 69.0, 5.0, 0.0),
        ),
    )
    cut = cutting(lead_in_mm=8.0)
    done = sheet_cuts(layout, cut)
    assert done.warnings == ()
    assert_leads_clear(done, layout, cut)


def test_no_lead_crosses_a_narrow_hole_of_the_plate() -> None:
    """Slits of 1 mm all round, 3 mm off the part."""
    slits = (
        ((16.0, 10.0), (17.0, 10.0), (17.0, 80.0), (16.0, 80.0)),
        ((73.0, 10.0), (74.0, 10.0), (74.0, 80.0), (73.0, 80.0)),
        ((18.0, 16.0), (72.0, 16.0), (72.0, 17.0), (18.0, 17.0)),
        ((18.0, 73.0), (72.0, 73.0), (72.0, 74.0), (18.0, 74.0)),
    )
    sheet = offcut("slit", [(0.0, 0.0), (90.0, 0.0), (90.0, 90.0), (0.0, 90.0)], slits)
    layout = Layout(sheet, (Placement(strip(50.0, 50.0), 20.0, 20.0, 0.0),))
    assert leads(sheet_cuts(layout, cutting(lead_in_mm=9.0)).parts[0].cuts[0]) == []


def test_a_part_in_a_hole_has_short_leads_in_the_ring_round_it_or_none() -> None:
    """5 mm between them hold a pierce 1.5 mm clear and a kerf, 3 mm do not."""
    ring = disc(120.0, "ring", holes=(Circle((0.0, 0.0), 50.0),))
    cut = cutting(lead_in_mm=4.0)
    for across, led in ((90.0, True), (94.0, False)):
        inner = Placement(disc(across, "inner"), 100.0, 100.0, 0.0)
        layout = Layout(plate(300.0, 300.0), (Placement(ring, 100.0, 100.0, 0.0), inner))
        done = sheet_cuts(layout, cut)
        assert bool(leads(done.parts[0].cuts[0])) == led
        assert_leads_clear(done, layout, cut)
        assert any("no room for a lead-in of 4 mm: inner 1 at" in w for w in done.warnings) != led


@pytest.mark.parametrize(("lead_mm", "length"), [(5.0, 5.0), (29.0, 20.0)])
def test_lead_of_a_round_hole_is_at_most_its_radius(lead_mm: float, length: float) -> None:
    """A longer lead would begin nearer to the other side than to its own."""
    part = Placement(disc(100.0, holes=(Circle((3.0, 4.0), 20.0),)), 100.0, 100.0, 0.0)
    done = sheet_cuts(Layout(plate(300.0, 300.0), (part,)), cutting(lead_in_mm=lead_mm))
    lead = done.parts[0].cuts[0].lead_in
    assert lead is not None
    assert lead.length_mm == pytest.approx(length)
    assert all(contains(part.holes[0], p) for p in (lead.start, drawn(lead).centroid.coords[0]))
    assert any("1 hole is too small" in line for line in done.warnings) == (length < lead_mm)


@pytest.mark.parametrize(("clear_mm", "told"), [(5.9, False), (12.0, True)])
def test_a_hole_too_small_to_pierce_clear_in_is_told(clear_mm: float, told: bool) -> None:
    """In the middle of a hole of radius 6 the torch pierces 6 mm off its edge, and no more."""
    part = Placement(disc(100.0, "nut", holes=(Circle((3.0, 4.0), 6.0),)), 100.0, 100.0, 0.0)
    cut = cutting(lead_in_mm=20.0, pierce_clear_mm=clear_mm)
    done = sheet_cuts(Layout(plate(300.0, 300.0), (part,)), cut)
    (said,) = [line for line in done.warnings if "pierce_clear_mm" in line] or [""]
    assert bool(said) == told
    if told:
        lead = done.parts[0].cuts[0].lead_in
        assert lead is not None
        off = math.dist(lead.start, lead.end)
        assert said == (
            "1 hole is too small to pierce 12 mm off its edge (pierce_clear_mm): pierced in "
            f"its middle, down to {off:.1f} mm off: nut"
        )


def test_a_hole_with_a_part_in_it_has_its_lead_beside_that() -> None:
    ring = disc(120.0, "ring", holes=(Circle((0.0, 0.0), 50.0),))
    inner = Placement(disc(70.0, "inner"), 100.0, 100.0, 0.0)
    layout = Layout(plate(300.0, 300.0), (Placement(ring, 100.0, 100.0, 0.0), inner))
    cut = cutting(lead_in_mm=6.0)
    done = sheet_cuts(layout, cut)
    assert [p.placement.blank.name for p in done.parts] == ["inner", "ring"]
    assert_leads_clear(done, layout, cut)
    assert done.warnings == ()
    lead = done.parts[0].cuts[0].lead_in
    assert lead is not None  # of the inner part: within the ring's hole
    assert 35 < math.dist(lead.start, (100.0, 100.0)) < 50


def test_no_lead_wanted_none_made() -> None:
    blank = disc(60.0, holes=(Circle((0.0, 0.0), 20.0),))
    layout = Layout(plate(300.0, 300.0), (Placement(blank, 100.0, 100.0, 0.0),))
    done = sheet_cuts(layout, cutting())
    assert [cut.path for cut in done.parts[0].cuts] == [
        Circle((100.0, 100.0), 20.0),
        Circle((100.0, 100.0), 30.0),
    ]
    assert done.pierces == 2
    assert loop_gap(done.parts[0].cuts[0].path, done.parts[0].cuts[1].path) == pytest.approx(10)


def test_no_lead_cuts_through_the_bridge_of_a_neighbour() -> None:
    """Squares 7 mm apart, each column a quarter of a side up: the tabs, in the middle of each
    side, face the quarters of the sides beside them, where leads are tried first."""
    square = strip(60.0, 60.0)
    layout = Layout(
        plate(300.0, 300.0),
        tuple(
            Placement(square, 20.0 + 67 * i, 20.0 + 67 * j + 15 * i, 0.0)
            for i, j in itertools.product(range(3), range(3))
        ),
    )
    cut = cutting(tab_count=4, tab_width_mm=3.0, lead_in_mm=5.0)
    done = sheet_cuts(layout, cut)
    assert done.warnings == ()
    tabs = []
    for part in done.parts:
        for one, after in itertools.pairwise(part.cuts):
            tab = shapely.LineString([one.path[-1].end, after.path[0].start])
            # the kerf beside the part, and the bridge's foot behind it
            tabs.append((part, tab.interpolate(0.5, normalized=True).buffer(cut.kerf_mm + 1.0)))
    assert len(tabs) == 4 * 9
    for part in done.parts:
        for lead in (drawn(lead) for one in part.cuts for lead in leads(one)):
            for owner, foot in tabs:
                assert owner is part or not lead.intersects(foot)


@pytest.mark.parametrize("at_once", [1, 3])
def test_spots_looked_at_a_few_at_a_time_give_the_same_cuts(
    at_once: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In the order wanted: those with good room first, then those with some."""
    layout, asked = hemmed(20.0, 9.0, 14.0), cutting(lead_in_mm=5.0)
    whole = sheet_cuts(layout, asked)
    monkeypatch.setattr("platewheel.nesting.cutting.lead_search.AT_ONCE", (at_once,))
    assert sheet_cuts(layout, asked) == whole


def test_of_an_edge_of_thousands_of_lines_few_spots_are_looked_at(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    turns = [2 * math.pi * k / 1000 for k in range(1000)]
    edge = polygon([(60 + 50 * math.cos(t), 60 + 50 * math.sin(t)) for t in turns])
    looked, plain = [], LeadSearch._clear

    def counted(search: LeadSearch, rows: Any, *rest: Any) -> Any:
        looked.append(len(rows))
        return plain(search, rows, *rest)

    monkeypatch.setattr(LeadSearch, "_clear", counted)
    layout = Layout(plate(120.0, 120.0), (Placement(Blank("round", "x", 6.0, edge), 0, 0, 0.0),))
    done = sheet_cuts(layout, cutting(lead_in_mm=3.0))
    assert len(leads(done.parts[0].cuts[0])) == 1
    assert 0 < sum(looked) < 400
