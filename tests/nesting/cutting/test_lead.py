"""Leads: on the scrap side, clear of parts, edges and other leads, smooth where they are arcs.

Distances are a polygon library's (see `plates`), which shares no code with the search for room.
"""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.cutting.part_cuts import sheet_cuts
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, polygon
from tests.nesting.leads import (
    assert_leads_clear,
    assert_same_cuts,
    assert_shapes,
    leads,
    of_outline,
    placed_steel,
)
from tests.nesting.plates import (
    SLOT,
    cutting,
    disc,
    offcut,
    plate,
    sector,
    strip,
)

L_PLATE = offcut(
    "l",
    [(0.0, 0.0), (400.0, 0.0), (400.0, 150.0), (200.0, 150.0), (200.0, 300.0), (0.0, 300.0)],
    (((60.0, 60.0), (80.0, 60.0), (80.0, 80.0)),),
)


@pytest.mark.parametrize("shape", ["line", "arc"])
@pytest.mark.parametrize("kerf_in_path", [False, True])
@pytest.mark.parametrize("sheet", [plate(400.0, 300.0), L_PLATE], ids=["sheet", "offcut"])
def test_leads_between_close_parts_are_good(sheet, kerf_in_path: bool, shape: str) -> None:
    cut = cutting(lead_in_mm=3.0, lead_out_mm=2.0, lead_shape=shape, kerf_in_path=kerf_in_path)
    slotted, slim = disc(70.0, holes=(SLOT,)), strip(150.0, 20.0)
    layout = Layout(
        sheet,
        (
            Placement(slotted, 125.0, 46.0, 0.0),
            Placement(slotted, 201.0, 46.0, 0.0),
            Placement(slotted, 163.0, 112.0, 30.0),
            Placement(slim, 30.0, 90.0, 90.0),
            Placement(slim, 56.0, 90.0, 90.0),
            Placement(slim, 240.0, 10.0, 0.0),
            Placement(slim, 240.0, 36.0, 0.0),
        ),
    )
    done = sheet_cuts(layout, cut)
    found = [one for part in done.parts for one in part.cuts]
    assert sum(one.lead_in is not None for one in found) >= len(layout.placements)
    for one in found:
        assert_shapes(one, cut)
    assert_leads_clear(done, layout, cut)


L_PART = polygon([(0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (20.0, 20.0), (20.0, 50.0), (0.0, 50.0)])
blanks = [
    disc(60.0, holes=(Circle((0.0, 0.0), 20.0),)),
    disc(80.0, "slotted", holes=(SLOT, Circle((0.0, 25.0), 3.0))),
    strip(90.0, 4.0),
    sector(30.0, 40.0, 300.0),
    Blank("angle", "extra", 6.0, L_PART),
    disc(20.0, "small"),
]


def strewn(placed: list[tuple]) -> Layout:
    """Parts at random, those left out that lie nearer than 4 mm; they may lie in holes."""
    sheet, kept = plate(220.0, 160.0), []
    for one in placed:
        shape = placed_steel(Placement(*one))
        inside = shapely.box(4, 4, 216, 156).contains(shape)
        if inside and all(shape.distance(other) >= 4 for _, other in kept):
            kept.append((Placement(*one), shape))
    return Layout(sheet, tuple(placement for placement, _ in kept))


places = st.lists(
    st.tuples(
        st.sampled_from(blanks),
        st.floats(10, 180),
        st.floats(10, 130),
        st.integers(0, 11).map(lambda n: n * 30.0),
    ),
    min_size=8,
    max_size=14,
)


@settings(max_examples=70, deadline=None, derandomize=True)
@given(
    places,
    st.floats(1, 20),
    st.sampled_from([0.0, 2.0, 6.0]),
    st.sampled_from(["line", "arc"]),
    st.sampled_from([0.0, 0.5, 1.5, 3.0]),
    st.sampled_from([0, 0, 3]),
)
def test_leads_given_are_always_good(
    placed, lead_mm: float, out_mm: float, shape: str, kerf_mm: float, tabs: int
) -> None:
    layout = strewn(placed)
    cut = Cutting(
        kerf_mm=kerf_mm,
        part_spacing_mm=4.0,
        sheet_margin_mm=4.0,
        lead_in_mm=lead_mm,
        lead_out_mm=out_mm,
        lead_shape=shape,
        tab_count=tabs,
    )
    done = sheet_cuts(layout, cut)
    assert_leads_clear(done, layout, cut)
    assert_same_cuts(done)
    for part in done.parts:
        for one in part.cuts:
            assert_shapes(one, cut, shortened=True)


@pytest.mark.parametrize("shape", ["line", "arc"])
def test_lone_part_in_the_open_gets_its_leads(shape: str) -> None:
    for blank in blanks:
        layout = Layout(plate(400.0, 400.0), (Placement(blank, 200.0, 200.0, 0.0),))
        cut = cutting(lead_in_mm=6.0, lead_out_mm=4.0, lead_shape=shape)
        (part,) = sheet_cuts(layout, cut).parts
        (outline,) = of_outline(part)
        assert_shapes(outline, cut)
        assert len(leads(outline)) == 2
        assert all(len(leads(one)) == 2 for one in part.cuts)
