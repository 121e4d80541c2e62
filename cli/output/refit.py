"""The refit command: rings as rolled -> blanks that fit, pairs, cutting files and the record."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from pathlib import Path

from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import Plan, plan_parts, require_stock
from platewheel.cli.output.alone import alone_in
from platewheel.cli.output.folder import REFIT_OURS, require_ours, write_folder
from platewheel.cli.output.offcut_use import offcut_notes
from platewheel.cli.output.reserved import require_free, reserved
from platewheel.cli.output.write import write_blanks, write_sheets, write_templates
from platewheel.cli.papers.refit_page import refit_page
from platewheel.cli.papers.sheet.summary import OWN_DISC
from platewheel.cli.refit.choice_rows import choice_rows
from platewheel.cli.refit.job import refit_job
from platewheel.cli.refit.rows import (
    axle_records,
    limits_said,
    refit_warnings,
    shared_rows,
    sums,
    wheel_records,
)
from platewheel.cli.refit.welded_rows import paired_by, shrinkage_row
from platewheel.cli.report.rows import blank_rows, cutting_warnings, nesting_row, sheet_rows
from platewheel.cli.schema.refit import RefitReport, WheelRecord
from platewheel.cli.schema.report import TemplateRow
from platewheel.cli.work.progress import Steps
from platewheel.cli.work.stopping import stopped_short
from platewheel.nesting.search.nest import Effort
from platewheel.parts.refit.measured_ring import MeasuredRing
from platewheel.parts.refit.plan import Refit, plan_refit

WELDED = ("shrunk_by_welding_mm", "flange_angle")  # columns of record.csv


def refit_rings(
    job: Job,
    rings: Sequence[MeasuredRing],
    out: Path,
    step: Steps,
    *,
    seed: int = 0,
    effort: Effort = "normal",
    nested: bool = True,
    correct_flanges: bool = False,
    already_cut: bool = False,
) -> RefitReport:
    """Refit everything into out/<job name>-refit; returns the report written there. With
    `already_cut` the drawn blanks of all the job's wheels are there.

    Raises: SpecError where a shared blank makes no wheel, or another job has an offcut
    of this one; GeometryError where a corrected flange closes on itself; NotFinished
    where a blank fits no stock, or the folder is not ours to replace.
    """
    cut = refit_job(job)
    require_ours(out, cut.head.name, REFIT_OURS)
    require_free(cut)
    with alone_in(out, cut.head.name):
        return _refitted(job, rings, out, step, seed, effort, nested, correct_flanges, already_cut)


def _refitted(
    job: Job,
    rings: Sequence[MeasuredRing],
    out: Path,
    step: Steps,
    seed: int,
    effort: Effort,
    nested: bool,
    correct_flanges: bool,
    already_cut: bool,
) -> RefitReport:
    cut = refit_job(job)
    step("blanks that fit")
    there = job.head.wheels if already_cut else 0
    refit = plan_refit(job.setting, rings, correct_flanges, there)
    plan, used = None, list[str]()
    if nested and refit.parts:
        plan = plan_parts(cut, refit.parts, seed, step, effort)
        require_stock(cut, plan)
        used = [*stopped_short(), *offcut_notes(cut, plan.layouts, out)]

    def write(folder: Path) -> RefitReport:
        return _write(job, refit, plan, used, folder, step)

    if plan is None:
        return write_folder(out, cut.head.name, write, REFIT_OURS)
    with reserved(cut, plan, axles=False) as taken:
        used += taken
        return write_folder(out, cut.head.name, write, REFIT_OURS)


def _write(
    job: Job,
    refit: Refit,
    plan: Plan | None,
    used: list[str],
    folder: Path,
    step: Steps,
) -> RefitReport:
    cut = refit_job(job)
    step("blanks")
    write_blanks(cut, refit.parts, folder)
    step("templates")
    pages = write_templates(cut, refit.parts, folder, beside=False) if refit.parts else []
    wheels = wheel_records(job, refit)
    axles = axle_records(job, wheels, paired_by(refit))
    own = OWN_DISC if job.own_disc else ()
    warnings = [*own, *refit_warnings(job, refit, axles), *used]
    sheets, nesting = None, None
    if plan:
        step("cutting files")
        done = write_sheets(cut, plan, folder)
        warnings += [*done.warnings, *cutting_warnings(cut, plan)]
        sheets, nesting = sheet_rows(cut, plan, done.files), nesting_row(cut, plan)
    step("record")
    report = RefitReport(
        job=job.head.name,
        sums=sums(job, refit),
        wheels=wheels,
        axles=axles,
        shared=shared_rows(refit),
        blanks=blank_rows(cut, refit.parts),
        templates=[TemplateRow(file=file, pages=count) for file, count in pages],
        choices=choice_rows(job, refit),
        shrinkage=shrinkage_row(job),
        limits=limits_said(job, refit),
        sheets=sheets,
        nesting=nesting,
        warnings=warnings,
    )
    (folder / "report.json").write_text(report.model_dump_json(indent=2) + "\n", encoding="utf-8")
    write_record(report, folder / "record.csv")
    page = refit_page(job, report, folder)
    (folder / "refit-sheet.html").write_text(page, encoding="utf-8")
    return report


def write_record(report: RefitReport, path: Path) -> None:
    """record.csv: a line for each wheel, by wagon, axle and serial number; mm to 0.01."""
    left_out = ["tried", "welded"]
    if all(wheel.first is None for wheel in report.wheels):
        left_out.append("first")
    columns = [name for name in WheelRecord.model_fields if name not in left_out]
    pairs = ("difference_mm", "curve_radius_m", "drift_mm")
    axles = {axle.axle: axle for axle in report.axles}
    with path.open("w", encoding="utf-8", newline="") as target:
        table = csv.writer(target, lineterminator="\n")
        table.writerow([*columns, *(f"axle_{name}" for name in pairs), "flange_tried_on", *WELDED])
        for wheel in report.wheels:
            axle = axles.get(wheel.axle or "")
            cells = [getattr(wheel, name) for name in columns]
            cells += [getattr(axle, name, None) for name in pairs]
            table.writerow(
                [*map(_cell, cells), wheel.tried.says if wheel.tried else "", *_welded(wheel)]
            )


def _welded(wheel: WheelRecord) -> list[str]:
    row = wheel.welded
    return [_cell(row.shrunk_mm), row.flange_angle_says or ""] if row else [""] * len(WELDED)


def _cell(value: object) -> str:
    if value is None:
        return ""
    return f"{value:.2f}" if isinstance(value, float) else str(value)
