"""The step before discs and flanges are cut by hand: each is marked out; strips are by then."""

from __future__ import annotations

from platewheel.parts.base.units import Units
from platewheel.parts.geometry.marking_out import marking_out
from platewheel.parts.geometry.marking_way import marking_way
from platewheel.parts.making.steps.shop_limits import LATE, PRACTICE, figure
from platewheel.parts.making.steps.step import Step, Work
from platewheel.parts.wheel.assembly import wheel_parts


def mark_out(work: Work, units: Units) -> Step | None:
    """How each blank that waits for the rings is struck; None where a machine cuts."""
    if work.setting.process != "hand":
        return None
    wheel = work.setting.wheel
    blanks = [
        p.blank
        for p in wheel_parts(wheel, disc=work.setting.disc)
        if p.blank and p.cut_from == "sheet" and p.name.startswith(LATE)
    ]
    do = [
        "Scribe the straight cuts of plates.pdf first, all from the plate's own left and lower "
        "edge; each blank lies inside of them as drawn there.",
        "Strike each blank by its template, glued on and punched through, or by compasses, "
        "straight-edge and tape: marking-out.pdf has every figure, and chains of holes.",
    ]
    for blank in blanks:
        do += [f"{blank.name}: {line}" for line in marking_way(blank, units)]
    do.append(
        "Punch every centre and prick every line, so that grinding does not take it. Drill and saw "
        "the holes while the plate is whole, then make the straight cuts, then cut out."
    )
    figures = [
        figure(f"{blank.name}: {row.what}", row.value, row.unit)
        for blank in blanks
        for row in marking_out(blank)
    ]
    figures.append(figure("scribed line, width", 0.2, "mm", "at most", PRACTICE))
    cautions = [
        "A plate edge cuts: gloves to turn it over. Marking blue is a solvent: air, no flame.",
        "Clamp the plate to drill it, no gloves near the spindle.",
    ]
    return Step(
        id="mark-out",
        title="Mark out",
        do=do,
        figures=figures,
        order=[],
        cautions=cautions,
        uses=["marking-out.pdf", "plates.pdf"],
    )
