"""The deck command: its folder, what is told, what is refused."""

from __future__ import annotations

import json
import re
import sys
from functools import partial
from pathlib import Path

import pytest

from platewheel.parts.rating import assess as rating
from tests.cli.jobs import NAME, files_of, job_text, run, write_job


def test_the_folder_of_a_small_job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rating, "assess", partial(rating.assess, size_mm=6.0))
    job = write_job(tmp_path, job_text())
    result = run("deck", job, "-o", tmp_path / "out", "--coarse", "2.5", "--json")
    assert result.exit_code == 0, result.stderr
    said = json.loads(result.stdout)
    home = tmp_path / "out" / f"{NAME}-deck"
    files = files_of(home)
    assert sorted(files) == said["files"] == ["README.txt", "wheel.inp"]
    told = files["README.txt"].decode()
    deck = files["wheel.inp"].decode().splitlines()
    assert [line.removeprefix("**").strip() for line in deck[: len(told.splitlines())]] == [
        line.strip() for line in told.splitlines()
    ]
    assert f"{said['nodes']} nodes, {said['elements']} elements" in told
    assert f"{said['load_n']:.6g} N up on the tread" in told
    for words in ("Units: mm, N, N/mm2", "BORE", "weld roots", "flange tip moves", "static"):
        assert words in told
    numbers = [int(x) for x in re.findall(r" node +(\d+) ", told)]
    assert numbers
    assert max(numbers) <= said["nodes"]


def test_a_folder_of_somebody_elses_is_left_alone(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text())
    home = tmp_path / "out" / f"{NAME}-deck"
    home.mkdir(parents=True)
    (home / "mine.txt").write_text("mine")
    result = run("deck", job, "--out", tmp_path / "out")
    assert result.exit_code == 3
    assert "mine.txt" in result.stderr
    assert set(files_of(home)) == {"mine.txt"}


def test_without_gmsh_it_is_told_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "gmsh", None)
    job = write_job(tmp_path, job_text())
    result = run("deck", job, "--out", tmp_path / "out")
    assert result.exit_code == 3
    assert "pip install gmsh" in result.stderr
    assert not (tmp_path / "out" / f"{NAME}-deck").exists()
