"""The faults of a wheel that is refused, each in words of the right form."""

from __future__ import annotations

import re
from typing import Any

import pytest

from platewheel.parts.base.faults import Fault, SpecError
from tests.parts.wheels import plain_wheel

LINE = re.compile(
    r"^(?P<key>.+?): found (?P<value>.+); allowed: (?P<allowed>.+); try: (?P<try>.+)$"
)


def faults_of(**changes: Any) -> dict[str, Fault]:
    """The faults by key; every one has a line of its own with key, value, allowed and try."""
    with pytest.raises(SpecError) as caught:
        plain_wheel(**changes)
    lines = str(caught.value).split("\n")
    assert len(lines) == len(caught.value.faults)
    for line, fault in zip(lines, caught.value.faults, strict=True):
        parsed = LINE.match(line)
        assert parsed, line
        assert parsed["key"] == fault.key
        assert parsed["allowed"] == fault.allowed
        assert parsed["try"] == fault.advice
    return {fault.key: fault for fault in caught.value.faults}


def only_fault(key: str, **changes: Any) -> Fault:
    faults = faults_of(**changes)
    assert list(faults) == [key]
    return faults[key]
