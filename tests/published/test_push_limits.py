"""Pushing against the examples of the UK HSE (L23, hse.gov.uk; INDG143 extract, chro.co.uk)."""

from __future__ import annotations

import pytest

from platewheel.parts.wagon.pushing import people, people_worth
from platewheel.parts.wagon.resistance import force_n

KGF_N = 9.81


@pytest.mark.parametrize(("mass_kg", "kgf"), [(200, 4), (400, 8)])
def test_two_per_cent_of_the_load_on_a_good_floor(mass_kg: float, kgf: float) -> None:
    assert force_n(mass_kg, 0.02) / KGF_N == pytest.approx(kgf)


def test_ramp_of_1_in_12() -> None:
    """400 kg on 1 in 12: "over 30 kgf". Without friction 400 sin(atan(1/12)) = 33.2."""
    kgf = force_n(400, 0.0, 100 / 12) / KGF_N
    assert kgf > 30
    assert kgf == pytest.approx(33.2, abs=0.05)


@pytest.mark.parametrize(
    ("start_n", "sustained_n", "men", "women"),
    [(200, 100, 1, 2), (150, 70, 1, 1), (201, 50, 2, 2), (100, 101, 2, 2), (600, 210, 3, 4)],
)
def test_guideline_figures(start_n: float, sustained_n: float, men: int, women: int) -> None:
    """200 and 100 N for a man, 150 and 70 N for a woman; counted by hand."""
    assert people(people_worth(start_n, sustained_n)) == men
    assert people(people_worth(start_n, sustained_n, 150, 70)) == women


def test_ramp_asks_for_more_than_one_man_to_start_and_four_to_go_on() -> None:
    """The HSE's ramp by its own limits: 326 N is 2 men to start, 4 to keep it moving."""
    force = force_n(400, 0.0, 100 / 12)
    assert people(force / 200) == 2
    assert people(people_worth(force, force)) == 4
