"""No command writes over what it reads, whatever it is told: job, rings, ledger, drawings."""

from __future__ import annotations

from pathlib import Path

import pytest

from platewheel.parts.geometry.outline import Circle
from tests.cli.jobs import files_of, job_text, run, write_job
from tests.nesting.drawn_files import add_loose, drawing, save

EXTRA = '[[extra]]\nname = "lid"\nfile = "lid.dxf"\nthickness_mm = 5\ncount = 1\n'
RINGS = "ring,outside_circumference_mm\n1,565.5\n"


@pytest.fixture
def job(own_folder: Path) -> Path:
    doc = drawing()
    add_loose(doc.modelspace(), [Circle((0.0, 0.0), 40.0)])
    save(doc, own_folder, "lid.dxf")
    (own_folder / "stock.toml").write_text("# none yet\n")
    (own_folder / "rings.csv").write_text(RINGS)
    return write_job(own_folder, job_text({"job.ledger": '"stock.toml"'}) + EXTRA)


@pytest.mark.parametrize("out", ["job.toml", "stock.toml", "lid.dxf", "sub/../job.toml", "link"])
@pytest.mark.parametrize("command", ["record", "standards", "rings", "calculation"])
def test_what_is_read_is_not_written_over(job: Path, command: str, out: str) -> None:
    (job.parent / "sub").mkdir()
    (job.parent / "link").symlink_to("lid.dxf")
    before = files_of(job.parent)
    quick = ["--quick"] if command == "calculation" else []
    result = run(command, job.name, "--out", out, "--overwrite", *quick)
    assert result.exit_code == 2
    assert result.stderr == f"{out}: is read by this command and would be lost; try another name\n"
    assert files_of(job.parent) == before


def test_rings_and_the_files_of_a_proposal(job: Path) -> None:
    before = files_of(job.parent)
    for words in (
        ("record", job.name, "--rings", "rings.csv", "--out", "rings.csv", "--overwrite"),
        ("propose", job.name, "--write", "stock.toml", "--overwrite"),
    ):
        result = run(*words)
        assert result.exit_code == 2
        assert "is read by this command" in result.stderr
    assert files_of(job.parent) == before
