"""Step of the flange: pieces formed to a cone, by blows over a former, and tacked to the ring."""

from __future__ import annotations

from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units, length
from platewheel.parts.checks.making.weld_access import SEAM_LEAST_MM, SEAM_MOST_MM
from platewheel.parts.making.figures import flange_chord_mm
from platewheel.parts.making.hammering import (
    HOT_DEG,
    HOT_SOURCE,
    LINE_DEG,
    STRAIN_SOURCE,
    WORK_SOURCE,
    Hammered,
    hammered,
)
from platewheel.parts.making.plywood import FLANGE as PLYWOOD
from platewheel.parts.making.plywood import flange_ply_mm
from platewheel.parts.making.springback import flange_bent_mm
from platewheel.parts.making.steps.shop_limits import FORMER_BAR_MM, PRACTICE, figure
from platewheel.parts.making.steps.step import Figure, Step, Work, cut_files, used
from platewheel.parts.making.tacks import middle_out, star_order, tacks_of
from platewheel.parts.wheel.flange import blank_sweep_deg, seam_length_mm, slant_radii_mm
from platewheel.parts.wheel.spec import WheelSpec

GENERATOR_DEG = 30  # of the wheel, between the marks on the flange blank
SAGITTA = "sagitta over the gap of the radius that springs back to the cone: plain geometry"


def flange(work: Work, units: Units) -> Step:
    """Segments formed to a cone and tacked to the ring."""
    wheel, tacks = work.setting.wheel, tacks_of(work.setting.wheel)
    inner, outer = slant_radii_mm(wheel)
    tip = wheel.tread_radius_mm + wheel.flange_depth_mm
    count = wheel.flange_segments
    reach = work.setting.flange_reach_mm
    chord = flange_chord_mm(wheel)
    pieces = so_many(count, "piece")
    do = [
        f"The blank, in {pieces}: cone radii {length(inner, units)} at the root and "
        f"{length(outer, units)} at the tip, sweep {blank_sweep_deg(wheel):.2f} degrees."
    ]
    if wheel.flange_angle_deg < 90:
        do += [
            "Start hammering or rolling at both ends, the last two marks of each, and work to the "
            f"middle: the ends are the hardest to reach afterwards. Bend along the marks, one "
            f"every {GENERATOR_DEG} degrees of the wheel, never across them, root edge harder "
            "than tip edge.",
            _sprung(wheel, units),
            *_hammer(work, units),
            "Lay the piece tip edge down on a flat plate: it touches all along and stands "
            f"{length(reach, units)} high over all. Round its tip lay the hollow plywood gauge, "
            f"{length(tip, units)} radius, {length(flange_ply_mm(wheel), units)} thick or more, or "
            "packed up so far: the tip's upper edge is the one that it measures. Saw it by its "
            f"paper {PLYWOOD}, or strike it with nail and lath."
            + (
                f" The piece is {length(chord, units)} straight across, end to end."
                if count > 1
                else ""
            ),
        ]
    order = middle_out(tacks.segment)
    do += [
        f"Set it on the ring's gauge edge, rail-side corner on the tread's edge, flared "
        f"{wheel.flange_angle_deg:g} degrees to the axle, seams away from the ring's seam. Tack "
        f"each piece at {tacks.segment} places: {', '.join(map(str, order))}, middle first, then "
        "by turns to both ends."
        + (f" Pieces in the order {', '.join(map(str, star_order(count)))}." if count > 3 else ""),
    ]
    if seam_length_mm(wheel):
        do.append(
            f"Root gap of the seams {length(wheel.seam_gap_mm, units)}. A flange that comes out "
            "short or long: measure the last gap, `platewheel refit` tells the insert and the next "
            "blank."
        )
    figures = [
        figure("root radius of the blank", inner),
        figure("tip radius of the blank", outer),
        figure("sweep of the blank", blank_sweep_deg(wheel), "deg"),
        figure("height over all, tip edge down", reach),
        figure("over the flange", 2 * tip),
        figure(
            "seam gap",
            wheel.seam_gap_mm,
            "mm",
            f"{length(SEAM_LEAST_MM, units)} to {length(SEAM_MOST_MM, units)}",
            "EN ISO 9692-1, from memory",
        ),
        figure("tacks on each piece", tacks.segment, "tacks", "", PRACTICE),
        *_hammer_figures(work, units),
    ]
    cautions = [
        "A hammered plate springs: tongs, not fingers; ear protection; no cracked hammer faces.",
    ]
    title = "Form and fit the flange"
    return Step(
        id="flange",
        title=title,
        do=do,
        figures=figures,
        order=[str(n) for n in order],
        cautions=cautions,
        uses=(
            *cut_files(work, "flange"),
            *(used(work, f"templates/{PLYWOOD}.pdf") if wheel.flange_angle_deg < 90 else ()),
            *used(work, "blanks/gauge-flange.dxf"),
        ),
    )


def _sprung(wheel: WheelSpec, units: Units) -> str:
    radius, (tight, loose) = flange_bent_mm(wheel)
    return (
        f"It springs back: between two marks it is bent to a radius of {length(loose, units)} "
        f"(steel as strong as its name) to {length(tight, units)} (half as strong again), half "
        f"way from root to tip, to be let go at {length(radius, units)}."
    )


def _hammer(work: Work, units: Units) -> list[str]:
    """The former, the blows, the passes."""
    how = hammered(work.setting.wheel)
    inner, outer = slant_radii_mm(work.setting.wheel)
    root, tip = (length(gap, units) for gap in how.gap_mm)
    deep = [length(mm, units, 2) for mm in how.depth_mm]
    heat = (
        f"Hot: to {HOT_DEG:g} degrees, bright red in the shade, two lines at a time; never struck "
        "below dull red."
        if how.hot
        else f"Cold: the outer fibre stretches by {100 * how.strain:.1f} %."
    )
    return [
        f"Former: two round bars of {length(FORMER_BAR_MM, units)} welded on a thick plate, "
        f"{length(outer - inner + 40, units)} long, {root} apart between their tops where the "
        f"piece's root lies and {tip} where its tip lies, so that both point to the apex of its "
        "cone.",
        f"Strike a line every {LINE_DEG:g} degrees of the wheel, {length(how.apart_mm, units)} "
        "apart half way up: three to each mark. The line lies over the middle of the former, the "
        "flat face of the hammer along it.",
        f"Between the bars lay a strip whose top is {deep[0]} below theirs, by feelers under a "
        f"straightedge (steel as strong as its name; half as strong again takes {deep[1]}): the "
        f"plate is struck down until it touches the strip, springs back and keeps its curve. "
        f"{how.passes} passes over all lines, ends first; {_packing(how, units)} About "
        f"{so_many(how.blows, 'blow')} of a 2 kg hammer at a line in each "
        f"pass. {heat}",
        f"Let go, the piece bows {length(how.let_go_mm, units, 2)} over "
        f"{length(2 * how.apart_mm, units)} half way up: less, lower the strip; more, turn "
        "the piece over and strike once.",
    ]


def _packing(how: Hammered, units: Units) -> str:
    """What lies on the strip in the passes before the last."""
    sheets = [length(how.depth_mm[0] - k * how.a_pass_mm, units, 2) for k in range(1, how.passes)]
    if len(sheets) == 1:
        return f"{sheets[0]} of sheet on the strip in the first, none in the last."
    return f"{', '.join(sheets)} of sheet on the strip by turns, none in the last."


def _hammer_figures(work: Work, units: Units) -> list[Figure]:
    wheel = work.setting.wheel
    if wheel.flange_angle_deg >= 90:
        return []
    how = hammered(wheel)
    to = f"to {length(how.depth_mm[1], units, 2)}"
    strain = f"{STRAIN_SOURCE}; {HOT_SOURCE}" if how.hot else STRAIN_SOURCE
    return [
        figure("former, gap at the root", how.gap_mm[0]),
        figure("former, gap at the tip", how.gap_mm[1]),
        figure("passes", how.passes, "passes", "3 degrees a line in each", PRACTICE),
        figure("strip of the former below its bars", how.depth_mm[0], "mm", to, SAGITTA),
        figure("work of a pass at a line", how.work_j, "J", "20 J of a blow bend", WORK_SOURCE),
        figure("strain of the outer fibre", 100 * how.strain, "%", "at most 5 cold", strain),
        figure("or pressed, at a line", how.force_n / 1000, "kN", "", WORK_SOURCE),
    ]
