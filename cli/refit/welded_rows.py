"""Welded wheels measured again: rows, limits and what is to be told of them."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.job.job import Job
from platewheel.cli.schema.refit import PairedBy, ShrinkageRow, WeldedRow, WheelRecord
from platewheel.parts.base.so_many import noun, so_many
from platewheel.parts.checks.running.flange_window import SOURCE as WINDOW_SOURCE
from platewheel.parts.making.weld_shrinkage import (
    BUTT_SOURCE,
    FILLET_SOURCE,
    SURE_SHARES,
    weld_shrinkage,
)
from platewheel.parts.refit.measured_ring import TAPE_MM, MeasuredRing
from platewheel.parts.refit.plan import Refit
from platewheel.parts.refit.welded_wheel import is_surprising, shrunk_mm, welded_angle


def paired_by(refit: Refit) -> PairedBy:
    """Which diameters wheels are paired by."""
    return "after welding" if refit.after_welding else "as rolled"


def running_mm(wheel: WheelRecord, by: PairedBy) -> float:
    """The diameter that a wheel is paired by."""
    welded = wheel.welded.tread_diameter_mm if wheel.welded else None
    return welded if by == "after welding" and welded is not None else wheel.tread_diameter_mm


def shrinkage_row(job: Job) -> ShrinkageRow:
    """What the welds of the drawn wheel are expected to take."""
    expected = weld_shrinkage(job.wheel)
    return ShrinkageRow.of(
        expected,
        least_mm=expected.range_mm[0],
        most_mm=expected.range_mm[1],
        source=f"{BUTT_SOURCE}; {FILLET_SOURCE}",
    )


def welded_row(job: Job, ring: MeasuredRing) -> WeldedRow | None:
    """None for a wheel that was not measured again."""
    shrunk, angle_deg = shrunk_mm(ring), ring.flange_angle_deg
    if shrunk is None and angle_deg is None:
        return None
    angle = None if angle_deg is None else welded_angle(job.setting, angle_deg)
    surprising = None if shrunk is None else is_surprising(shrunk, weld_shrinkage(job.wheel))
    return WeldedRow(
        tread_diameter_mm=ring.after_welding_diameter_mm,
        shrunk_mm=shrunk,
        as_expected=None if surprising is None else not surprising,
        flange_angle_verdict=angle.verdict if angle else None,
        flange_angle_says=angle.says if angle else None,
        flange_angle_source=angle.source if angle else None,
    )


def welded_limits(job: Job) -> list[tuple[str, str, str]]:
    """What, limit and source."""
    expected = weld_shrinkage(job.wheel)
    least, most = expected.range_mm
    return [
        (
            "welding takes off the diameter of a ring",
            f"about {expected.after_mm:.2f} mm, {least:.2f} to {most:.2f} mm without surprise "
            f"({SURE_SHARES[0]:g} to {SURE_SHARES[1]:g} times: common practice, no source), a tape "
            f"errs by {TAPE_MM:g} mm",
            f"{BUTT_SOURCE}; {FILLET_SOURCE}",
        ),
        (
            "flange angle of the welded wheel",
            "the job's flange window, with the angle as measured",
            WINDOW_SOURCE,
        ),
    ]


def welded_words(job: Job, refit: Refit) -> Iterator[str]:
    """What the measuring of welded wheels tells the builder to do."""
    rings = [one.measured for one in refit.fitted]
    yield from _pairing_words(rings)
    expected = weld_shrinkage(job.wheel)
    for ring in rings:
        shrunk = shrunk_mm(ring)
        if shrunk is not None and is_surprising(shrunk, expected):
            yield (
                f"ring {ring.ring}: welding took {shrunk:.2f} mm off its diameter, expected "
                f"{expected.range_mm[0]:.2f} to {expected.range_mm[1]:.2f} mm: tape it again, and "
                "look at its beads"
            )
    for ring in rings:
        if ring.flange_angle_deg is None:
            continue
        angle = welded_angle(job.setting, ring.flange_angle_deg)
        if angle.verdict != "pass":
            yield (
                f"ring {ring.ring}: flange of {angle.angle_deg:g} deg once welded, {angle.says}; "
                "bend it back before the wheel runs and look at its root for cracks, or cut it off"
            )


def _pairing_words(rings: list[MeasuredRing]) -> Iterator[str]:
    lacking = [ring.ring for ring in rings if ring.after_welding_mm is None]
    taped = len(rings) - len(lacking)
    if lacking and taped:
        yield (
            f"{taped} of {so_many(len(rings), 'wheel')} {noun(taped, 'has', 'have')} an "
            f"after_welding_mm: all are paired as rolled, since the others do not "
            f"compare; tape {', '.join(lacking)} too"
        )
