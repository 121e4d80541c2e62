"""Numbers as people write them come to what they say; what is no number comes to nothing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.base.written_number import readings

AS_WRITTEN = {
    ("0,8", "mm"): (0.8,),
    ("35,2", "mm"): (35.2,),
    ("0.8mm", "mm"): (0.8,),
    ("50 cm", "mm"): (500,),
    ("1.5 in", "mm"): (38.1,),
    ("1 1/2 in", "mm"): (38.1,),
    ('1½"', "mm"): (38.1,),
    ('3/8"', "mm"): (9.525,),
    ("1'6\"", "mm"): (457.2,),
    ("2 ft", "mm"): (609.6,),
    ("0,6 m", "mm"): (600,),
    ("12m", "m"): (12,),
    ("1200 cm", "m"): (12,),
    ("1.250,5", "mm"): (1250.5,),
    ("1,250.5", "mm"): (1250.5,),
    ("1 250", "mm"): (1250,),
    ("1'250", "mm"): (1250,),
    ("1,250", "mm"): (1.25, 1250),
    ("1.250.000", "mm"): (1250000,),
    ("2 t", "kg"): (2000,),
    ("100 lbs", "kg"): (45.359237,),
    ("0.4 kN", "N"): (400,),
    ("5 mph", "km/h"): (8.04672,),
    ("70°", "degrees"): (70,),
    ("5 %", "percent"): (5,),
    ("1:20", "percent"): (5,),
    ("1 in 20", "(1 in this many)"): (20,),
    ("50 %", ""): (0.5,),
    ("2 m/min", "mm/min"): (2000,),
    ("€190", ""): (190,),
    ("190 EUR", ""): (190,),
    ("−2", "mm"): (-2,),
    (".5", "mm"): (0.5,),
    ("5.", "mm"): (5,),
    ("007", "mm"): (7,),
    ("ca. 300 mm", "mm"): (300,),
    ("Ø300", "mm"): (300,),
    ("３００", "mm"): (300,),
    ("“300”", "mm"): (300,),
}


@pytest.mark.parametrize(("written", "unit"), AS_WRITTEN)
def test_a_number_as_written(written: str, unit: str) -> None:
    assert readings(written, unit) == pytest.approx(AS_WRITTEN[written, unit])


@pytest.mark.parametrize(
    ("written", "unit"),
    [("", "mm"), ("abc", "mm"), ("4 kg", "mm"), ("4 mm", "kg"), ("1/0", "mm"), ("12 mm", ""),
     ("1.2.3", "mm"), ("3,4,5", "mm"), ("70 deg", "mm"), ("5 %", "mm"), ("1-2", "mm")],
)  # fmt: skip
def test_what_is_no_number_of_this_kind(written: str, unit: str) -> None:
    assert readings(written, unit) == ()


@given(st.text(max_size=12), st.sampled_from(["", "mm", "m", "percent", "(1 in this many)"]))
def test_any_text_gives_numbers_or_nothing(text: str, unit: str) -> None:
    assert all(isinstance(number, float) for number in readings(text, unit))


@given(st.integers(-99999, 99999), st.integers(0, 99))
def test_a_comma_for_the_point_is_the_same_number(whole: int, part: int) -> None:
    assert readings(f"{whole},{part:02d}", "mm") == readings(f"{whole}.{part:02d}", "mm")


@pytest.mark.parametrize("digits", [400, 5000])
@pytest.mark.parametrize(
    ("written", "unit"),
    [("{}/3", "mm"), ("3 {}/{}", "mm"), ("{}'6", "mm"), ("{} km", "mm"), ("1 in {}", "percent")],
)
def test_digits_beyond_any_number_come_to_none(written: str, unit: str, digits: int) -> None:
    assert readings(written.replace("{}", "9" * digits), unit) == ()


@pytest.mark.parametrize(("written", "unit"), [("1e308 km", "mm"), ("1 in 1e-320", "percent")])
def test_a_number_that_its_unit_makes_endless_comes_to_none(written: str, unit: str) -> None:
    assert readings(written, unit) == ()
