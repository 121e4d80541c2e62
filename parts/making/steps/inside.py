"""Step of a wheel whose first disc is welded on both sides: its inner beads, ring still open."""

from __future__ import annotations

from platewheel.parts.base.units import Units, length
from platewheel.parts.making.figures import rim_run_mm, tube_run_mm
from platewheel.parts.making.steps.shop_limits import PRACTICE, figure
from platewheel.parts.making.steps.step import Step, Work
from platewheel.parts.making.tacks import QUADRANTS, star_order, tacks_of
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.welds import FIRST_DISC

ORDER = ("1", "3", "2", "4")
SHIMS = 3  # a plate on three points neither rocks nor jams


def inside(work: Work, units: Units) -> Step | None:
    """First disc and tube set, tacked and welded inside; None where all beads are outside."""
    wheel = work.setting.wheel
    if not wheel.first_disc_both_sides:
        return None
    tacks, run = tacks_of(wheel), rim_run_mm(wheel, QUADRANTS)
    throat, shim = length(wheel.weld_throat_mm, units), length(wheel.fit_clearance_mm, units, 2)
    inset = wheel.disc_gauge_inset_mm
    across = length(disc_diameter_mm(wheel, FIRST_DISC), units)
    alone = "the hub with its gauge disc" if wheel.has_tube else "the gauge disc"
    do = [
        f"Lay the ring on its gauge edge on three blocks. Set {alone} ({across} across) "
        f"with the disc's outer face {length(inset, units)} inside the gauge edge, on {SHIMS} "
        f"shims of {shim} at 12, 4 and 8 o'clock; wedge it there. No vent over the ring's seam.",
    ]
    figures = [
        figure("gauge edge to gauge disc", inset),
        figure("throat of the fillets inside", wheel.weld_throat_mm),
        figure("length of a run at the rim", run),
    ]
    tube = ""
    if wheel.has_tube:
        half = length(tube_run_mm(wheel, 2), units)
        tube = f" Then the tube in halves of {half}, the same throat."
    star = ", ".join(map(str, star_order(tacks.rim)))
    do += [
        "Read the run-out as in the step that trues the wheel; then tack the disc on its inner "
        f"face, at {tacks.rim} places round the rim in the order {star}.",
        f"From the field side weld the fillet between ring and disc, throat {throat}, in quarters "
        f"of {length(run, units)}: {', '.join(ORDER)}, each cooled before the one beside it.{tube}",
        "Chip it, brush it bright, look along every bead with a lamp and fill every crater: nobody "
        "gets in here again. Read the run-out once more and press the disc true.",
    ]
    figures.append(figure("tacks on the inner rim", tacks.rim, "tacks", "", PRACTICE))
    cautions = [
        "The ring is a bowl that holds fume and gas under your face: extraction at the bead, and "
        "never your head inside it with the arc burning.",
    ]
    return Step(
        id="inside",
        title="Set the first disc, weld it inside",
        do=do,
        figures=figures,
        order=list(ORDER),
        cautions=cautions,
    )
