"""`platewheel templates`: print scale, inches and strips from the job file to the paper."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from platewheel.cli.job.job import read_job
from platewheel.cli.output.made_of import MADE_OF, made_of
from tests.cli.jobs import NAME, job_text, run


def job_file(folder: Path, changes: dict[str, str]) -> Path:
    path = folder / "job.toml"
    path.write_text(job_text(changes), encoding="utf-8")
    return path


def made(folder: Path, *options: str, **changes: str) -> dict[str, str]:
    """Text of each file of templates by its path in the job's folder."""
    path = job_file(folder, {f"paper.{key}": value for key, value in changes.items()})
    result = run("templates", str(path), "--out", str(folder / "out"), "--json", *options)
    assert result.exit_code == 0, result.stderr
    texts = {}
    for row in json.loads(result.stdout)["templates"]:
        pages = PdfReader(folder / "out" / NAME / row["file"]).pages
        assert len(pages) == row["pages"]
        texts[row["file"]] = " ".join(" ".join(page.extract_text().split()) for page in pages)
    return texts


def test_print_scale_reaches_every_page(tmp_path: Path) -> None:
    for text in made(tmp_path, "--print-scale", "0.98").values():
        assert "made for a printer that prints 0.98" in text
    for text in made(tmp_path).values():  # the next run is true again
        assert "made for a printer" not in text


def test_the_papers_stay_at_any_print_scale(tmp_path: Path) -> None:
    """They tell of the same templates: it took them away on the way back to a true print."""
    made(tmp_path)
    home, now = tmp_path / "out" / NAME, made_of(read_job(tmp_path / "job.toml"), ())
    (home / "report.json").write_text("{}")
    (home / MADE_OF).write_text(json.dumps(now))
    made(tmp_path, "--print-scale", "0.98")
    made(tmp_path)
    assert (home / "report.json").exists()
    made(tmp_path, margin_mm="20")
    assert not (home / "report.json").exists()


@pytest.mark.parametrize("factor", ["0.8", "98", "nan"])
def test_print_scale_refused(tmp_path: Path, factor: str) -> None:
    path = job_file(tmp_path, {})
    out = tmp_path / "out"
    result = run("templates", str(path), "--out", str(out), "--print-scale", factor)
    assert result.exit_code == 2
    assert result.stderr.startswith("--print-scale: found")
    assert "from 0.9 to 1.1" in result.stderr
    assert not list(out.glob("*"))


def test_inches(tmp_path: Path) -> None:
    """A plate of 5 mm is 13/64 in (5.16 mm) to the nearest 1/64; the disc's mark follows suit."""
    (metric,) = re.findall(r"\bd (\d+\.\d)\b", made(tmp_path)["templates/disc.pdf"])
    texts = made(tmp_path, units='"inch"')
    assert "13/64 in (5 mm) plate" in texts["templates/disc.pdf"]
    assert f"d {metric}" not in texts["templates/disc.pdf"]
    assert re.search(rf"\bd \d+ \d+/\d+ in \({float(metric):g} mm\)", texts["templates/disc.pdf"])
    assert all("4 in - measure me" in text for text in texts.values())


def test_strips_may_be_left_out(tmp_path: Path) -> None:
    assert any("hub-tube" in text for text in made(tmp_path).values())
    assert not any("hub-tube" in text for text in made(tmp_path, wrap_strips="false").values())


def test_plywood_gauges_have_papers(tmp_path: Path) -> None:
    """Whether alone or on the page of small parts."""
    text = " ".join(made(tmp_path).values())
    for said in ("plywood-ring, plywood gauge of the ring", "plywood-flange, plywood gauge of the"):
        assert said in text
    assert re.search(r"ring, bore radius \d+\.?\d* mm", text)
    text = " ".join(made(tmp_path, units='"inch"').values())
    assert re.search(r"ring, bore radius \d+ \d+/\d+ in", text)
