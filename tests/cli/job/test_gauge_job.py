"""Gauges in a job: refused by key, laid, drawn, told and priced as other blanks are."""

from __future__ import annotations

import json
import re
import tomllib
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from platewheel.cli.compare.run import differing_keys
from platewheel.cli.job.blanks import job_blanks
from platewheel.cli.job.job import Job, job_of
from platewheel.cli.job.plan import lacking, plan_job
from platewheel.cli.money.buying import cutting_share
from platewheel.cli.output.write import write_blanks
from platewheel.cli.papers.sheet.gauges import gauges_table
from platewheel.cli.refit.job import refit_job
from platewheel.cli.report.gauge_rows import gauge_rows
from platewheel.cli.report.rows import blank_rows
from platewheel.nesting.drawings.read import read_outline
from platewheel.parts.gauges.spec import KINDS, GaugesSpec
from platewheel.parts.wheel.assembly import wheel_parts
from tests.cli.jobs import ROWS, job_text, refused, run, write_job

ALL = {f"gauges.{kind}": "true" for kind in KINDS} | {"gauges.thickness_mm": "5"}
TRACK = {"track.check_rail_flangeway_mm": "13", "track.flangeway_mm": "20"}


def gauge_job(changes: dict[str, str] | None = None, rows: str = ROWS) -> Job:
    return job_of(tomllib.loads(job_text(ALL | TRACK | (changes or {}), rows=rows)))


def test_a_job_without_the_section_has_none() -> None:
    job = job_of(tomllib.loads(job_text()))
    assert job.made_gauges == ()
    assert gauge_rows(job) == []
    assert all(one.blank.kind != "gauge" for one in job_blanks(job, wheel_parts(job.wheel)))


@pytest.mark.usefixtures("own_folder")
def test_a_thickness_that_is_not_in_stock_is_told_with_those_that_are() -> None:
    rows = ROWS + '[[offcut]]\nname = "lid"\nthickness_mm = 3\noutline = [[0,0],[9,0],[9,9]]\n'
    line = refused(job_text(ALL | TRACK | {"gauges.thickness_mm": "4"}, rows=rows))
    found = line["gauges.thickness_mm"]
    assert found["found"] == "4.0"
    assert found["allowed"] == "a thickness of S235 in stock: 3, 5, 6"
    assert found["advice"] == "thickness_mm = 3"
    line = refused(job_text(TRACK | {"gauges.track": "true"}))
    assert line["gauges.thickness_mm"]["found"] == "nothing"
    line = refused(job_text(ALL | TRACK | {"gauges.steel": '"S355"'}))
    assert line["gauges.thickness_mm"]["allowed"] == "a thickness of S355 in stock: there is none"
    assert "[[stock]] of S355" in line["gauges.thickness_mm"]["advice"]


@pytest.mark.usefixtures("own_folder")
def test_a_section_that_asks_for_no_gauge_is_refused() -> None:
    assert set(refused(job_text({"gauges.number": "2"}))) == {"gauges.number"}
    assert set(refused(job_text(head="[gauges]"))) == {"gauges"}
    keys = refused(job_text({"gauges.track": "false", "gauges.thickness_mm": "5"}))
    assert keys["gauges.thickness_mm"]["allowed"] == "nothing while no gauge is asked for"
    asked = refused(job_text({"gauges.tracks": "true"}))
    assert "track" in asked["gauges.tracks"]["advice"]


@pytest.mark.usefixtures("own_folder")
def test_what_cannot_be_made_is_refused_with_all_other_faults() -> None:
    bad = {
        "track.gauge_tolerance_mm": "[0, 0]",
        "use.wear_allowance_mm": "0",
        "axle.back_to_back_tolerance_mm": "[0, 0]",
        "track.flangeway_mm": "60",
        "gauges.thickness_mm": "7",
    }
    keys = refused(job_text(ALL | TRACK | bad))
    assert {f"gauges.{key}" for key in (*KINDS, "thickness_mm")} - set(keys) == {"gauges.flange"}
    assert keys["gauges.flangeway"]["found"] == "True"


@pytest.mark.usefixtures("own_folder")
def test_what_lays_no_gauges_takes_a_job_whose_gauges_cannot_be_made() -> None:
    """It is told by the check, in the words of the refusal, and by nothing else."""
    bad = {"use.wear_allowance_mm": "0", "gauges.thickness_mm": "7"}
    path = write_job(Path(), job_text(ALL | TRACK | bad))
    told = run("check", path, "--quick")
    lines = [line for line in told.stderr.splitlines() if ": gauges." in line]
    assert told.exit_code in (0, 1)
    assert run("rings", path).exit_code == 0
    assert run("standards", path, "--json").exit_code == 0
    for command in (("build",), ("nest",), ("templates",)):
        result = run(*command, path)
        assert result.exit_code == 2
        assert {*lines} <= {*result.stderr.splitlines()}
    assert [line.split(": ")[1] for line in lines] == ["gauges.thickness_mm", "gauges.wear"]
    compared = run("compare", path, path, "--quick")
    assert compared.exit_code == 2
    assert "gauges.wear" in compared.stderr


@pytest.mark.usefixtures("own_folder")
def test_a_part_of_the_users_own_may_not_have_a_gauges_name() -> None:
    row = '[[extra]]\nname = "gauge-track"\nfile = "x.dxf"\nthickness_mm = 5\ncount = 1\n'
    keys = refused(job_text(rows=ROWS + row))
    assert "none of the wheel's parts" in keys["extra[0].name"]["allowed"]


def test_each_drawing_reads_back_as_the_gauge(tmp_path: Path) -> None:
    job = gauge_job({"gauges.number": "3"})
    parts = wheel_parts(job.wheel)
    files = write_blanks(job, parts, tmp_path)
    blanks = [one for one in job_blanks(job, parts) if one.blank.kind == "gauge"]
    rows = {row.name: row for row in blank_rows(job, parts)}
    assert len(blanks) == 6
    for one, told in zip(blanks, gauge_rows(job), strict=True):
        row = rows[one.blank.name]
        assert (row.kind, row.count, row.steel, row.thickness_mm) == ("gauge", 3, "S235", 5.0)
        assert row.file == told.file
        assert row.file in files
        back = read_outline(tmp_path / row.file)
        _, _, length, width = one.blank.bounds
        assert row.area_mm2 == pytest.approx(one.blank.area_mm2)
        assert (row.length_mm, row.width_mm) == (
            pytest.approx(length - one.blank.bounds[0]),
            pytest.approx(width - one.blank.bounds[1]),
        )
        assert _area(back.outline) == pytest.approx(one.blank.area_mm2)
        assert back.holes == ()
        assert {mark.text for mark in back.marks if hasattr(mark, "text")} <= {
            mark.text for mark in one.blank.marks if hasattr(mark, "text")
        }


def _area(loop: object) -> float:
    from platewheel.parts.geometry.outline import area_mm2

    return area_mm2(loop)  # type: ignore[arg-type]


def test_gauges_are_laid_with_the_wheels_parts_and_are_not_in_their_cost() -> None:
    job = gauge_job()
    plan = plan_job(job, 0, lambda text: None, "quick")
    assert lacking(job, plan) == []
    laid = [p.blank.name for one in plan.layouts for p in one.placements for _ in range(one.repeat)]
    assert [laid.count(gauge.blank.name) for gauge in job.made_gauges] == [1] * 6
    bare = plan_job(replace(job, gauges=GaugesSpec()), 0, lambda text: None, "quick")
    assert cutting_share(bare.layouts) == 1
    own = sum(gauge.blank.area_mm2 for gauge in job.made_gauges)
    area = sum(one.parts_area_mm2 * one.repeat for one in plan.layouts)
    assert cutting_share(plan.layouts) == pytest.approx(1 - own / area)


def test_a_gauge_longer_than_any_plate_is_told_as_other_parts_are() -> None:
    rows = ROWS.replace("length_mm = 500", "length_mm = 400")
    track = {"gauges.track": "true", "gauges.thickness_mm": "5"}
    job = job_of(tomllib.loads(job_text(track | TRACK, rows=rows)))
    (line,) = lacking(job, plan_job(job, 0, lambda text: None, "quick"))
    assert re.match(r"gauge-track: 1 fit no stock: 5 mm S235, 4\d\d\.\d x .*; stock: ", line)


def test_the_sheet_says_how_each_is_used() -> None:
    table = gauges_table(gauge_rows(gauge_job({"gauges.number": "2"})))
    rows = list(table.cells("mm"))
    assert [row[0] for row in rows] == ["1", "2", "3", "4", "5", "6"]
    assert rows[2][3] == "flange angle 65.0 deg, flange depth 12.00 mm"
    assert "(12.00 mm)" in list(table.cells("inch"))[2][3]
    assert all(row[2] == "2" and row[4].endswith(".") for row in rows)


def test_a_refit_cuts_none_and_a_comparison_tells_them() -> None:
    job = gauge_job()
    assert refit_job(job).made_gauges == ()
    keys = [row.key for row in differing_keys(refit_job(job), job)]
    assert "gauges.track" in keys


@pytest.mark.usefixtures("own_folder")
def test_templates_have_them_and_may_be_made_again() -> None:
    path = write_job(Path(), job_text(ALL | TRACK))
    for _ in range(2):
        result = run("templates", path, "--json")
        assert result.exit_code == 0, result.stderr
    made = [row["file"] for row in json.loads(result.stdout)["templates"]]
    assert "templates/gauge-track.pdf" in made
    home = next(Path("out").iterdir())
    page = pypdf.PdfReader(home / "templates" / "gauge-track.pdf").pages[0].extract_text()
    assert "gauge-track, cut 1 off, 5 mm plate" in page
