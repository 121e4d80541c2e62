"""Step from round bar to wheelset: axle sawn and turned, wheels and bearings put on."""

from __future__ import annotations

from platewheel.parts.base.units import Units, length
from platewheel.parts.making.steps.shop_limits import PRACTICE, figure
from platewheel.parts.making.steps.step import Figure, Step, Work
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.axle_strength import axle_mass_kg
from platewheel.parts.wheelset.iso_fits import limits
from platewheel.parts.wheelset.wheel_seat import held_words

RUN_OUT_MM = 0.1  # of a seat against the bearings' seats; common practice, no source


def axle(work: Work, units: Units) -> Step | None:
    """The axle, what holds the wheels, the order to put things on; None without a wheelset."""
    made = work.wheelset
    if made is None:
        return None
    return Step(
        id="axle",
        title="Make the axle, put the wheels on",
        do=[
            f"Saw {work.axles} lengths of {length(work.axle_piece_mm, units)} from round bar of "
            f"{length(work.axle_bar_mm, units)} or thicker, {made.steel}; face both ends to "
            f"{length(made.axle_length_mm, units)}, centre them, break all edges.",
            *_turning(made, units),
            *_holding(work, made),
            *_order(made, units),
        ],
        figures=[
            figure("length of the axle", made.axle_length_mm, "mm", "+- 0.5 mm", PRACTICE),
            figure("run-out of a wheel seat", RUN_OUT_MM, "mm", "at most", PRACTICE),
            *_shaft_figures(made),
        ],
        order=[],
        cautions=_cautions(work, made),
    )


def _shaft_figures(made: Wheelset) -> list[Figure]:
    """Least and greatest size of the axle wherever something sits on it."""
    return [
        Figure(
            name=f"{place}, shaft {shaft}, {word}",
            value=size + off,
            unit="mm",
            limit="",
            source="ISO 286",
            fine=True,
        )
        for place, size, _, shaft in made.fits
        if "axle" in place
        for word, off in zip(("least", "greatest"), limits(size, shaft), strict=True)
    ]


def _turning(made: Wheelset, units: Units) -> list[str]:
    if len(made.steps) == 1:
        return [
            "The axle is one diameter: bright bar as bought, if a micrometer finds it within the "
            "shaft's sizes below; else the next thicker bar, turned."
        ]
    right = [step for step in made.steps if step[1] > 0]
    words = "; ".join(
        f"diameter {length(d, units)} from {length(max(a, 0.0), units)} to {length(b, units)}"
        for a, b, d in right
    )
    return [
        f"Turn between centres, both ends alike, measured from the middle: {words}.",
        f"A radius of {length(made.fillet_mm, units)} in every shoulder's corner, no tool mark in "
        "it: an axle breaks there first. What sits against a shoulder gets a chamfer to clear it.",
    ]


def _holding(work: Work, made: Wheelset) -> list[str]:
    held = "; ".join(held_words(work.setting, made))
    ways = {
        "key": "Cut the keyways, both in one line so that the wheels' seams stand alike",
        "screws": "Drill and tap the hub's end for the screws, square to one another, and dimple "
        "the axle below their points",
        "collar": "Drill and tap the collars, screws square to one another",
        "weld": "Weld on bare steel, both wheels gauged first, in quarters by turns so that the "
        "wheels stay true",
        "press": "Measure every hub and seat, pair those that give the overlap, oil, press on "
        "straight in one stroke",
    }
    return [f"{ways[made.retention]}. An axle takes {held}." if held else ways[made.retention]]


def _order(made: Wheelset, units: Units) -> list[str]:
    bearing = made.bearing.name if made.bearing else "bush"
    if not made.turning:
        where = f"{bearing} into each hub, then the wheels on the axle"
    elif made.frames == "outside":
        where = f"wheels first, then spacers, then a {bearing} at each end"
    else:
        where = f"a {bearing} at each side first, then spacers, then the wheels"
    seats = ", ".join(f"{s[0]} {length(s[3], units)} long" for s in made.spacers if s[4] > 0)
    return [
        f"From the middle outwards: {where}"
        + (f" ({seats}, the same on the left)." if seats else ".")
        + f" Middles of the {'bearings' if made.turning else 'frame grips'} "
        f"{length(made.bearing_centres_mm, units)} apart."
    ]


def _cautions(work: Work, made: Wheelset) -> list[str]:
    found = [
        f"The bar for an axle weighs {axle_mass_kg(made.steps):.0f} kg or more and rolls: chock "
        "it. No gloves and no sleeves at a lathe; chips off with a hook.",
        "Check every axle for cracks at its shoulders and keyways each season: an axle that "
        "breaks throws the wagon.",
    ]
    if made.retention == "weld" and work.setting.finish.coating == "galvanized":
        found.append(
            "Never weld on zinc: weld the wheels to their axles before the bath, or mask the bore "
            "and the hub's ends from it."
        )
    return found
