"""Lengths in inches to the nearest 1/64, as a tape or a rule shows them."""

from __future__ import annotations

import math
from typing import Literal

MM_PER_INCH = 25.4  # exactly, by the international yard agreement of 1959
PARTS = 64  # the finest division of a common steel rule
FINE_MM = 3.0  # below it a 64th of an inch is too coarse to be told in

Units = Literal["mm", "inch"]


def inches(mm: float) -> str:
    """`7 13/64 in` for a length in mm: whole inches and a reduced fraction of 64ths.

    Rounded to the nearest 1/64 (0.40 mm), halves to the even 64th. Raises: ValueError where
    the length is no finite number.
    """
    if not math.isfinite(mm):
        raise ValueError(f"inches: found {mm!r}; allowed: a finite length in mm")
    count = round(abs(mm) / MM_PER_INCH * PARTS)
    sign = "-" if mm < 0 and count else ""
    whole, rest = divmod(count, PARTS)
    if not rest:
        return f"{sign}{whole} in"
    common = math.gcd(rest, PARTS)
    fraction = f"{rest // common}/{PARTS // common}"
    return f"{sign}{whole} {fraction} in" if whole else f"{sign}{fraction} in"


def thousandths(mm: float) -> str:
    """`1.3780 in` for a size that is measured with a micrometer, to a ten-thousandth."""
    return f"{mm / MM_PER_INCH:.4f} in"


def at_least(value: float, places: int = 1) -> str:
    """A bound from below as it is advised: rounded up, so that keeping to it is enough."""
    return _rounded(math.ceil(value * 10**places - 1e-9) / 10**places, places)


def at_most(value: float, places: int = 1) -> str:
    """A bound from above as it is advised: rounded down, so that keeping to it is enough."""
    return _rounded(math.floor(value * 10**places + 1e-9) / 10**places, places)


def _rounded(value: float, places: int) -> str:
    return f"{value + 0:.{places}f}"


def length_words(mm: float, units: Units, places: int = 1) -> str:
    """A length as a drawing prints it: mm without unit, to so many places, or inches to 1/64."""
    return inches(mm) if units == "inch" else f"{round(mm, places) + 0:.12g}"


def length(mm: float, units: Units, places: int = 1) -> str:
    """A length with its unit: mm, or inches to 1/64, below 3 mm to a thousandth."""
    if units == "mm":
        return f"{round(mm, places) + 0:.{places}f}".removesuffix(".0") + " mm"
    return inches(mm) if abs(mm) >= FINE_MM else f"{mm / MM_PER_INCH:.3f} in"
