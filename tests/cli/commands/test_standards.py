"""The sheet of standards: what it prints, on the job's paper, and its refusals."""

from __future__ import annotations

import json
from pathlib import Path

import pypdf
import pytest

from tests.cli.jobs import job_text, run, write_job


def text_of(file: Path) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in pypdf.PdfReader(file).pages)


@pytest.mark.parametrize(("paper", "points"), [("A4", (842, 595)), ("Letter", (792, 612))])
def test_the_sheet_prints_sizes_pictures_and_published_standards(
    own_folder: Path, paper: str, points: tuple[int, int]
) -> None:
    write_job(own_folder, job_text({"paper.size": f'"{paper}"', "track.crossing_1_in": "6"}))
    result = run("standards", "job.toml")
    assert (result.exit_code, result.stdout) == (0, "standards.pdf\n")
    box = pypdf.PdfReader(own_folder / "standards.pdf").pages[0].mediabox
    assert (box.width, box.height) == pytest.approx(points, abs=1)
    text = text_of(own_folder / "standards.pdf")
    for words in (
        "standards of track and wheel", "Back to back", "Flangeway beside the nose",
        "Check rail to wing rail", "Widening of the gauge by radius", "A crossing of 1 in 6 leaves",
        "Setting out the turnout", "Radius through 1 in 6", "Check rail, straight part, least",
        "none needed", "nor in any easier curve", "not to scale", "KBO 1912",
        "Lengths in mm.", "scrap what is outside",
    ):  # fmt: skip
        assert words in text, words


def test_inches_have_mm_beside(own_folder: Path) -> None:
    write_job(own_folder, job_text({"paper.units": '"inch"'}))
    assert run("standards", "job.toml", "--out", "a.pdf").exit_code == 0
    assert "Lengths in inches, mm in brackets." in text_of(own_folder / "a.pdf")


def test_the_same_job_gives_the_same_bytes(own_folder: Path) -> None:
    write_job(own_folder, job_text())
    for name in ("a.pdf", "b.pdf"):
        assert run("standards", "job.toml", "--out", name).exit_code == 0
    assert (own_folder / "a.pdf").read_bytes() == (own_folder / "b.pdf").read_bytes()


def test_a_file_that_is_there_stays(own_folder: Path) -> None:
    write_job(own_folder, job_text())
    (own_folder / "standards.pdf").write_text("mine")
    result = run("standards", "job.toml")
    assert result.exit_code == 2
    assert "is there already" in result.stderr
    assert (own_folder / "standards.pdf").read_text() == "mine"
    assert run("standards", "job.toml", "--overwrite").exit_code == 0
    assert (own_folder / "standards.pdf").read_bytes().startswith(b"%PDF")


def test_json_has_every_row(own_folder: Path) -> None:
    write_job(own_folder, job_text())
    told = json.loads(run("standards", "job.toml", "--json").stdout)
    rows = told["standards"]
    assert "Lead, toe to the crossing's point" in {row["name"] for row in told["setting_out"]}
    assert {"name", "least", "has", "most", "follows", "outside"} < set(rows[0])
    assert len(rows) == 25
    assert not (own_folder / "standards.pdf").exists()
