"""The compare command: what differs between two jobs, and which is better where."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import typer
from typer.testing import CliRunner

from platewheel.cli.commands.compare import compare
from platewheel.cli.compare.run import Comparison, better_of, compare_jobs, differing_keys
from platewheel.cli.job.job import Job, read_job
from platewheel.cli.job.plan import Plan, plan_job
from platewheel.cli.terminal.compare import comparison_table, conclusions
from platewheel.parts.rating.assess import Assessment, assess
from platewheel.parts.setting.setting import Setting
from tests.cli.jobs import LINE, ROWS, TOO_SMALL, job_text, write_job

app = typer.Typer()
app.command()(compare)
PRICED = ROWS.replace("thickness_mm = 5", "price = 30\nthickness_mm = 5").replace(
    "thickness_mm = 6", "price = 20\nthickness_mm = 6"
)


def run(*arguments: str | Path) -> Any:
    return CliRunner().invoke(app, [str(argument) for argument in arguments])


@cache
def coarse(setting: Setting) -> Assessment | None:
    return assess(setting, size_mm=12.0)


@cache
def plan_once(job: Job) -> Plan:
    return plan_job(job, 0, lambda text: None, "quick")


@pytest.fixture(autouse=True)
def lay_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same job is laid once for all tests here; laying has tests of its own."""
    monkeypatch.setattr("platewheel.cli.compare.run.plan_job", lambda job, *rest: plan_once(job))


def job(folder: Path, changes: dict[str, str] | None = None, rows: str = ROWS) -> Job:
    return read_job(write_job(folder, job_text(changes, rows=rows)))


def compared(a: Job, b: Job, *, rated: bool = False) -> Comparison:
    return compare_jobs(a, b, lambda text: None, coarse if rated else None)


def figures(found: Comparison) -> dict[str, tuple[float | None, float | None, str]]:
    return {row.name: (row.a, row.b, row.better) for row in found.figures}


@pytest.mark.parametrize(
    ("a", "b", "least", "better"),
    [
        (1.0, 2.0, False, "B"),
        (1.0, 2.0, True, "A"),
        (2.0, 1.0, True, "B"),
        (-5.0, -4.0, False, "B"),
        (1.0, 1.0 + 1e-9, False, ""),
        (0.0, 0.0, True, ""),
        (None, 2.0, False, ""),
    ],
)
def test_better_is_more_or_less_as_asked(
    a: float | None, b: float | None, least: bool, better: str
) -> None:
    assert better_of(a, b, least=least) == better


def test_a_job_beside_itself_differs_in_nothing(own_folder: Path) -> None:
    same = job(own_folder)
    found = compared(same, same)
    assert (found.keys, found.checks) == ([], [])
    assert {row.better for row in found.figures} == {""}
    assert conclusions(found)[0] == "Neither job is better in any figure or verdict."


def test_keys_that_differ_are_told_with_defaults_and_rows(own_folder: Path) -> None:
    more = "\n[[stock]]\nthickness_mm = 8\nwidth_mm = 500\nlength_mm = 500\n"
    changes = {"wheel.flange_depth_mm": "14", "finish.site": '"coast"'}
    keys = {
        row.key: (row.a, row.b)
        for row in differing_keys(job(own_folder), job(own_folder, changes, PRICED + more))
    }
    assert keys.pop("stock[2]")[0] is None
    assert keys.pop("finish.site")[1] == "coast"  # a default on the other side
    assert keys == {
        "wheel.flange_depth_mm": (12.0, 14.0),
        "stock[0].price": (0.0, 30.0),
        "stock[1].price": (0.0, 20.0),
    }


def test_a_heavier_stronger_wheel_is_praised_for_its_load_alone(own_folder: Path) -> None:
    """Root bead, wall and discs all thicker: what carries more also weighs more."""
    sheets = ROWS.replace("thickness_mm = 5", "thickness_mm = 6") + ROWS
    strong = {"wheel.disc_thickness_mm": "6", "wheel.weld_throat_mm": "4"}
    strong["wheel.seam"] = '"dressed"'
    strong["use.wear_allowance_mm"] = "0"
    found = compared(
        job(own_folder, {"use.wear_allowance_mm": "0"}),  # no second analysis, of the worn wheel
        job(own_folder, strong, sheets),
        rated=True,
    )
    seen = figures(found)
    assert seen["mass of a wheel"][2] == "A"
    assert seen["mean wheel load borne"][2] == "B"
    assert seen["payload a wagon may carry"][2] == "B"
    lines = conclusions(found)
    assert lines[0].startswith("A is better in: mass of a wheel")
    assert lines[1].startswith("B is better in: mean wheel load borne")
    assert any(pair.id == "rating-new" and pair.better == "B" for pair in found.checks)


def test_checks_differ_by_verdict_first(own_folder: Path) -> None:
    """A flange of 45 degrees is flatter than a groove can be welded (EN 1993-1-8, 4.3.2.1: 60)."""
    found = compared(job(own_folder), job(own_folder, {"wheel.flange_angle_deg": "50"}))
    groove = next(pair for pair in found.checks if pair.id == "root-groove")
    assert groove.a
    assert groove.b
    assert groove.a.verdict == "pass"
    assert groove.b.verdict != "pass"
    assert groove.better == "A"
    assert "Angle of the groove" in conclusions(found)[0]


def test_totals_of_unlike_numbers_of_wheels_are_not_judged(own_folder: Path) -> None:
    found = compared(job(own_folder), job(own_folder, {"job.wheels": "1"}))
    assert figures(found)["plates, all wheels"][2] == ""
    assert any(line.startswith("Not as many wheels") for line in conclusions(found))


def test_costs_that_leave_out_other_parts_are_not_judged(own_folder: Path) -> None:
    found = compared(job(own_folder), job(own_folder, rows=PRICED))
    assert figures(found)["cost of a wheel"][2] == ""
    dear = PRICED.replace("30", "40")
    seen = figures(compared(job(own_folder, rows=PRICED), job(own_folder, rows=dear)))
    a, b, better = seen["cost of a wheel"]
    assert a is not None
    assert b is not None
    assert b - a == pytest.approx(10 / 2)  # one sheet, two wheels
    assert better == "A"


def test_the_command_shows_tables_and_json(own_folder: Path) -> None:
    a = write_job(own_folder, job_text(), "a.toml")
    b = write_job(own_folder, job_text({"wheel.flange_depth_mm": "14"}), "b.toml")
    told = run(a, b, "--quick")
    assert told.exit_code == 0, told.stderr
    for words in ("wheel.flange_depth_mm", "mass of a wheel", "A is better in", "Not rated."):
        assert words in told.stdout
    found = json.loads(run(a, b, "--quick", "--json").stdout)
    assert found["keys"] == [{"key": "wheel.flange_depth_mm", "A": 12.0, "B": 14.0}]
    assert {row["name"] for row in found["figures"]} >= {"scrap", "cost of a wheel"}


def test_faults_of_both_files_are_told_at_once_by_name(own_folder: Path) -> None:
    a = write_job(own_folder, job_text({"wheel.flange_angle_deg": "20"}), "a.toml")
    b = write_job(own_folder, job_text({"track.gauge_mm": '"wide"'}), "b.toml")
    result = run(a, b, own_folder / "b.toml", "--quick")
    assert result.exit_code == 2  # three files: a usage error
    result = run(a, b, "--quick")
    assert result.exit_code == 2
    assert result.stdout == ""
    lines = [LINE.match(line) for line in result.stderr.splitlines()]
    assert [line["key"] for line in lines if line] == [
        f"{a}: wheel.flange_angle_deg",
        f"{b}: track.gauge_mm",
    ]


def test_a_file_given_twice_tells_its_faults_once(own_folder: Path) -> None:
    """A list that is wrong, too."""
    rows = (
        '[[offcut]]\nname = "bow"\nthickness_mm = 5\noutline = [[0, 0], [90, 0], [0, 90], [90, 90]]'
    )
    a = write_job(own_folder, job_text(rows=rows))
    result = run(a, a, "--quick")
    assert result.exit_code == 2
    (line,) = result.stderr.splitlines()
    assert "offcut[0].outline: found [[0.0, 0.0], " in line


def test_a_missing_file_is_named_once(own_folder: Path) -> None:
    result = run("gone.toml", "gone.toml")
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 1
    assert result.stderr.startswith("gone.toml: found 'No such file")


def test_stock_that_falls_short_leaves_the_rest_compared(own_folder: Path) -> None:
    a = write_job(own_folder, job_text(), "a.toml")
    b = write_job(own_folder, job_text(rows=TOO_SMALL), "b.toml")
    result = run(a, b, "--quick")
    assert result.exit_code == 3
    assert "mass of a wheel" in result.stdout
    assert "B has neither plates nor cost" in result.stdout
    assert result.stderr.startswith(f"{b}: ")
    found = comparison_table(compared(read_job(a), read_job(b)))
    assert found["jobs"]["B"]["short"]
