"""Bearing life: a maker's guide, and Shigley, Mechanical Engineering Design, chapter 11."""

import pytest

from platewheel.parts.wheelset import bearing_life as life


@pytest.mark.parametrize(
    ("load", "turns_per_min", "required"), [(2000, 1600, 19730), (6080, 1000, 51280)]
)
def test_makers_guide(load: float, turns_per_min: float, required: float) -> None:
    """10 000 h; the speeds are the ones that reproduce the guide's C."""
    assert life.life_turns(required, load) == pytest.approx(6e5 * turns_per_min, rel=0.002)


def test_shigley_11_1_plain_life() -> None:
    assert life.life_turns(18550, 2278) == pytest.approx(540e6, rel=0.002)


def test_shigley_02_65() -> None:
    """Fr 7 with V 1.2, Fa 3, C0 34 kN: Y 1.53, Fe 9.29 kN."""
    assert life.axial_factors(3000, 34000)[1] == pytest.approx(1.53, abs=0.01)
    assert life.equivalent_load_n(8400, 3000, 34000) == pytest.approx(9290, rel=0.005)


def test_small_push_counts_nothing() -> None:
    assert life.equivalent_load_n(2000, 300, 10000) == 2000


def test_way_and_years() -> None:
    assert life.life_years(life.life_km(1e6, 300), 500) == pytest.approx(1.88496, rel=1e-5)


def test_push_off_the_table_is_refused() -> None:
    with pytest.raises(ValueError, match="axial_n"):
        life.axial_factors(6000, 10000)
