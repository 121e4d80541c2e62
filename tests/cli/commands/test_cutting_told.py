"""What the report, the tables and the refusals say of the cutting: time, holes, webs, charts."""

from __future__ import annotations

import json
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.job.job import Job, job_of
from platewheel.cli.job.plan import Plan, plan_job
from platewheel.cli.money.time_plan import time_plan
from platewheel.cli.report.rows import cutting_warnings, nesting_row
from platewheel.cli.schema.report import NestingRow
from platewheel.cli.words.figures import over_words
from platewheel.nesting.stock.layout import NestingError
from platewheel.nesting.stock.small_holes import without_small_holes
from tests.cli.jobs import ROWS, job_text, refused, run, write_job

pytestmark = pytest.mark.usefixtures("own_folder")

CHART = """
[[cut_speed]]
thickness_mm = 4
speed_mm_per_min = 3000
pierce_s = 0.4
[[cut_speed]]
thickness_mm = 6
speed_mm_per_min = 2000
pierce_s = 0.8
"""


def nested(changes: dict[str, str], rows: str = ROWS) -> tuple[dict[str, Any], str]:
    """JSON of `nest`, and its warnings."""
    job = write_job(Path(), job_text(changes, rows=rows))
    result = run("nest", job, "--effort", "quick", "--json")
    assert result.exit_code == 0, result.stderr
    return json.loads(result.stdout), result.stderr


def test_time_of_each_plate_by_the_chart_and_the_sums() -> None:
    """Discs of 5 mm, half way between the rows: 2500 mm/min, 0.6 s; flanges and treads of 6 mm
    (5 mm flanges too) by their own."""
    told, warnings = nested(
        {"cutting.rapid_mm_per_min": "8000", "cutting.price_per_h": "50"}, ROWS + CHART
    )
    pace = {5.0: (2500.0, 0.6), 6.0: (2000.0, 0.8)}
    assert {sheet["thickness_mm"] for sheet in told["sheets"]} == set(pace)
    for sheet in told["sheets"]:
        speed, pierce_s = pace[sheet["thickness_mm"]]
        minutes = (
            sheet["cut_length_mm"] / speed
            + sheet["pierces"] * pierce_s / 60
            + sheet["rapid_length_mm"] / 8000
        )
        assert sheet["cutting_minutes"] == pytest.approx(minutes)
    nesting = told["nesting"]
    for key in ("cut_length_mm", "pierces", "rapid_length_mm"):
        total = sum(sheet["repeat"] * sheet[key] for sheet in told["sheets"])
        assert nesting[key] == pytest.approx(total)
    hours = sum(sheet["repeat"] * sheet["cutting_minutes"] for sheet in told["sheets"]) / 60
    assert nesting["cutting_hours"] == pytest.approx(hours)
    assert nesting["cutting_price"] == pytest.approx(50 * hours)

    # each part's kerf lies beside its own edge: 6 mm less two kerfs, 10 mm less one
    assert nesting["web_mm"] == pytest.approx(6 - 2 * 1.7)
    assert nesting["edge_web_mm"] == pytest.approx(10 - 1.7)
    # vents of 16 mm and hub holes of 42 mm in 5 mm plate: plasma cuts 7.5 mm and more
    assert nesting["centre_marked_holes"] == []
    assert "to drill" not in warnings


HOLE_ROW = """
[[cut_speed]]
thickness_mm = 6
hole_up_to_mm = 37
speed_mm_per_min = 1300
pierce_s = 0.9
"""


def test_rows_for_holes_make_the_cutting_dearer_and_the_report_says_so() -> None:
    """Vents of 16 mm in discs of 6 mm."""
    six = {"wheel.disc_thickness_mm": "6", "cutting.price_per_h": "50"}
    rows = ROWS.replace("width_mm = 150", "width_mm = 400")
    plain, _ = nested(six, rows + CHART)
    holed, _ = nested(six, rows + CHART + HOLE_ROW)
    assert holed["nesting"]["cutting_price"] > 1.005 * plain["nesting"]["cutting_price"]
    assert holed["nesting"]["cut_length_mm"] == plain["nesting"]["cut_length_mm"]
    job = job_of(tomllib.loads(job_text(six, rows=rows + CHART + HOLE_ROW)))
    plan = plan_job(job, 0, lambda text: None, "quick")
    (row,) = (w for w in time_plan(job, plan, nesting_row(job, plan)).works if "cutting" in w.work)
    assert "slower in round holes" in row.rate
    bad = CHART + HOLE_ROW.replace("= 1300", "= 2300")
    assert set(refused(job_text(six, rows=rows + bad))) == {"cut_speed[2].speed_mm_per_min"}


def test_a_chart_that_does_not_reach_is_refused() -> None:
    """The tread is 6 mm thick, the chart ends at 4."""
    thin = CHART.split("[[cut_speed]]")[1]
    found = refused(job_text(rows=f"{ROWS}[[cut_speed]]{thin}"))
    assert set(found) == {"cut_speed"}
    assert "no speed for" in found["cut_speed"]["found"]
    assert "4 mm alone" in found["cut_speed"]["allowed"]
    assert "thickness_mm = " in found["cut_speed"]["advice"]


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"cutting.cut_speed_mm_per_min": "2000"}, "cutting.cut_speed_mm_per_min"),
        ({"cutting.current_a": "45"}, "cutting.current_a"),
        ({"cutting.process": '"laser"'}, "cut_speed"),
    ],
)
def test_keys_that_contradict_the_chart_are_refused(changes: dict[str, str], key: str) -> None:
    assert set(refused(job_text(changes, rows=ROWS + CHART))) == {key}


def test_a_bad_row_is_refused_by_its_place() -> None:
    bad = CHART.replace("speed_mm_per_min = 2000", "speed_mm_per_min = 0")
    assert set(refused(job_text(rows=ROWS + bad))) == {"cut_speed[1].speed_mm_per_min"}


def test_the_steel_between_two_kerfs_is_told_in_a_sentence() -> None:
    write_job(Path(), job_text({"cutting.kerf_mm": "1.5"}))
    result = run("nest", "job.toml", "--effort", "quick")
    assert "Between the kerfs of two neighbours 3.0 mm of steel stand; 8.5 mm" in result.stdout
    assert "kerf" not in result.stderr


def test_travel_over_parts_already_cut_is_told_of_each_plate() -> None:
    job = write_job(Path(), job_text())
    rows = json.loads(run("nest", job, "--effort", "quick", "--json").stdout)["sheets"]
    over = {row["file"]: row["travels_over_cut_parts"] for row in rows}
    said = run("nest", job, "--effort", "quick").stdout
    assert any(over.values())
    for file, count in over.items():
        assert (f"{file}: {over_words(count)}" in said) == bool(count)
    held = write_job(Path(), job_text({"cutting.tab_count": "2"}))
    rows = json.loads(run("nest", held, "--effort", "quick", "--json").stdout)["sheets"]
    assert not any(row["travels_over_cut_parts"] for row in rows)
    assert over_words(0) == ""
    assert over_words(1).startswith("1 travel crosses parts already cut")


def test_kerfs_that_run_into_one_are_a_warning() -> None:
    told, warnings = nested({"cutting.kerf_mm": "1.5", "cutting.part_spacing_mm": "2.6"})
    assert told["nesting"]["web_mm"] == pytest.approx(-0.4)
    assert "run into one" in warnings
    assert "part_spacing_mm = 4 or more" in warnings


def test_holes_laid_as_centres_are_told() -> None:
    """Vents of 16 mm where 20 is the least, marked on the plates, in the report and in words."""
    job = job_of(tomllib.loads(job_text({"cutting.least_hole_mm": "20"})))
    plan = plan_job(job, 0, lambda text: None, "quick")
    layouts = tuple(
        replace(
            layout,
            placements=tuple(
                replace(p, blank=without_small_holes(p.blank, job.cutting))
                for p in layout.placements
            ),
        )
        for layout in plan.layouts
    )
    plan = replace(plan, nest=replace(plan.nest, layouts=layouts))
    vents = job.wheel.vent_count
    (row,) = nesting_row(job, plan).centre_marked_holes
    assert (row.blank, row.count, row.least_mm) == ("disc", vents, 20)
    assert row.diameter_mm == job.wheel.vent_diameter_mm
    (line,) = cutting_warnings(job, plan)
    assert line.startswith(f"disc: the {vents} holes of {row.diameter_mm:g} mm")


def test_segments_that_the_kerf_does_not_go_into_are_told_in_their_row(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One count that cannot be cut does not end the comparison of the others."""

    def too_narrow(job: Job, plan: Plan) -> NestingRow:
        if job.wheel.flange_segments == 2:
            raise NestingError("the mouth is narrower than the kerf")
        return nesting_row(job, plan)

    text = job_text({"job.wheels": "1"})
    laid = plan_job(job_of(tomllib.loads(text)), 0, lambda told: None, "quick")
    monkeypatch.setattr(
        "platewheel.cli.commands.nest.plan_job", lambda *about: laid
    )  # one plan does for all
    monkeypatch.setattr("platewheel.cli.commands.nest.nesting_row", too_narrow)
    monkeypatch.setattr("platewheel.cli.commands.nest.MOST_SEGMENTS", 3)
    job = write_job(Path(), text)
    result = run("nest", job, "--segments", "all", "--effort", "quick", "--json")
    assert result.exit_code == 0, result.stderr
    one, two, three = json.loads(result.stdout)["segments"]
    assert (one["says"], three["says"]) == ("", "")
    assert "kerf" in two["says"]
    assert two["sheets_used"] is None


def test_lines_that_strips_share_are_told_in_metres() -> None:
    """Without the key nothing is; with it a line, beside less cut by leads and shared lines."""
    treads = {"wheel.tread_from": '"sheet"', "cutting.kerf_in_path": "true"}
    made = []
    for more in ({}, {"cutting.common_lines": "true"}):
        job = job_of(tomllib.loads(job_text(treads | more)))
        plan = plan_job(job, 0, lambda text: None, "quick")
        lines = [line for line in cutting_warnings(job, plan) if line.startswith("common lines")]
        made.append((lines, nesting_row(job, plan), plan.tread_length_mm, job))
    (none, apart, _, _), (lines, once, length, job) = made
    assert none == []
    count = int(lines[0].split()[2])
    assert 0 < count < job.head.wheels
    assert lines == [
        f"common lines: {count} shared by two parts, {count * length / 1000:.1f} m of cut saved"
    ]
    saved = count * (length + job.cutting.lead_in_mm)
    assert apart.cut_length_mm - once.cut_length_mm == pytest.approx(saved, abs=1.0)
    assert once.pierces == apart.pierces
