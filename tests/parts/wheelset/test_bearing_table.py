"""Bearings are found by name, bore and outside."""

from __future__ import annotations

import pytest

from platewheel.parts.wheelset.bearing_table import (
    BEARINGS,
    bearing_named,
    bearings_by_bore,
    bearings_by_outside,
    bores_mm,
    outsides_mm,
)


def test_names_are_told_apart_and_found_in_any_case() -> None:
    assert len({b.name for b in BEARINGS}) == len(BEARINGS)
    assert bearing_named(" uc207 ") is bearing_named("UC207")
    assert bearing_named("6413") is None


def test_the_lightest_series_comes_first() -> None:
    assert [b.name for b in bearings_by_bore("deep-groove", 35.0)] == ["6007", "6207", "6307"]
    assert [b.name for b in bearings_by_bore("insert", 35.0)] == ["UC207"]


def test_by_outside_for_a_hub() -> None:
    """A 35 mm hub bore takes 17, 15 or 10 mm axles."""
    found = bearings_by_outside("deep-groove", 35.0)
    assert [(b.name, b.bore_mm) for b in found] == [("6003", 17), ("6202", 15), ("6300", 10)]


@pytest.mark.parametrize("kind", ["deep-groove", "insert"])
def test_every_listed_size_is_found_again(kind: str) -> None:
    assert list(bores_mm(kind)) == sorted(set(bores_mm(kind)))
    assert all(bearings_by_bore(kind, bore) for bore in bores_mm(kind))
    assert all(bearings_by_outside(kind, outside) for outside in outsides_mm(kind))
    assert bearings_by_bore(kind, 33.0) == ()


def test_every_bearing_tells_its_source() -> None:
    assert all(b.source for b in BEARINGS)
    assert all(0 < b.c0_kn < b.c_kn for b in BEARINGS)
