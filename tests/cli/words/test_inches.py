"""Sentences that tell lengths in mm get inches, and nothing else does."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.cli.words.inches import in_inches, plate_name


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("tread 254 mm wide", "tread 10 in (254 mm) wide"),
        ("gap 0.3 to 0.7 mm", "gap 0.012 in to 0.028 in (0.3 to 0.7 mm)"),
        (
            "1270 x 2540 x 6.35 mm, S235",
            "50 in x 100 in x 1/4 in (1270 x 2540 x 6.35 mm), S235",
        ),
        ("already 10 in (254 mm)", "already 10 in (254 mm)"),
        ("152 N/mm2, 4 mm/m, 3 mm2", "152 N/mm2, 4 mm/m, 3 mm2"),
        ("part_spacing_mm = 12 lets it stand", "part_spacing_mm = 12 lets it stand"),
        ("at r 127, z 25.4 mm, 0 deg", "at r 5 in, z 1 in (127, z 25.4 mm), 0 deg"),
        ("ends at 25.4 mm.", "ends at 1 in (25.4 mm)."),
    ],
)
def test_words(words: str, told: str) -> None:
    assert in_inches(words) == told


@given(st.floats(0, 9999).map(lambda mm: round(mm, 2)))
def test_inches_are_the_millimetres(mm: float) -> None:
    told = in_inches(f"is {mm} mm")
    found = re.fullmatch(r"is (?:(\d+) )?(?:(\d+)/(\d+) )?(?:(\d+\.\d+) )?in \((\S+) mm\)", told)
    assert found
    assert float(found[5]) == mm
    whole, up, down, decimal = (float(found[k] or (1 if k == 3 else 0)) for k in (1, 2, 3, 4))
    assert (whole + up / down + decimal) * 25.4 == pytest.approx(mm, abs=0.2)
    assert in_inches(told) == told


def test_plates_called_by_their_size() -> None:
    assert plate_name("1270 x 2540", "inch") == "50 in x 100 in (1270 x 2540 mm)"
    assert plate_name("bar 50.8 x 6.35", "inch") == "bar 2 in x 1/4 in (50.8 x 6.35 mm)"
    assert plate_name("1270 x 2540", "mm") == "1270 x 2540"
    assert plate_name("slipway cover", "inch") == "slipway cover"
