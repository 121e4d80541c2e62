"""Propose: the cheapest wheels, told, drawn and written; or why there is none."""

from __future__ import annotations

import json
import tomllib
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.job.job import read_job
from platewheel.cli.schema.propose import ProposalRow, ProposeReport
from platewheel.cli.words.proposal import not_priced
from platewheel.parts.setting.setting import Setting
from tests.cli.conftest import _rate_once
from tests.cli.jobs import files_of, run
from tests.places import DEMO, TRACKS

NARROW = ("--least-diameter", "280", "--most-diameter", "280", "--proposals", "2")
NARROW = (*NARROW, "--analyses", "12")


def coarse(setting: Setting) -> dict[str, float]:
    """A rule of thumb in place of the analysis, which has its own tests: thicker is stronger."""
    wheel = setting.wheel
    thin = min(wheel.tread_thickness_mm, wheel.flange_thickness_mm, wheel.root_weld_mm)
    return {"thumb": 3300 * (thin / 8) ** 2 * min(1.0, wheel.weld_throat_mm / 4)}


@pytest.fixture
def by_thumb(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("platewheel.cli.propose.search.coarse_limits", coarse)
    monkeypatch.setattr("platewheel.cli.propose.finalists.assess", _rate_once)
    monkeypatch.setattr("platewheel.cli.propose.own_wheel.assess", _rate_once)


def proposed(folder: Path, job: Path, *more: object) -> tuple[int, dict[str, Any]]:
    result = run("propose", job, "--out", folder / "out", "--json", *NARROW, *more)
    loaded = json.loads(result.stdout)
    ProposeReport.model_validate(loaded)
    assert isinstance(loaded, dict)
    return result.exit_code, loaded


@pytest.mark.usefixtures("by_thumb", "few_choices")
def test_demo_is_proposed_for_and_written(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    text = (DEMO).read_text(encoding="utf-8")
    few = tmp_path / "few.toml"
    few.write_text(text.replace("wheels = 48", "wheels = 4"), encoding="utf-8")
    code, report = proposed(tmp_path, few, "--write", file, "--reserve", 5)
    assert code == 0, report["refused"]
    first = report["proposals"][0]
    ranks = [row["rank"] for row in report["proposals"]]
    assert ranks == [1, 2, 3, 4][: len(ranks)]
    costs = [row["cost_per_wheel"] for row in report["proposals"][:2]]
    assert costs == sorted(costs)
    kinds = [row["kind"] for row in report["proposals"]]
    assert kinds[0] == "cheapest"
    assert any(kinds[1:])
    assert all(len(row["lessons"]) == 3 for row in report["proposals"])
    # whole plates are paid for four wheels, their share alone is estimated
    assert first["cost_per_wheel"] / 2 < first["cost_estimate"] < first["cost_per_wheel"]
    assert first["rated_n"] >= 1.05 * first["load_n"]
    assert report["choices"] > 1e4
    assert read_job(file).wheel.model_dump() == first["wheel"]
    home = tmp_path / "out" / "oyster-tramway-proposal"
    assert set(files_of(home)) == {"report.json", "proposal.html"}
    page = (home / "proposal.html").read_text(encoding="utf-8")
    assert page.count("<svg") == 2
    assert "One step away" in page
    assert all(row["lessons"][2] in unescape(page) for row in report["proposals"])
    as_written = unescape(page.split("<pre>")[1].split("</pre>")[0])
    assert tomllib.loads(as_written)["wheel"] == first["wheel"]
    assert "://" not in page.replace("http://www.w3.org/2000/svg", "")
    best = [row for row in report["trade"] if row["best"]]
    assert [row["rated_n"] for row in best] == sorted(row["rated_n"] for row in best)
    # a thicker disc is told with what it weighs and does to the rating
    assert any(row["key"] == "disc_thickness_mm" for row in first["changes"])


@pytest.mark.usefixtures("few_choices")
def test_a_twisted_track_is_refused_with_advice(tmp_path: Path) -> None:
    text = (TRACKS / "twisted.toml").read_text(encoding="utf-8")
    few = tmp_path / "few.toml"
    few.write_text(text.replace("wheels = 48", "wheels = 4"), encoding="utf-8")
    code, report = proposed(tmp_path, few)
    assert code == 1
    assert not report["proposals"]
    assert "that twist lifts" in report["refused"][0]
    assert any("track.twist_mm_per_m" in line for line in report["refused"])
    assert any("three-point" in line for line in report["refused"])


def test_bad_sizes_are_refused_together(tmp_path: Path) -> None:
    job = DEMO
    sizes = ("--least-diameter", "400", "--most-diameter", "300", "--choose", "9")
    result = run("propose", job, "--out", tmp_path / "out", *sizes)
    assert result.exit_code == 2
    assert "--least-diameter" in result.stderr
    assert "--choose" in result.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (("--write", "there.toml"), 2, "is there already"),
        (("--write", "folder"), 2, "is a folder"),
        (("--write", "no/such/mine.toml"), 2, "there is no folder"),
        (("--out", "there.toml"), 3, "there, but no folder"),
        (("--out", "there.toml/deep/down"), 3, "there, but no folder"),
    ],
)
def test_what_cannot_be_written_is_refused_before_the_search(
    options: tuple[str, str],
    code: int,
    said: str,
    own_folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def searched(*given: object) -> None:
        raise AssertionError("searched all the same")

    monkeypatch.setattr("platewheel.cli.propose.run.propose", searched)
    (own_folder / "there.toml").write_text("mine\n", encoding="utf-8")
    (own_folder / "folder").mkdir()
    result = run("propose", DEMO, *options)
    assert result.exit_code == code
    assert said in result.stderr
    assert (own_folder / "there.toml").read_text(encoding="utf-8") == "mine\n"
    assert not (own_folder / "out").exists()


def test_costs_that_lack_a_price_say_so() -> None:
    row = ProposalRow.model_construct(cost_lacks=["zinc or paint"])
    report = ProposeReport.model_construct(proposals=[row])
    assert not_priced(report) == "Not priced, so a wheel costs more: zinc or paint."
    assert not not_priced(ProposeReport.model_construct(proposals=[]))
