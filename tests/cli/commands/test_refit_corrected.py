"""Refit: new flange blanks corrected by those tried on, and the sheet in inches."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import ezdxf
import ezdxf.path
import pytest

from tests.cli.commands.test_refit import DRAWN, HEAD, refitted, rings_csv
from tests.cli.jobs import NAME, job_text, write_job


def test_new_flanges_are_cut_longer_by_what_those_tried_on_were_short(tmp_path: Path) -> None:
    """Drawn 2 mm a seam; a seam found 9 mm wide on a ring of the drawn size: 7 mm short."""
    job = write_job(tmp_path, job_text({"wheel.flange_segments": "2"}))
    head = f"{HEAD},flange_seam_mm"
    rings = rings_csv(tmp_path, f"1,{DRAWN},9", f"2,{DRAWN},", head=head)
    as_drawn = refitted(job, rings, "--no-nest")
    corrected = refitted(job, rings, "--no-nest", "--correct-flanges")
    before, after = (
        next(b for b in report["blanks"] if b["kind"] == "flange")
        for report in (as_drawn, corrected)
    )
    mean_mm = (before["inner_radius_mm"] + before["outer_radius_mm"]) / 2
    longer_mm = math.radians(after["sweep_deg"] - before["sweep_deg"]) * mean_mm
    assert longer_mm == pytest.approx(3.5, abs=0.01)  # of each of two segments
    assert after["inner_radius_mm"] == before["inner_radius_mm"]
    assert any("are corrected for it" in line for line in corrected["warnings"])
    cut = closed_length_mm(tmp_path / "out" / f"{NAME}-refit" / after["file"])
    assert cut == pytest.approx(after["cut_length_mm"], abs=0.1)  # curves flattened


def test_correction_without_a_flange_tried_on_is_told(tmp_path: Path) -> None:
    rings = rings_csv(tmp_path, f"1,{DRAWN}", f"2,{DRAWN}")
    told = refitted(write_job(tmp_path, job_text()), rings, "--no-nest", "--correct-flanges")[
        "warnings"
    ]
    assert any("--correct-flanges changes nothing" in line for line in told)


def closed_length_mm(file: Path) -> float:
    """Length of the outline in a DXF, by ezdxf's own flattening."""
    outline = ezdxf.readfile(file).modelspace().query("*[layer=='cut-outline']")[0]
    path = ezdxf.path.make_path(outline)
    points = list(path.flattening(0.0005))
    return sum(a.distance(b) for a, b in pairwise(points))


def test_in_inches_sizes_stand_before_their_millimetres(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text({"paper.units": '"inch"'}))
    refitted(job, rings_csv(tmp_path, f"1,{DRAWN}", f"2,{DRAWN + 1}"), "--no-nest")
    page = (tmp_path / "out" / f"{NAME}-refit" / "refit-sheet.html").read_text(encoding="utf-8")
    assert "7 3/32 in (180.00)" in page  # 180 mm = 7.0866 in
    assert "All sizes in mm" not in page
