"""Values are told in one way each: mm, or inches with the mm beside."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.cli.words.inches import in_inches
from platewheel.cli.words.phrases import Name, PlateName, Sentence, listed, phrase
from platewheel.cli.words.values import (
    Angle,
    Change,
    Count,
    Figure,
    Force,
    Length,
    Lengths,
    Margin,
    Mass,
    Money,
    Percent,
    Quantity,
    Size,
    Value,
)


@pytest.mark.parametrize(
    ("value", "mm", "inch", "bare"),
    [
        (Length(300), "300.0 mm", "11 13/16 in (300.0 mm)", "300.0"),
        (Length(0.5, "g"), "0.5 mm", "0.020 in (0.5 mm)", "0.5"),
        (Length(0.5, ".2f", "rule"), "0.50 mm", "1/64 in (0.50 mm)", "0.50"),
        (Length(29.987, ".3f", "micrometer"), "29.987 mm", "1.1806 in (29.987 mm)", "29.987"),
        (Length(167, beside="number"), "167.0 mm", "6 37/64 in (167.0)", "167.0"),
        (
            Lengths((1270, 2540), " x ", "g"),
            "1270 x 2540 mm",
            "50 in x 100 in (1270 x 2540 mm)",
            "1270 x 2540",
        ),
        (Size(8), "8 mm", "5/16 in", "8 mm"),
        (Figure(25.4, "mm"), "25.4 mm", "1 in (25.4 mm)", "25.4"),
        (Figure(123456.7, "N"), "123457 N", "123457 N", "123457"),
        (Mass(12.34), "12.3 kg", "12.3 kg", "12.3"),
        (Force(1234.5), "1234 N", "1234 N", "1234"),
        (Angle(65), "65.00 deg", "65.00 deg", "65.00"),
        (Percent(-0.4, "+z.0f"), "+0 %", "+0 %", "+0"),
        (Count(8), "8", "8", "8"),
        (Quantity(2, ".0f", "off"), "2 off", "2 off", "2"),
        (Margin(0.123), "+12%", "+12%", "+12%"),
        (Money(12.3, "EUR"), "12.30 EUR", "12.30 EUR", "12.30"),
        (Money(0.0), "0.00", "0.00", "0.00"),
        (Money(None, "EUR"), "not priced", "not priced", "not priced"),
        (Change(0.04), "", "", ""),
        (Change(-0.06), "-0.1", "-0.1", "-0.1"),
        (Change(None), "?", "?", "?"),
        (Name("3 mm"), "3 mm", "3 mm", "3 mm"),
        (Sentence("is 25.4 mm"), "is 25.4 mm", "is 1 in (25.4 mm)", "is 25.4 mm"),
        (PlateName("bar 60 x 6"), "bar 60 x 6", None, "bar 60 x 6"),
        (phrase("of ", Length(25.4)), "of 25.4 mm", "of 1 in (25.4 mm)", "of 25.4"),
        (listed((Mass(1), "x"), " / "), "1.0 kg / x", "1.0 kg / x", "1.0 / x"),
    ],
)
def test_told(value: Value, mm: str, inch: str | None, bare: str) -> None:
    assert value.told("mm") == mm
    assert value.told("mm", bare=True) == bare
    if inch is not None:
        assert value.told("inch") == inch


def test_a_program_reads_the_number() -> None:
    values = (Length(25.4), Mass(1.25), Money(None), Change(None), Count(3), Figure(1e6, "N"))
    assert [value.raw for value in values] == [25.4, 1.25, None, None, 3, 1e6]


@given(st.floats(0, 9999), st.integers(0, 2))
def test_a_length_is_told_as_the_same_sentence_would_be(mm: float, places: int) -> None:
    length = Length(mm, f".{places}f")
    assert length.told("inch") == in_inches(length.told("mm"))
