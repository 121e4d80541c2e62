"""The first page of the job sheet: what is made, what it carries and costs, what to look at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from platewheel.cli.job.job import Job
from platewheel.cli.schema.report import CheckRow, NestingRow, Report
from platewheel.cli.words.by_hand import hand_words
from platewheel.cli.words.figures import payload_words, web_words
from platewheel.cli.words.phrases import Name, Phrase, Sentence, phrase
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import (
    Count,
    Force,
    Length,
    Mass,
    Money,
    Percent,
    Quantity,
    Run,
    Value,
)
from platewheel.parts.base.so_many import so_many

FACTS = (Column("what", "What", Name, "name"), Column("is", "How much", Phrase))
BATH = (
    "A sealed hollow in a zinc bath explodes. Look through the vent holes of every wheel before "
    "it goes to the galvanizer, and tell them how the box is vented.",
    "Weld before galvanizing. Welding or cutting zinc-coated steel gives fume that makes ill; "
    "grind the zinc off well back from the joint, ventilate, wear a fitting respirator.",
)
NO_BATH = (
    "A sealed hollow bursts when it is welded or heated, and explodes in a zinc bath. Look through "
    "the vent holes of every wheel.",
    "Welding or cutting steel that has been zinc-coated or painted gives fume that makes ill; "
    "grind it bright well back from the joint, ventilate, wear a fitting respirator.",
)
OWN_DISC = (
    "The hub discs are a drawing of your own: no rating, and no check of strength, vents or zinc "
    "bath, knows them. Have them judged by someone who does before a wheel is dipped or loaded.",
)
ALWAYS = (
    "Hot work: clear the ground of what burns, wear eye, ear and hand protection; grinder discs "
    "burst, cut edges are sharp.",
    "Plates, bars and finished wheels are heavy: lift with help or a hoist, never stand below.",
    "No people ride on wagons with wheels that have not been proof-loaded. Wagons need brakes "
    "or scotches wherever the track falls; they roll away on slopes that the eye does not see.",
    "These figures are an aid. Local codes, licensed welders and engineers, and the rules for "
    "railways on your land come first.",
)


def read_first(job: Job) -> tuple[str, ...]:
    """Cautions before all others; those of a zinc bath where the wheels go into one."""
    own = OWN_DISC if job.own_disc else ()
    return (*own, *(BATH if job.finish.coating == "galvanized" else NO_BATH), *ALWAYS)


NOT_PASSED = {"fail": "fails", "warn": "warns", "not-assessed": "not assessed"}


@dataclass(frozen=True)
class Point:
    """What a check that does not pass says; `mark`: fails, warns."""

    mark: str
    title: str
    says: str


def not_passed(report: Report) -> list[CheckRow]:
    """Checks that fail, then those that warn, then those that could not be made."""
    return [row for mark in NOT_PASSED for row in report.checks if row.verdict == mark]


def passed(report: Report) -> list[CheckRow]:
    """The rest."""
    return [row for row in report.checks if row.verdict not in NOT_PASSED]


def look_at(report: Report) -> list[Point]:
    """What those say that fail or warn."""
    told = (row for row in not_passed(report) if row.verdict != "not-assessed")
    return [Point(NOT_PASSED[row.verdict], row.title, row.says) for row in told]


def not_assessed_words(report: Report) -> str:
    """The checks that could not be made, by name; empty where all were."""
    names = [row.title for row in report.checks if row.verdict == "not-assessed"]
    return f"Not assessed: {'; '.join(names)}." if names else ""


def passed_words(report: Report) -> str:
    """`50 checks pass`."""
    return so_many(len(passed(report)), "check passes", "checks pass")


def verdict_words(report: Report) -> str:
    """`50 checks pass, 1 warns`."""
    counts = Counter[str](row.verdict for row in not_passed(report))
    told = [f"{counts[mark]} {_verb(mark, counts[mark])}" for mark in NOT_PASSED if counts[mark]]
    return ", ".join([passed_words(report), *told])


def _verb(verdict: str, count: int) -> str:
    many = {"fail": "fail", "warn": "warn"}
    return NOT_PASSED[verdict] if count == 1 else many.get(verdict, NOT_PASSED[verdict])


def wheels_words(report: Report) -> str:
    """`48 wheels`, or `40 of 48 wheels` where the stock holds no more."""
    made, asked = report.job.wheels, report.job.asked
    return so_many(made, "wheel") if made == asked else f"{made} of {so_many(asked, 'wheel')}"


def facts_table(job: Job, report: Report) -> Table:
    """A line a fact."""
    rows = _facts(job, report)
    return table(FACTS, ({"what": Name(name), "is": value} for name, value in rows))


def _facts(job: Job, report: Report) -> Iterator[tuple[str, Value]]:
    wheel, made, nesting = report.wheel, report.job.wheels, report.nesting
    form = "g" if job.paper.units == "mm" else ".1f"
    yield "How many", Name(wheels_words(report))
    yield "Track", phrase(Length(job.track.gauge_mm, form, "rule"), " gauge")
    yield (
        "Size",
        phrase(
            Length(wheel.tread_diameter_mm, form, "rule"),
            " over the tread, ",
            Length(wheel.over_flange_diameter_mm, form, "rule"),
            " over the flange",
        ),
    )
    all_of_them = Mass(wheel.mass_kg * made, ".0f")
    yield "Mass", phrase(Mass(wheel.mass_kg), " a wheel with its beads, ", all_of_them, " in all")
    yield "Steel", Name(f"{job.wheel.steel}, {job.finish.coating}")
    yield "Load", _load(report)
    yield "Checks", Name(verdict_words(report))
    cost, hours = report.cost, report.time_plan
    yield "Money", _money(report)
    hours_all, hours_each = (
        Quantity(hours.hours, ".0f", "h"),
        Quantity(hours.hours_per_wheel, ".1f", "h"),
    )
    yield "Hours", phrase(hours_all, " in all, ", hours_each, " a wheel")
    if cost.saving_per_wheel is not None:
        yield "Bought", _beside_bought(cost.saving_per_wheel, cost.currency)
    if nesting.sheets_used:
        yield from _plates(report)


def _load(report: Report) -> Value:
    rating = report.rating
    if rating is None:
        return Name("not rated: see what the checks say")
    need = next((c.limit for c in report.checks if c.id == f"rating-{rating.rated_state}"), None)
    needed = phrase(", needed ", Force(need)) if need is not None else Name("")
    return phrase(
        "rated ",
        Force(rating.rated_n),
        needed,
        ", the heaviest wheel at a rail joint; ",
        payload_words(rating.payload_kg_per_wagon),
    )


def _money(report: Report) -> Value:
    cost = report.cost
    each, every = Money(cost.per_wheel, cost.currency), Money(cost.price, cost.currency, ".0f")
    if not cost.not_priced:
        return phrase(each, " a wheel, ", every, " in all")
    lacks = ", ".join(cost.not_priced)
    if not cost.price:
        return Name(f"nothing is priced: {lacks}")
    return phrase(each, " a wheel, ", every, f" in all, without what is not priced: {lacks}")


def _beside_bought(saving: float, currency: str) -> Value:
    less = Money(abs(saving), currency)
    return phrase("a bought wheel costs ", less, " more" if saving >= 0 else " less")


def _plates(report: Report) -> Iterator[tuple[str, Value]]:
    nesting = report.nesting
    yield (
        "Plates",
        phrase(
            Count(nesting.sheets_used),
            ", scrap ",
            Percent(nesting.scrap_percent, ".0f"),
            ", or ",
            Percent(nesting.scrap_percent_after_offcuts, ".0f"),
            " after the offcuts worth keeping",
        ),
    )
    setup = Quantity(nesting.setup_hours, ".1f", "h")
    yield (
        "Cutting",
        phrase(
            "about ",
            Quantity(nesting.cutting_hours, ".1f", "h"),
            phrase(" and ", setup, " to set up") if nesting.setup_hours else "",
            ", ",
            _cut(nesting),
        ),
    )


def _cut(nesting: NestingRow) -> Value:
    """Metres, and by what."""
    if nesting.by_hand:
        return Name(f"{hand_words(nesting.by_hand)}.")
    return phrase(
        Run(nesting.cut_length_mm),
        f" of cut, {so_many(nesting.pierces or 0, 'pierce')}. ",
        Sentence(web_words(nesting.web_mm, nesting.edge_web_mm)),
    )
