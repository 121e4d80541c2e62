"""`nest --segments all` and `--effort`: side by side, and the same effort the same files."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest

from tests.cli.jobs import job_text, run, write_job


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    return write_job(tmp_path, job_text())


def test_segments_side_by_side(job: str) -> None:
    result = run("nest", job, "--segments", "all", "--effort", "quick", "--json")
    assert result.exit_code == 0
    rows = json.loads(result.stdout)["segments"]
    assert [row["segments"] for row in rows] == [1, 2, 3, 4]
    slant_m = (
        12 / math.sin(math.radians(65)) / 1000
    )  # the small job: depth 12, 65 degrees, 2 wheels
    for row in rows:
        assert row["says"] or row["seam_weld_m"] == pytest.approx(2 * row["segments"] * slant_m)
    assert not Path("out").exists()  # a comparison writes nothing


def test_segments_as_a_table(job: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def row(_: object, segments: int, *rest: object) -> dict[str, object]:
        known = {"sheets_used": 10 + segments, "seam_weld_m": 0.25, "price": None}
        known |= {"scrap_percent": 40.0 + segments, "scrap_percent_after_offcuts": 30.0}
        return {"segments": segments, "says": "" if segments < 4 else "too short", **known}

    monkeypatch.setattr("platewheel.cli.commands.nest._with_segments", row)
    result = run("nest", job, "--segments", "all", "--effort", "quick")
    assert result.exit_code == 0
    assert "flange seams" in result.stdout
    lines = [line for line in result.stdout.splitlines() if line.lstrip()[:1].isdigit()]
    assert ["11" in lines[0], "43 %" in lines[2], "0.25 m" in lines[1]] == [True] * 3
    assert "too short" in lines[3]
    assert "14" not in lines[3]


def test_a_segment_count_that_cannot_be_made_is_told_in_its_row(tmp_path: Path) -> None:
    text = job_text(
        rows="[[stock]]\nthickness_mm = 5\nwidth_mm = 190\nlength_mm = 500\n"
        "[[stock]]\nthickness_mm = 6\nwidth_mm = 150\nlength_mm = 600\n"
    )
    result = run("nest", write_job(tmp_path, text), "--segments", "all", "--json")
    assert result.exit_code == 0
    whole = json.loads(result.stdout)["segments"][0]
    assert "fit no stock" in whole["says"]  # a whole cone of 204 mm does not go on 190 mm
    assert whole["sheets_used"] is None


@pytest.fixture
def nest_quickly() -> None:
    """Here the efforts are the true ones."""


@pytest.mark.parametrize("effort", ["quick", "normal"])
def test_same_effort_same_files(job: str, effort: str) -> None:
    files = []
    for folder in ("a", "b"):
        assert run("nest", job, "--effort", effort, "--out", folder).exit_code == 0
        files.append(
            {p.name: p.read_bytes() for p in sorted(Path(folder).rglob("*")) if p.is_file()}
        )
    assert files[0] == files[1]
    assert any(name.endswith(".dxf") for name in files[0])


def test_an_unknown_effort_is_refused(job: str) -> None:
    assert run("nest", job, "--effort", "endless").exit_code == 2
