"""Plywood gauges: their curves are those of the wheel as it is made, whole and small enough."""

from __future__ import annotations

import math

import pytest
from hypothesis import given

from platewheel.nesting.templates.plywood import plywood_template
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Arc
from platewheel.parts.making.plywood import flange_ply_mm, plywood_gauges
from platewheel.parts.wheel.flange import flange_cone
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_ring
from tests.parts.wheels import plain_wheel, valid_wheels


def boards(spec: WheelSpec) -> dict[str, Blank]:
    return {one.board.name: one.board for one in plywood_gauges(spec, "mm")}


def curve(board: Blank) -> Arc:
    (arc,) = (one for one in board.outline if isinstance(one, Arc))
    return arc


def test_curves_are_those_of_the_solids() -> None:
    """By another library's bounds: the formed piece of the flange, the bore of the ring."""
    spec = plain_wheel(flange_segments=3)
    made = boards(spec)
    tip = flange_cone(spec, 0).BoundingBox()
    assert curve(made["plywood-flange"]).radius_mm == pytest.approx(
        max(tip.xmax, tip.ymax, -tip.xmin), abs=0.01
    )
    inside = min(edge.radius() for edge in tread_ring(spec).Edges() if edge.geomType() == "CIRCLE")
    assert curve(made["plywood-ring"]).radius_mm == pytest.approx(inside)


def test_plywood_reaches_the_outermost_edge_of_a_piece_on_its_tip() -> None:
    """A plate of 20 mm at 70 degrees on its tip edge: its rail-side corner stands
    t sin(angle) above, 18.8 mm; one of 6 mm stands 5.6, and thin plywood does."""
    thick = plain_wheel(flange_thickness_mm=20.0, flange_depth_mm=30.0)
    stands = 20 * math.sin(math.radians(70))
    assert stands + 2 <= flange_ply_mm(thick) < stands + 3
    assert flange_ply_mm(plain_wheel()) == 9.0


def test_short_pieces_have_a_gauge_no_longer_than_they_are() -> None:
    short = plain_wheel(flange_segments=6, seam_gap_mm=2.0)
    sweep = abs(curve(boards(short)["plywood-flange"]).sweep_deg)
    assert 58 < sweep < 60  # a sixth of the round less a gap
    assert abs(curve(boards(plain_wheel())["plywood-flange"]).sweep_deg) == pytest.approx(90)


def test_a_pipe_needs_none_of_the_ring_and_a_washer_none_of_the_flange() -> None:
    assert list(boards(plain_wheel(tread_from="pipe"))) == ["plywood-flange"]
    assert list(boards(plain_wheel(flange_angle_deg=90.0, seam_gap_mm=0.0))) == ["plywood-ring"]


@given(valid_wheels())
def test_what_the_paper_says_is_what_it_draws(spec: WheelSpec) -> None:
    """Chord and rise of the drawn arc, from its ends alone: R = c^2 / (8 h) + h / 2."""
    for one in plywood_gauges(spec, "mm"):
        arc, sizes = curve(one.board), one.board.sizes
        chord, top = math.dist(arc.start, arc.end), arc.centre[1] + arc.radius_mm
        rise = top - arc.start[1]
        assert sizes["chord_mm"] == pytest.approx(chord)
        assert sizes["rise_mm"] == pytest.approx(rise)
        assert sizes["radius_mm"] == pytest.approx(chord**2 / (8 * rise) + rise / 2)
        left, low, right, high = one.board.bounds
        assert high - low == pytest.approx(rise + 40)  # to hold, behind the curve
        assert right - left >= chord - 1e-9
        told = plywood_template(one.board, one.title, one.use, "mm").notes
        values = {line.words: line.value for note in told for line in note.lines}
        assert values["its ends, straight across"] == f"{round(chord, 1):.12g} mm"
        assert values["its rise over that line"] == f"{round(rise, 1):.12g} mm"
