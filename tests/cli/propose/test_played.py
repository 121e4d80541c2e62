"""Another play is proposed where the usual one lets no wheel pass, and is kept to the end."""

from __future__ import annotations

from dataclasses import replace

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.propose.changes import Changes
from platewheel.cli.propose.finalists import laid
from platewheel.cli.propose.played import beside, proposed_job, with_play
from platewheel.cli.propose.rows import flare_rows
from platewheel.cli.propose.search import OTHER_PLAY, screened
from platewheel.cli.propose.wanted import Wanted, asked_checks, job_choices
from platewheel.cli.schema.propose import ProposalRow
from platewheel.cli.words.proposal import same
from platewheel.parts.setting.setting import Setting
from tests.cli.conftest import _rate_once
from tests.parts.propose.test_play import CURVES
from tests.places import DEMO

JOB = read_job(DEMO)
WANTED = Wanted(280, 280)
TIGHT = replace(JOB, track=JOB.track.model_copy(update=CURVES))


@pytest.fixture(scope="module")
def row() -> ProposalRow:
    one = with_play(JOB, JOB.wheel, 10.0)
    found = _rate_once(one.setting)
    assert found is not None
    made = laid(one, found, [], 100.0)
    assert isinstance(made, ProposalRow)
    return made


@pytest.mark.usefixtures("few_choices")
@pytest.mark.parametrize("has_axle", [True, False])
def test_curves_that_need_more_play_get_it(has_axle: bool) -> None:
    """Without [axle] it is looked for last, told in words, and the wheelset is checked with it."""
    search = screened(replace(TIGHT, has_axle=has_axle), WANTED)
    job, checks, sift, notes = search.job, search.checks, search.sift, list(search.notes)
    assert sift.wheels.count
    assert {sift.wheels.play_mm(row) for row in range(sift.wheels.count)} == {12.0}
    assert notes == ([] if has_axle else [OTHER_PLAY])
    assert job.has_axle
    assert checks == asked_checks(replace(job, has_axle=True))


def test_without_an_axle_the_usual_play_is_kept_where_it_does() -> None:
    search = screened(replace(JOB, has_axle=False), WANTED)
    job, choices, sift, notes = search.job, search.choices, search.sift, list(search.notes)
    assert sift.wheels.count
    assert choices.play == (None,)
    assert not job.has_axle
    assert notes == []


def test_a_row_has_its_play_and_gives_its_job_back(row: ProposalRow) -> None:
    assert row.set_back_to_back_mm == row.back_to_back_mm
    assert 10 <= row.play_mm < 10.5
    one = proposed_job(JOB, row)
    assert one.setting.play_mm == row.play_mm
    usual = proposed_job(JOB, row.model_copy(update={"set_back_to_back_mm": None}))
    assert usual.setting.play_mm == JOB.setting.play_mm == 8
    other = row.model_copy(update={"set_back_to_back_mm": row.back_to_back_mm - 0.5})
    assert same(row, row)
    assert not same(row, other)


def test_a_deeper_flange_keeps_the_play(row: ProposalRow) -> None:
    """Else a step of the flange would be told with the play that it takes."""
    now = proposed_job(JOB, row)
    deep = beside(now, now.wheel.model_copy(update={"flange_depth_mm": 20.0}))
    assert deep.axle.back_to_back_mm < row.back_to_back_mm  # type: ignore[operator]
    assert row.play_mm <= deep.setting.play_mm < row.play_mm + 0.5
    assert beside(JOB, deep.wheel).axle == JOB.axle


def test_steps_and_flare_are_told_with_the_play(row: ProposalRow) -> None:
    now = proposed_job(JOB, row)
    plays: list[float] = []

    def rated(settings: list[Setting]) -> list[dict[str, float]]:
        plays.extend(one.play_mm for one in settings)
        return [{"any": 3000.0} for _ in settings]

    Changes(JOB, job_choices(JOB, WANTED), now, 3000.0, rated).rows()  # type: ignore[arg-type]
    assert all(row.play_mm <= play < row.play_mm + 0.5 for play in plays)
    rooms = {one.flange_angle_deg: one.room for one in flare_rows(now)}
    usual = {one.flange_angle_deg: one.room for one in flare_rows(JOB)}
    assert all(rooms[angle] > usual[angle] for angle in rooms)


def test_the_job_is_not_changed() -> None:
    before: Job = replace(JOB)
    with_play(JOB, JOB.wheel, 12.0)
    assert before == JOB
