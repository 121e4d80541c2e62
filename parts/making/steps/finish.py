"""Steps that close the wheel body and keep it: root, vents, coat."""

from __future__ import annotations

from platewheel.parts.base.so_many import noun, so_many
from platewheel.parts.base.units import Units, length
from platewheel.parts.checks.galvanizing.coating import (
    coated_area_mm2,
    least_zinc,
    thinnest_mm,
    zinc_in_bore,
    zinc_mass_kg,
)
from platewheel.parts.checks.galvanizing.drained import best_tilt, kept
from platewheel.parts.checks.galvanizing.hollows import BATH, closed_hollows
from platewheel.parts.making.figures import root_run_mm, vent_area_mm2
from platewheel.parts.making.steps.shop_limits import PRACTICE, axial_limit_mm, figure
from platewheel.parts.making.steps.shop_words import root_runs
from platewheel.parts.making.steps.step import Step, Work
from platewheel.parts.wheel.assembly import wheel_mass_kg
from platewheel.parts.wheel.flange import seam_length_mm
from platewheel.parts.wheel.own_disc import openings
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.weld_rules import BACKING_DEPTH_MM
from platewheel.parts.wheel.welds import weld_beads
from platewheel.parts.wheelset.bodies.axle import axle_kg


def root(work: Work, units: Units) -> Step:
    """Flange seams and the V at its root."""
    wheel = work.setting.wheel
    bead = next((b for b in weld_beads(wheel) if b.name == "weld-root"), None)
    ring, plate = bead.legs_mm if bead else (0.0, 0.0)
    run = root_run_mm(wheel, 4)
    order = ["1", "3", "2", "4"]
    thick = length(wheel.flange_thickness_mm, units)
    seams = (
        f"Weld the flange's {noun(wheel.flange_segments, 'seam')} first, "
        f"{wheel.flange_segments} of {thick} full section, from both faces with the root ground "
        "out between, and grind flush "
        + (
            "on both, with strokes round the wheel until no edge of the bead shows."
            if wheel.seam == "dressed"
            else "outside."
        )
    )
    behind = (
        "Look at the tread side: the root shows no gap between ring and flange. Grind what comes "
        "through flush, the flange's foot runs on the rail's corner."
    )
    if wheel.root_backed:
        behind = (
            "From the tread side grind the root out all round, a round-bottomed groove "
            f"{length(BACKING_DEPTH_MM, units)} deep, until no dark line shows in it. Weld it with "
            "one run in the same quarters and grind that flush with tread and flange: the flange's "
            "foot runs on the rail's corner."
        )
    do = [
        *([seams] if seam_length_mm(wheel) else []),
        f"Fill the V between ring and flange from the gauge side: {length(ring, units)} on the "
        f"ring's edge, {length(plate, units)} on the flange's, in quarters of "
        f"{length(run, units)}: {', '.join(order)}. First a thin root run all round, then "
        "fill; the wheel cools between the quarters.",
        *root_runs(work, units),
        behind,
        f"Read the flange's wobble once more: at most {length(axial_limit_mm(wheel), units)}.",
    ]
    figures = [
        figure("leg on the ring", ring, "mm", f"wanted {length(wheel.root_weld_mm, units)}"),
        figure("leg on the flange", plate, "mm", f"wanted {length(wheel.root_weld_mm, units)}"),
        figure("length of a run", run),
        figure("axial run-out", axial_limit_mm(wheel), "mm", "at most", PRACTICE),
    ]
    if wheel.root_backed:
        figures.append(figure("groove behind the root", BACKING_DEPTH_MM, "mm", "", PRACTICE))
    cautions = [
        "A closed flange root is what keeps the wagon on the rail: where your law asks for a "
        "qualified welder, ask one. No weld on zinc or paint.",
    ]
    title = "Weld the flange's seams and root"
    return Step(id="root", title=title, do=do, figures=figures, order=order, cautions=cautions)


def vents(work: Work, units: Units) -> Step:
    """The box is open: looked at, wheel by wheel."""
    wheel = work.setting.wheel
    hollows = closed_hollows(wheel)
    litres = sum(hollow.volume_mm3 for hollow in hollows) / 1e6
    disc = work.setting.disc
    open_mm2 = vent_area_mm2(wheel, disc)
    count, words = (len(openings(disc)), "openings") if disc else (wheel.vent_count, "vents")
    first = (
        f"Look through every opening: {count} in each disc, {2 * count} in a wheel. Grind out "
        "what spatter has closed. Their number and place are your drawing's: no check has asked "
        "whether they let air out and zinc drain."
        if disc
        else f"Push a rod of {length(0.8 * wheel.vent_diameter_mm, units)} through every vent: "
        f"{wheel.vent_count} to a disc, of {length(wheel.vent_diameter_mm, units)}, "
        f"{2 * wheel.vent_count} in a wheel. Drill out what spatter has closed."
    )
    do = [
        first,
        f"Shine a lamp in at one side, see it at the other: {litres:.2f} litres of hollow breathe "
        "through these holes alone. Blow the box dry; no water, no oil, no loose slag.",
        "Chalk a tick and the wheel's number on it. A wheel without a tick does not leave.",
    ]
    if count == 0:
        cure = "draw openings into the disc" if disc else "set vent_count = 2 or more"
        do = [
            f"This wheel has 0 {words}: {litres:.2f} litres are closed by welds alone. Weld, heat "
            f"or dip no such wheel; {cure} and cut new discs."
        ]
    figures = [
        figure(f"{words} in a wheel", 2.0 * count, "holes", "all open"),
        *([] if disc else [figure("vent diameter", wheel.vent_diameter_mm)]),
        figure(f"open area of all {words}", open_mm2 / 100, "cm2"),
        figure("hollow closed by welds", litres, "litres"),
    ]
    cautions = ["A sealed hollow heated is a bomb. Never plug a vent, never weld one shut."]
    title = "Vent check"
    return Step(id="vents", title=title, do=do, figures=figures, order=[], cautions=cautions)


def coat(work: Work, units: Units) -> Step:
    """Zinc, paint or nothing, with area and mass."""
    wheel, wheels, coating = work.setting.wheel, work.wheels, work.setting.finish.coating
    disc = work.setting.disc
    mass_kg = wheel_mass_kg(wheel, disc=disc)
    area = coated_area_mm2(wheel, disc) * 1e-6
    made = work.wheelset
    welded = made is not None and made.retention == "weld"
    bare = "bearings' seats" if welded else f"{length(wheel.hub_bore_mm, units)} bore"
    figures = [
        figure("surface of a wheel, inside too", area, "m2"),
        figure("surface of all wheels", area * wheels, "m2"),
    ]
    if coating == "galvanized":
        zinc, mass = least_zinc(thinnest_mm(wheel)), zinc_mass_kg(wheel, disc)
        bore = zinc_in_bore(work.setting)
        do = [
            f"Send them black and dry: {so_many(wheels, 'wheel')}, {mass_kg * wheels:.0f} kg. "
            f"Write on the paper: hollow wheels, {_vents_told(work, units)}",
            *([] if work.setting.disc else [_hung(wheel)]),
            f"At least {zinc.mean_um:g} um on {area:.2f} m2 a wheel is {mass:.2f} kg of zinc, "
            f"{mass * wheels:.1f} kg in all.",
            *([f"The bore: {bore.says}."] if bore and not welded else []),
            "Scrape zinc runs off the tread and the flange's foot with a file, not a grinder: "
            "fume.",
        ]
        source = "EN ISO 1461:2009, table 3"
        figures += [
            figure("zinc on a wheel", mass, "kg", "at least", source),
            figure("zinc on all wheels", mass * wheels, "kg", "at least", source),
            figure("coating, mean", zinc.mean_um, "um", "at least", source),
        ]
        cautions = [
            "A sealed hollow in a zinc bath explodes and kills: dip no wheel without its tick "
            f"({BATH}). Tell the galvanizer in writing how the box is vented.",
            "From here on nothing is welded, cut or ground hard: zinc fume makes ill. Where it "
            "must be, zinc off well back from the joint first, respirator on.",
        ]
    elif coating == "painted":
        do = [
            f"Degrease, prime, paint {area:.2f} m2 a wheel; flood the inside of the box through "
            f"a vent and let it drain. Leave the tread and the {bare} bare.",
        ]
        cautions = [
            "Solvent in the box burns with a bang: no arc or grinder on it afterwards; dry it in "
            "moving air, mask on."
        ]
    else:
        do = [f"Left bare: oil the {area:.2f} m2 of a wheel, inside of the box too, tread dry."]
        cautions = ["Oily rags catch fire by themselves: a closed tin for them."]
    if made is not None and welded and coating != "bare":
        mass = axle_kg(work.setting, made) + 2 * mass_kg
        long = length(made.axle_length_mm, units)
        mask = "high-temperature tape or paste" if coating == "galvanized" else "tape"
        many = ("wheelset, welded to its axle", "wheelsets, welded to their axles")
        do.insert(
            0,
            f"They go as {so_many(work.axles, *many)}, {long} long and "
            f"{mass:.0f} kg each; {mask} on the bearings' seats, "
            f"{length(made.journal_diameter_mm, units)} across, at both ends.",
        )
        figures.append(figure("one wheelset", mass, "kg"))
    title = "Coat"
    return Step(id="coat", title=title, do=do, figures=figures, order=[], cautions=cautions)


def _vents_told(work: Work, units: Units) -> str:
    """What the galvanizer reads of the openings; nobody has judged those of a disc of one's own."""
    wheel, disc = work.setting.wheel, work.setting.disc
    if disc:
        return (
            f"{so_many(2 * len(openings(disc)), 'opening')}, the drawing of the disc with it: "
            "nobody has checked that they let all air out and all zinc drain; the galvanizer says "
            "how each wheel hangs, or that it may not go in."
        )
    return (
        f"{so_many(2 * wheel.vent_count, 'vent')} of {length(wheel.vent_diameter_mm, units)} each, "
        "hung so that a vent is highest and one lowest."
    )


def _hung(wheel: WheelSpec) -> str:
    best, level = best_tilt(wheel), kept(wheel, 0.0, "gauge")
    says = f"{level.all_kg:.2f} kg of zinc stay in a wheel whose axle hangs level"
    if not best.tilt_deg:
        return f"Ask for that: axle level, a vent straight down. {says}."
    side = "flange" if best.down == "gauge" else "field"
    return (
        f"Ask for this tilt: {side} side down until the axle is {best.tilt_deg:g} degrees from "
        f"level, a vent of that side straight down. {says}, {best.all_kg:.2f} kg so."
    )
