"""marking-out.pdf by hand: every blank, in mm or inches, read back from the file."""

from __future__ import annotations

import io
import re
from pathlib import Path

from pypdf import PdfReader

from platewheel.cli.job.blanks import job_blanks
from platewheel.cli.job.hole_tools import hole_tools
from platewheel.cli.job.job import read_job
from platewheel.cli.papers.marking_pdf import marking_pdf
from platewheel.parts.wheel.assembly import wheel_parts
from tests.cli.jobs import job_text, run, write_job


def text(tmp_path: Path, changes: dict[str, str]) -> str:
    job = read_job(write_job(tmp_path, job_text({"cutting.process": '"hand"'} | changes)))
    blanks = job_blanks(job, wheel_parts(job.wheel))
    pages = PdfReader(io.BytesIO(marking_pdf(job, blanks, hole_tools(job)))).pages
    said = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert all(f"{one.blank.name}: {one.count} off" in said for one in blanks)
    return said


def test_every_blank_with_its_way_and_figures(tmp_path: Path) -> None:
    said = text(tmp_path, {})
    for words in (
        "Punch the centre. Set",
        "Prove it:",
        "grinder: straight cuts that touch the outer line",
        "Outer arc without its centre",
        "chain of",
    ):
        assert words in said, words
    assert re.search(r"inner arc, radius [\d.]+ mm chain of \d+ holes", said)


def test_inches_and_a_hole_saw(tmp_path: Path) -> None:
    job = read_job(write_job(tmp_path, job_text({})))
    saw = job.wheel.hub_hole_diameter_mm
    said = text(tmp_path, {"paper.units": '"inch"', "shop.hole_saws_mm": f"[{saw}]"})
    assert "in (" in said
    assert "every 25/32 in" in said  # 20 mm
    assert re.search(r"hole saw [\d/ ]+ in \([\d.]+ mm\), pilot 1/4 in \(6.4 mm\)", said)


def test_only_by_hand(tmp_path: Path) -> None:
    for name, there in (("plasma", False), ("hand", True)):
        job = write_job(tmp_path, job_text({"cutting.process": f'"{name}"'}))
        result = run("templates", job, "--out", tmp_path / name)
        assert result.exit_code == 0, result.stderr
        assert any((tmp_path / name).glob("*/marking-out.pdf")) is there
