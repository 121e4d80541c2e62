"""What a step names is there: each file of every step is written, for machine and for hand."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from platewheel.cli.job.job import Job, job_of, read_job
from platewheel.cli.job.plan import plan_job
from platewheel.cli.output.build import ALWAYS
from platewheel.cli.output.solids import write_solids
from platewheel.cli.output.write import write_blanks, write_sheets, write_templates
from platewheel.cli.report.rows import nesting_row
from platewheel.cli.report.steps import step_rows
from platewheel.cli.schema.shop import StepRow
from tests.cli.jobs import ROWS, job_text
from tests.places import ROOT

HAND = {
    "cutting.process": '"hand"',
    "axle.retention": '"weld"',
    "shop.lathe": "false",
    "gauges.thickness_mm": "5",
    "gauges.back_to_back": "true",
    "gauges.flange": "true",
}


def demo() -> Job:
    """One wheel of it: files of the same names."""
    job = read_job(ROOT / "cli" / "job" / "demo.toml")
    return replace(job, head=job.head.model_copy(update={"wheels": 1}))


def hand() -> Job:
    return job_of(tomllib.loads(job_text(HAND, rows=ROWS.replace("500", "2500"))))


def steps_written(job: Job, folder: Path) -> list[StepRow]:
    """The steps, told of the files that are written into the folder, as a build tells them; solids
    are written for the smaller job alone, they take long."""
    plan = plan_job(job, 0, lambda _: None, "quick")
    blanks = write_blanks(job, plan.parts, folder)
    sheets = write_sheets(job, plan, folder).files
    templates = [file for file, _ in write_templates(job, plan.parts, folder)]
    by_hand = job.cutting.process == "hand"
    rows = write_solids(job, plan.parts, folder) if by_hand else []
    solids = dict.fromkeys(row.file for row in rows)
    written = [*sheets, *blanks, *templates, *solids, *ALWAYS]
    return step_rows(job, nesting_row(job, plan), [], None, written)


@pytest.mark.parametrize("name", ["demo", "hand"])
def test_each_file_of_a_step_is_written(name: str, tmp_path: Path) -> None:
    job = demo() if name == "demo" else hand()
    steps = {step.id: step for step in steps_written(job, tmp_path)}
    for step in steps.values():
        for file in step.uses:
            assert (tmp_path / file).is_file() or file in ALWAYS, (step.id, file)
    papers = {f"templates/{one}.pdf" for one in ("plywood-ring", "plywood-flange", "small-parts")}
    for step, said in (("roll", "plywood-ring"), ("flange", "plywood-flange")):
        assert papers & set(steps[step].uses), step
        assert any(said in line for line in steps[step].do), step
    assert "job-sheet.pdf" in steps["buy"].uses  # the paper to print
    cut = steps["cut"].uses
    if name == "demo":
        assert {"sheets/6mm-1.dxf", "sheets/8mm-1.dxf", "blanks/disc.dxf"} <= set(cut)
        assert not any(file.startswith("templates") for file in cut)
        assert "sheets/6mm-1.dxf" not in steps["flange"].uses  # the flange is of 8 mm
    else:
        assert any(file.startswith("templates/") for file in cut)
        assert not any(file.startswith("sheets/") for file in cut)
        assert "blanks/gauge-back-to-back.dxf" in steps["gauge"].uses
        assert "blanks/gauge-flange.dxf" in steps["flange"].uses
        assert "blanks/gauge-flange.dxf" in steps["strip"].uses
