"""Work by hand: holes by their way and time, sums over plates; against figures worked by hand."""

from __future__ import annotations

import math

import pytest

from platewheel.nesting.by_hand.hole_ways import HoleTools
from platewheel.nesting.cutting.hand_work import HandWork, all_work, hand_work
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Circle

HAND = Cutting(process="hand", least_offcut_mm=1000.0)
PLATE = Sheet("200 x 200", 8.0, 200.0, 200.0, None, 0.0)


def work(blank: Blank, tools: HoleTools | None = None) -> HandWork:
    return hand_work(Layout(PLATE, (Placement(blank, 100.0, 100.0, 0.0),)), HAND, (), tools)


def disc(*sizes: float) -> Blank:
    holes = tuple(Circle((0.0, 0.0), size / 2) for size in sizes)
    return Blank("disc", "disc", 8.0, Circle((0.0, 0.0), 75.0), holes)


# 8 mm at 800 mm2 a minute: 100 mm a minute straight, 50 round
EDGE_MIN = 150 * math.pi / 50


def test_a_saw_a_drill_a_chain() -> None:
    """44 mm by saw: 2 minutes in 6 mm, so 2.667 in 8; 12 mm drilled: 1 minute; 60 mm in a chain:
    24 holes at half a minute, then 188.5 mm ground at 50 mm a minute."""
    plain = work(disc())
    assert plain.minutes == pytest.approx(EDGE_MIN)
    assert plain.straight_cuts == 0
    sawn = work(disc(44.0), HoleTools((44.0,)))
    assert sawn.minutes == pytest.approx(EDGE_MIN + 2 * 8 / 6)
    assert [(row.how, row.count, row.chain_holes) for row in sawn.holes] == [("hole saw", 1, 0)]
    assert work(disc(22.0), HoleTools((22.0,))).minutes == pytest.approx(EDGE_MIN + 8 / 6)
    assert work(disc(12.0)).minutes == pytest.approx(EDGE_MIN + 1.0)
    chain = work(disc(60.0))
    assert chain.minutes == pytest.approx(EDGE_MIN + 24 * 0.5 + 60 * math.pi / 50)
    assert chain.curved_mm == pytest.approx(210 * math.pi)
    assert chain.discs == 1  # 660 mm of 8 mm are 5278 mm2 of 8000


def test_an_inner_arc_is_drilled_and_both_ends_are_cut() -> None:
    """R 60 over 90 degrees, drill 6: centres on 56.25, 6.8 mm are 6.929 degrees: 12 spaces."""
    edge = Blank("arc", "extra", 8.0, annular_sector(60.0, 80.0, 90.0))
    found = work(edge)
    assert found.arc_chain_holes == 13
    assert found.straight_mm == pytest.approx(40)
    assert found.curved_mm == pytest.approx(140 * math.pi / 2)
    assert found.minutes == pytest.approx(13 * 0.5 + 0.4 + found.curved_mm / 50)


def test_sums_over_plates() -> None:
    one, other = work(disc(60.0)), work(disc(12.0))
    both = all_work([(3, one), (2, other)])
    assert both.minutes == pytest.approx(3 * one.minutes + 2 * other.minutes)
    assert both.curved_mm == pytest.approx(3 * one.curved_mm + 2 * other.curved_mm)
    assert [(row.how, row.count, row.chain_holes) for row in both.holes] == [
        ("chain", 3, 72),
        ("drill", 2, 0),
    ]
