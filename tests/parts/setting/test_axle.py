"""The axle's keys: defaults that stand without any key, and what cannot go together."""

from __future__ import annotations

from typing import Any

import pytest

from platewheel.parts.base.faults import SpecError
from platewheel.parts.setting.axle import AxleSpec


def test_no_keys_give_fixed_wheels_in_insert_bearings_outside() -> None:
    axle = AxleSpec()
    assert (axle.turning, axle.frames, axle.bearing_kind, axle.held_by) == (
        True,
        "outside",
        "insert",
        "key",
    )


def test_loose_wheels_alone_give_bushes_and_collars() -> None:
    axle = AxleSpec(wheels_on_axle="loose")
    assert (axle.turning, axle.bearing_kind, axle.held_by) == (False, "bush", "collar")


@pytest.mark.parametrize(
    ("keys", "key", "words"),
    [
        ({"wheels_on_axle": "loose", "bearing": "insert"}, "bearing", "hub tube"),
        ({"wheels_on_axle": "loose", "retention": "weld"}, "retention", '"collar"'),
        ({"retention": "collar"}, "retention", '"key"'),
        ({"bearing": "bush", "bearing_name": "6205"}, "bearing_name", "bushes"),
        ({"steel": "42CrMo4"}, "steel", '"C45"'),
        ({"bearing": "roller"}, "bearing", '"deep-groove"'),
        ({"diameter_mm": 5.0}, "diameter_mm", "from 10"),
        ({"bearing_name": 6205}, "bearing_name", "text"),
        ({"journal_mm": 30.0}, "journal_mm", "journal_diameter_mm"),
    ],
)
def test_what_is_refused_is_told_by_key(keys: dict[str, Any], key: str, words: str) -> None:
    with pytest.raises(SpecError) as caught:
        AxleSpec(**keys)
    (fault,) = caught.value.faults
    assert fault.key == key
    assert words in fault.allowed


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(SpecError) as caught:
        AxleSpec(wheels_on_axle="loose", bearing="insert", retention="press", steel="X")  # type: ignore[arg-type]
    assert {fault.key for fault in caught.value.faults} == {"bearing", "retention", "steel"}
