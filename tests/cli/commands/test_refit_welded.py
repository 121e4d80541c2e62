"""Refit of wheels that were measured again once they were welded."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from tests.cli.commands.test_refit import DRAWN, HEAD, refitted, rings_csv
from tests.cli.jobs import NAME, job_text, run, write_job

WELDED = f"{HEAD},after_welding_mm,flange_angle_deg"


def test_wheels_are_paired_and_told_as_welded(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text({"job.wheels": "4"}))
    tapes = ((0, -1.0), (0, -2.0), (2, 1.0), (2, 0.1))  # rolled 1-2 and 3-4; welded 1-2, 4-3
    rows = [f"{i},{DRAWN + a:.1f},{DRAWN + b:.1f},65" for i, (a, b) in enumerate(tapes, start=1)]
    report = refitted(job, rings_csv(tmp_path, *rows, head=WELDED), "--no-nest")
    assert report["sums"]["paired_by"] == "after welding"
    by_wheel = {w["wheel"]: w for w in report["wheels"]}
    for axle in report["axles"]:
        left, right = (
            by_wheel[axle[side]]["welded"]["tread_diameter_mm"] for side in ("left", "right")
        )
        assert axle["difference_mm"] == pytest.approx(abs(left - right))
    differ = sorted(axle["difference_mm"] for axle in report["axles"])
    assert differ == pytest.approx([0.9 / math.pi, 1.0 / math.pi], abs=0.05 / math.pi)
    first = next(w for w in report["wheels"] if w["ring"] == "1")["welded"]
    assert first["shrunk_mm"] == pytest.approx(1.0 / math.pi, abs=0.05 / math.pi)
    assert first["as_expected"] is True
    shrinkage = report["shrinkage"]
    parts = ("discs_mm", "flange_seams_mm", "root_mm")
    assert shrinkage["after_mm"] == pytest.approx(sum(shrinkage[key] for key in parts))
    folder = tmp_path / "out" / f"{NAME}-refit"
    page = (folder / "refit-sheet.html").read_text(encoding="utf-8")
    assert f"about {shrinkage['after_mm']:.2f} mm more" in page
    assert "Lincoln" in page
    with (folder / "record.csv").open(encoding="utf-8", newline="") as source:
        record = {row["ring"]: row for row in csv.DictReader(source)}
    assert record["1"]["shrunk_by_welding_mm"] == f"{first['shrunk_mm']:.2f}"
    assert record["1"]["flange_angle"] == first["flange_angle_says"]


def test_a_flange_outside_its_window_and_a_wheel_not_taped_are_told(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text())
    rows = (f"a,{DRAWN:.1f},{DRAWN - 5:.1f},52", f"b,{DRAWN:.1f},,")
    rings = rings_csv(tmp_path, *rows, head=WELDED)
    report = refitted(job, rings, "--no-nest")
    told = "\n".join(report["warnings"])
    assert "1 of 2 wheels has an after_welding_mm" in told
    assert "tape b too" in told
    assert "ring a: welding took" in told
    assert "ring a: flange of 52 deg once welded" in told
    assert report["sums"]["paired_by"] == "as rolled"
    by_ring = {w["ring"]: w for w in report["wheels"]}
    assert by_ring["a"]["welded"]["flange_angle_verdict"] in ("warn", "fail")
    assert by_ring["a"]["welded"]["as_expected"] is False
    assert by_ring["b"]["welded"] is None
    shown = run("refit", job, "--rings", rings, "--out", tmp_path / "out", "--no-nest")
    assert "Measured after welding" in shown.stdout
