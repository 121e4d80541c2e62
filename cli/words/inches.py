"""Sentences for a shop that works in inches: lengths that they tell in mm get inches.

For words that come as plain text, of checks, steps and notes, one sentence at a time; a value of
ours is a `Length` of `values.py` and needs no search.
"""

from __future__ import annotations

import re

from platewheel.parts.base.units import Units, length

_NUMBER = r"[+-]?\d+(?:\.\d+)?"
# lengths in mm: 3 mm, 0.3 to 0.7 mm, 1250 x 870 mm, r 142, z 9 mm;
# not mm/m or N/mm2, and not what already stands in brackets behind its inches
_LENGTHS = re.compile(
    rf"(?<![\w./+-])(?<! in \()({_NUMBER}(?:(?: x | to |, z ){_NUMBER})*) mm\b(?![/.]\w)"
)
_SIZED = re.compile(rf"(?:^|[a-z] ){_NUMBER} x {_NUMBER}$")


def in_inches(words: str) -> str:
    """`gap 0.3 to 0.7 mm` becomes `gap 0.012 in to 0.028 in (0.3 to 0.7 mm)`: inches to 1/64,
    below 3 mm to a thousandth; the mm stay beside, since gauges and stock are often in mm."""

    def told(found: re.Match[str]) -> str:
        sizes = re.sub(_NUMBER, lambda n: length(float(n[0]), "inch"), found[1])
        return f"{sizes} ({found[1]} mm)"

    return _LENGTHS.sub(told, words)


def plate_name(name: str, units: Units) -> str:
    """A plate or bar that is called by its size in mm, `1250 x 2500` or `bar 60 x 6`."""
    return in_inches(f"{name} mm") if units == "inch" and _SIZED.search(name) else name
