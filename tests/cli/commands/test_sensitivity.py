"""The sensitivity command as a person meets it: table, sentences, JSON, refusals."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import typer
from typer.testing import CliRunner

from platewheel.cli.commands.sensitivity import sensitivity
from platewheel.cli.job.job import read_job
from platewheel.cli.job.wheelset import checks_of
from platewheel.cli.terminal.sensitivity import line_table, sensitivity_table, steps_table, told
from platewheel.parts.base.faults import GeometryError
from platewheel.parts.propose.sensitivity import sensitivity as step_all
from tests.cli.jobs import job_text, write_job
from tests.places import DEMO

app = typer.Typer()
app.command()(sensitivity)


def run(*arguments: str | Path) -> Any:
    return CliRunner().invoke(app, [str(argument) for argument in arguments])


@pytest.fixture
def table(own_folder: Path) -> dict[str, Any]:
    result = run(write_job(own_folder, job_text()), "--json")
    assert result.exit_code == 0, result.stderr
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def test_json_has_every_step_with_its_margins(table: dict[str, Any]) -> None:
    steps = {(step["key"], step["becomes"]): step for step in table["steps"]}
    wider = steps["tread_diameter_mm", 198.0]
    assert wider["was"] == 180.0
    assert wider["follows"] == {"vent_circle_mm": 154.0}  # 18 mm, as the bore
    assert wider["mass_by_kg"] > 0
    assert set(wider["margin_points"])
    assert steps["disc_thickness_mm", 6.0]["was"] == 5.0  # the next plate
    assert table["rated_n"] is None


def test_columns_are_the_tightest_checks_and_each_has_its_sentence(table: dict[str, Any]) -> None:
    tight = table["tightest"]
    assert 6 <= len(tight) <= 8
    for one in tight:
        assert one["helps_most"].startswith(one["title"])
        assert (
            "adds" in one["helps_most"] or "no single step of the wheel helps" in one["helps_most"]
        )


def test_a_person_sees_signs_names_and_what_follows(own_folder: Path) -> None:
    result = run(write_job(own_folder, job_text()))
    assert result.exit_code == 0, result.stderr
    assert "180 -> 198" in result.stdout
    assert "What helps the tightest checks most by the kilogram" in result.stdout
    assert "vent circle follows" in result.stdout
    assert "--rating" in result.stdout
    assert "What you can change of the line" in result.stdout


def test_the_tables_are_read_on_a_screen_of_100_columns() -> None:
    """No word of the columns of checks is broken: the longest name has room in a fifth of it."""
    found = step_all(read_job(DEMO).setting)
    for made in (steps_table(found), line_table(found)):
        assert len(made.columns) <= 7
        words = [word for cells in made.cells("mm") for cell in cells for word in cell.split()]
        assert max(len(word) for word in words) <= 15


def test_a_step_on_the_line_is_asked_of_every_check() -> None:
    """The wheelset's checks too: a heavier load tires the axle."""
    result = run(DEMO, "--json")
    steps = {(s["key"], s["becomes"]): s for s in json.loads(result.stdout)["line_steps"]}
    heavy = steps["wagon.payload_kg", 550.0]
    assert heavy["margin_points"]["axle-fatigue"] < 0
    assert heavy["margin_points"]["joint-push"] < 0
    assert heavy["follows"] == {}


def test_an_impossible_step_is_told_with_its_reason(own_folder: Path) -> None:
    changes = {"wheel.disc_field_inset_mm": "1", "wheel.disc_gauge_inset_mm": "8"}
    job = read_job(write_job(own_folder, job_text(changes)))
    lines = told(step_all(job.setting))
    at = lines.index("No wheel can be made of these steps:")
    assert lines[at + 1].startswith("  disc_field_inset_mm 1 -> -1: ")
    assert "from 0 up to 300" in lines[at + 1]


def test_a_wheel_without_vents_names_what_is_not_stepped(own_folder: Path) -> None:
    job = read_job(write_job(own_folder, job_text({"wheel.vent_count": "0"})))
    found = step_all(job.setting)
    assert "Not stepped: vent_diameter_mm: no vents." in told(found)
    keys = {step["key"] for step in sensitivity_table(found)["steps"]}
    assert "vent_diameter_mm" not in keys


def test_a_refused_file_gives_its_faults(own_folder: Path) -> None:
    result = run(write_job(own_folder, job_text({"wheel.flange_angle_deg": "20"})))
    assert result.exit_code == 2
    assert "wheel.flange_angle_deg: found 20" in result.stderr
    assert result.stdout == ""


def test_a_job_with_an_axle_has_its_checks_too() -> None:
    result = run(DEMO, "--json")
    assert result.exit_code == 0, result.stderr
    steps = {(s["key"], s["becomes"]): s for s in json.loads(result.stdout)["steps"]}
    # a larger wheel tires its axle more: the push turns it by its radius
    assert steps["tread_diameter_mm", 330.0]["margin_points"]["axle-fatigue"] < 0
    assert steps["hub_tube_outside_mm", 62.7]["margin_points"]["key-wall"] > 0


def test_a_step_that_the_axle_does_not_take_is_refused() -> None:
    """Bearings at 640 mm just clear hubs of 70 mm; longer ones would touch them."""
    job = read_job(DEMO)
    near = replace(job, axle=job.axle.model_copy(update={"bearing_centres_mm": 640.0}))
    asked = checks_of(near)
    assert {"axle-fatigue"} <= {one.id for one in asked(near.setting, None)}
    long = near.wheel.model_copy(update={"hub_tube_length_mm": 90.0})
    with pytest.raises(GeometryError, match="bearing_centres_mm"):
        asked(replace(near.setting, wheel=long), None)
    none = replace(job, axle=job.axle.model_copy(update={"bearing_centres_mm": 300.0}))
    assert "axle-fatigue" not in {one.id for one in checks_of(none)(none.setting, None)}
