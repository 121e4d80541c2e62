"""Axles from round bar: the right bar, every axle cut, nothing of the bar lost."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.sawing.axle_lengths import AxleCuts, axle_cut_list
from platewheel.nesting.stock.round_bar import Round
from platewheel.parts.wheelset.assembly import Wheelset, wheelset
from platewheel.parts.wheelset.axle_bar import least_bar_mm
from tests.parts.checks.settings import setting_of


def axle(**keys: Any) -> Wheelset:
    return wheelset(setting_of(axle=keys))


def _cuts(made: Wheelset, axles: int, rounds: list[Round], kerf_mm: float) -> AxleCuts:
    return axle_cut_list(made.axle_length_mm, least_bar_mm(made), axles, rounds, kerf_mm)


def test_bright_bar_is_taken_at_its_own_size() -> None:
    """Six axles a bar: 6 x (axle + 2 mm facing) and 5 kerfs, counted by hand."""
    found = axle()
    bar = 6 * (found.axle_length_mm + 2) + 5 * 3
    cuts = _cuts(found, 12, [Round(diameter_mm=35.0, length_mm=bar)], 3.0)
    assert [(plan.stock.name, plan.pieces, plan.repeat) for plan in cuts.plans] == [
        ("round 35", (("axle", 6),), 2)
    ]
    assert cuts.missing == 0
    assert cuts.rests == ()


def test_a_pressed_seat_needs_a_thicker_bar() -> None:
    """35 s6 is +59/+43 um (ISO 286-2, from memory): it cannot be turned from a 35 mm bar."""
    pressed = axle(retention="press")
    assert least_bar_mm(pressed) == pytest.approx(35.059)
    thin, thick = (Round(diameter_mm=d, length_mm=3000.0) for d in (35.0, 40.0))
    cuts = _cuts(pressed, 4, [thin, thick], 3.0)
    assert {plan.stock.name for plan in cuts.plans} == {"round 40"}
    assert _cuts(pressed, 4, [thin], 3.0).missing == 4


def test_a_thick_body_rules_the_bar() -> None:
    assert least_bar_mm(axle(body_diameter_mm=45.0)) == 45.0


def test_the_next_thicker_bar_helps_out() -> None:
    found = axle()
    rounds = [
        Round(diameter_mm=40.0, length_mm=1000.0),
        Round(diameter_mm=35.0, length_mm=1000.0, count=2),
    ]
    cuts = _cuts(found, 5, rounds, 3.0)
    assert [(p.stock.name, p.repeat) for p in cuts.plans] == [("round 35", 2), ("round 40", 3)]
    rest = 1000 - (found.axle_length_mm + 2) - 3
    assert [(r.diameter_mm, r.length_mm, r.count) for r in cuts.rests] == [
        (35.0, pytest.approx(rest), 2),
        (40.0, pytest.approx(rest), 3),
    ]


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    axles=st.integers(1, 40),
    length=st.floats(300, 6500),
    count=st.none() | st.integers(0, 5),
    kerf=st.floats(0, 5),
)
def test_every_axle_is_cut_or_told_missing_and_no_steel_is_lost(
    axles: int, length: float, count: int | None, kerf: float
) -> None:
    found = axle()
    stock = [Round(diameter_mm=35.0, length_mm=length, count=count)]
    cuts = _cuts(found, axles, stock, kerf)
    made = sum(number * plan.repeat for plan in cuts.plans for _, number in plan.pieces)
    assert made + cuts.missing == axles
    for plan in cuts.plans:
        ((_, number),) = plan.pieces
        used = number * cuts.piece_mm + (number - 1) * kerf
        assert used <= length + 1e-6
        assert plan.rest_mm == pytest.approx(max(0.0, length - used - kerf), abs=1e-6)
    if count is None and length >= cuts.piece_mm:
        assert cuts.missing == 0
    kept = sum(r.length_mm * (r.count or 0) for r in cuts.rests)
    assert kept <= sum(p.rest_mm * p.repeat for p in cuts.plans) + 1e-6
    assert all(rest.length_mm >= 100 for rest in cuts.rests)
