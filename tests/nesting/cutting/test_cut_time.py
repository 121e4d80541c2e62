"""Cutting length, pierces, travel and hours, each added up by hand."""

from __future__ import annotations

import math

import pytest

from platewheel.nesting.cutting.cut_speed import CutSpeed
from platewheel.nesting.cutting.cut_time import cutting_work, plate_work
from platewheel.nesting.offcuts.remnant import rectangle
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, polygon
from tests.nesting.plates import disc, plate, strip

STRIP = strip(200.0, 100.0)  # 600 mm round, begun at its own origin
DISC = disc(100.0, holes=(Circle((0.0, 0.0), 10.0), Circle((30.0, 0.0), 5.0)))
DISC_CUT_MM = 2 * math.pi * (50 + 10 + 5)


def laid(*blanks: Blank, repeat: int = 1, step_mm: float = 300.0) -> Layout:
    """Blanks in a row, 100 mm above the lower edge, from x = 100 on."""
    at = (Placement(blank, 100.0 + step_mm * i, 100.0, 0.0) for i, blank in enumerate(blanks))
    return Layout(plate(2000.0, 500.0), tuple(at), repeat)


PLATES, SINGLE = laid(STRIP, STRIP, DISC, repeat=3), laid(DISC)


def cutting(**keys: object) -> Cutting:
    given: dict = {"cut_speed_mm_per_min": 2000.0, "pierce_s": 0.9, "price_per_h": 60.0}
    return Cutting(**(given | keys))


def test_cutting_length_and_pierces() -> None:
    """Each plate: two strips of 600 mm and a disc with its holes, 2 + 3 pierces."""
    work = cutting_work([PLATES, SINGLE], cutting())
    assert work.cut_length_mm == pytest.approx(3 * 2 * 600 + 4 * DISC_CUT_MM)
    assert work.pierces == 3 * (2 + 3) + 3


def test_travel_from_the_corner_through_every_start() -> None:
    """A circle begins at its right: holes at 110 and 135, the outline at 150, all 100 up."""
    work = plate_work(SINGLE, cutting())
    assert work.rapid_length_mm == pytest.approx(math.hypot(110, 100) + 25 + 15)
    strips = plate_work(laid(STRIP, STRIP), cutting())
    assert strips.rapid_length_mm == pytest.approx(math.hypot(100, 100) + 300)


def test_cutting_time_and_price() -> None:
    """200 strips, 120 m at 2 m a minute: an hour; 200 pierces of 0.9 s: three minutes.

    Travel of 200 mm and of a step of 300 on each of 100 plates, 50 m at 10 m a minute: five.
    """
    lay = Layout(
        plate(2000.0, 500.0),
        (Placement(STRIP, 200.0, 0.0, 0.0), Placement(STRIP, 500.0, 0.0, 0.0)),
        repeat=100,
    )
    work = cutting_work([lay], cutting(rapid_mm_per_min=10000.0))
    assert work.rapid_length_mm == pytest.approx(50_000)
    assert work.hours == pytest.approx((60 + 3 + 5) / 60)
    assert work.price == pytest.approx(68)
    slow = cutting_work([lay], cutting(rapid_mm_per_min=5000.0))
    assert slow.hours - work.hours == pytest.approx(5 / 60)
    assert cutting_work([], cutting()).hours == 0


def test_no_price_an_hour_costs_nothing() -> None:
    assert cutting_work([PLATES], Cutting()).price == 0
    assert cutting_work([PLATES], Cutting()).hours > 0


def test_leads_are_cut_too() -> None:
    """A line of 6 in and of 4 out at each of two strips."""
    lay = laid(STRIP, STRIP)
    work = plate_work(lay, cutting(lead_in_mm=6.0, lead_out_mm=4.0))
    assert work.cut_length_mm == pytest.approx(2 * (600 + 6 + 4))
    assert work.pierces == 2


def test_travel_is_to_where_a_lead_begins() -> None:
    """6 mm off the middle of one of the strip's two long sides, which begin at 100, 100."""
    found = plate_work(laid(STRIP), cutting(lead_in_mm=6.0)).rapid_length_mm
    below, above = math.hypot(200, 100 - 6), math.hypot(200, 200 + 6)
    assert found == pytest.approx(below) or found == pytest.approx(above)


def test_a_quarter_arc_is_longer_than_a_line() -> None:
    work = plate_work(laid(STRIP), cutting(lead_in_mm=6.0, lead_shape="arc"))
    assert work.cut_length_mm == pytest.approx(600 + 6 * math.pi / 2)


def test_each_piece_between_tabs_is_pierced() -> None:
    """Four bridges of 2 mm, each with half a kerf of 1.7 mm beside it at both ends, stay uncut."""
    work = plate_work(laid(STRIP), cutting(tab_count=4, tab_width_mm=2.0))
    assert work.pierces == 4
    assert work.cut_length_mm == pytest.approx(600 - 4 * (2 + 1.7))
    assert work.rapid_length_mm > math.hypot(100, 100) + 3 * 3  # over three of the bridges


def test_the_chart_tells_the_time_of_each_thickness() -> None:
    """600 mm at 1500 mm/min, half way from 1000 to 2000, and a pierce of 0.5 s."""
    chart = [
        CutSpeed(thickness_mm=5.0, speed_mm_per_min=2000.0, pierce_s=0.4),
        CutSpeed(thickness_mm=7.0, speed_mm_per_min=1000.0, pierce_s=0.6),
    ]
    cut = Cutting(rapid_mm_per_min=200_000.0)
    lay = Layout(plate(2000.0, 500.0), (Placement(STRIP, 0.0, 0.0, 0.0),))
    assert plate_work(lay, cut, chart).hours == pytest.approx(0.4 / 60 + 0.5 / 3600)
    with pytest.raises(SpecError, match="cut_speed"):
        plate_work(lay, cut, chart[1:])


def test_round_holes_take_the_time_of_their_own_rows() -> None:
    """The holes of 20 and 10 mm at 1200 and 1000 mm/min, their lead-ins too; the rest at 2000."""
    six: dict = {"thickness_mm": 6.0, "pierce_s": 0.5}
    chart = [
        CutSpeed(**six, speed_mm_per_min=2000.0),
        CutSpeed(**six, speed_mm_per_min=1200.0, hole_up_to_mm=37.0),
        CutSpeed(**(six | {"pierce_s": 0.9}), speed_mm_per_min=1000.0, hole_up_to_mm=12.0),
    ]
    for keys, lead in (({}, 0.0), ({"lead_in_mm": 3.0}, 3.0)):
        cut = Cutting(rapid_mm_per_min=200_000.0, **keys)
        work, base = plate_work(SINGLE, cut, chart), plate_work(SINGLE, cut, chart[:1])
        minutes = (
            (100 * math.pi + lead) / 2000
            + (20 * math.pi + lead) / 1200
            + (10 * math.pi + lead) / 1000
            + (0.5 + 0.5 + 0.9) / 60
            + work.rapid_length_mm / 200_000
        )
        assert 60 * work.hours == pytest.approx(minutes)
        assert work.cut_length_mm == base.cut_length_mm
        assert work.hours > base.hours
    square = disc(100.0, holes=(polygon(((0, 0), (9, 0), (9, 9), (0, 9))),))
    cut = Cutting()  # no round hole: as every edge
    assert plate_work(laid(square), cut, chart) == plate_work(laid(square), cut, chart[:1])


def test_cutting_up_what_is_left_takes_its_time() -> None:
    """2000 x 500 with nothing on it, in pieces of 500: three cuts of 500 across."""
    bare = Layout(plate(2000.0, 500.0), ())
    work = plate_work(bare, cutting(skeleton_piece_mm=500.0))
    assert work.cut_length_mm == pytest.approx(3 * 500)
    assert work.pierces == 3
    kept = [rectangle(bare, (0.0, 0.0, 2000.0, 500.0))]
    assert plate_work(bare, cutting(skeleton_piece_mm=500.0), kept=kept).cut_length_mm == 0
