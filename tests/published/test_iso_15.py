"""Deep groove bearings against ISO 15 boundary dimensions, from memory, and by ISO 15's own plan:
within a dimension series sizes rise, and bore codes 04 and up are a fifth of the bore."""

from __future__ import annotations

from itertools import pairwise

import pytest

from platewheel.parts.wheelset.bearing_table import BEARINGS, bearing_named

ISO_15 = [  # name, bore, outside, width: as makers' catalogues print them, from memory
    ("6000", 10, 26, 8),
    ("6004", 20, 42, 12),
    ("6203", 17, 40, 12),
    ("6205", 25, 52, 15),
    ("6206", 30, 62, 16),
    ("6208", 40, 80, 18),
    ("6304", 20, 52, 15),
    ("6310", 50, 110, 27),
]


@pytest.mark.parametrize(("name", "bore", "outside", "width"), ISO_15)
def test_boundary_dimensions(name: str, bore: float, outside: float, width: float) -> None:
    bearing = bearing_named(name)
    assert bearing is not None
    assert (bearing.bore_mm, bearing.outside_mm, bearing.width_mm) == (bore, outside, width)


@pytest.mark.parametrize(
    ("name", "c_kn", "c0_kn"),
    [("6000", 4.55, 1.96), ("6200", 5.10, 2.39), ("6300", 8.20, 3.45)],
)
def test_ratings_of_a_catalogue_extract(name: str, c_kn: float, c0_kn: float) -> None:
    """The lower of these and those in test_bearing_ratings.py is taken: there 6000 has 4.45 and
    1.96, 6300 7.6 and 3.45."""
    bearing = bearing_named(name)
    assert bearing is not None
    assert 0.92 * c_kn <= bearing.c_kn <= c_kn
    assert 0.98 * c0_kn <= bearing.c0_kn <= c0_kn


def test_shigleys_30_mm_bearing() -> None:
    """Shigley, solutions to chapter 11: the 02-30 mm bearing has C10 = 19.5 kN; makers' lists go
    down to 19.2, which is taken."""
    bearing = bearing_named("6206")
    assert bearing is not None
    assert 0.98 * 19.5 <= bearing.c_kn <= 19.5


@pytest.mark.parametrize("bearing", BEARINGS, ids=lambda b: b.name)
def test_the_name_says_the_bore(bearing: object) -> None:
    """ISO 15 bore codes, from memory: 00 10, 01 12, 02 15, 03 17 mm, from 04 on 5 x code."""
    code = int(bearing.name[-2:])  # type: ignore[attr-defined]
    bore = {0: 10, 1: 12, 2: 15, 3: 17}.get(code, 5 * code)
    assert bearing.bore_mm == bore  # type: ignore[attr-defined]


@pytest.mark.parametrize("series", ["60", "62", "63"])
def test_a_series_rises_in_every_dimension_and_rating(series: str) -> None:
    row = [b for b in BEARINGS if b.kind == "deep-groove" and b.name.startswith(series)]
    assert len(row) == 21
    for small, large in pairwise(row):
        assert small.outside_mm < large.outside_mm
        assert small.width_mm <= large.width_mm
        assert small.c_kn <= large.c_kn
        assert small.c0_kn <= large.c0_kn


@pytest.mark.parametrize(
    ("name", "chamfer"),
    [("6004", 0.6), ("6008", 1.0), ("6204", 1.0), ("6207", 1.1), ("6304", 1.1), ("6308", 1.5)],
)
def test_least_chamfers(name: str, chamfer: float) -> None:
    """ISO 15's r s min as makers' lists print it, from memory."""
    found = bearing_named(name)
    assert found is not None
    assert found.chamfer_mm == chamfer


def test_heavier_series_are_larger_at_the_same_bore() -> None:
    by_name = {b.name: b for b in BEARINGS}
    for code in range(13):
        light, medium, heavy = (by_name[f"{series}{code:02d}"] for series in ("60", "62", "63"))
        assert light.outside_mm < medium.outside_mm < heavy.outside_mm
        assert light.c_kn < medium.c_kn < heavy.c_kn


def test_inserts_have_the_outside_of_the_62_series() -> None:
    """ISO 9628, from memory: UC204 and up share outside diameters with 6204 and up."""
    by_name = {b.name: b for b in BEARINGS}
    for code in range(4, 13):
        assert by_name[f"UC2{code:02d}"].outside_mm == by_name[f"62{code:02d}"].outside_mm
