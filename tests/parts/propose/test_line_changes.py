"""Changes of the line are real ones, the least first, and fewer wheels are some of all."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.parts.propose.choices import Choices, Ring
from platewheel.parts.propose.line_changes import fewer, line_changes, with_change
from platewheel.parts.propose.line_steps import with_value
from tests.parts.propose.test_play import RIMS
from tests.parts.settings import demo_setting


def test_values_are_taken_and_grow_in_size() -> None:
    setting = demo_setting()
    rows = line_changes(setting)
    assert len({row.key for row in rows}) == len(rows) >= 15
    for row in rows:
        sizes = [row.size(value) for value in row.values]
        assert sizes == sorted(sizes)
        assert min(sizes) > 0
        for value in row.values:
            section, name = row.key.split(".")
            assert getattr(getattr(with_change(setting, row.key, value), section), name) == value
    payload = next(row for row in rows if row.key == "wagon.payload_kg")
    assert payload.values[0] == 450
    assert payload.values[-1] == 0
    assert payload.told(450.0) == "wagon.payload_kg = 450 in place of 500 (smaller loads)"
    axles = next(row for row in rows if row.key == "wagon.suspension")
    assert axles.told("sprung").startswith('wagon.suspension = "sprung" in place of "rigid"')


def test_what_a_job_would_not_take_is_not_offered() -> None:
    """Loose springs on a wagon that has none, a wheelbase that no curve passes."""
    sprung = with_value(demo_setting(), "wagon.suspension", "sprung")
    assert "wagon.suspension" not in {row.key for row in line_changes(sprung)}
    level = replace(
        sprung, track=sprung.track.model_copy(update={"twist_mm_per_m": 0.0, "joint_step_mm": 0.0})
    )
    keys = {row.key for row in line_changes(level)}
    assert not keys & {"track.twist_mm_per_m", "track.joint_step_mm"}


def test_a_usual_flangeway_is_what_the_change_is_from() -> None:
    """A job that gives none has 24 mm at 457 mm of gauge; 26 is a thirteenth more."""
    setting = demo_setting()
    usual = replace(setting, track=setting.track.model_copy(update={"flangeway_mm": None}))
    ways = next(row for row in line_changes(usual) if row.key == "track.flangeway_mm")
    assert (ways.was, ways.values) == (24.0, (26.0, 28.0, 30.0, 32.0, 36.0))
    assert ways.size(26.0) == pytest.approx(1 / 13)
    assert ways.told(26.0) == "track.flangeway_mm = 26 in place of 24 (wider flangeways)"


def test_fewer_wheels_span_the_same_ranges() -> None:
    many = replace(
        RIMS,
        diameter=tuple(float(d) for d in (200, 219.1, *range(220, 320, 20))),
        ring=(
            *RIMS.ring,
            Ring("pipe", 50.0, 8.0, 219.1),
            *(Ring("sheet", float(width), 8.0) for width in range(30, 80, 10)),
        ),
        depth=tuple(float(h) for h in range(6, 26)),
    )
    few: Choices = fewer(many)
    assert few.wheels < many.wheels / 3
    assert few.ring[:3] == many.ring[:3]
    assert [ring.width_mm for ring in few.ring[3:]] == [30, 50, 70]
    assert few.play == many.play
    assert set(few.diameter) < set(many.diameter)
    assert 219.1 in few.diameter
    for axis in ("diameter", "depth", "angle", "throat"):
        all_, some = getattr(many, axis), getattr(few, axis)
        assert (some[0], some[-1]) == (all_[0], all_[-1])
        assert set(some) <= set(all_)
