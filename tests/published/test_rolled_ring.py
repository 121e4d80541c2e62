"""Length of a strip that rolls to a ring: pi (outside diameter - thickness), published examples."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.wheel.tread_ring import tread_blank
from tests.parts.wheels import plain_wheel


def strip_mm(outside_mm: float, thickness_mm: float, **changes: Any) -> float:
    spec = plain_wheel(
        tread_diameter_mm=outside_mm,
        tread_thickness_mm=thickness_mm,
        seam_gap_mm=changes.pop("seam_gap_mm", 0.0),
        **changes,
    )
    blank = tread_blank(spec)
    assert blank is not None
    x0, y0, x1, y1 = blank.bounds
    assert (x0, y0) == (0.0, 0.0)
    assert y1 == spec.tread_width_mm
    assert x1 == pytest.approx(blank.sizes["length_mm"])
    return x1


@pytest.mark.parametrize("made_from", ["sheet", "bar"])
def test_ring_of_650_mm_in_10_mm_plate(made_from: str) -> None:
    """TAFE NSW training unit on rolled rings (sielearning.tafensw.edu.au): 2011 mm."""
    assert strip_mm(650.0, 10.0, tread_from=made_from) == pytest.approx(2011, abs=0.5)


def test_ring_of_12_inch_in_quarter_inch_plate() -> None:
    """Sheet-metal page on rolled cylinders (web.app): 11.75 in x pi = 36.914 in."""
    inches = strip_mm(12 * 25.4, 0.25 * 25.4, vent_circle_mm=200.0) / 25.4
    assert inches == pytest.approx(36.914, abs=0.0005)


def test_the_seam_gap_comes_off_the_strip() -> None:
    """Plain geometry: a gap of 2 mm at mid-wall is 2 mm of strip."""
    assert strip_mm(650.0, 10.0) - strip_mm(650.0, 10.0, seam_gap_mm=2.0) == pytest.approx(2.0)


def test_a_slight_taper_is_nearly_the_cylinder() -> None:
    """Plain geometry: at mid width the cone of 1 in 1000 is narrower by width / 2000 in radius."""
    blank = tread_blank(plain_wheel(tread_taper_1_in=1000.0, seam_gap_mm=0.0))
    assert blank is not None
    assert blank.sizes["length_mm"] == pytest.approx(math.pi * (300 - 8 - 60 / 1000), abs=0.001)
