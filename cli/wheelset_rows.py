"""A wheelset as rows: report.json of the wheelset command, and the tables that it shows."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from cli.job import Job
from cli.report_model import CheckRow
from cli.report_row import Row
from nesting.axle_lengths import axle_cut_list
from parts.wheelset import Wheelset


class AxleStepRow(Row):
    from_mm: float = Field(description="along the axle, 0 in the middle of the track")
    to_mm: float
    diameter_mm: float


class SpacerRow(Row):
    name: str
    inside_mm: float
    outside_mm: float
    length_mm: float
    middle_mm: float = Field(description="along the axle")


class FitRow(Row):
    place: str
    size_mm: float
    hole: str = Field(description="tolerance of ISO 286")
    shaft: str


class AxleCutRow(Row):
    stock: str
    repeat: int
    pieces: int = Field(description="axles from each bar")
    rest_mm: float = Field(description="of each bar")


class WheelsetReport(Row):
    """report.json of a wheelset."""

    job: str
    axles: int = Field(description="for all wheels of the job")
    wheels: Literal["turn with the axle", "turn on the axle"]
    frames: str
    axle_length_mm: float
    steel: str
    seat_diameter_mm: float
    journal_diameter_mm: float
    body_diameter_mm: float
    back_to_back_mm: float
    play_mm: float
    bearing_centres_mm: float
    bearing: str | None
    bush: str | None
    retention: str
    steps: list[AxleStepRow]
    spacers: list[SpacerRow]
    fits: list[FitRow]
    piece_mm: float = Field(description="sawn length of an axle, room to face its ends")
    least_bar_mm: float = Field(description="thinnest round bar that it can be made from")
    cuts: list[AxleCutRow] = Field(description="from [[round]]; empty without any")
    missing: int = Field(description="axles for which there is no bar")
    checks: list[CheckRow]


def wheelset_report(job: Job, made: Wheelset, checks: list[CheckRow]) -> WheelsetReport:
    """The wheelset and what its checks found."""
    bearing, bush = made.bearing, made.bush
    axles = -(-job.head.wheels // 2)
    cut = axle_cut_list(made, axles, job.rounds, job.cutting.kerf_mm)
    return WheelsetReport(
        job=job.head.name,
        axles=axles,
        wheels="turn with the axle" if made.turning else "turn on the axle",
        frames=made.frames,
        axle_length_mm=made.axle_length_mm,
        steel=made.steel,
        seat_diameter_mm=made.seat_diameter_mm,
        journal_diameter_mm=made.journal_diameter_mm,
        body_diameter_mm=made.body_diameter_mm,
        back_to_back_mm=made.back_to_back_mm,
        play_mm=made.play_mm,
        bearing_centres_mm=made.bearing_centres_mm,
        bearing=bearing.name if bearing else None,
        bush=f"{bush.material}, {bush.bore_mm:g} bore, {bush.length_mm:g} long" if bush else None,
        retention=made.retention,
        steps=[AxleStepRow(from_mm=a, to_mm=b, diameter_mm=d) for a, b, d in made.steps],
        spacers=[
            SpacerRow(name=name, inside_mm=i, outside_mm=o, length_mm=length, middle_mm=z)
            for name, i, o, length, z in made.spacers
        ],
        fits=[
            FitRow(place=place, size_mm=size, hole=hole, shaft=shaft)
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
        checks=checks,
    )


def size_rows(report: WheelsetReport) -> list[tuple[str, ...]]:
    """Sizes to make and to set by."""
    running = report.bearing or report.bush or ""
    held = f"wheels {report.wheels}, held by {report.retention}; frames {report.frames}"
    rows: list[tuple[str, ...]] = [
        ("axle", f"{report.axle_length_mm:.1f}", f"{report.axles} off, {report.steel}"),
        ("seat of the wheels", f"{report.seat_diameter_mm:g}", held),
        ("back to back", f"{report.back_to_back_mm:.1f}", f"play {report.play_mm:.1f} mm"),
        ("bearing centres", f"{report.bearing_centres_mm:.1f}", running),
    ]
    rows += [
        ("axle, along", f"{s.from_mm:.1f} to {s.to_mm:.1f}", f"diameter {s.diameter_mm:g}")
        for s in report.steps
    ]
    rows += [
        (s.name, f"{s.length_mm:.1f} long", f"{s.inside_mm:g} inside, {s.outside_mm:g} outside")
        for s in report.spacers
    ]
    return rows


def fit_rows(report: WheelsetReport) -> list[tuple[str, ...]]:
    """Fits to turn and ream to."""
    return [(fit.place, f"{fit.size_mm:g}", fit.hole, fit.shaft) for fit in report.fits]


def cut_rows(report: WheelsetReport) -> list[tuple[str, ...]]:
    """What is sawn from which bar."""
    return [
        (
            cut.stock,
            str(cut.repeat),
            f"{cut.pieces} of {report.piece_mm:g} mm",
            f"{cut.rest_mm:.0f}",
        )
        for cut in report.cuts
    ]


def missing_words(report: WheelsetReport) -> list[str]:
    """Axles that found no bar."""
    if not report.missing:
        return []
    return [
        f"{report.missing} axles of {report.piece_mm:g} mm find no bar: a [[round]] of "
        f"{report.least_bar_mm:g} mm or thicker, or a larger count"
    ]
