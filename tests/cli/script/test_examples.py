"""The example scripts run, and what they write is what it should be."""

from __future__ import annotations

import re
import runpy
from pathlib import Path
from xml.etree import ElementTree

import cadquery as cq
import pytest

from tests.cli.conftest import _rate_once
from tests.places import ROOT

FOLDER = ROOT / "tests" / "examples"
SCRIPTS = sorted(path.stem for path in FOLDER.glob("*.py") if path.stem != "__init__")


@pytest.fixture(autouse=True)
def there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("platewheel.cli.script.job_file.assess", _rate_once)


def said(name: str, capsys: pytest.CaptureFixture[str]) -> str:
    runpy.run_path(str(FOLDER / f"{name}.py"))
    return capsys.readouterr().out


def test_each_script_is_run_here() -> None:
    """But that of the report, which `tests/cli/commands/test_build.py` gives one to read."""
    ours = Path(__file__).read_text(encoding="utf-8")
    assert [name for name in SCRIPTS if f'said("{name}"' not in ours] == ["report_by_its_schema"]
    assert len(SCRIPTS) == 6


def test_two_wheels_on_an_axle(capsys: pytest.CaptureFixture[str]) -> None:
    told = said("wheel_in_an_assembly", capsys)
    box = cq.importers.importStep("wheelset.step").val().BoundingBox()
    assert f"{box.xlen:.1f} mm over the flanges" in told
    assert box.zlen == pytest.approx(float(told.split()[0]), abs=0.5)


def test_a_bracket_beside_the_blanks(capsys: pytest.CaptureFixture[str]) -> None:
    told = said("own_part_beside_the_blanks", capsys)
    assert sum(int(n) for n in re.findall(r"(\d+) brackets", told)) == 24
    assert "bow.outline: found (40.0, 30.0)" in told


def test_a_spoked_disc(capsys: pytest.CaptureFixture[str]) -> None:
    told = said("spoked_disc", capsys)
    assert "63% of a plain disc" in told
    assert "no room for" not in told
    assert "wide.outline: found 300.0" in told
    box = cq.importers.importStep("spoked.step").val().BoundingBox()
    assert box.xlen == pytest.approx(330.0, abs=0.01)


def test_a_sweep_of_diameters(capsys: pytest.CaptureFixture[str]) -> None:
    told = said("sweep_of_diameters", capsys)
    assert told.startswith("60 mm: ")
    masses = [float(line.split()[1]) for line in told.splitlines()[-2:]]
    assert masses == sorted(masses)
    assert len(ElementTree.parse("sweep.svg").getroot()) == 6


def test_checks_as_a_notebook_shows_them(capsys: pytest.CaptureFixture[str]) -> None:
    told = said("check_in_a_notebook", capsys)
    assert int(told.split()[0]) == len(told.splitlines()) - 1 > 0
    assert "<table" in Path("checks.html").read_text(encoding="utf-8")
