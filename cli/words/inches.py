"""A page for a shop that works in inches: every length that its words tell in mm gets inches."""

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
_KEPT = re.compile(r"(<(svg|style|script|code)\b.*?</\2>|<[^>]*>)", re.DOTALL)


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


def page_in(page: str, units: Units) -> str:
    """An HTML page whose words have inches where the paper is in inches. Drawings keep what they
    drew, tags and code theirs."""
    if units == "mm":
        return page
    pieces = _KEPT.split(page)
    # words, then what is kept and the name of its tag, and so on
    return "".join(
        in_inches(piece) if i % 3 == 0 else piece for i, piece in enumerate(pieces) if i % 3 < 2
    )
