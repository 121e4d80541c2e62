"""Pieces stay the job's where its files are in place, and only there."""

from __future__ import annotations

from pathlib import Path

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.job.plan import Plan, plan_job
from platewheel.cli.ledger.read import read_ledger
from platewheel.cli.output import reserved as room
from platewheel.cli.output.reserved import reserved
from platewheel.cli.work import stopping
from tests.cli.commands.test_stock import PLATES
from tests.cli.jobs import job_text, write_job


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> tuple[Job, Plan, Path]:
    folder = tmp_path_factory.mktemp("shop")
    (folder / "stock.toml").write_text(PLATES, encoding="utf-8")
    keys = {"job.name": '"pond"', "job.ledger": '"stock.toml"'}
    job = read_job(write_job(folder, job_text(keys, rows=""), "pond.toml"))
    return job, plan_job(job, 0, lambda text: None, "quick"), folder / "stock.toml"


@pytest.mark.parametrize("in_place", [False, True])
def test_a_run_that_is_stopped(
    in_place: bool, planned: tuple[Job, Plan, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(stopping, "_STATE", stopping._State(placed=["an earlier folder"]))
    told: list[tuple[str, ...]] = []
    monkeypatch.setattr(room, "tell_guard", lambda *what: told.append(what))
    job, plan, file = planned

    def stopped() -> None:
        with reserved(job, plan):
            assert read_ledger(file).pieces[0].state == "reserved"
            if in_place:
                stopping.placed("the folder is the new one, whole")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        stopped()
    assert read_ledger(file).pieces[0].state == ("reserved" if in_place else "free")
    assert [what for what, *_ in told] == ["begins", "ends"]
    assert told[0][1:4] == told[1][1:4]
