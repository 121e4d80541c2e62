"""Section of the job sheet about the wagon on its track: forces, people, brakes, tipping."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from platewheel.cli.job.job import Job
from platewheel.cli.papers.html.render import render
from platewheel.cli.words.phrases import Name, Sentence, phrase
from platewheel.cli.words.table import Cells, Column, table
from platewheel.cli.words.values import Force, Length, Percent, Quantity, Value
from platewheel.parts.base.so_many import so_many
from platewheel.parts.wagon.numbers import WagonNumbers, journal_of, wagon_numbers
from platewheel.parts.wagon.pushing import HSE, ISO

if TYPE_CHECKING:
    from markupsafe import Markup

WAGON_CAUTIONS = (
    "A wagon rolls away on a slope that the eye does not see. Scotch every wagon that stands, on "
    "both sides; put a stop block or catch point where it could run to.",
    "Brakes are for the wagon loaded, downhill, on wet rails. Prove them at walking pace first. "
    "Never stop a wagon by hand or foot, never stand below it. Who pushes uphill stands below: "
    "rather pull from above by rope or winch, and let a second person follow with a scotch.",
    "Nobody rides on a wagon that has no brake which works from where they sit, nor on wheels "
    "that have not been proof-loaded.",
    "Local codes for railways and for lifting and pushing at work come first.",
)
CRANE = "crane travel formula, handbook; clean straight rails"
STATICS = "plain statics"
COLUMNS = (
    Column("figure", "Figure", Sentence),
    Column("value", "Value", Force | Length | Percent | Quantity, "number"),
    Column("by", "By", Sentence),
)


def wagon_section(job: Job) -> Markup:
    """The loaded wagon's figures with their sources, and the cautions that go with them."""
    diameter_mm, rolling = journal_of(job.setting)
    found = wagon_numbers(job.setting, diameter_mm, rolling)
    kind = "rolling bearings" if rolling else "plain bushes"
    loaded = phrase(
        f"Loaded, {found.gross_kg:.0f} kg, on {kind} of ",
        Length(diameter_mm, "g"),
        f" bore. Steepest gradient {found.gradient_percent:g} %, tightest curve "
        f"{job.track.min_curve_radius_m:g} m radius. ",
        Sentence(f"{HSE}. {ISO}."),
    )
    rows = [*_pushing(found), *_braking(found, job), *_curve(found, job)]
    return render(
        "wagon.html",
        job.paper.units,
        loaded=loaded,
        cautions=WAGON_CAUTIONS,
        figures=table(COLUMNS, rows),
    )


def _row(figure: str, value: Value, by: str) -> Cells:
    return {"figure": Sentence(figure), "value": value, "by": Sentence(by)}


def _pushing(found: WagonNumbers) -> Iterator[Cells]:
    lines = (
        ("on the level", found.start_level_n, found.pull_level_n, found.people_level, CRANE),
        (
            "up the gradient",
            found.start_gradient_n,
            found.pull_gradient_n,
            found.people_gradient,
            f"{CRANE}; {STATICS}",
        ),
        (
            "level, in the curve",
            found.start_curve_n,
            found.pull_curve_n,
            found.people_curve,
            "plain kinematics, dry rails; a rough allowance for the flange",
        ),
    )
    for where, start, pull, count, by in lines:
        forces = phrase(Force(start), ", ", Force(pull), f": {so_many(count, 'person', 'people')}")
        yield _row(f"Start, then keep moving, {where}", forces, by)
    far = Name(so_many(found.people_30_m, "person", "people"))
    yield _row("The same on the level, 30 m at a time", far, "from memory, see above")


def _braking(found: WagonNumbers, job: Job) -> Iterator[Cells]:
    axles = job.wagon.axles
    yield _row(
        "Rolls away unbraked from a gradient of",
        Percent(found.roll_away_percent, ".2f"),
        "least rolling resistance of the formula; wind or a knock starts it on less",
    )
    yield _row(
        "Brake force to hold it on the gradient",
        phrase(Force(found.holding_n), f": {_axles(found.holding_axles, axles)}")
        if found.gradient_percent
        else Name("none given; scotches all the same"),
        f"{STATICS}; friction_low with 1.25 reserve",
    )
    yield _row(
        f"Brake force to stop it downhill from {job.wagon.max_speed_km_h:g} km/h "
        f"within {found.stop_distance_m:.0f} m",
        phrase(Force(found.stopping_n), f": {_axles(found.stopping_axles, axles)}"),
        "plain dynamics; the distance is common practice, no source",
    )


def _axles(braked: int | None, axles: int) -> str:
    if braked is None:
        return "not even with brakes on all axles"
    return f"brakes on {braked} of {so_many(axles, 'axle')}"


def _curve(found: WagonNumbers, job: Job) -> Iterator[Cells]:
    tip, safety, inner = found.tipping_speed_km_h, found.tipping_safety, found.inner_rail_share
    if tip is None or safety is None or inner is None:
        unknown = Name("not known")
        yield _row("Tips in the tightest curve", unknown, "give wagon.centre_of_gravity_mm")
    else:
        says = phrase(Quantity(tip, ".1f", "km/h"), f", {safety:.1f} times the speed allowed")
        at = Name("at no speed") if tip == float("inf") else says
        yield _row("Tips outwards in the tightest curve", at, STATICS)
        share = Quantity(inner, ".2f", "")
        yield _row("Load left on the inner rail there, of its half", share, STATICS)
    yield _row(
        "Cant that balances the speed allowed there",
        Length(found.equilibrium_cant_mm, ".0f"),
        "G V2 / (127 R), railway textbooks",
    )
    balanced = Quantity(found.balanced_speed_km_h, ".1f", "km/h")
    yield _row("Speed that the cant there balances", balanced, STATICS)
