"""A number as scripts have them, of numpy or a fraction, as one of Python."""

from __future__ import annotations

from numbers import Integral, Real
from typing import Any


def plain_number(value: Any) -> Any:
    """The number as an int or a float; all else as it is."""
    if isinstance(value, bool | int | float):
        return value
    if isinstance(value, Integral):
        return int(value)
    return float(value) if isinstance(value, Real) else value
