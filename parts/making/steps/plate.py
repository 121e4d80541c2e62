"""Steps at the plate and the bar: buy, deburr strips; after the rings are measured, discs."""

from __future__ import annotations

import math
from collections.abc import Sequence

from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units, inches, length
from platewheel.parts.making.plywood import plywood_gauges
from platewheel.parts.making.press_force import rod_for_mm
from platewheel.parts.making.ring_roundness import roundness_limit
from platewheel.parts.making.springback import round_force_n
from platewheel.parts.making.steps.shop_limits import FORMER_BAR_MM, LATE, PRACTICE, figure
from platewheel.parts.making.steps.shop_words import galvanized
from platewheel.parts.making.steps.step import Step, Work, cut_files, used
from platewheel.parts.making.weld_metal import weld_metal
from platewheel.parts.wheel.assembly import wheel_parts
from platewheel.parts.wheel.own_disc import openings
from platewheel.parts.wheel.part import Part
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.stock_pipe import stock_pipe
from platewheel.parts.wheel.tread_ring import tread_blank
from platewheel.parts.wheelset.wheel_seat import held_words

PROCESS_CAUTIONS = {
    "plasma": "The plasma arc kills and blinds: clamp on the plate, dry gloves, shade before eyes.",
    "oxy-fuel": "Gas cylinders upright and chained, flashback arrestors on both hoses, no oil.",
    "hand": "Clamp the plate so that the cut opens; a disc that is pinched kicks or bursts.",
}
GRINDER = (
    "Grinder discs burst: guard on, disc for that speed and not past its date, stand beside "
    "its plane, never grind with the face of a cutting disc. Face shield over glasses."
)
FIRE = (
    "Clear the ground of what burns for 10 m round (common practice, no source), and look "
    "again half an hour after the last cut. Eye, ear and hand protection."
)
ZINC = (
    "Cut in the open or under extraction, and grind zinc, paint and oil off old plate first: "
    "zinc fume gives metal fume fever."
)
# covered rods: diameter, least and most current
RODS_A = ((2.5, 60.0, 100.0), (3.2, 90.0, 140.0))
RODS_SOURCE = "makers' tables, from memory"
SAME_TUBE_MM = 0.005
SQUARE_MM = 0.5  # over a sawn end; common practice, no source


def buy(work: Work, units: Units) -> Step:
    """What is there before the first cut."""
    wheel, wheels = work.setting.wheel, work.wheels
    metal = weld_metal(wheel, work.costs)
    do = [
        f"Take the buying list of the job sheet to the dealer. Measure what comes: tread "
        f"{length(wheel.tread_thickness_mm, units)}, discs "
        f"{length(wheel.disc_thickness_mm, units)}, flange "
        f"{length(wheel.flange_thickness_mm, units)} thick, all of {wheel.steel} (its paper, or a "
        "bent trial piece that does not crack). Plate of another thickness is another job: put it "
        "into the job file first.",
    ]
    if wheel.has_tube:
        do.append(
            f"Lay a piece of the axle's bar into the hub tube before you pay: bore "
            f"{length(wheel.hub_bore_mm, units)}, outside "
            f"{length(wheel.hub_tube_outside_mm, units)}.{_turned(work, units)}"
        )
    figures = [
        figure("wheels to make", wheels, "wheels"),
        figure("rods or wire, all wheels", metal.filler_kg * wheels, "kg"),
    ]
    made = work.wheelset
    if made is not None:
        held = (
            "" if made.retention in ("weld", "press") else "; ".join(held_words(work.setting, made))
        )
        turns = f"a {made.bearing.name}" if made.bearing else "a bush"
        do.append(
            f"For {so_many(work.axles, 'axle')}: round bar of {length(work.axle_bar_mm, units)}, "
            f"{made.steel}, and {turns} at {len(made.bearing_z_mm)} places of each"
            + (f"; for each axle {held}." if held else ".")
        )
        figures.append(figure("axles to make", work.axles, "axles"))
    if work.costs.welding == "rod":
        do.append(_rods(work, units))
    do.append(_besides(work, units))
    cautions = [
        "Plate and bar are carried by two people or a hoist, never over a foot; slings, not wire.",
    ]
    return Step(
        id="buy",
        title="Buy",
        do=do,
        figures=figures,
        order=[],
        cautions=cautions,
        uses=used(work, "job-sheet.pdf", "plates.pdf"),
    )


def _turned(work: Work, units: Units) -> str:
    """What a shop without a lathe does about a tube that no dealer has; empty where one has."""
    wheel = work.setting.wheel
    found = stock_pipe(wheel.hub_tube_outside_mm, wheel.hub_bore_mm)
    if work.setting.shop.lathe or (
        found is not None
        and found.outside_mm < wheel.hub_tube_outside_mm + SAME_TUBE_MM
        and found.bore_mm > wheel.hub_bore_mm - SAME_TUBE_MM
    ):
        return ""
    return (
        " No tube has both as it is bought, and you have no lathe: have it turned and bored, or "
        "choose the axle and the tube's outside to suit a tube of the dealer's, and build again."
    )


def _rods(work: Work, units: Units) -> str:
    """Sizes of rod for the welder there is. Source: `RODS_A`."""
    most = work.setting.shop.welder_most_a
    fit = [row for row in RODS_A if most is None or row[1] <= most] or [RODS_A[0]]
    told = ", ".join(  # 3/32 in is a name, not a measure
        f"{inches(mm) if units == 'inch' else length(mm, units)} ({low:g} to {high:g} A)"
        for mm, low, high in fit
    )
    return (
        f"Rods as their maker names them for this steel, kept dry: {told}, {RODS_SOURCE}; the "
        "thinnest for tacks and roots, the thickest that your welder fuses for the rest."
    )


def _besides(work: Work, units: Units) -> str:
    """What the steps use that is no part of a wheel."""
    wheel, shop = work.setting.wheel, work.setting.shop
    things = [
        f"a straight bar of {length(wheel.hub_bore_mm, units)} as mandrel (a piece of the axle's)",
        *_plywood(wheel, units),
        "a thin steel tape, chalk, feelers",
    ]
    if wheel.flange_angle_deg < 90:
        things.append(
            f"two round bars of {length(FORMER_BAR_MM, units)} on a thick plate, to hammer over"
        )
    if not shop.press_t:
        oval = roundness_limit(work.setting).limit_mm
        rod = rod_for_mm(round_force_n(wheel, oval))
        things.append(
            f"an M{rod} threaded rod longer than "
            f"{length(wheel.tread_diameter_mm + 100, units, 0)} with two nuts, to press rings round"
            if rod
            else "a car jack, to press rings round"
        )
    if not shop.lathe:
        things.append("angle iron for V-blocks")
    if work.wheelset is not None and work.wheelset.retention == "weld":
        things.append("temperature crayons, dry sand in a tub")
    return f"Besides: {'; '.join(things)}."


def _plywood(wheel: WheelSpec, units: Units) -> list[str]:
    """Boards that the gauges are sawn from, each as large as its drawing."""
    boards = []
    for one in plywood_gauges(wheel, units):
        left, low, right, top = one.board.bounds
        sides = sorted((right - left, top - low), reverse=True)
        long, wide = (length(math.ceil(side), units) for side in sides)
        boards.append(f"{long} by {wide}, {length(one.board.thickness_mm, units)} thick")
    return [f"plywood for gauges, {' and '.join(boards)}"] if boards else []


def deburr(work: Work, units: Units) -> Step:
    """The strip fit for hands, rolls and welds."""
    wheel = work.setting.wheel
    clean = _clean_mm(work)
    do = [
        "Grind the burr off every edge of strip and tube, inside the tube too.",
        f"Grind mill scale bright for {length(clean, units)} beside every joint"
        + (
            "."
            if tread_blank(wheel) is None
            else f", and the strip's ends as bevels where it is thicker than "
            f"{length(4, units)}: 30 degrees each ({PRACTICE}), half the thickness left."
        ),
    ]
    figures = [figure("bright beside each joint", clean, "mm", "", PRACTICE)]
    return Step(
        id="deburr", title="Deburr the strip", do=do, figures=figures, order=[], cautions=[GRINDER]
    )


def cut(work: Work, units: Units) -> Step:
    """Discs and flanges, drawn or as the rings ask for them."""
    parts = _late(work)
    counts = [f"{p.count_per_wheel * work.wheels} x {p.name}" for p in parts]
    do = [
        f"Cut for {so_many(work.wheels, 'wheel')}: {', '.join(counts)}; drawn ones for rings whose "
        "tape lies within the limits of the step that measures the ring, for all others those of "
        "`platewheel refit`. Chalk its name on each part at once.",
        "Were they cut before the rings were rolled, `platewheel refit --already-cut` tells which "
        "rings take them, pressed round or not, and the fewest new ones.",
        "Cut one of each, measure it against the table of blanks, and only then the rest.",
    ]
    for row in work.drilled:
        size = length(row.diameter_mm, units)
        do.append(
            f"Drill {so_many(row.count, 'hole')} of {size} in each {row.blank}: too small to be "
            "cut."
            + (
                ""
                if work.setting.shop.drill_press
                else " By hand: punch, a first hole of a third of it, the drill held in a block of "
                "wood bored square, oil."
            )
        )
    process = work.setting.process
    cautions = [ZINC, *([PROCESS_CAUTIONS[process]] if process in PROCESS_CAUTIONS else []), FIRE]
    figures = [figure("length of all cuts", work.cut_length_mm / 1000, "m")]
    return Step(
        id="cut",
        title="Cut discs and flanges",
        do=do,
        figures=figures,
        order=[],
        cautions=cautions,
        uses=cut_files(work, "disc", "flange"),
    )


def clean(work: Work, units: Units) -> Step:
    """Edges and holes of discs and flanges fit for hands, welds and zinc."""
    own = work.setting.disc
    vents = 2 * (len(openings(own)) if own else work.setting.wheel.vent_count)
    word = "opening" if own else "vent"
    bright = _clean_mm(work)
    burr = "the burr" if work.setting.process == "hand" else "dross and burr"
    coat = "zinc hangs in" if galvanized(work) else "their edges cut hands and paint leaves"
    do = [
        f"Grind {burr} off both corners of every edge and hole; break the corners of the "
        f"{so_many(vents, word)} of a wheel, or {coat} them.",
        f"Grind mill scale bright for {length(bright, units)} beside every joint, and the "
        f"flange's ends as bevels where they are thicker than {length(4, units)}: 30 degrees each "
        f"({PRACTICE}), half the thickness left.",
    ]
    if work.setting.process in ("plasma", "oxy-fuel"):
        do.append("Grind the hard skin off the disc's rim and hole: it is glass-hard and chips.")
    figures = [
        figure("bright beside each joint", bright, "mm", "", PRACTICE),
        figure(f"{word}s to break the corners of", float(vents), "holes"),
    ]
    cautions = [
        GRINDER,
        "Cut edges are sharp and hot: gloves to carry plates, none that a turning disc can catch.",
    ]
    title = "Deburr discs and flanges"
    return Step(id="clean", title=title, do=do, figures=figures, order=[], cautions=cautions)


def _clean_mm(work: Work) -> float:
    return max(20.0, 2 * work.setting.wheel.weld_leg_mm)


def _late(work: Work) -> Sequence[Part]:
    """Parts that wait for the rings."""
    made = wheel_parts(work.setting.wheel, disc=work.setting.disc)
    return [part for part in made if part.name.startswith(LATE)]
