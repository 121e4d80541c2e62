"""Check tells which plate, bar or pipe the job has none of; a build would end for it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from platewheel.cli.job.job import read_job
from platewheel.cli.job.stock_to_hand import without_stock
from tests.cli.jobs import run
from tests.places import DEMO

JOB = read_job(DEMO)


def lines_of(**wheel: object) -> list[str]:
    return without_stock(replace(JOB, wheel=JOB.wheel.model_copy(update=wheel)))


def test_the_demo_has_all_it_needs() -> None:
    assert lines_of() == []
    assert lines_of(tread_from="sheet") == []


def test_each_thing_that_is_not_there_is_told() -> None:
    disc, flange, bar = lines_of(
        disc_thickness_mm=5.0, flange_thickness_mm=10.0, tread_width_mm=50.0
    )
    assert disc.startswith("line 44: wheel.disc_thickness_mm: found 5;")
    assert "6 mm, 8 mm;" in disc
    assert flange.startswith("line 42: wheel.flange_thickness_mm: found 10;")
    assert "bar of 50 x 8; [[bar]] to hand: 60 x 8 mm" in bar
    (pipe,) = lines_of(tread_from="pipe")
    assert "pipe of 300 x 8; [[pipe]] to hand: none;" in pipe
    (sheet,) = lines_of(tread_from="sheet", tread_thickness_mm=12.0)
    assert "wheel.tread_thickness_mm: found 12" in sheet
    assert len(lines_of(steel="S355")) == 2  # a thickness there in another steel is not there


def test_check_tells_it_and_leaves_as_the_checks_say(tmp_path: Path) -> None:
    text = DEMO.read_text(encoding="utf-8")
    job = tmp_path / "other.toml"
    job.write_text(text.replace("disc_thickness_mm = 6", "disc_thickness_mm = 5"), encoding="utf-8")
    result = run("check", job, "--quick")
    assert "wheel.disc_thickness_mm: found 5" in result.stderr
    assert result.exit_code == run("check", DEMO, "--quick").exit_code == 0
