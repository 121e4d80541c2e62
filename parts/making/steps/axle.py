"""Step of the axle: from round bar to an axle with its seats, keyways and dimples."""

from __future__ import annotations

from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units, length
from platewheel.parts.making.steps.shop_limits import PRACTICE, figure
from platewheel.parts.making.steps.step import Figure, Step, Work, used
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.axle_strength import axle_mass_kg
from platewheel.parts.wheelset.hub_holes import KEY_SOURCE, key_place, screw_place
from platewheel.parts.wheelset.iso_fits import limits

RUN_OUT_MM = 0.1  # of a seat against the bearings' seats; common practice, no source


def axle(work: Work, units: Units) -> Step | None:
    """The axle alone; None without a wheelset."""
    made = work.wheelset
    if made is None:
        return None
    ends = (
        f"face both ends to {length(made.axle_length_mm, units)}, centre them, break all edges."
        if work.setting.shop.lathe
        else f"file both ends square to {length(made.axle_length_mm, units)} and round their "
        "edges, so that nothing scrapes the bores."
    )
    key, screw = key_place(work.setting, made), screw_place(work.setting, made)
    do = [
        f"Saw {so_many(work.axles, 'length')} of {length(work.axle_piece_mm, units)} from round "
        f"bar of {length(work.axle_bar_mm, units)} or thicker, {made.steel}; {ends}",
        *_turning(work, made, units),
    ]
    figures = [
        figure("length of the axle", made.axle_length_mm, "mm", "+- 0.5 mm", PRACTICE),
        figure("run-out of a wheel seat", RUN_OUT_MM, "mm", "at most", PRACTICE),
        *_shaft_figures(made),
    ]
    if key is not None:
        do.append(
            f"Cut two keyways {length(key.width_mm, units)} wide and "
            f"{length(key.axle_depth_mm, units)} deep ({length(key.axle_over_mm, units)} left "
            f"below), {length(key.length_mm, units)} long, from "
            f"{length(key.from_axle_end_mm, units)} off each end inwards, both in one line so that "
            "the wheels' seams stand alike."
        )
        figures += [
            figure("axle's end to its keyway", key.from_axle_end_mm),
            figure("keyway in the axle, depth", key.axle_depth_mm, "mm", "+0.2 mm", KEY_SOURCE),
        ]
    if screw is not None and made.retention != "key":
        do.append(
            "Dimple the axle below the screws' points with their own drill, "
            f"{length(screw.dimple_mm, units)} deep, once hub or collar stands in its place: "
            f"about {length(screw.from_axle_end_mm, units)} from each end, a quarter turn apart."
        )
        figures.append(figure("axle's end to its dimples", screw.from_axle_end_mm))
    return Step(
        id="axle",
        title="Make the axle",
        do=do,
        figures=figures,
        order=[],
        cautions=[
            f"The bar for an axle weighs {axle_mass_kg(made.steps):.0f} kg or more and rolls: "
            "chock it."
            + (
                " No gloves and no sleeves at a lathe; chips off with a hook."
                if work.setting.shop.lathe
                else ""
            ),
        ],
        uses=used(work, "solids/wheelset.step", "job-sheet.pdf"),
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


def _turning(work: Work, made: Wheelset, units: Units) -> list[str]:
    shop = work.setting.shop
    if len(made.steps) == 1:
        finds = "a micrometer finds" if shop.measures_with == "micrometer" else "the dealer vouches"
        within = "it within the shaft's sizes below" if "finds" in finds else "for h9 or h6"
        other = "the next thicker bar, turned" if shop.lathe else "other bar"
        slides = (
            ""
            if shop.measures_with == "micrometer"
            else " Push hub and bearing over both its ends and along it before it is sawn."
        )
        return [
            f"The axle is one diameter: bright bar as bought, if {finds} {within}; else {other}."
            + slides
        ]
    right = [step for step in made.steps if step[1] > 0]
    words = "; ".join(
        f"diameter {length(d, units)} from {length(max(a, 0.0), units)} to {length(b, units)}"
        for a, b, d in right
    )
    turn = "Turn" if shop.lathe else "No lathe: have it turned"
    return [
        f"{turn} between centres, both ends alike, measured from the middle: {words}.",
        f"A radius of {length(made.fillet_mm, units)} in every shoulder's corner, no tool mark in "
        "it: an axle breaks there first. What sits against a shoulder gets a chamfer to clear it.",
    ]
