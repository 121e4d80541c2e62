"""The ledger's file: one process at a time, whole or not at all."""

from __future__ import annotations

import multiprocessing
import os
import sys
from pathlib import Path

import pytest

from platewheel.cli.job.job import read_job
from platewheel.cli.ledger import keep
from platewheel.cli.ledger.change import holder_called, reserve
from platewheel.cli.ledger.keep import changed, ledger_toml
from platewheel.cli.ledger.piece import Holder, Ledger, Piece
from platewheel.cli.ledger.read import read_ledger
from platewheel.cli.work.not_finished import NotFinished
from tests.cli.jobs import job_text
from tests.places import ROOT

SIZES = {"width_mm": 60.0, "thickness_mm": 8.0, "length_mm": 6000.0}
POND = Holder("pond")


def bar(name: str) -> Piece:
    return Piece("bar", name, SIZES)


def put(path: Path, *names: str) -> Ledger:
    ledger = Ledger(path.resolve(), tuple(map(bar, names)))
    path.write_text(ledger_toml(ledger), encoding="utf-8")
    return ledger


def hold(path: Path, held: object, done: object) -> None:
    """Another process: alone with the ledger until it is told."""

    def wait(ledger: Ledger) -> Ledger:
        held.set()  # type: ignore[attr-defined]
        done.wait(60)  # type: ignore[attr-defined]
        return reserve(ledger, Holder("lake"), [bar("A")])

    changed(path, wait)


def grab(path: Path, job: str, names: list[str]) -> None:
    """Another process: as many of these as are free, one by one."""
    for name in names:
        try:
            changed(path, lambda ledger, name=name: reserve_more(ledger, Holder(job), name))  # type: ignore[misc]
        except NotFinished:
            continue


def reserve_more(ledger: Ledger, holder: Holder, name: str) -> Ledger:
    mine = [p for p in ledger.pieces if p.holder == holder]
    return reserve(ledger, holder, [*mine, bar(name)])


@pytest.fixture(autouse=True)
def _found_by_other_processes(monkeypatch: pytest.MonkeyPatch) -> None:
    """A library's own `tests` must not come before ours where a process begins anew."""
    monkeypatch.syspath_prepend(str(ROOT))


def test_a_change_is_on_the_disk_and_nothing_else(tmp_path: Path) -> None:
    before = put(tmp_path / "stock.toml", "A", "B")
    (tmp_path / "stock.toml").chmod(0o640)
    told = changed(tmp_path / "stock.toml", lambda ledger: reserve(ledger, POND, [bar("A")]))
    assert told[0] == before
    assert read_ledger((tmp_path / "stock.toml").resolve()) == told[1] != before
    assert {path.name for path in tmp_path.iterdir()} == {"stock.toml", ".stock.toml.lock"}
    assert (tmp_path / "stock.toml").stat().st_mode & 0o777 == 0o640


def test_what_a_process_that_was_ended_left_goes_and_nothing_else_does(tmp_path: Path) -> None:
    path = tmp_path / "stock.toml"
    put(path, "A", "B")
    left = ".platewheel-0123456789abcdef"
    for name in (left, ".stock.toml-original", "stock.toml-ab3_5678"):
        (tmp_path / name).write_text("half")
    changed(path, lambda ledger: reserve(ledger, POND, [bar("A")]))
    (tmp_path / ".stock.toml.lock").unlink()
    kept = [".stock.toml-original", "stock.toml", "stock.toml-ab3_5678"]
    assert sorted(one.name for one in tmp_path.iterdir()) == kept


def test_what_an_ended_run_has_reserved_is_taken_back(tmp_path: Path) -> None:
    path = tmp_path / "stock.toml"
    before = put(path, "A", "B")
    changed(path, lambda ledger: reserve(ledger, Holder("lake"), [bar("B")]))
    pond = Holder("pond", "/shop/pond.toml")
    changed(path, lambda ledger: reserve(ledger, pond, [bar("A"), bar("C")]))
    keep.take_back(path, "pond", "/shop/pond.toml", ledger_toml(before))
    found = [(piece.name, piece.state) for piece in read_ledger(path).pieces]
    assert found == [("A", "free"), ("B", "reserved")]
    path.write_text("damaged")
    keep.take_back(path, "pond", "/shop/pond.toml", ledger_toml(before))
    assert path.read_text() == "damaged"


@pytest.mark.skipif(sys.platform != "linux", reason="a name is any bytes there")
@pytest.mark.parametrize(
    "name", [b"a\x1bb", b"new\nline", "a\u202eb".encode(), b"bad\xff", b"'\"\\"]
)
def test_a_job_s_folder_may_have_any_name(tmp_path: Path, name: bytes) -> None:
    """A ledger that had such a name written into it could not be read again, or was not written."""
    path, home = tmp_path / "stock.toml", Path(os.fsdecode(name))
    put(path, "A")
    job = tmp_path / home / "job.toml"
    job.parent.mkdir()
    job.write_text(job_text({"job.ledger": '"../stock.toml"'}), encoding="utf-8")
    rack = read_job(job).rack
    assert rack
    holder = Holder("pond", rack.file)
    changed(path, lambda ledger: reserve(ledger, holder, [bar("A")]))
    ledger = read_ledger(path)
    assert ledger.pieces[0].holder == holder == holder_called(ledger, str(job))


@pytest.mark.parametrize("broken", ["fsync", "replace"])
def test_a_full_disk_leaves_the_former_ledger(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    path = tmp_path / "stock.toml"
    put(path, "A")
    text = path.read_bytes()

    def full(*about: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(*((os, "fsync") if broken == "fsync" else (Path, "replace")), full)
    with pytest.raises(OSError, match=r"No space .*stock\.toml"):
        changed(path, lambda ledger: reserve(ledger, POND, [bar("A")]))
    assert path.read_bytes() == text
    assert {one.name for one in tmp_path.iterdir()} == {"stock.toml", ".stock.toml.lock"}


def test_a_link_stays_a_link_and_shares_the_lock(tmp_path: Path) -> None:
    (tmp_path / "shop").mkdir()
    put(tmp_path / "shop" / "stock.toml", "A")
    link = tmp_path / "stock.toml"
    link.symlink_to(tmp_path / "shop" / "stock.toml")
    changed(link, lambda ledger: reserve(ledger, POND, [bar("A")]))
    assert link.is_symlink()
    assert read_ledger(link).pieces[0].holder == POND
    assert (tmp_path / "shop" / ".stock.toml.lock").exists()


def test_two_processes_wait_for_each_other(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "stock.toml"
    put(path, "A")
    spawn = multiprocessing.get_context("spawn")
    held, done = spawn.Event(), spawn.Event()
    other = spawn.Process(target=hold, args=(path, held, done))
    other.start()
    try:
        assert held.wait(60)
        monkeypatch.setattr(keep, "TRIES", 2)
        with pytest.raises(NotFinished, match="another platewheel is changing it"):
            changed(path, lambda ledger: ledger)
    finally:
        done.set()
        other.join()
    monkeypatch.setattr(keep, "TRIES", 100)
    with pytest.raises(NotFinished, match="job 'lake' has reserved it"):
        changed(path, lambda ledger: reserve(ledger, POND, [bar("A")]))


def test_no_piece_is_lost_or_given_twice_between_processes(tmp_path: Path) -> None:
    path = tmp_path / "stock.toml"
    names = [f"bar {i}" for i in range(12)]
    put(path, *names)
    spawn = multiprocessing.get_context("spawn")
    others = [
        spawn.Process(target=grab, args=(path, job, order))
        for job, order in (("pond", names), ("lake", names[::-1]))
    ]
    for one in others:
        one.start()
    for one in others:
        one.join()
    pieces = read_ledger(path).pieces
    assert [p.name for p in pieces] == names
    assert {p.state for p in pieces} == {"reserved"}
    assert {p.job for p in pieces} <= {"pond", "lake"}


def test_a_ledger_that_may_not_be_written_to_is_told_as_such(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Before the work, and where it is changed: the system says 'Permission denied' of it."""
    path, ours = tmp_path / "stock.toml", os.access
    put(path, "A")
    monkeypatch.setattr(keep.os, "access", lambda it, how: str(it) != str(path) and ours(it, how))
    with pytest.raises(NotFinished, match=r"stock\.toml: the ledger is not to be written to"):
        keep.require_kept(path)
    with pytest.raises(NotFinished, match=r"the ledger is not to be written to"):
        changed(path, lambda ledger: reserve(ledger, POND, [bar("A")]))
    assert read_ledger(path).pieces == (bar("A"),)
