"""Inches to 1/64: decimal equivalents as printed on drill charts, and the definition itself."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.base.units import inches, length_words


# Fractional drills and their mm, as on any drill chart (common practice; 1 in = 25.4 mm exactly).
@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (0.3969, "1/64 in"),
        (3.175, "1/8 in"),
        (5.1594, "13/64 in"),
        (11.1125, "7/16 in"),
        (12.7, "1/2 in"),
        (25.0031, "63/64 in"),
        (25.4, "1 in"),
        (182.9594, "7 13/64 in"),
        (0.0, "0 in"),
        (-3.175, "-1/8 in"),
        (-0.1, "0 in"),
        (25.3, "1 in"),
    ],
)
def test_inches(mm: float, text: str) -> None:
    assert inches(mm) == text


@given(st.floats(-5000, 5000, allow_nan=False))
def test_words_read_back_lie_within_half_a_64th(mm: float) -> None:
    words = inches(mm).removesuffix(" in")
    sign = -1 if words.startswith("-") else 1
    read = sign * sum(Fraction(word) for word in words.lstrip("-").split())
    assert abs(float(read) * 25.4 - mm) <= 25.4 / 128 + 1e-9
    if "/" in words:
        assert int(words.split("/")[1]) in (2, 4, 8, 16, 32, 64)


@pytest.mark.parametrize("mm", [float("nan"), float("inf")])
def test_what_is_no_length_is_refused(mm: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        inches(mm)


@pytest.mark.parametrize(
    ("mm", "units", "text"),
    [(300.0, "mm", "300"), (8.25, "mm", "8.2"), (-0.01, "mm", "0"), (25.4, "inch", "1 in")],
)
def test_length_words(mm: float, units: str, text: str) -> None:
    assert length_words(mm, units) == text  # type: ignore[arg-type]
