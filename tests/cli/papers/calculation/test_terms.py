"""Terms as text: as many brackets as it takes for the text to mean the term, and no digit lost."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from platewheel.cli.papers.calculation.published import PUBLISHED
from platewheel.cli.papers.calculation.symbols import in_turn, symbol_of
from platewheel.cli.papers.calculation.terms import digits, term_text, with_unit
from platewheel.parts.workings.terms import Function, Number, Operation, Term
from tests.cli.papers.calculation.worked_again import half_step, value_of, worked
from tests.places import ROOT

SIGNS = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "×": lambda a, b: a * b,
    "/": lambda a, b: a / b,
}


@st.composite
def terms(draw: st.DrawFn, deep: int = 4) -> Term:
    """Any term of whole numbers from -4 to 9, none of them 0."""
    kind = draw(st.sampled_from(["number", "number", "two", "two", "neg", "power", "abs"]))
    if not deep or kind == "number":
        return Number(float(draw(st.integers(-4, 9).filter(bool))))
    one = draw(terms(deep - 1))
    if kind == "neg":
        return Operation("neg", (one,), -one.value)
    if kind == "abs":
        return Function("abs", (one,), abs(one.value))
    if kind == "power":
        return Operation("^", (one, Number(2.0)), one.value**2)
    other = draw(terms(deep - 1))
    sign = draw(st.sampled_from(sorted(SIGNS)))
    if sign == "/" and not other.value:
        sign = "+"
    return Operation(sign, (one, other), SIGNS[sign](one.value, other.value))


@given(terms())
def test_the_text_of_a_term_means_the_term(term: Term) -> None:
    text = term_text(term, lambda one: digits(one.value))
    assert math.isclose(worked(text, {}), term.value, rel_tol=1e-9, abs_tol=1e-9)


def test_no_bracket_stands_that_is_not_needed() -> None:
    a, b, c = Number(1.0), Number(2.0), Number(3.0)
    both = Operation("×", (a, b), 2.0)
    assert term_text(Operation("/", (both, c), 2 / 3), str) == "1 × 2 / 3"
    assert term_text(Operation("/", (c, both), 1.5), str) == "3 / (1 × 2)"
    assert term_text(Operation("-", (a, Operation("-", (b, c), -1.0)), 2.0), str) == "1 − (2 − 3)"


@given(st.floats(-1e12, 1e12, allow_nan=False))
def test_a_number_is_printed_to_five_figures_or_exactly(value: float) -> None:
    text = digits(value)
    assert abs(value_of(text) - value) <= half_step(text) * (1 + 1e-9) + 1e-12 * abs(value)


def test_numbers_and_lengths_as_they_are_printed() -> None:
    assert [digits(value) for value in (8.0, 0.36, 2.02399, 184870.2, -1.5, float("inf"))] == [
        "8", "0.36", "2.0240", "184870", "−1.5", "unbounded"
    ]  # fmt: skip
    assert with_unit(25.4, "mm", "inch") == "25.4 mm (1 in)"
    assert with_unit(25.4, "mm", "mm") == "25.4 mm"
    assert with_unit(25.4, "N/mm2", "inch") == "25.4 N/mm2"


def test_symbols_are_one_of_the_table_or_the_code_s_own_words() -> None:
    assert symbol_of("struck_load_n") == "Q"
    assert symbol_of("rail_positions_mm_2") == "rail_positions_2"
    assert symbol_of("LEAST_THROAT_MM") == "least_throat"
    taken = {"Q"}
    assert [in_turn("Q", taken), in_turn("Q", taken)] == ["Q_2", "Q_3"]


def test_what_is_told_as_checked_is_named_in_its_test() -> None:
    home = ROOT / "tests" / "published"
    for file, (_, names) in PUBLISHED.items():
        text = (home / f"{file}.py").read_text("utf-8")
        assert [name for name in names if name not in text] == [], file
