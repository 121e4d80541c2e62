"""Three sentences on a proposal: numbers that are differences of its row to the first."""

from __future__ import annotations

from platewheel.cli.job.job import read_job
from platewheel.cli.words.proposal_lessons import lessons, reserve_percent
from tests.cli.propose.rows import laid
from tests.places import DEMO

WHEEL = read_job(DEMO).wheel
FIRST = laid(WHEEL, 100.0, rank=1, kind="cheapest", rated_n=3300.0, binds_margin=0.027)
SHEET = WHEEL.model_copy(update={"tread_from": "sheet"})


def test_what_binds_it_is_told_with_how_near() -> None:
    binds, gives_up, take = lessons(FIRST, [FIRST], "EUR")
    assert binds == (
        "The rating, 10 % over the load, is set by toes; the check nearest to its limit, 2.7 % "
        "from it: a check: narrowly."
    )
    assert gives_up == "No other wheel was found to give something up against."
    assert take == "Take it when money counts most and the wheels are looked over each season."
    none = FIRST.model_copy(update={"binds": "none"})
    assert lessons(none, [none], "EUR")[0].endswith("is set by toes.")


def test_what_it_gives_up_and_gains_are_differences_to_the_first() -> None:
    """3300 and 3900 on 3000 are 10 and 30 %; 0.25 h are 15 minutes."""
    row = laid(
        SHEET,
        112.5,
        rank=2,
        kind="other stock",
        rated_n=3900.0,
        mass_kg=8.2,
        hours_per_wheel=1.75,
    )
    assert round(reserve_percent(row)) == 30
    _, gives_up, take = lessons(row, [FIRST, row], "EUR")
    assert gives_up == (
        "Against the first it gives up 12.50 EUR and 15 minutes of work and gains 0.8 kg and 20 "
        "points of reserve."
    )
    assert take == (
        "Take it when sheet of 8 mm is to hand, or easier to get and roll than flat bar of 60 x 8 "
        "mm."
    )
    assert lessons(FIRST, [FIRST, row], "EUR")[1] == (
        "It gives up 0.8 kg to proposal 2 and 20 points of reserve to proposal 2."
    )


def test_what_rounds_to_nothing_is_not_told() -> None:
    twin = laid(SHEET, 100.001, rank=2, rated_n=3301.0, mass_kg=9.01)
    assert lessons(twin, [FIRST, twin], "EUR")[1] == (
        "Against the first it gives up nothing that is counted here."
    )
    assert lessons(FIRST, [FIRST, twin], "EUR")[1] == (
        "It gives up nothing: no other proposal is lighter or stronger."
    )


def test_one_that_is_only_better_gives_nothing_up() -> None:
    better = laid(SHEET, 90.0, rank=2, rated_n=3300.0)
    assert lessons(better, [FIRST, better], "")[1] == (
        "Against the first it gives up nothing that is counted here and gains 10.00."
    )
