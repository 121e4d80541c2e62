"""The wheelset command: sizes, fits, checks, and the assembly as STEP."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from platewheel.cli.report.wheelset_rows import WheelsetReport
from tests.cli.jobs import files_of, run
from tests.places import DEMO


def test_demo_wheelset(tmp_path: Path) -> None:
    result = run("wheelset", DEMO, "--out", tmp_path, "--json")
    assert result.exit_code == 0, result.stderr
    report = WheelsetReport.model_validate(json.loads(result.stdout))
    home = tmp_path / "oyster-tramway-wheelset"
    assert set(files_of(home)) == {"report.json", "wheelset.step"}
    assert report.axles == 24
    # gauge 457, play 8, two flanges of 15 / tan 70 + 8 sin 70 = 12.98: 457 - 8 - 25.96
    assert report.back_to_back_mm == pytest.approx(423.05, abs=0.05)
    assert report.axle_length_mm > report.bearing_centres_mm > 457
    assert {row.verdict for row in report.checks} == {"pass"}
    names = (home / "wheelset.step").read_text(encoding="utf-8", errors="replace")
    assert "rail" in names
    assert "axle" in names


def test_axles_are_sawn_from_round_bar(tmp_path: Path) -> None:
    """719 mm and facing: eight from a bar of 6 m, three bars for 24 axles."""
    result = run("wheelset", DEMO, "--out", tmp_path / "out", "--json")
    report = WheelsetReport.model_validate(json.loads(result.stdout))
    assert [(cut.repeat, cut.pieces) for cut in report.cuts] == [(3, 8)]
    assert report.missing == 0
    assert report.cuts[0].rest_mm == pytest.approx(6000 - 8 * (report.piece_mm + 1.7), abs=0.1)


def test_a_weak_axle_leaves_with_one(tmp_path: Path) -> None:
    text = DEMO.read_text(encoding="utf-8").replace("hub_bore_mm = 40", "hub_bore_mm = 25")
    job = tmp_path / "weak.toml"
    job.write_text(text, encoding="utf-8")
    result = run("wheelset", job, "--out", tmp_path / "out")
    assert result.exit_code == 1
    assert "a thicker axle" in result.stdout.replace("\n", " ") or "crack" in result.stdout


def test_an_axle_that_cannot_be_made_is_refused(tmp_path: Path) -> None:
    text = DEMO.read_text(encoding="utf-8").replace(
        'bearing = "insert"', 'bearing_name = "no such bearing"'
    )
    job = tmp_path / "odd.toml"
    job.write_text(text, encoding="utf-8")
    result = run("wheelset", job, "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert "bearing_name" in result.stderr
    assert not (tmp_path / "out").exists()


def test_a_number_without_bound_is_null_on_stdout_as_in_the_file(tmp_path: Path) -> None:
    """Nothing holds this loose wheel: infinitely overused. JSON (RFC 8259) has no infinity."""
    text = DEMO.read_text(encoding="utf-8")
    loose = 'wheels_on_axle = "loose"\nbearing = "deep-groove"\nretention = "collar"'
    job = tmp_path / "loose.toml"
    job.write_text(text.replace('bearing = "insert"\nretention = "key"', loose), encoding="utf-8")
    result = run("wheelset", job, "--out", tmp_path / "out", "--json")
    assert result.exit_code == 1

    def refused(word: str) -> None:
        raise AssertionError(word)

    told = json.loads(result.stdout, parse_constant=refused)
    held = next(row for row in told["checks"] if row["id"] == "wheel-held")
    assert held["value"] is None
    file = tmp_path / "out" / "oyster-tramway-wheelset" / "report.json"
    assert json.loads(file.read_text(encoding="utf-8")) == told
