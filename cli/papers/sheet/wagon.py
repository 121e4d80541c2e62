"""Section of the job sheet about the wagon on its track: forces, people, brakes, tipping."""

from __future__ import annotations

from html import escape

from platewheel.cli.job.job import Job
from platewheel.cli.papers.sheet.shop import stacked
from platewheel.parts.wagon.numbers import WagonNumbers, journal_of, wagon_numbers
from platewheel.parts.wagon.pushing import HSE, ISO

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


def wagon_section(job: Job) -> str:
    """The loaded wagon's figures with their sources, and the cautions that go with them."""
    diameter_mm, rolling = journal_of(job.setting)
    found = wagon_numbers(job.setting, diameter_mm, rolling)
    kind = "rolling bearings" if rolling else "plain bushes"
    words = (
        f"Loaded, {found.gross_kg:.0f} kg, on {kind} of {diameter_mm:g} mm bore. Steepest "
        f"gradient {found.gradient_percent:g} %, tightest curve "
        f"{job.track.min_curve_radius_m:g} m radius. {HSE}. {ISO}."
    )
    rows = [*_pushing_rows(found), *_braking_rows(found, job), *_curve_rows(found, job)]
    cautions = "".join(f"<li>{escape(line)}</li>" for line in WAGON_CAUTIONS)
    return (
        f"<h2>The wagon on its track</h2><p>{escape(words)}</p>"
        f"<ul class=caution>{cautions}</ul>"
        f"{stacked(('Figure', 'Value', 'By'), rows, frozenset({1}))}"
    )


def _pushing_rows(found: WagonNumbers) -> list[list[str]]:
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
    rows = [
        [
            f"Start, then keep moving, {where}",
            f"{start:.0f} N, {pull:.0f} N: {count} {_people(count)}",
            by,
        ]
        for where, start, pull, count, by in lines
    ]
    far = f"{found.people_30_m} {_people(found.people_30_m)}"
    return [*rows, ["The same on the level, 30 m at a time", far, "from memory, see above"]]


def _people(count: int) -> str:
    return "person" if count == 1 else "people"


def _braking_rows(found: WagonNumbers, job: Job) -> list[list[str]]:
    axles = job.wagon.axles
    return [
        [
            "Rolls away unbraked from a gradient of",
            f"{found.roll_away_percent:.2f} %",
            "least rolling resistance of the formula; wind or a knock starts it on less",
        ],
        [
            "Brake force to hold it on the gradient",
            f"{found.holding_n:.0f} N: {_axles(found.holding_axles, axles)}"
            if found.gradient_percent
            else "none given; scotches all the same",
            f"{STATICS}; friction_low with 1.25 reserve",
        ],
        [
            f"Brake force to stop it downhill from {job.wagon.max_speed_km_h:g} km/h "
            f"within {found.stop_distance_m:.0f} m",
            f"{found.stopping_n:.0f} N: {_axles(found.stopping_axles, axles)}",
            "plain dynamics; the distance is common practice, no source",
        ],
    ]


def _axles(braked: int | None, axles: int) -> str:
    if braked is None:
        return "not even with brakes on all axles"
    return f"brakes on {braked} of {axles} axles"


def _curve_rows(found: WagonNumbers, job: Job) -> list[list[str]]:
    tip, safety, inner = found.tipping_speed_km_h, found.tipping_safety, found.inner_rail_share
    if tip is None or safety is None or inner is None:
        rows = [["Tips in the tightest curve", "not known", "give wagon.centre_of_gravity_mm"]]
    else:
        holds = tip == float("inf")
        says = "at no speed" if holds else f"{tip:.1f} km/h, {safety:.1f} times the speed allowed"
        rows = [
            ["Tips outwards in the tightest curve", says, STATICS],
            ["Load left on the inner rail there, of its half", f"{inner:.2f}", STATICS],
        ]
    return [
        *rows,
        [
            "Cant that balances the speed allowed there",
            f"{found.equilibrium_cant_mm:.0f} mm",
            "G V2 / (127 R), railway textbooks",
        ],
        ["Speed that the cant there balances", f"{found.balanced_speed_km_h:.1f} km/h", STATICS],
    ]
