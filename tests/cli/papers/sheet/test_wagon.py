"""The job sheet's section on the wagon: figures, sources, cautions; inches with the paper."""

from __future__ import annotations

import tomllib

from platewheel.cli.job.job import Job, job_of
from platewheel.cli.papers.sheet.wagon import WAGON_CAUTIONS, wagon_section
from tests.places import DEMO


def _job(**changes: dict[str, object]) -> Job:
    table = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    for section, keys in changes.items():
        table[section].update(keys)
    return job_of(table)


def test_figures_sources_and_cautions() -> None:
    page = wagon_section(_job(track={"steepest_gradient_percent": 2}))
    for caution in WAGON_CAUTIONS:
        assert caution in page
    assert "from memory" in page
    assert "UK HSE" in page
    # 660 kg: 45.3 N and 2 %, 129.5 N; 1.1 x 45.3 to start
    assert "179 N, 175 N: 2 people" in page
    assert "Rolls away unbraked from a gradient of" in page
    assert "0.12 %" in page


def test_unknown_centre_of_gravity_and_a_slope_that_is_too_steep() -> None:
    table = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    table["track"]["steepest_gradient_percent"] = 20
    table["wagon"].pop("centre_of_gravity_mm", None)
    page = wagon_section(job_of(table))
    assert "not known" in page
    assert "not even with brakes on all axles" in page
    assert "None" not in page


def test_no_brake_force_is_told_where_no_gradient_is_given() -> None:
    assert "none given; scotches all the same" in wagon_section(_job())
    sloping = wagon_section(_job(track={"steepest_gradient_percent": 2}))
    assert "none given" not in sloping


def test_lengths_turn_to_inches_with_the_paper() -> None:
    page = wagon_section(_job(paper={"units": "inch"}))
    assert "in (40 mm) bore" in page
    assert "in (8 mm)" in page
