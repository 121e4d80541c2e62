"""What a person writes for a size or a mass, with any unit of its kind, as a number in ours."""

from __future__ import annotations

import re
from dataclasses import dataclass

from platewheel.cli.start.first_job import KG_PER_LB, KM_PER_MILE, MM_PER_FOOT, rounded
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.units import MM_PER_INCH

_INCH = dict.fromkeys(("in", "inch", "inches", '"', "”", "″"), MM_PER_INCH)
_FOOT = dict.fromkeys(("ft", "foot", "feet", "'", "’", "′"), MM_PER_FOOT)
LENGTHS_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, **_INCH, **_FOOT}
MASSES_KG = {"kg": 1.0, "g": 0.001, "t": 1000.0, **dict.fromkeys(("lb", "lbs"), KG_PER_LB)}
SPEEDS_KM_H = {"km/h": 1.0, "kmh": 1.0, "m/s": 3.6, "mph": KM_PER_MILE}
WAYS_KM = {"km": 1.0, "m": 0.001, **dict.fromkeys(("mi", "mile", "miles"), KM_PER_MILE)}
PERCENT = {"%": 1.0, "percent": 1.0}
_NUMBER = r"[-+]?(?:\d+\s+\d+/\d+|\d+/\d+|\d+[.,]\d+|\d+|[.,]\d+)"
_UNIT = r"(?:[a-z]+(?:/[a-z]+)?|[\"'”″’′%])"
_PART = re.compile(rf"\s*({_NUMBER})\s*({_UNIT})?", re.ASCII)
_THOUSANDS = re.compile(r"(?<![\d.,])[1-9]\d{0,2},\d{3}(?![\d.,])", re.ASCII)
_SLOPE = re.compile(r"1\s*(?:in|:)\s*(\d+(?:[.,]\d+)?)", re.ASCII)
_BETWEEN = re.compile(r"\s*(?:;|,\s|\band\b)\s*")


@dataclass(frozen=True)
class Measure:
    """How a key is measured: units by name, each in the first of them; `own` what the key counts
    in, `bare` what a number without a unit is taken in."""

    units: dict[str, float]
    own: str
    bare: str


def read_size(text: str, measure: Measure) -> float:
    """One number: `50`, `0,8`, `50 cm`, `1 1/4 in`, `5 ft 6 in`; in the key's own unit.

    Raises: SpecError with what was found and what can be read; the key is left empty.
    """
    slope = _SLOPE.fullmatch(text.strip().lower())
    if measure.units is PERCENT and slope and _value(slope[1]):
        return float(rounded(100 / _value(slope[1])))
    parts = _parts(text, measure)
    joined = len(parts) == 2 and parts[0][1] in _FOOT and parts[1][1] in _INCH
    if len(parts) != 1 and not joined:
        raise _unread(text, measure)
    return float(rounded(sum(_in_own(number, unit, measure) for number, unit in parts)))


def read_sizes(text: str, measure: Measure) -> tuple[float, ...]:
    """Several numbers, smallest first, each once: `6 8`, `0,8 and 1,5`, `1/4 5/16 in`; one
    without a unit has that of the next which has one. Raises: SpecError."""
    parts = [part for piece in _BETWEEN.split(text.strip()) for part in _parts(piece, measure)]
    values, unit = [], None
    for number, named in reversed(parts):
        unit = named or unit
        values.append(float(rounded(_in_own(number, unit, measure))))
    return tuple(sorted(set(values)))


def read_pair(text: str, measure: Measure) -> tuple[float, float]:
    """Two sizes, the smaller first: `1250 x 2500`, `4 x 8 ft`. Raises: SpecError."""
    pieces = re.split(r"\s*(?:x|×|\*|\bby\b)\s*", text.strip().lower())
    if len(pieces) != 2:
        raise _unread(text, measure, "two sizes with an x between them", "1250 x 2500")
    (one, first), *more = _parts(pieces[0], measure)
    (two, second), *rest = _parts(pieces[1], measure)
    if more or rest:
        raise _unread(text, measure, "two sizes with an x between them", "1250 x 2500")
    both = _in_own(one, first or second, measure), _in_own(two, second, measure)
    return float(rounded(min(both))), float(rounded(max(both)))


def _parts(text: str, measure: Measure) -> list[tuple[str, str | None]]:
    """Numbers and their units, in the order of writing."""
    low = text.strip().lower()
    if odd := _THOUSANDS.search(low):
        raise _unread(
            text,
            measure,
            "no comma before three digits: thousands and decimals look alike",
            f"{odd[0].replace(',', '')} or {odd[0].replace(',', '.')}",
        )
    parts, at = [], 0
    while at < len(low):
        found = _PART.match(low, at)
        if not found or (found[2] and found[2] not in measure.units):
            raise _unread(text, measure)
        if "/" in found[1] and re.search(r"/0+$", found[1]):
            raise _unread(text, measure)
        parts.append((found[1], found[2]))
        at = found.end()
    if not parts:
        raise _unread(text, measure)
    return parts


def _in_own(number: str, unit: str | None, measure: Measure) -> float:
    unit = unit or measure.bare
    if "/" in number and unit not in _INCH:
        raise _unread(
            number, measure, "a fraction in inches, other numbers with a point", f"{number} in"
        )
    return _value(number) * measure.units[unit] / measure.units[measure.own]


def _value(number: str) -> float:
    sign = -1.0 if number.startswith("-") else 1.0
    total = 0.0
    for piece in number.lstrip("+-").split():
        over, _, under = piece.partition("/")
        total += float(over.replace(",", ".")) / float(under or 1)
    return sign * total


def _unread(text: str, measure: Measure, allowed: str = "", advice: str = "") -> SpecError:
    names = ", ".join(name for name in measure.units if name.isascii() and name not in "\"'")
    takes = allowed or f"a number, alone ({measure.bare}) or with one of {names}"
    return SpecError([Fault("", text, takes, advice or f"the number alone, in {measure.bare}")])
