"""Is an argument of a function of the kind that it takes, asked before any of it is used."""

from __future__ import annotations

from platewheel.parts.base.faults import Fault, SpecError


def require_kind(
    key: str, value: object, kind: type | tuple[type, ...], allowed: str, advice: str
) -> None:
    """Raises: SpecError with the argument's name where the value is none of these.

    >>> require_kind("count", "two", int, "a whole number", "2")
    Traceback (most recent call last):
    platewheel.parts.base.faults.SpecError: count: found 'two'; allowed: a whole number; try: 2
    """
    if not isinstance(value, kind):
        raise SpecError([Fault(key, value, allowed, advice)])
