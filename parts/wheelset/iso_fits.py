"""Fits: limits of size of a hole and a shaft by their ISO 286 names, 3 to 180 mm.

The tables are those of ISO 286-1:2010 (grades, fundamental deviations), from memory; every zone
that an axle's fits use is checked in tests/published/test_iso_286_packages.py. A bearing's own
tolerances are ISO 492 class Normal, and an insert's bore JIS B 1558, both from memory too.
"""

from __future__ import annotations

import re
from itertools import pairwise

RANGES_MM = (3, 6, 10, 18, 30, 50, 80, 120, 180)  # over the one, up to and including the next

_GRADES = {  # um, one value a range
    5: (5, 6, 8, 9, 11, 13, 15, 18),
    6: (8, 9, 11, 13, 16, 19, 22, 25),
    7: (12, 15, 18, 21, 25, 30, 35, 40),
    8: (18, 22, 27, 33, 39, 46, 54, 63),
    9: (30, 36, 43, 52, 62, 74, 87, 100),
    10: (48, 58, 70, 84, 100, 120, 140, 160),
    11: (75, 90, 110, 130, 160, 190, 220, 250),
}
_UPPER = {  # fundamental deviation es of shafts, um
    "e": (-20, -25, -32, -40, -50, -60, -72, -85),
    "f": (-10, -13, -16, -20, -25, -30, -36, -43),
    "g": (-4, -5, -6, -7, -9, -10, -12, -14),
    "h": (0, 0, 0, 0, 0, 0, 0, 0),
}
_LOWER = {  # fundamental deviation ei of shafts, um; k only up to IT7, 0 above
    "k": (1, 1, 1, 2, 2, 2, 3, 3),
    "m": (4, 6, 7, 8, 9, 11, 13, 15),
    "n": (8, 10, 12, 15, 17, 20, 23, 27),
    "p": (12, 15, 18, 22, 26, 32, 37, 43),
}
_PRESSED = {  # ei of shafts um, over so many mm up to the next; finer than the ranges above 18
    "s": (
        *((3, 19), (6, 23), (10, 28), (18, 35), (30, 43), (50, 53), (65, 59), (80, 71)),
        *((100, 79), (120, 92), (140, 100), (160, 108)),
    ),
    "u": (
        *((3, 23), (6, 28), (10, 33), (18, 41), (24, 48), (30, 60), (40, 70)),
        *((50, 87), (65, 102), (80, 124), (100, 144), (120, 170), (140, 190), (160, 210)),
    ),
}
_J6 = ((6, -2), (7, -2), (8, -3), (9, -4), (11, -5), (12, -7), (13, -9), (14, -11))
# outer ring, ISO 492 Normal; the last is that of 120 to 150, beyond it -25
_RING_OUTSIDE = (-8, -8, -8, -9, -11, -13, -15, -18)
_RING_OUTSIDE_MM = 150
_RING_BORE = (-8, -8, -8, -10, -12, -15, -20, -25)  # inner ring, ISO 492 Normal
_INSERT_BORE = (15, 15, 15, 18, 21, 24, 28)  # inner ring of an insert, one side only
_TIGHT_HOLES = ("N7", "P7")  # the holes whose deviation is the shaft's turned over plus a step

BEARING_BORE = "bearing-bore"
INSERT_BORE = "insert-bore"
BEARING_OUTSIDE = "bearing-outside"


def grade_um(size_mm: float, grade: int) -> float:
    """Width of tolerance grade ITn in um. Raises: ValueError outside IT5 to IT11, 3 to 180 mm."""
    if grade not in _GRADES:
        raise ValueError(f"IT{grade}: grades IT5 to IT11 are listed")
    return _GRADES[grade][_range(size_mm)]


def limits(size_mm: float, zone: str) -> tuple[float, float]:
    """Lower and upper deviation in mm of a tolerance zone, "k6" a shaft, "H7" a hole.

    Raises: ValueError for a size or zone that is not listed.
    """
    low, high = _limits_um(size_mm, zone)
    return low / 1000, high / 1000


def fit(size_mm: float, hole: str, shaft: str) -> tuple[float, float]:
    """Least and greatest clearance in mm of a shaft in a hole; negative is interference.

    Raises: ValueError for a size or zone that is not listed, or a hole named as shaft.
    """
    if not (hole[:1].isupper() or hole in (BEARING_BORE, INSERT_BORE)):
        raise ValueError(f"{hole}: a hole is named with a capital, H7")
    if not (shaft[:1].islower() and shaft not in (BEARING_BORE, INSERT_BORE)):
        raise ValueError(f"{shaft}: a shaft is named with a small letter, k6")
    hole_low, hole_high = limits(size_mm, hole)
    shaft_low, shaft_high = limits(size_mm, shaft)
    return hole_low - shaft_high, hole_high - shaft_low


def _limits_um(size_mm: float, zone: str) -> tuple[float, float]:
    at = _range(size_mm)
    if (zone == BEARING_OUTSIDE and size_mm > _RING_OUTSIDE_MM) or (
        zone == INSERT_BORE and at >= len(_INSERT_BORE)
    ):
        raise ValueError(f"{size_mm:g} mm: no bearing of that size is listed")
    rings = {BEARING_BORE: _RING_BORE, BEARING_OUTSIDE: _RING_OUTSIDE}
    if zone in rings:
        return float(rings[zone][at]), 0.0
    if zone == INSERT_BORE:
        return 0.0, float(_INSERT_BORE[at])
    found = re.fullmatch(r"([A-Za-z]{1,2})(\d{1,2})", zone)
    if not found:
        raise ValueError(f'{zone}: a tolerance zone is a letter and a grade, such as "k6"')
    letter, grade = found[1], int(found[2])
    width = grade_um(size_mm, grade)
    if letter == "js":
        return -width / 2, width / 2
    if zone == "j6":
        return float(_J6[at][1]), float(_J6[at][0])
    if letter in _UPPER:
        return _UPPER[letter][at] - width, float(_UPPER[letter][at])
    if letter in _LOWER:
        low = 0.0 if letter == "k" and grade > 7 else float(_LOWER[letter][at])
        return low, low + width
    if letter in _PRESSED:
        low = float([um for over, um in _PRESSED[letter] if over < size_mm][-1])
        return low, low + width
    if letter.lower() in _UPPER and letter.isupper():
        low = -float(_UPPER[letter.lower()][at])
        return low, low + width
    if zone in _TIGHT_HOLES:  # ES = -ei + delta, delta = ITn - IT(n-1); ISO 286-1, 4.3.2.4
        high = -_LOWER[letter.lower()][at] + width - grade_um(size_mm, grade - 1)
        return high - width, high
    known = "e f g h js k m n p s u, j6, E F G H, N7, P7"
    raise ValueError(f"{zone}: not listed; tolerance zones known are {known}, IT5 to IT11")


def _range(size_mm: float) -> int:
    for i, (over, to) in enumerate(pairwise(RANGES_MM)):
        if over < size_mm <= to:
            return i
    raise ValueError(f"{size_mm:g} mm: sizes over 3 up to 180 mm are listed")
