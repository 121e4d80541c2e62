"""The command for the calculation alone."""

from __future__ import annotations

from pathlib import Path

from tests.cli.jobs import job_text, run, write_job


def test_the_calculation_is_written_whole_and_over_nothing(own_folder: Path) -> None:
    write_job(own_folder, job_text({}))
    result = run("calculation", "job.toml", "--quick")
    assert (result.exit_code, result.stdout) == (0, "calculation.pdf\n")
    file = own_folder / "calculation.pdf"
    assert file.read_bytes().startswith(b"%PDF")
    file.write_text("mine")
    refused = run("calculation", "job.toml", "--quick")
    assert refused.exit_code != 0
    assert "calculation.pdf" in refused.stderr
    assert file.read_text() == "mine"
    assert sorted(path.name for path in own_folder.iterdir()) == ["calculation.pdf", "job.toml"]
