"""ISO 286 limits of size against ISO 286-2's tables, as printed in fitting tables of the trade.

The values are quoted from memory: they were learned apart from the fundamental deviations and
grades that the code builds them of, so that a slip in either shows. ISO 492 likewise.
"""

from __future__ import annotations

import pytest

from platewheel.parts.wheelset.iso_fits import fit, grade_um, limits

ISO_286_2 = [  # size mm, zone, upper um, lower um
    (35, "k6", 18, 2),
    (35, "H7", 25, 0),
    (50, "h6", 0, -16),
    (25, "p6", 35, 22),
    (40, "g6", -9, -25),
    (30, "f7", -20, -41),
    (50, "m6", 25, 9),
    (20, "js6", 6.5, -6.5),
    (35, "h9", 0, -62),
    (25, "H8", 33, 0),
    (40, "j6", 11, -5),
    (30, "F8", 53, 20),
    (35, "N7", -8, -33),
    (40, "P7", -17, -42),
    (60, "k6", 21, 2),
    (100, "p6", 59, 37),
    (10, "h6", 0, -9),
    (35, "s6", 59, 43),
    (50, "s6", 59, 43),
    (70, "s6", 78, 59),
    (35, "u6", 76, 60),
    (25, "u6", 61, 48),
    (130, "H7", 40, 0),
    (125, "p6", 68, 43),
    (150, "k6", 28, 3),
    (130, "f7", -43, -83),
    (150, "s6", 125, 100),
    (130, "N7", -12, -52),
    (140, "h9", 0, -100),
    (130, "bearing-outside", 0, -18),
]


@pytest.mark.parametrize(("size", "zone", "upper", "lower"), ISO_286_2)
def test_limits_of_size(size: float, zone: str, upper: float, lower: float) -> None:
    assert [1000 * x for x in limits(size, zone)] == pytest.approx([lower, upper])


@pytest.mark.parametrize(
    ("grade", "units"), [(6, 10), (7, 16), (8, 25), (9, 40), (10, 64), (11, 100)]
)
@pytest.mark.parametrize(
    ("size", "over", "to"), [(35, 30, 50), (25, 18, 30), (100, 80, 120), (130, 120, 180)]
)
def test_grades_by_the_standards_own_formula(
    grade: int, units: int, size: float, over: float, to: float
) -> None:
    """ISO 286-1: IT6 to IT11 are 10, 16, 25, 40, 64, 100 times i = 0.45 D^(1/3) + 0.001 D,
    D the geometric mean of the range; the table rounds, by less than a unit in ten."""
    mean = (over * to) ** 0.5
    i = 0.45 * mean ** (1 / 3) + 0.001 * mean
    assert grade_um(size, grade) == pytest.approx(units * i, rel=0.05)


def test_an_end_of_a_range_belongs_to_the_range_below() -> None:
    assert limits(30, "h7") == (-0.021, 0)
    assert limits(30.01, "h7") == (-0.025, 0)


def test_clearance_and_interference() -> None:
    """40 H7/g6: 9 to 50 um clearance; 25 H7/p6: 1 to 35 um interference (common fits tables)."""
    assert fit(40, "H7", "g6") == pytest.approx((0.009, 0.050))
    assert fit(25, "H7", "p6") == pytest.approx((-0.035, -0.001))


def test_a_k6_shaft_in_a_bearing() -> None:
    """Makers' fit tables: 30 mm bore of class Normal (0/-10 um) on k6 is 2 to 25 um tight."""
    assert fit(30, "bearing-bore", "k6") == pytest.approx((-0.025, -0.002))


@pytest.mark.parametrize(
    ("size", "zone"),
    [
        *((2, "h6"), (190, "h6"), (35, "h4"), (35, "z6"), (35, "6h"), (35, "JS7")),
        *((160, "bearing-outside"), (130, "insert-bore")),
    ],
)
def test_what_is_not_listed_is_refused(size: float, zone: str) -> None:
    with pytest.raises(ValueError, match=r"listed|letter"):
        limits(size, zone)


def test_hole_and_shaft_cannot_be_swapped() -> None:
    with pytest.raises(ValueError, match="capital"):
        fit(35, "k6", "H7")
