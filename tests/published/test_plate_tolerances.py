"""Lower limits of thickness against the mills' standards, row by row, each typed here on its own.

EN 10029:1991, table 1 (class A) and EN 10051, category A, coils up to 1200 mm: as printed.
EN 10058:2018, EN 10210-2, EN 10219-2, EN 10255: as mills and dealers print them. EN 10029:2010 and
the other columns of EN 10051 from memory.
"""

from __future__ import annotations

import pytest

from platewheel.parts.wheel.stock_thickness import below_thickness
from tests.parts.wheels import plain_wheel

SOFT, HARD = plain_wheel(), plain_wheel(steel="S355")

EN_10029_1991 = [(3, 0.4), (4.9, 0.4), (5, 0.4), (7.9, 0.4), (8, 0.5), (14.9, 0.5), (15, 0.6)]
EN_10029_2010 = [(3, 0.3), (5, 0.4), (8, 0.5), (15, 0.6), (25, 0.7), (40, 0.9)]
EN_10051_TO_1200 = [
    *((4, 0.22), (5, 0.24), (6, 0.26), (8, 0.29), (10, 0.32), (12.5, 0.35), (15, 0.37)),
]
EN_10051_WIDEST = [(2, 0.21), (2.5, 0.25), (3, 0.26), (4, 0.27), (6, 0.31), (8, 0.35), (10, 0.40)]


@pytest.mark.parametrize(("thickness", "off"), [*EN_10029_1991, (24.9, 0.6)])
def test_plate_of_the_edition_that_was_read(thickness: float, off: float) -> None:
    found = below_thickness(SOFT, "sheet", thickness, "by standard")
    assert (found.mm, found.standard) == (off, "EN 10029, class A")


@pytest.mark.parametrize(("thickness", "off"), EN_10029_2010)
def test_no_plate_is_taken_thicker_than_the_later_edition_lets_it_be(
    thickness: float, off: float
) -> None:
    assert off <= below_thickness(SOFT, "sheet", thickness, "by standard").mm <= off + 0.1 + 1e-9


@pytest.mark.parametrize(("thickness", "off"), EN_10051_TO_1200)
def test_sheet_from_coil_against_the_narrow_coils_as_printed(thickness: float, off: float) -> None:
    assert off + 0.04 <= below_thickness(SOFT, "sheet", thickness, "coil").mm <= off + 0.09 + 1e-9


@pytest.mark.parametrize(("thickness", "off"), EN_10051_WIDEST)
def test_sheet_from_the_widest_coils(thickness: float, off: float) -> None:
    assert below_thickness(SOFT, "sheet", thickness, "coil").mm == off
    assert below_thickness(SOFT, "sheet", thickness - 0.01, "coil").mm == off


def test_stronger_steel_is_rolled_less_exactly() -> None:
    """EN 10051: category B, above 300 N/mm2, 15 % more; S235 and S275 are of A."""
    for thickness, off in EN_10051_WIDEST:
        assert below_thickness(HARD, "sheet", thickness, "coil").mm == pytest.approx(1.15 * off)
    assert below_thickness(plain_wheel(steel="S275"), "sheet", 6, "coil").mm == 0.31


def test_below_3_mm_no_plate_standard_is_left() -> None:
    """EN 10029 begins at 3 mm."""
    assert below_thickness(SOFT, "sheet", 2.99, "by standard").standard == "EN 10051"
    assert below_thickness(SOFT, "sheet", 3, "by standard").standard == "EN 10029, class A"


def test_beyond_25_mm_there_is_no_coil() -> None:
    assert below_thickness(SOFT, "sheet", 25, "coil").standard == "EN 10051"
    assert below_thickness(SOFT, "sheet", 25.1, "coil").standard == "EN 10029, class A"


@pytest.mark.parametrize(
    ("thickness", "off"),
    [(5, 0.5), (8, 0.5), (20, 0.5), (20.1, 1.0), (40, 1.0), (40.1, 1.5), (79, 1.5)],
)
@pytest.mark.parametrize("tolerance", ["by standard", "coil"])
def test_flat_bar(thickness: float, off: float, tolerance: str) -> None:
    """EN 10058:2018: up to 20 mm +-0.5, up to 40 +-1, up to 80 +-1.5."""
    found = below_thickness(SOFT, "bar", thickness, tolerance)  # type: ignore[arg-type]
    assert (found.mm, found.standard) == (off, "EN 10058")


@pytest.mark.parametrize("wall", [2.0, 4.0, 5.0, 8.8, 20.0])
def test_pipe_is_never_thicker_than_any_of_its_standards_lets_it_be(wall: float) -> None:
    """EN 10210-2: -10 %, seamless -12.5 % on a quarter of the girth. EN 10219-2: 10 % up to 5 mm,
    0.5 mm above. EN 10255: welded -10 %, seamless -12.5 %."""
    found = below_thickness(SOFT, "tube", wall, "by standard").mm
    assert found == below_thickness(SOFT, "pipe", wall, "coil").mm
    cold_formed = 0.1 * wall if wall <= 5 else 0.5
    assert found == pytest.approx(max(0.1 * wall, 0.125 * wall, cold_formed))


@pytest.mark.parametrize("cut_from", ["sheet", "bar", "pipe", "tube"])
def test_what_was_measured_is_taken_as_it_is(cut_from: str) -> None:
    assert below_thickness(SOFT, cut_from, 6, "nominal").mm == 0  # type: ignore[arg-type]


@pytest.mark.parametrize(("cut_from", "thickness"), [("sheet", 80), ("bar", 80), ("tube", 0)])
def test_what_no_standard_has_is_refused(cut_from: str, thickness: float) -> None:
    with pytest.raises(ValueError, match="thickness_mm: found"):
        below_thickness(SOFT, cut_from, thickness, "by standard")  # type: ignore[arg-type]
