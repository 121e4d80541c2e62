"""Steps from strip to ring: roll, close the seam, measure."""

from __future__ import annotations

from platewheel.parts.base.units import Units, length
from platewheel.parts.checks.making.rolling import (
    PEAK_MM,
    ROLL_HARDLY,
    ROLL_SURELY,
    ROLLERS,
    flat_end_mm,
)
from platewheel.parts.checks.making.weld_access import fillet_gap, seam_gap_range_mm
from platewheel.parts.making.figures import flange_limits_mm, ring_limits_mm, seam_bump_mm
from platewheel.parts.making.plywood import RING as PLYWOOD
from platewheel.parts.making.ring_roundness import (
    disc_gap_range_mm,
    drawn_disc_takes_mm,
    roundness_limit,
)
from platewheel.parts.making.springback import RING_SOURCE as RING
from platewheel.parts.making.springback import SOURCE as SPRINGBACK
from platewheel.parts.making.springback import (
    lasting_squeeze_mm,
    rolled_to_mm,
    round_force_n,
)
from platewheel.parts.making.steps.shop_limits import PRACTICE, figure
from platewheel.parts.making.steps.shop_words import pulled_round, seam_runs
from platewheel.parts.making.steps.step import Figure, Step, Work, used
from platewheel.parts.making.weld_shrinkage import BUTT_SOURCE, FILLET_SOURCE, weld_shrinkage
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank

INSIDE_SEAM = {
    "as-welded": "Grind it flush inside where the discs go, or they ride on it.",
    "dressed": "Grind it flush inside over its whole length, with strokes along the ring and not "
    "across it, until no edge of the bead and no mark of the coarse disc shows.",
}
ROLLS = "straight end g t, g 0.8 to 5: maker's guide to plate rolls"


def roll(work: Work, units: Units) -> Step | None:
    """The strip rolled to a ring; None from pipe."""
    wheel, shop = work.setting.wheel, work.setting.shop
    blank = tread_blank(wheel)
    if blank is None:
        return None
    wall, bore = wheel.tread_thickness_mm, 2 * wheel.bore_radius_mm(0.0)
    plain, bent = flat_end_mm(wall, False), flat_end_mm(wall, True)
    strip = blank.sizes["length_mm"]
    do = [
        f"Check the strip: {length(strip, units)} long, "
        f"{length(blank.sizes['width_mm'], units)} wide, ends square to "
        f"{length(0.5, units)} over the width ({PRACTICE}).",
        f"Saw a plywood gauge to the bore's radius, {length(bore / 2, units)}, by its paper "
        f"{PLYWOOD} glued on, or strike it: a nail for the centre, a lath with a pencil in a hole "
        "so far from it.",
        f"Bend the last {length(plain, units)} of each end to the gauge before rolling, in a "
        "press or with a hammer over a bar: three plain rolls leave that much straight. After "
        f"it about {length(bent, units)} stay straight, a bump of "
        f"{length(seam_bump_mm(wheel), units, 2)} at the seam.",
        "Roll in small steps, both ways, until the ring closes by itself to a seam gap of "
        f"{length(wheel.seam_gap_mm, units)} all across; a ring that must be pulled shut is "
        "not round.",
    ]
    tight, loose = rolled_to_mm(wheel)
    do.append(
        f"Steel springs back: in the rolls it comes to an inside radius of {length(loose, units)} "
        f"(steel as strong as its name) to {length(tight, units)} (half as strong again, as sheet "
        f"often is) to be let go at {length(bore / 2, units)}."
    )
    if not shop.prebend:
        spare = 2 * plain
        do[2] = (
            f"Your rolls leave {length(plain, units)} of each end straight and shop.prebend is "
            f"false: roll a strip {length(spare, units)} longer and cut the straight ends off."
        )
    if wheel.taper_half_angle:
        do.append("Hold the field edge back in the rolls: it is the shorter one of the taper.")
    figures: list[Figure] = [
        figure("strip length", strip),
        figure("seam gap", wheel.seam_gap_mm),
        figure("ends to bend first, each", plain, "mm", "", ROLLS),
        figure(
            "still straight after it", bent, "mm", f"bump at most {length(PEAK_MM, units)}", ROLLS
        ),
        figure("inside diameter", bore),
        figure(
            "inside radius in the rolls",
            loose,
            "mm",
            f"down to {length(tight, units)} for stronger steel",
            SPRINGBACK,
        ),
        figure(
            "largest top roll that closes it well",
            bore / ROLL_SURELY,
            "mm",
            f"yours: {length(shop.roll_diameter_mm, units)}",
            ROLLERS,
        ),
        figure("largest that closes it at all", bore / ROLL_HARDLY, "mm", "", ROLLERS),
    ]
    cautions = ["Rolls draw fingers and gloves in: one person feeds and has the stop at hand."]
    return Step(
        id="roll",
        title="Roll the strip",
        do=do,
        figures=figures,
        order=[],
        cautions=cautions,
        uses=used(work, f"templates/{PLYWOOD}.pdf"),
    )


def close(work: Work, units: Units) -> Step | None:
    """The ring's seam welded; None from pipe."""
    wheel = work.setting.wheel
    if tread_blank(wheel) is None:
        return None
    gap, wall = wheel.seam_gap_mm, wheel.tread_thickness_mm
    do = [
        f"Tack the seam at both edges, gap {length(gap, units)}, edges level within "
        f"{length(0.1 * wall, units, 2)}.",
        "Weld it through from outside, grind the root out inside and weld that too: this is the "
        f"last time that you get inside. Full section, {length(wall, units)} thick and "
        f"{length(wheel.tread_width_mm, units)} long (butt weld, both sides).",
        *seam_runs(work, units),
        f"{INSIDE_SEAM[wheel.seam]} Grind it flush outside too, until a nail drawn round feels no "
        "step: rolls and tape would ride on it. Then round the ring in the rolls once more.",
    ]
    figures = [
        figure("gap of the seam", gap),
        figure(
            "step across the seam",
            0.1 * wall,
            "mm",
            "at most",
            "ISO 5817, quality C, a tenth to a seventh of the wall; from memory",
        ),
    ]
    cautions = [
        "Never weld on zinc: grind it off well back from the joint, ventilate, wear a fitting "
        "respirator. Zinc fume makes ill.",
        "The arc burns eyes and skin, bystanders' too: helmet, screens, no bare arms.",
    ]
    title = "Close the ring"
    return Step(id="close", title=title, do=do, figures=figures, order=[], cautions=cautions)


def measure(work: Work, units: Units) -> Step:
    """Tape round the ring, and what it says about the discs."""
    setting, wheel = work.setting, work.setting.wheel
    least, drawn, most = ring_limits_mm(setting)
    off = 2 * (wheel.tread_thickness_mm + wheel.fit_clearance_mm)
    gap, gaps = fillet_gap(setting), disc_gap_range_mm(setting)
    limit, drawn_takes = roundness_limit(setting), drawn_disc_takes_mm(setting)
    oval, shrinks = limit.limit_mm, weld_shrinkage(wheel)
    taper = ", less what the taper takes at each disc." if wheel.taper_half_angle else "."
    do = [
        "Lay a thin steel tape round the outside beside the gauge edge: "
        f"{length(drawn, units)} as drawn. Take off 3.14 times the tape's thickness. "
        "Diameter = tape / 3.1416.",
        f"From {length(least, units)} to {length(most, units)} the drawn discs fit a round ring "
        f"(gap {length(gaps[0], units, 2)} to {length(gaps[1], units, 2)} all round). Outside of "
        f"that cut discs to the ring: diameter = tape / 3.1416 - {length(off, units, 2)}{taper}",
        *_flange_fits(wheel, units),
        "Chalk a number on each ring and write its tape reading into rings.csv: `platewheel "
        "rings` makes the file, `platewheel refit` tells which discs and flanges fit, and which "
        "two wheels belong on one axle.",
        "Measure the tread's largest and smallest diameter and write both into rings.csv: up to "
        f"{length(oval, units, 2)} apart `platewheel refit` finds discs that fit the ring as it "
        f"is (the drawn ones fit it up to {length(drawn_takes, units, 2)}), beyond it {limit.why}. "
        "Press such a ring round before a disc goes in: "
        f"{round_force_n(wheel, oval) / 1000:.1f} kN across the largest diameter take that much "
        "out while it is held (a clamp for tacking); it stays only where "
        f"that diameter is squeezed by more than {length(lasting_squeeze_mm(wheel), units)}, so "
        f"squeeze, let go, measure.{pulled_round(work, oval)}",
        _shrinks(wheel, units),
    ]
    figures = [
        figure(
            "circumference, drawn", drawn, "mm", f"{length(least, units)} to {length(most, units)}"
        ),
        figure("gap under the fillets", gap.limit or 0.0, "mm", "at most", gap.source),
        figure("disc smaller than the ring's outside by", off),
        figure("out of round", oval, "mm", "at most", limit.source),
        figure(
            "force that presses so much round",
            round_force_n(wheel, oval) / 1000,
            "kN",
            "while held",
            RING,
        ),
        figure("its own seam has shrunk the ring by", shrinks.ring_seam_mm, "mm", "", BUTT_SOURCE),
        figure(
            "welding the wheel shrinks it by",
            shrinks.after_mm,
            "mm",
            f"{length(shrinks.range_mm[0], units, 2)} to {length(shrinks.range_mm[1], units, 2)}",
            f"{BUTT_SOURCE}; {FILLET_SOURCE}",
        ),
    ]
    title = "Measure the ring"
    return Step(id="measure", title=title, do=do, figures=figures, order=[], cautions=[])


def _flange_fits(wheel: WheelSpec, units: Units) -> list[str]:
    """Tapes between which the drawn flange closes; one border with refit, which trims or lengthens
    all others. Nothing for a flat washer."""
    limits = flange_limits_mm(wheel)
    if limits is None:
        return []
    gaps = [length(mm, units, 2) for mm in seam_gap_range_mm(wheel)]
    return [
        f"From {length(limits[0], units)} to {length(limits[1], units)} the drawn flange fits too "
        f"(gap of each seam {gaps[0]} to {gaps[1]}); below it is trimmed, above it is cut anew."
    ]


def _shrinks(wheel: WheelSpec, units: Units) -> str:
    """What welding takes, and that wheels are paired by what is left."""
    shrinks = weld_shrinkage(wheel)
    least, most = (length(mm, units, 2) for mm in shrinks.range_mm)
    return (
        f"Welding takes about {length(shrinks.after_mm, units, 2)} more off the diameter, {least} "
        f"to {most}, not on every wheel the same. When discs and flange are welded, tape the tread "
        "again beside the flange and lay a gauge to the flange's face: `after_welding_mm` and "
        "`flange_angle_deg` of rings.csv. `platewheel refit` then pairs the wheels by it and tells "
        "which flange lies outside its window."
    )
