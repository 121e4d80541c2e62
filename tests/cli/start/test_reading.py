"""Sizes and masses as people write them. Factors beside NIST SP 811 (2008), appendix B.9."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.cli.start.questions import measure_of
from platewheel.cli.start.reading import Measure, read_pair, read_size, read_sizes
from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.units import inches


def measure(path: str, units: str = "mm") -> Measure:
    found = measure_of(path, units)
    assert found
    return found


@pytest.mark.parametrize(
    ("path", "text", "value"),
    [
        ("track.gauge_mm", "457", 457),
        ("track.gauge_mm", "0,8", 0.8),
        ("track.gauge_mm", "50 cm", 500),
        ("track.gauge_mm", "0.6m", 600),
        ("track.gauge_mm", "2 in", 50.8),  # NIST: 1 in is 25.4 mm
        ("track.gauge_mm", "1 1/4 in", 31.75),
        ("track.gauge_mm", '7 1/4"', 184.15),
        ("track.gauge_mm", "2 ft", 609.6),  # NIST: 1 ft is 0.3048 m
        ("track.gauge_mm", "1 ft 11 1/2 in", 596.9),
        ("track.gauge_mm", "1' 3\"", 381),
        ("track.min_curve_radius_m", "12", 12),
        ("track.min_curve_radius_m", "1250 cm", 12.5),
        ("track.min_curve_radius_m", "40 ft", 12.192),
        ("wagon.tare_kg", "400 lb", 181.4369),  # NIST: 1 lb is 0.4535924 kg
        ("wagon.tare_kg", "1,5 t", 1500),
        ("wagon.max_speed_km_h", "5 mph", 8.0467),  # NIST: 1 mile an hour is 1.609344 km/h
        ("wagon.max_speed_km_h", "2 m/s", 7.2),
        ("use.km_per_year", "300 miles", 482.8032),
        ("track.steepest_gradient_percent", "1 in 50", 2),
        ("track.steepest_gradient_percent", "1:40", 2.5),
        ("track.steepest_gradient_percent", "3 %", 3),
        ("track.gauge_mm", "-5", -5),  # its range refuses it, not the reading
    ],
)
def test_a_size_is_read_in_the_unit_of_its_key(path: str, text: str, value: float) -> None:
    assert read_size(text, measure(path)) == pytest.approx(value, abs=1e-9)


@pytest.mark.parametrize(
    ("path", "text", "value"),
    [
        ("track.gauge_mm", "18", 457.2),
        ("track.gauge_mm", "7 1/4", 184.15),
        ("track.gauge_mm", "457 mm", 457),
        ("track.min_curve_radius_m", "40", 12.192),
        ("wagon.tare_kg", "400", 181.4369),
        ("wagon.max_speed_km_h", "5", 8.0467),
    ],
)
def test_in_inches_a_bare_number_is_in_inches_feet_and_pounds(
    path: str, text: str, value: float
) -> None:
    assert read_size(text, measure(path, "inch")) == pytest.approx(value, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "a number, alone"),
        ("two", "a number, alone"),
        ("5 kg", "with one of mm, cm, m, in"),
        ("1 2", "a number, alone"),
        ("5 in 2 ft", "a number, alone"),
        ("1/0 in", "a number, alone"),
        ("1 1/4", "try: 1 1/4 in"),
        ("1,250", "try: 1250 or 1.250"),
        ("1e3", "a number, alone"),
        ("nan", "a number, alone"),
        ("٤", "a number, alone"),
    ],
)
def test_what_cannot_be_read_is_told_and_not_guessed(text: str, says: str) -> None:
    with pytest.raises(SpecError) as error:
        read_size(text, measure("track.gauge_mm"))
    assert says in str(error.value)
    assert f"found {text!r}" in str(error.value)


@given(st.integers(64, 64 * 100))
def test_inches_that_the_papers_print_are_read_back(sixty_fourths: int) -> None:
    mm = sixty_fourths * 25.4 / 64
    assert read_size(inches(mm), measure("track.gauge_mm")) == pytest.approx(mm, abs=6e-5)


@given(st.floats(0.0011, 9e5).map(lambda v: round(v, 3)), st.booleans())
def test_numbers_come_back_with_point_or_comma(value: float, comma: bool) -> None:
    text = f"{value:.4f}"  # four places: no thousands
    text = text.replace(".", ",") if comma else text
    assert read_size(text, measure("wagon.tare_kg")) == value


@pytest.mark.parametrize(
    ("text", "units", "values"),
    [
        ("8 6", "mm", (6, 8)),
        ("5; 6,5 and 8", "mm", (5, 6.5, 8)),
        ("4, 5", "mm", (4, 5)),
        ("1/4 5/16 in", "mm", (6.35, 7.9375)),
        ("1/4 5/16", "inch", (6.35, 7.9375)),
        ("1 1/4 in, 6 mm", "mm", (6, 31.75)),
        ("6 6", "mm", (6,)),
    ],
)
def test_thicknesses_are_read_in_one_line(text: str, units: str, values: tuple[float, ...]) -> None:
    assert read_sizes(text, measure("stock.thickness_mm", units)) == pytest.approx(values)


@pytest.mark.parametrize(
    ("text", "units", "pair"),
    [
        ("1250 x 2500", "mm", (1250, 2500)),
        ("2500x1250", "mm", (1250, 2500)),
        ("4 x 8 ft", "mm", (1219.2, 2438.4)),
        ("1 m by 2 m", "mm", (1000, 2000)),
        ("48 x 96", "inch", (1219.2, 2438.4)),
    ],
)
def test_a_sheet_is_read_as_two_sizes(text: str, units: str, pair: tuple[float, float]) -> None:
    assert read_pair(text, measure("stock.size", units)) == pytest.approx(pair)


@pytest.mark.parametrize("text", ["1250", "1 x 2 x 3", "1 2 x 3", "x", "a x b"])
def test_what_is_no_size_of_a_sheet_is_told(text: str) -> None:
    with pytest.raises(SpecError):
        read_pair(text, measure("stock.size"))
