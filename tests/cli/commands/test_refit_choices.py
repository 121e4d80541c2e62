"""Refit tells which rings to true for fewer sizes, and leaves the plan as it is."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from tests.cli.commands.test_refit import DRAWN, HEAD, refitted, rings_csv
from tests.cli.jobs import NAME, job_text, run, write_job


def test_a_choice_names_its_rings_and_holds_when_done(tmp_path: Path) -> None:
    """Four rings as drawn and one 2 mm larger across, which needs a size of its own."""
    job = write_job(tmp_path, job_text({"job.wheels": "5"}))
    large = DRAWN + math.pi * 1.3
    rows = [f"{i},{DRAWN:.2f}" for i in range(1, 5)]
    rings = rings_csv(tmp_path, *rows, f"big,{large:.2f}")
    report = refitted(job, rings, "--no-nest")
    (choice, *_) = report["choices"]
    assert choice["fewer"] == report["sums"]["blanks_cut"] - choice["sizes"] > 0
    (ring,) = choice["rings"]
    assert ring["ring"] == "big"
    least, most = ring["resize_least_mm"], ring["resize_most_mm"]
    assert most < least < 0
    assert ring["tension_n"] == 0
    page = (tmp_path / "out" / f"{NAME}-refit" / "refit-sheet.html").read_text(encoding="utf-8")
    assert "true 1 more ring, cut 1 size fewer" in page
    assert f"big: shrink by {-math.pi * least:.1f} to {-math.pi * most:.1f} mm round" in page
    assert "stand beside it" in page  # it may burst
    shown = run("refit", job, "--rings", rings, "--out", tmp_path / "out", "--no-nest")
    assert "true 1 more ring, cut 1 size fewer" in shown.stdout
    done = rings_csv(tmp_path, *rows, f"big,{large + math.pi * (least + most) / 2:.2f}")
    after = refitted(job, done, "--no-nest")
    assert after["sums"]["blanks_cut"] == choice["sizes"]


def test_pressing_tells_its_force_and_the_plan_stays(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text({"job.wheels": "4"}))
    head = f"{HEAD},largest_diameter_mm,smallest_diameter_mm,flange_seam_mm"
    tapes = (0.0, 0.1, 0.0, 1.1)  # discs fit rings 2 x (1.1 - 0.5) = 1.2 mm apart
    rows = [f"{i},{DRAWN + math.pi * d:.2f},,,2" for i, d in enumerate(tapes, start=1)]
    rows[2] = f"3,{DRAWN:.2f},180.29,179.71,2"
    report = refitted(job, rings_csv(tmp_path, *rows, head=head), "--no-nest")
    bare = refitted(
        job,
        rings_csv(tmp_path, *(f"{r.split(',')[0]},{r.split(',')[1]},,,2" for r in rows), head=head),
        "--no-nest",
    )
    assert bare["choices"] == []
    assert report["sums"]["blanks_cut"] > bare["sums"]["blanks_cut"]
    (choice,) = report["choices"]
    (ring,) = choice["rings"]
    assert (ring["ring"], ring["resize_most_mm"]) == ("3", 0)
    # Roark's Formulas: (0.1488 + 0.1366) F R^3 / (E I); R 87, 50 x 6
    force = 0.58 * 210000 * 50 * 6**3 / 12 / (0.2854 * 87**3)
    assert ring["press_n"] == pytest.approx(force, rel=1e-3)
    assert choice["sizes"] == bare["sums"]["blanks_cut"]
