"""The solids of a job: which files there are, and what stands in their heads."""

from __future__ import annotations

from pathlib import Path

from platewheel.cli.job.job import read_job
from platewheel.cli.output.folder import OURS, require_ours
from platewheel.cli.output.solids import write_solids
from platewheel.parts.wheel.assembly import wheel_parts
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
    files = write_solids(job, wheel_parts(job.wheel), folder, {"stl": 8.0, "3mf": 16.0})
    assert sorted(f"solids/{file.name}" for file in (folder / "solids").iterdir()) == sorted(files)
    made = {"axle", "collar", "bush", "wheel"}
    for end in ("step", "stl", "3mf"):
        assert made <= {Path(file).stem for file in files if file.endswith(end)}
    require_ours(tmp_path / "out", job.head.name, OURS)  # a next build may replace them
    head = (folder / "solids" / "collar.step").read_text().split("ENDSEC;")[0]
    assert f"'{job.head.name}: collar'" in head
    assert "('Marsh & Sons')" in head
