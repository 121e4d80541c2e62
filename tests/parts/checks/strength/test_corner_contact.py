"""The rail's corner under the flange: the flat by hand, and where the check turns."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.strength.corner_contact import (
    corner_flat,
    flat_for_mm,
    rolling_radius_mm,
)
from platewheel.parts.stress.hertz import (
    contact_modulus_n_mm2,
    line_pressure_n_mm2,
    point_pressure_n_mm2,
)
from tests.parts.checks.settings import setting_of


def test_a_cone_rolls_on_a_larger_radius() -> None:
    """70 degrees: 150 / cos 70 = 438.6; an upright washer is flat along the rail."""
    assert rolling_radius_mm(150.0, math.radians(70)) == pytest.approx(438.57, abs=0.01)
    assert rolling_radius_mm(150.0, math.radians(90)) > 1e6


def test_the_flat_bears_just_the_pressure() -> None:
    """Hertz's line contact of the other room, backwards."""
    flat = flat_for_mm(2000.0, 438.6, 371.0)
    back = line_pressure_n_mm2(2000.0, flat, 2 * 438.6, contact_modulus_n_mm2())
    assert back == pytest.approx(371.0)


def test_flat_by_hand_and_where_it_turns() -> None:
    """0.4 of 4000 N over sin 70; shakedown 2 k at friction 0.5, k = 235 / sqrt 3; corner of 3."""
    found = corner_flat(setting_of(4000.0))
    assert found is not None
    limit = 2 * 235 / math.sqrt(3)
    force, radius = 1600 / math.sin(math.radians(70)), 150 / math.cos(math.radians(70))
    by_hand = force * contact_modulus_n_mm2() / (math.pi * radius * limit**2)
    assert found.value == pytest.approx(by_hand)
    assert found.limit == 1.5
    load = 4000 * 1.5 / by_hand
    for share, verdict in ((0.999, "pass"), (1.001, "warn")):
        result = corner_flat(setting_of(share * load))
        assert result is not None
        assert result.verdict == verdict


def test_a_sharp_corner_is_not_asked() -> None:
    assert corner_flat(setting_of(track={"rail_corner_radius_mm": 0.0})) is None


def test_what_it_says() -> None:
    """Pressures of the new corner, a spot of radii 438.6 and 3, and of the flat; too long a flat:
    half of it is let off by half the push, which it goes with."""
    force = 800 / math.sin(math.radians(70))
    radius = 150 / math.cos(math.radians(70))
    new = point_pressure_n_mm2(force, radius, 3.0, contact_modulus_n_mm2())
    found = corner_flat(setting_of(2000.0))
    assert found is not None
    assert f"beds in from {new:.0f} to {2 * 235 / math.sqrt(3):.0f} N/mm2" in found.says
    heavy = corner_flat(setting_of(2000.0 * 3.0 / (found.value or 1.0)))
    assert heavy is not None
    assert heavy.value == pytest.approx(3.0)
    assert "grease the outer rail" in heavy.says
