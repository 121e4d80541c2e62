"""The way and the loads in a job file: read, and refused by key with nothing written."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest

from platewheel.cli.job.job import job_of
from platewheel.parts.setting.setting import Setting
from tests.cli.jobs import ROWS, job_text, refused, run, write_job

CURVE = "\n[[way]]\nshare = 0.4\nradius_m = 15\njoints_per_km = 100\n"


def setting_of(rows: str) -> Setting:
    return job_of(tomllib.loads(job_text(rows=ROWS + rows))).setting


def test_a_way_is_read() -> None:
    (piece,) = setting_of(CURVE).pieces
    assert (piece.share, piece.radius_m, piece.joints_per_km) == (0.4, 15.0, 100.0)


def test_without_one_a_quarter_is_curved() -> None:
    (piece,) = setting_of("").pieces
    assert (piece.share, piece.radius_m) == (0.25, 10.0)


@pytest.mark.parametrize(
    ("changes", "rows", "key"),
    [
        ({}, CURVE + CURVE + CURVE, "way"),
        ({}, "\n[[way]]\nshare = 0.4\nradius_m = 9\n", "way[0].radius_m"),
        ({}, CURVE + "\n[[way]]\nlength_m = 40\n", "way[1].length_m"),
        ({}, "\n[[way]]\nradius_m = 20\n", "way[0].share"),
        ({"track.min_curve_radius_m": "1", "wagon.wheelbase_mm": "1500"}, "",
         "track.min_curve_radius_m"),
        ({"track.stiffness_n_per_mm": "0"}, "", "track.stiffness_n_per_mm"),
        ({"wagon.spring_sag_mm": "10"}, "", "wagon.spring_sag_mm"),
    ],
)  # fmt: skip
def test_what_contradicts_is_refused(
    own_folder: Path, changes: dict[str, str], rows: str, key: str
) -> None:
    assert list(refused(job_text(changes, rows=ROWS + rows))) == [key]


def test_what_the_verdict_rests_on_is_told(own_folder: Path) -> None:
    """Each load, and every turn of the life by piece and state."""
    write_job(own_folder, job_text(rows=ROWS + CURVE))
    page = run("check", "job.toml", "--json")
    assert page.exit_code in (0, 1)
    rating = json.loads(page.stdout)["rating"]
    names = [row["name"] for row in rating["loads"]]
    assert names[:4] == [
        *("mean wheel load", "heaviest wheel", "between joints"),
        "at a rail joint: design load",
    ]
    assert all(row["how"] and row["source"] for row in rating["loads"])
    values = {row["name"]: row["value"] for row in rating["loads"]}
    loads = [values[name] for name in names[:4]]
    assert loads == sorted(loads)
    assert "15 m" in " ".join(row["where"] for row in rating["blocks"])
    turns = sum(row["turns"] for row in rating["blocks"])
    assert turns == pytest.approx(rating["turns_in_life"])
    curved = sum(row["turns"] for row in rating["blocks"] if "curve" in row["where"])
    assert curved == pytest.approx(0.4 * turns)
