"""The whole road of a job: plan, files, report, job sheet; put in place when complete."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import Future
from pathlib import Path
from typing import Any

from platewheel.cli.job.axles import axle_rests
from platewheel.cli.job.job import Job
from platewheel.cli.job.pieces import cut_pieces
from platewheel.cli.job.plan import plan_job
from platewheel.cli.job.questions import questions
from platewheel.cli.job.what_fits import Settled, settled
from platewheel.cli.job.wheelset import checks_with_advice, job_wheelset
from platewheel.cli.money.buying import buying_rows
from platewheel.cli.money.time_plan import time_plan
from platewheel.cli.money.wheel_cost import wheel_cost
from platewheel.cli.output.alone import alone_in
from platewheel.cli.output.folder import require_ours, write_folder
from platewheel.cli.output.made_of import made_of, write_made_of
from platewheel.cli.output.offcut_use import USED_FILE, offcut_notes
from platewheel.cli.output.reserved import require_free, reserved
from platewheel.cli.output.solids import write_solids
from platewheel.cli.output.write import (
    PLATES_PDF,
    sheet_files,
    write_blanks,
    write_sheets,
    write_templates,
)
from platewheel.cli.papers.calculation_pdf import calculation_pdf
from platewheel.cli.papers.charts.flange_window import window_picture
from platewheel.cli.papers.charts.stress import ring_picture, stress_picture
from platewheel.cli.papers.job_sheet_pdf import job_sheet_pdf
from platewheel.cli.papers.sheet.drawings import drawings_of, plate_drawing
from platewheel.cli.papers.sheet.page import job_sheet
from platewheel.cli.papers.sheet.summary import OWN_DISC
from platewheel.cli.papers.standards_pdf import standards_pdf
from platewheel.cli.refit.rows import wheel_records
from platewheel.cli.report.gauge_rows import gauge_rows
from platewheel.cli.report.judged_rows import check_rows, rating_row
from platewheel.cli.report.rows import (
    blank_rows,
    cutting_warnings,
    length_rows,
    nesting_row,
    part_rows,
    sheet_rows,
    wheel_row,
)
from platewheel.cli.report.steps import step_rows
from platewheel.cli.report.wheelset_rows import missing_words, wheelset_row
from platewheel.cli.schema.refit import WheelRecord
from platewheel.cli.schema.report import JobRow, Report, TemplateRow
from platewheel.cli.work.beside import beside
from platewheel.cli.work.progress import Steps
from platewheel.cli.work.stopping import stopped_short
from platewheel.nesting.search.nest import Effort
from platewheel.parts.rating.assess import Assessment, assess, load_solver
from platewheel.parts.refit.measured_ring import MeasuredRing
from platewheel.parts.refit.plan import plan_refit

ALWAYS = ("job-sheet.html", "job-sheet.pdf", "standards.pdf", PLATES_PDF, "offcuts.toml", USED_FILE)


def build_job(
    job: Job,
    out: Path,
    seed: int,
    step: Steps,
    effort: Effort = "normal",
    rings: Sequence[MeasuredRing] = (),
    *,
    what_fits: bool = False,
) -> Report:
    """Build everything into out/<job name>; returns the report written there. Rings as measured
    fill the record on the job sheet; the blanks stay those of the drawing. With `what_fits` it
    is of the whole wheels that the stock holds, where it does not hold all.

    Raises: NotFinished where a blank fits no stock, or the folder is not ours to replace;
    SpecError where another job has an offcut of this one, by the ledger.
    """
    require_ours(out, job.head.name)
    require_free(job)
    wheels = wheel_records(job, plan_refit(job.setting, rings)) if rings else []
    # the analysis takes as long as nest and files
    load_solver()
    with alone_in(out, job.head.name), beside() as worker:
        rating = worker.submit(assess, job.setting)
        plan = plan_job(job, seed, step, effort)
        done = settled(job, plan, seed, step, effort, what_fits=what_fits)
        with reserved(done.job, done.plan) as taken:
            notes = [
                *done.told,
                *stopped_short(),
                *offcut_notes(done.job, done.plan.layouts, out),
                *taken,
                *questions(job),
            ]
            notes += [line for line in OWN_DISC if job.own_disc]

            def write(folder: Path) -> Report:
                report = _write_all(done, job.head.wheels, notes, folder, step, rating, wheels)
                made = [entry.name for entry in folder.iterdir()]
                now = made_of(job, cut_pieces(done.job, done.plan))
                write_made_of(folder, now, folder, made, ())
                return report

            return write_folder(out, job.head.name, write)


def _write_all(
    done: Settled,
    asked: int,
    notes: Sequence[str],
    folder: Path,
    step: Steps,
    rating: Future[Assessment | None],
    wheels: Sequence[WheelRecord],
) -> Report:
    job, plan = done.job, done.plan
    step("blanks")
    blanks = write_blanks(job, plan.parts, folder)
    step("cutting files")
    sheets = sheet_rows(job, plan, sheet_files(plan))
    row, plates = {sheet.file: sheet for sheet in sheets}, []

    def seen(file: str, drawing: Any) -> None:
        plates.append(plate_drawing(job, row[file], folder, drawing))

    cut = write_sheets(job, plan, folder, axle_rests(job), seen)
    step("templates")
    templates = write_templates(job, plan.parts, folder)
    step("solids")
    solids = write_solids(job, plan.parts, folder)
    step("stress analysis")
    found = rating.result()
    step("report")
    nesting = nesting_row(job, plan)
    buying = buying_rows(job, plan, nesting)
    hours = time_plan(job, plan, nesting)
    rated = rating_row(found, job.setting) if found else None
    results = checks_with_advice(job, found)
    checks = check_rows(results)
    made = job_wheelset(job)
    axles = None if made.wheelset is None else wheelset_row(job, made.wheelset)
    written = [*cut.files, *blanks, *(file for file, _ in templates)]
    written += [*dict.fromkeys(row.file for row in solids), *ALWAYS]
    untold = [*made.why_not, *(missing_words(axles) if axles else ())]
    report = Report(
        job=JobRow(name=job.head.name, wheels=job.head.wheels, asked=asked),
        wheel=wheel_row(job),
        parts=part_rows(plan.parts),
        blanks=blank_rows(job, plan.parts),
        gauges=gauge_rows(job),
        sheets=sheets,
        nesting=nesting,
        cutting_lists=length_rows(job, plan),
        buying=buying,
        time_plan=hours,
        cost=wheel_cost(job, buying, hours),
        steps=step_rows(job, nesting, checks, rated, written),
        wheelset=axles,
        templates=[TemplateRow(file=file, pages=pages) for file, pages in templates],
        rating=rated,
        checks=checks,
        warnings=[*notes, *cut.warnings, *cutting_warnings(job, plan), *untold],
    )
    text = report.model_dump_json(indent=2, exclude_none=False)
    (folder / "report.json").write_text(text + "\n", encoding="utf-8")
    step("papers")
    pictures = check_pictures(job, found)
    drawings = drawings_of(job, report, folder, plates, pictures)
    page = job_sheet(job, report, drawings, wheels)
    (folder / "job-sheet.html").write_text(page, encoding="utf-8")
    paper = job_sheet_pdf(job, report, drawings, cut.plates, wheels)
    (folder / "job-sheet.pdf").write_bytes(paper)
    (folder / "standards.pdf").write_bytes(standards_pdf(job))
    stress = "" if found is None else pictures[0][0]
    (folder / "calculation.pdf").write_bytes(calculation_pdf(job, results, found, stress))
    return report


def check_pictures(job: Job, found: Assessment | None) -> list[tuple[str, str]]:
    """Pictures that say what the checks say, each with its caption. Their matrices are small:
    threads of linear algebra would wait for each other."""
    from threadpoolctl import threadpool_limits  # type: ignore[import-untyped]

    with threadpool_limits(limits=1):
        return list(_check_pictures(job, found))


def _check_pictures(job: Job, found: Assessment | None) -> Iterator[tuple[str, str]]:
    if found is not None:
        yield (
            stress_picture(found.response, job.setting),
            "Stress of the section at the design load: worst of all patch places and angles",
        )
        yield (
            ring_picture(found.response, job.setting),
            "The tread ring's bore unrolled from the rail: stress at the design load",
        )
    yield (
        window_picture(job.setting),
        "Flange angle: flatter climbs, steeper grinds; the window between",
    )
