"""The job's own wheel is what a proposal has to beat, and is one where it passes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.cli.job.job import read_job
from platewheel.cli.propose.finalists import against_it, finalist
from platewheel.cli.propose.own_wheel import own_wheel, with_own
from platewheel.cli.schema.propose import OwnRow, ProposalRow, ProposeReport
from platewheel.cli.words.proposal import own_words
from platewheel.parts.rating.rate import borne_n
from tests.cli.conftest import _rate_once
from tests.cli.propose.rows import laid
from tests.places import DEMO

JOB = read_job(DEMO)
OWN = laid(JOB.wheel, 99.0, warnings=["Zinc: thin"])


@pytest.fixture(autouse=True, scope="module")
def rated_once(module_patch: pytest.MonkeyPatch) -> None:
    """The demo's wheel on a coarse mesh, the same for all that is asked of it here."""
    for module in ("own_wheel", "finalists"):
        module_patch.setattr(f"platewheel.cli.propose.{module}.assess", _rate_once)


def other(throat_mm: float, estimate: float, *warnings: str) -> ProposalRow:
    wheel = JOB.wheel.model_copy(update={"weld_throat_mm": throat_mm})
    return laid(wheel, estimate, warnings=list(warnings))


def words(own: OwnRow, *proposals: ProposalRow) -> str:
    ranked = [row.model_copy(update={"rank": k + 1}) for k, row in enumerate(proposals)]
    return own_words(
        ProposeReport.model_construct(own=own, proposals=ranked, not_priced=False, currency="EUR")
    )


def test_a_wheel_that_passes_is_never_beaten_by_a_dearer_one() -> None:
    own = OwnRow(row=OWN, against=[])
    dear = [other(5, 110.0, "Zinc: thin"), other(6, 120.0)]
    good, told = with_own(dear, own, 2)
    assert good == [OWN, dear[0]]
    assert told == own
    assert words(told, *good) == (
        "The wheel of the job file costs 100.00 EUR, is rated 3100 N for a load of 3000 N and is "
        "proposal 1"
    )


def test_where_the_search_found_none_it_is_the_proposal() -> None:
    assert with_own((), OwnRow(row=OWN, against=[]), 4)[0] == [OWN]


def test_a_cheaper_proposal_says_what_it_saves() -> None:
    own = OwnRow(row=OWN, against=[])
    cheap = [other(5, 80.0, "Zinc: thin"), other(3, 90.0)]
    good, told = with_own(cheap, own, 2)
    assert good == cheap
    assert words(told, *good).endswith("; the first proposal saves 19.00 EUR of it")
    assert with_own(cheap, own, 3)[0] == [*cheap, OWN]


def test_one_that_checks_warn_of_does_not_push_out_one_without_warning() -> None:
    good, told = with_own([other(5, 110.0)], OwnRow(row=OWN, against=[]), 4)
    assert good == [other(5, 110.0)]
    assert words(told, *good).endswith(
        " and is no proposal: checks warn of it that do not of the first proposal: Zinc"
    )


def test_a_dearer_one_with_more_warnings_is_beaten_all_the_same() -> None:
    good, told = with_own([other(5, 80.0)], OwnRow(row=OWN, against=[]), 4)
    assert good == [other(5, 80.0)]
    assert words(told, *good).endswith("; the first proposal saves 19.00 EUR of it")


@pytest.mark.parametrize("row", [OWN, None])
def test_one_that_fails_is_no_proposal(row: ProposalRow | None) -> None:
    own = OwnRow(row=row, against=["Flange depth (too shallow)"])
    good, told = with_own([other(5, 110.0)], own, 4)
    assert good == [other(5, 110.0)]
    assert told == own
    said = words(told, *good)
    assert said.endswith("no proposal: Flange depth (too shallow)")
    assert ("costs 100.00 EUR" in said) == (row is not None)


def test_a_wheel_searched_for_is_not_told_twice() -> None:
    good, _ = with_own([OWN, other(5, 110.0)], OwnRow(row=OWN, against=[]), 4)
    assert good == [OWN, other(5, 110.0)]


def test_the_demo_is_rated_and_laid() -> None:
    own = own_wheel(JOB, 0.1)
    assert own.row is not None
    assert own.against == []
    assert own.row.rated_n > 1.1 * own.row.load_n
    assert own.row.wheel == JOB.wheel.model_dump()
    assert own.row == finalist(JOB, own.row.cost_estimate, 0.1)  # as every other
    greedy = own_wheel(JOB, 9.0)
    assert greedy.row == own.row
    assert greedy.against[0].endswith("of reserve, 900 % are asked for")


def test_reserve_that_lacks_a_little_is_not_told_as_enough() -> None:
    found = _rate_once(JOB.setting)
    assert found is not None
    has = borne_n(JOB.setting, found.least.load_n) / JOB.setting.static_wheel_load_n - 1
    (line,) = against_it(JOB, found, [], has + 1e-5)
    told = float(line.removeprefix("it has ").split(" %")[0])
    assert 100 * has - 0.1 <= told <= 100 * has
    assert against_it(JOB, found, [], has - 1e-5) == []


def test_with_no_time_to_rate_only_what_fails_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    flat = replace(JOB, wheel=JOB.wheel.model_copy(update={"flange_angle_deg": 45.0}))
    monkeypatch.setattr("platewheel.cli.propose.own_wheel.assess", None)
    own = own_wheel(flat, 0.1, briefly=True)
    assert own.row is None
    assert own.against[0].startswith("Sideways over vertical force (the flange climbs from")


def test_all_that_is_against_it_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Too little reserve and no stock for it: both, and no row."""
    monkeypatch.setattr("platewheel.cli.propose.own_wheel.laid", lambda *given: ["no plate of 8"])
    own = own_wheel(JOB, 9.0)
    assert own.row is None
    assert len(own.against) == 2
    assert own.against[0].endswith("900 % are asked for")
    assert own.against[1] == "no plate of 8"


def test_without_prices_kilograms_are_told() -> None:
    report = ProposeReport.model_construct(
        own=OwnRow(row=OWN, against=[]), proposals=[], not_priced=True, currency="EUR"
    )
    own = report.model_copy(update={"proposals": [OWN.model_copy(update={"rank": 1})]})
    assert own_words(own).startswith("The wheel of the job file costs 100.00 kg of steel, is rated")
    no_name = own.model_copy(update={"not_priced": False, "currency": ""})
    assert own_words(no_name).startswith("The wheel of the job file costs 100.00, is rated")
