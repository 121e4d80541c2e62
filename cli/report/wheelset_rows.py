"""A wheelset as rows: what the report has of it, and the tables that it shows."""

from __future__ import annotations

from platewheel.cli.job.axles import axle_cuts, axles_of
from platewheel.cli.job.job import Job
from platewheel.cli.schema.report import CheckRow
from platewheel.cli.schema.wheelset import AxleCutRow, AxleStepRow, FitRow, SpacerRow, WheelsetRow
from platewheel.parts.base.so_many import so_many
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.bodies.axle import axle_kg
from platewheel.parts.wheelset.iso_fits import limits
from platewheel.parts.wheelset.wheel_seat import held_words


class WheelsetReport(WheelsetRow):
    """report.json of the wheelset command."""

    job: str
    checks: list[CheckRow]


def wheelset_row(job: Job, made: Wheelset) -> WheelsetRow:
    """The wheelset and its saw list."""
    bearing, bush = made.bearing, made.bush
    cut = axle_cuts(job, made)
    return WheelsetRow(
        axles=axles_of(job),
        wheels="turn with the axle" if made.turning else "turn on the axle",
        frames=made.frames,
        axle_length_mm=made.axle_length_mm,
        axle_kg=axle_kg(job.setting, made),
        steel=made.steel,
        seat_diameter_mm=made.seat_diameter_mm,
        journal_diameter_mm=made.journal_diameter_mm,
        body_diameter_mm=made.body_diameter_mm,
        back_to_back_mm=job.setting.back_to_back_mm,
        play_mm=made.play_mm,
        bearing_centres_mm=made.bearing_centres_mm,
        bearing=bearing.name if bearing else None,
        bush=f"{bush.material}, {bush.bore_mm:g} bore, {bush.length_mm:g} long" if bush else None,
        bearings_each=len(made.bearing_z_mm),
        retention=made.retention,
        held_by=held_words(job.setting, made),
        steps=[AxleStepRow(from_mm=a, to_mm=b, diameter_mm=d) for a, b, d in made.steps],
        spacers=[
            SpacerRow(name=name, inside_mm=i, outside_mm=o, length_mm=length, middle_mm=z)
            for name, i, o, length, z in made.spacers
        ],
        fits=[
            FitRow(
                place=place,
                size_mm=size,
                hole=hole,
                shaft=shaft,
                hole_mm=_sizes_mm(size, hole),
                shaft_mm=_sizes_mm(size, shaft),
            )
            for place, size, hole, shaft in made.fits
        ],
        piece_mm=cut.piece_mm,
        least_bar_mm=cut.least_bar_mm,
        cuts=[
            AxleCutRow(
                stock=plan.stock.name,
                repeat=plan.repeat,
                pieces=sum(count for _, count in plan.pieces),
                rest_mm=plan.rest_mm,
            )
            for plan in cut.plans
        ],
        missing=cut.missing,
    )


def _sizes_mm(size_mm: float, zone: str) -> tuple[float, float]:
    low, high = limits(size_mm, zone)
    return size_mm + low, size_mm + high


def missing_words(report: WheelsetRow) -> list[str]:
    """Axles that found no bar."""
    if not report.missing:
        return []
    axles = so_many(report.missing, "axle")
    return [
        f"{axles} of {report.piece_mm:.4g} mm without a bar: a [[round]] of "
        f"{report.least_bar_mm:g} mm or thicker, or a larger count"
    ]
