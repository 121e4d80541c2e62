"""The solids of a job: which files there are, and what stands in their heads."""

from __future__ import annotations

from pathlib import Path

import pytest

from platewheel.cli.job.job import read_job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.output.folder import OURS, require_ours
from platewheel.cli.output.solids import write_solids
from platewheel.cli.words.files import solids_table
from platewheel.parts.wheel.assembly import wheel_mass_kg, wheel_parts
from platewheel.parts.wheelset.bodies.axle import axle_kg
from tests.cli.jobs import job_text, write_job

COLLARED = {
    "axle.wheels_on_axle": '"loose"',
    "axle.bearing": '"bush"',
    "job.author": '"Marsh & Sons"',
}


def test_a_loose_wheelset_with_models_to_print(tmp_path: Path) -> None:
    job = read_job(write_job(tmp_path, job_text(COLLARED)))
    folder = tmp_path / "out" / job.head.name
    folder.mkdir(parents=True)
    rows = write_solids(job, wheel_parts(job.wheel), folder, {"stl": 8.0, "3mf": 16.0})
    files = {row.file for row in rows}
    assert {f"solids/{file.name}" for file in (folder / "solids").iterdir()} == files
    made = {"axle", "collar", "bush", "wheel"}
    for end in ("step", "stl", "3mf"):
        assert made <= {Path(file).stem for file in files if file.endswith(end)}
    require_ours(tmp_path / "out", job.head.name, OURS)  # a next build may replace them
    by_name = {row.name: row for row in rows if row.file == f"solids/{row.name}.step"}
    wheel, axle = by_name["wheel"], by_name["axle"]
    assert wheel.mass_kg == pytest.approx(wheel_mass_kg(job.wheel), rel=5e-3)  # as welded
    assert axle.mass_kg == pytest.approx(axle_kg(job.setting, job_wheelset(job).wheelset), rel=1e-6)
    assert (by_name["collar"].count, by_name["collar"].within) == (2, "an axle")
    assert by_name["bush"].mass_kg is by_name["wheelset"].mass_kg is None  # of no steel
    told = {row.name: row for row in rows}
    assert told["rail"].reference
    assert (told["rail"].volume_mm3, told["rail"].count) == (None, 2)
    assert told["axle, model 1:8"].volume_mm3 == pytest.approx(axle.volume_mm3 / 512)
    assert told["axle, model 1:16"].file == "solids/axle.3mf"
    cells = {line[0]: line for line in solids_table(rows).cells("mm")}
    assert cells["rail"] == ["rail", "2", "", "for reference", "solids/wheelset.step"]
    assert cells["disc"][1] == "2 a wheel"
    head = (folder / "solids" / "collar.step").read_text().split("ENDSEC;")[0]
    assert f"'{job.head.name}: collar'" in head
    assert "('Marsh & Sons')" in head
