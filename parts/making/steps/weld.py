"""Steps from parts to a welded wheel body: fit, true, tack, weld, dress."""

from __future__ import annotations

from platewheel.parts.base.units import Units, length
from platewheel.parts.checks.making.weld_access import fillet_gap
from platewheel.parts.checks.strength.weld_size import LEAST_THROAT_MM
from platewheel.parts.making.figures import rim_run_mm, tread_run_mm, tube_run_mm
from platewheel.parts.making.steps.shop_limits import (
    GEOMETRY,
    ONE_PERSON_KG,
    PRACTICE,
    axial_limit_mm,
    figure,
    radial_limit_mm,
)
from platewheel.parts.making.steps.shop_words import fillet_runs, vents_over_vents
from platewheel.parts.making.steps.step import Step, Work
from platewheel.parts.making.tacks import PITCH_MM, QUADRANTS, quadrant_order, star_order, tacks_of
from platewheel.parts.setting.costs import welding_of
from platewheel.parts.wheel.assembly import wheel_mass_kg
from platewheel.parts.wheel.hub_disc import SIDES, disc_diameter_mm, disc_z_mm
from platewheel.parts.wheel.hub_tube import tube_z_mm
from platewheel.parts.wheel.welds import bead_words, missing_beads

SHIMS = 3  # a plate on three points neither rocks nor jams
POINTS = 8  # round the rim, for run-out
SAWN_BLOCKS = (
    " V-blocks: two pieces of angle iron welded open side up on a beam, a drop of oil in each; the "
    "pointer is a wire in a block of steel, a feeler or a drill's shank between it and the tread "
    "its reading."
)
HAND_WARM = f"until a hand can stay on it ({PRACTICE})"


def fit(work: Work, units: Units) -> Step:
    """The ring set on the hub's discs, or the second disc in its place."""
    wheel = work.setting.wheel
    gap, insets = fillet_gap(work.setting), (wheel.disc_field_inset_mm, wheel.disc_gauge_inset_mm)
    clear = disc_z_mm(wheel, "gauge")[0] - disc_z_mm(wheel, "field")[1]
    diameters = sorted({round(disc_diameter_mm(wheel, side), 2) for side in SIDES})
    discs = " and ".join(length(d, units) for d in diameters)
    shim = length(wheel.fit_clearance_mm, units, 2)
    shims = f"on {SHIMS} shims of {shim} at 12, 4 and 8 o'clock; wedge it there"
    inset = [length(one, units) for one in insets]
    figures = [
        figure(
            "fit clearance, on the radius",
            wheel.fit_clearance_mm,
            "mm",
            f"at most {length(gap.limit or 0.0, units)} under a fillet",
            gap.source,
        ),
        figure("field edge to field disc", insets[0]),
        figure("gauge edge to gauge disc", insets[1]),
        figure("between the discs", clear),
    ]
    if wheel.first_disc_both_sides:  # then the gauge disc is in already, with the tube
        do = [
            f"The gauge disc down, lay the ring on its gauge edge on three blocks. Set the field "
            f"disc ({discs} across) over the tube with its outer face {inset[0]} inside the field "
            f"edge, {shims}.",
            f"{length(clear, units)} of clear space between the discs.",
        ]
        if wheel.has_tube:
            out = disc_z_mm(wheel, "field")[0] - tube_z_mm(wheel)[0]
            do.append(f"The hub tube stands {length(out, units)} out of the field disc.")
            figures.append(figure("tube beyond the field disc", out))
        do.append(f"Turn it so that they lie {vents_over_vents(work)}.")
    elif wheel.has_tube:
        do = [
            f"Stand the hub with its discs ({discs} across) on the end of its bar, field disc up, "
            "and lower the ring over both discs, gauge edge first: no vent over the ring's seam.",
            f"Block it up until the gauge disc's outer face lies {inset[1]} inside the gauge edge, "
            f"and the field disc's {inset[0]} inside the field edge; {shims}, at both discs.",
        ]
    else:
        do = [
            f"Lay the ring on its field edge on three blocks. Set the field disc ({discs} across) "
            f"with its outer face {inset[0]} inside the field edge, {shims}.",
            f"Set the gauge disc with its outer face {inset[1]} inside the gauge edge, on shims "
            f"alike; {length(clear, units)} of clear space between the discs.",
            f"Turn both so that they lie {vents_over_vents(work)}, and none over the ring's seam.",
        ]
    do.append(
        f"Look for a gap wider than {length(gap.limit or 0.0, units)} anywhere at the rim: build "
        "the edge up with weld and grind it, or cut a larger disc; a fillet falls through it."
    )
    cautions = ["Wedges fly and rings roll: block the ring on both sides, strike away from people."]
    title = "Fit the second disc" if wheel.first_disc_both_sides else "Set the ring on its discs"
    return Step(id="fit", title=title, do=do, figures=figures, order=[], cautions=cautions)


def true(work: Work, units: Units) -> Step:
    """Run-out brought within its limits before anything is tacked."""
    wheel = work.setting.wheel
    mass = wheel_mass_kg(wheel, disc=work.setting.disc)
    radial, axial = radial_limit_mm(), axial_limit_mm(wheel)
    arc = tread_run_mm(wheel, POINTS)
    do = [
        f"Put the bar of {length(wheel.hub_bore_mm, units)} through the bore as a mandrel, level "
        "in two V-blocks, so that the wheel turns free. The ring is trued on its hub: what runs "
        "out now runs out on the track." + ("" if work.setting.shop.lathe else SAWN_BLOCKS),
        f"Chalk {POINTS} points round the tread, {length(arc, units)} apart by tape. Set a "
        "pointer or dial on a heavy block against the middle of the tread and write down the "
        f"reading at each. Largest less smallest: at most {length(radial, units)} (the wheel "
        f"{length(radial / 2, units)} off its centre). Change the rim's shims at the high point.",
        "Set the pointer against the ring's gauge edge, then read again all round: at most "
        f"{length(axial, units)}. Knock the ring up or down on its discs where it wobbles.",
        "Read again after tacking and after welding; write the last readings beside the "
        "wheel's number.",
    ]
    figures = [
        figure("radial run-out, reading over a turn", radial, "mm", "at most", PRACTICE),
        figure("axial run-out at the gauge edge", axial, "mm", "at most", PRACTICE),
        figure("points to read", POINTS, "points", "", PRACTICE),
        figure("along the tread between points", arc),
        figure("one wheel", mass, "kg"),
    ]
    heavy = "two people or a hoist" if mass > ONE_PERSON_KG else "straight back, close to the body"
    cautions = [
        f"A wheel weighs {mass:.0f} kg: {heavy} (one man at waist height {ONE_PERSON_KG:g} kg, "
        "British HSE guidance, from memory). Never a hand or foot below it.",
    ]
    title = "True it before a tack"
    return Step(id="true", title=title, do=do, figures=figures, order=[], cautions=cautions)


def tack(work: Work, units: Units) -> Step:
    """Tacks in a star, both rims and the tube."""
    wheel, tacks = work.setting.wheel, tacks_of(work.setting.wheel)
    order = star_order(tacks.rim)
    apart = rim_run_mm(wheel, tacks.rim)
    long = max(15.0, 3 * wheel.weld_throat_mm)
    throat = min(wheel.weld_throat_mm, 3.0)
    do = [
        f"Number {tacks.rim} places round each rim, {length(apart, units)} apart"
        + (", the ring's seam between the last and no. 1." if tacks.seam else "."),
        f"Tack in this order: {', '.join(str(n) for n in order)}. Each tack "
        f"{length(long, units)} long, throat {length(throat, units)}; "
        + (
            "on the field disc, the gauge disc has its tacks inside."
            if wheel.first_disc_both_sides
            else "field disc first, then the same on the gauge disc."
        ),
        "After the first four read the run-out again; grind a tack out and set it anew while "
        "that is still easy.",
    ]
    if tacks.tube and wheel.first_disc_both_sides:
        tube = ", ".join(str(n) for n in star_order(tacks.tube))
        do.append(
            f"Then {tacks.tube} tacks at the tube on the field disc: {tube}, square to the disc."
        )
    figures = [
        figure(
            "tacks on each rim",
            tacks.rim,
            "tacks",
            f"at most {length(PITCH_MM, units)} apart",
            PRACTICE,
        ),
        figure("length of a tack", long, "mm", "", PRACTICE),
    ]
    cautions = [
        *(
            []
            if wheel.has_tube
            else [
                "Last chance to look: the vents of both discs are drilled and open. A box without "
                "a way out bursts when it is welded shut, and explodes in a zinc bath."
            ]
        ),
        "Never weld on zinc or paint: grind it off well back. Ventilate; no arc near solvent.",
    ]
    return Step(
        id="tack",
        title="Tack in a star",
        do=do,
        figures=figures,
        order=[str(n) for n in order],
        cautions=cautions,
    )


def weld(work: Work, units: Units) -> Step:
    """Rim and tube beads in a sequence that pulls evenly."""
    wheel, process = work.setting.wheel, welding_of(work.costs)
    run = rim_run_mm(wheel, QUADRANTS)
    order = quadrant_order()
    do = [
        "Mark four quarters on both sides, 1 behind 1: round one side the numbers run clockwise, "
        "round the other against it. F is the field side, G the gauge side.",
        f"Weld a fillet of throat {length(wheel.weld_throat_mm, units)} (legs "
        f"{length(wheel.weld_leg_mm, units)}) in quarters of {length(run, units)}: "
        f"{', '.join(order)}. Each run lies opposite the one before, and on the other side; each "
        "runs from its own number towards the next, over the tacks.",
        f"Turn the wheel over after each run and wait {HAND_WARM} before the next quarter beside "
        "a warm one. Fill every crater; start a run on the end of its neighbour.",
        *fillet_runs(work, units),
    ]
    figures = [
        figure(
            "throat of the fillets",
            wheel.weld_throat_mm,
            "mm",
            f"at least {length(LEAST_THROAT_MM, units)}",
            "EN 1993-1-8:2005, 4.5.2(2)",
        ),
        figure("leg of the fillets", wheel.weld_leg_mm, "mm", "", "throat x 1.414, " + GEOMETRY),
        figure("length of a run at the rim", run),
        figure("runs at both rims", len(order), "runs", "", PRACTICE),
    ]
    if wheel.has_tube:
        half = tube_run_mm(wheel, 2)
        do.append(
            "Weld the tube in halves of "
            f"{length(half, units)}, field, gauge, field, gauge, the same throat."
        )
        figures.append(figure("length of a run at the tube", half))
    lacking = ", ".join(bead_words(bead.name) for bead in missing_beads(wheel))
    if lacking:
        do.append(f"There is no room for: {lacking}. See the checks before you go on.")
    cautions = [
        "Vents open? A closed box bursts from its own hot air.",
        "Fume: extraction at the bead, respirator in a closed shop; zinc and paint off before. "
        f"The arc burns about {process.arc_on_percent:g} % of the time, bystanders all of it: "
        "screens.",
        "Wheels carry loads over people's feet: where your law asks for a qualified welder or an "
        "inspected weld, that law comes first.",
    ]
    return Step(
        id="weld",
        title="Weld the discs, quarter by quarter",
        do=do,
        figures=figures,
        order=order,
        cautions=cautions,
    )


def dress(work: Work, units: Units) -> Step:
    """The tread made smooth."""
    wheel = work.setting.wheel
    radial = radial_limit_mm()
    proud, worn = 0.3, work.setting.use.wear_allowance_mm
    do = [
        f"See the ring's seam once more, flush over its {length(wheel.tread_width_mm, units)} "
        f"width: a straightedge across it shows no light above {length(proud, units)}."
        if wheel.tread_from != "pipe"
        else f"File spatter off the {length(wheel.tread_width_mm, units)} wide tread.",
        f"Back on the mandrel: read run-out, at most {length(radial, units)}. Grind the high "
        f"side only, and never more than {length(worn, units)}, the wear "
        "that the tread has to give.",
    ]
    figures = [
        figure("seam proud of the tread", proud, "mm", "at most", PRACTICE),
        figure("radial run-out", radial, "mm", "at most", PRACTICE),
        figure(
            "most to grind off",
            worn,
            "mm",
            "at most",
            "use.wear_allowance_mm of this job",
        ),
    ]
    cautions = [
        "Clamp the wheel, it spins up under the grinder. Disc guard on, sparks away from people."
    ]
    title = "Dress the tread"
    return Step(id="dress", title=title, do=do, figures=figures, order=[], cautions=cautions)
