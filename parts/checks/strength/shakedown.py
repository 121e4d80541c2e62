"""How hard a contact may be pressed, again and again, before its surface creeps: shakedown.

Source: Johnson, Contact Mechanics (1985), 9.3, shakedown maps of rolling with sliding; from
memory. The line's values follow from the greatest orthogonal shear below the contact, which no
residual stress relieves; the point's are read off the map, to 0.3.
"""

from __future__ import annotations

from itertools import pairwise

# friction in full sliding -> greatest pressure over yield in shear; beyond the last: 1 / friction
LINE = ((0.0, 4.0), (0.05, 3.76), (0.1, 3.56), (0.2, 3.20), (0.3, 2.89), (0.367, 2.72))
POINT = ((0.0, 4.7), (0.1, 4.2), (0.2, 3.7), (0.3, 3.2), (0.4, 2.5))


def line_shakedown(friction: float) -> float:
    """Greatest Hertz pressure of a line contact over the yield strength in shear.

    Raises: ValueError for a friction below 0.
    """
    return _on_map(LINE, friction)


def point_shakedown(friction: float) -> float:
    """The same of a contact that is a spot. Raises: ValueError for a friction below 0."""
    return _on_map(POINT, friction)


def _on_map(rows: tuple[tuple[float, float], ...], friction: float) -> float:
    if not friction >= 0:
        raise ValueError(f"friction: found {friction:g}; allowed: from 0")
    if friction >= rows[-1][0]:
        return 1 / friction  # the surface itself shears
    for (low, first), (high, last) in pairwise(rows):
        if friction <= high:
            return first + (last - first) * (friction - low) / (high - low)
    raise AssertionError("the rows begin at 0")
