"""Units: by name, by term, and unknown where neither tells."""

from __future__ import annotations

import pytest

from platewheel.parts.workings.terms import Function, Number, Of, Operation, Quantity, Term
from platewheel.parts.workings.units import UNKNOWN, unit_of_name, unit_of_term


def of(unit: str) -> Term:
    return Of(Quantity("x", 2.0, unit, "given"))


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("line_pressure_n_mm2", "N/mm2"),
        ("overturning_n_mm", "N mm"),
        ("rim_force_n_mm", "N/mm"),  # its end would tell it wrong
        ("joint_stiffness_n_per_mm", "N/mm"),
        ("gauge_tolerance_mm_2", "mm"),
        ("max_speed_km_h", "km/h"),
        ("GRAVITY", "N/kg"),
        ("slide_share", ""),
        ("push_shares_2", ""),
        ("left", None),
    ],
)
def test_a_unit_by_its_name(name: str, unit: str | None) -> None:
    assert unit_of_name(name) == unit


def test_a_sum_with_an_angle_or_so_many_of_one_is_an_angle() -> None:
    arc, plain, two = Function("atan", (of(""),), 1.0), of(""), Number(2.0)
    assert unit_of_term(Operation("+", (arc, plain), 3.0)) == "rad"
    assert unit_of_term(Operation("/", (of("rad"), two), 1.0)) == "rad"
    assert unit_of_term(Operation("×", (two, of("rad")), 4.0)) == "rad"
    assert unit_of_term(Operation("/", (of("rad"), of("rad")), 1.0)) == ""
    assert unit_of_term(Operation("×", (of("rad"), plain), 4.0)) == ""
    assert unit_of_term(Function("sin", (of("rad"),), 0.9)) == ""


@pytest.mark.parametrize(
    ("sign", "one", "other", "unit"),
    [
        ("/", "N", "mm2", "N/mm2"),
        ("×", "N", "mm", "N mm"),
        ("+", "mm", "mm", "mm"),
        ("+", "mm", "N", None),
        ("×", "kg", "N/kg", "N"),
        ("/", "mm", "mm", ""),
        ("×", "mm", UNKNOWN, None),
        ("/", "km/h", "mm", None),
    ],
)
def test_a_unit_by_its_term(sign: str, one: str, other: str, unit: str | None) -> None:
    assert unit_of_term(Operation(sign, (of(one), of(other)), 1.0)) == unit


def test_a_number_that_turns_units_leaves_none() -> None:
    assert unit_of_term(Operation("/", (of("mm"), Number(1000.0)), 1.0)) is None
    assert unit_of_term(Operation("/", (of("mm"), Number(2.0)), 1.0)) == "mm"
    assert unit_of_term(Function("sqrt", (of("mm2"),), 1.0)) == "mm"
    assert unit_of_term(Function("atan", (of(""),), 1.0)) == "rad"
    assert unit_of_term(Operation("^", (of("mm"), Number(3.0)), 8.0)) == "mm3"
