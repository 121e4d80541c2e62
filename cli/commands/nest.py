"""The nest command: lay the job's blanks, or compare flanges in 1 to 4 segments."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from platewheel.cli.job.axles import axle_rests
from platewheel.cli.job.hole_tools import hole_tools
from platewheel.cli.job.job import Job
from platewheel.cli.job.pieces import cut_pieces
from platewheel.cli.job.plan import Plan, lacking, plan_job
from platewheel.cli.job.questions import questions
from platewheel.cli.job.what_fits import settled
from platewheel.cli.output.alone import alone_in
from platewheel.cli.output.folder import require_ours, write_part
from platewheel.cli.output.made_of import OF_PLATES, made_of
from platewheel.cli.output.offcut_use import offcut_notes
from platewheel.cli.output.reserved import require_free, reserved
from platewheel.cli.output.write import SheetsWritten, sheet_files, write_sheets
from platewheel.cli.report.rows import cutting_warnings, length_rows, nesting_row, sheet_rows
from platewheel.cli.terminal.show import show_json, show_sheets, show_table, steps
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Count, Figure
from platewheel.cli.work.stopping import stopped_short
from platewheel.nesting.cutting.cut_time import cutting_work
from platewheel.nesting.cutting.scrap import price_with_cutting, scrap
from platewheel.nesting.search.nest import Effort
from platewheel.nesting.stock.layout import NestingError
from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.so_many import so_many
from platewheel.parts.wheel.flange import seam_weld_m
from platewheel.parts.wheel.spec import WheelSpec

MOST_SEGMENTS = 4


def nest_job(
    job: Job, out: Path, seed: int, effort: Effort, as_json: bool, what_fits: bool = False
) -> list[str]:
    """Lay, show and write; returns warnings. With `what_fits` the whole wheels that the stock
    holds, where it does not hold all. Raises: NotFinished where a blank fits no stock, or the
    folder is not ours; SpecError where another job has an offcut of this one."""
    require_ours(out, job.head.name)
    require_free(job)
    with alone_in(out, job.head.name):
        return _laid_and_written(job, out, seed, effort, as_json, what_fits)


def _laid_and_written(
    job: Job, out: Path, seed: int, effort: Effort, as_json: bool, what_fits: bool
) -> list[str]:
    asked = job
    with steps() as step:
        plan = plan_job(job, seed, step, effort)
        if not what_fits:  # what is laid is shown before it is told what is not
            _show(job, plan, as_json)
        done = settled(job, plan, seed, step, effort, what_fits=what_fits)
        odd = questions(job)  # of what was asked for, not of what fits
        job, plan = done.job, done.plan
    if what_fits:
        _show(job, plan, as_json)
    rests, now = axle_rests(job), made_of(asked, cut_pieces(job, plan))
    with reserved(job, plan) as taken:
        notes = [*done.told, *stopped_short(), *offcut_notes(job, plan.layouts, out), *taken, *odd]

        def write(folder: Path) -> SheetsWritten:
            return write_sheets(job, plan, folder, rests)

        written, stale = write_part(out, job.head.name, write, OF_PLATES, now)
    return [*notes, *stale, *written.warnings, *cutting_warnings(job, plan)]


def _show(job: Job, plan: Plan, as_json: bool) -> None:
    totals = nesting_row(job, plan)
    sheets, lengths = sheet_rows(job, plan, sheet_files(plan)), length_rows(job, plan)
    if as_json:
        show_json(
            {
                "sheets": [row.model_dump() for row in sheets],
                "nesting": totals.model_dump(),
                "cutting_lists": [row.model_dump() for row in lengths],
            }
        )
    else:
        show_sheets(sheets, totals, lengths)


def compare_segments(job: Job, seed: int, effort: Effort, as_json: bool) -> None:
    """Plates, scrap, seam weld and cost for 1 to 4 flange segments, side by side."""
    rows: list[dict[str, Any]] = []
    with steps() as step:
        for segments in range(1, MOST_SEGMENTS + 1):
            step(so_many(segments, "segment"))
            rows.append(_with_segments(job, segments, seed, effort, step))
    if as_json:
        show_json({"segments": rows})
        return
    show_table("Flange segments", _segments(rows))


def _segments(rows: list[dict[str, Any]]) -> Table:
    columns = (
        Column("segments", "segments", Count),
        Column("plates", "plates", Count),
        Column("scrap", "scrap", Figure),
        Column("after", "after offcuts", Figure),
        Column("seams", "flange seams", Figure),
        Column("price", "plates and cutting", Figure),
    )

    def told(value: float | None, unit: str = "") -> Figure | None:
        return None if value is None else Figure(value, unit)

    return table(
        columns,
        (
            {
                "segments": Count(row["segments"]),
                "plates": Name(row["says"]) if row["says"] else Count(row["sheets_used"]),
                "scrap": told(row["scrap_percent"], "%"),
                "after": told(row["scrap_percent_after_offcuts"], "%"),
                "seams": told(row["seam_weld_m"], "m"),
                "price": told(row["price"]),
            }
            for row in rows
        ),
    )


def _with_segments(job: Job, segments: int, seed: int, effort: Effort, step: Any) -> dict[str, Any]:
    row: dict[str, Any] = {
        "segments": segments,
        "sheets_used": None,
        "scrap_percent": None,
        "scrap_percent_after_offcuts": None,
        "seam_weld_m": None,
        "price": None,
        "says": "",
    }
    try:
        wheel = WheelSpec(**(job.wheel.model_dump() | {"flange_segments": segments}))
    except SpecError as error:
        return row | {"says": str(error.faults[0])}
    other = replace(job, wheel=wheel)
    plan = plan_job(other, seed, step, effort)
    lines = lacking(other, plan)
    if lines:
        return row | {"says": lines[0]}
    try:
        totals = nesting_row(other, plan)
    except NestingError as error:  # a kerf in the path that does not go into a hollow
        return row | {"says": str(error)}
    work = cutting_work(plan.layouts, job.cutting, job.cut_speeds, plan.kept, hole_tools(job))
    return row | {
        "sheets_used": totals.sheets_used,
        "scrap_percent": totals.scrap_percent,
        "scrap_percent_after_offcuts": totals.scrap_percent_after_offcuts,
        "seam_weld_m": seam_weld_m(wheel, job.head.wheels),
        "price": price_with_cutting(scrap(plan.layouts, plan.kept), work),
    }
