"""What cutting by hand takes, as rows of the report."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.hole_tools import hole_tools
from platewheel.cli.job.job import Job
from platewheel.cli.schema.by_hand import HandHolesRow, HandRow, StraightCutRow
from platewheel.nesting.by_hand.straight_cuts import StraightCut, parted
from platewheel.nesting.cutting.hand_work import HandWork, all_work, hand_work
from platewheel.nesting.stock.layout import Layout


def hand_row(job: Job, layout: Layout) -> HandRow | None:
    """Of one plate; None where a machine cuts."""
    if job.cutting.process != "hand":
        return None
    work = hand_work(layout, job.cutting, job.cut_speeds, hole_tools(job))
    return _row(work, parted(layout, job.cutting).cuts)


def hand_sum(job: Job, layouts: Sequence[Layout]) -> HandRow | None:
    """Of all plates, repeats counted; None where a machine cuts."""
    if job.cutting.process != "hand":
        return None
    each = [hand_work(lay, job.cutting, job.cut_speeds, hole_tools(job)) for lay in layouts]
    return _row(all_work([(lay.repeat, one) for lay, one in zip(layouts, each, strict=True)]), ())


def _row(work: HandWork, cuts: Sequence[StraightCut]) -> HandRow:
    return HandRow.of(
        work,
        holes=[HandHolesRow.of(row) for row in work.holes],
        straight_cuts=[_cut(cut) for cut in cuts],
    )


def _cut(cut: StraightCut) -> StraightCutRow:
    edge = "left" if cut.axis == 0 else "lower edge"
    return StraightCutRow.of(cut, measured_from=edge, through=cut.whole)
