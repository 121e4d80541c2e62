"""What lies where a lock is wanted: never written on, never waited for, told by its name."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from platewheel.cli.ledger import keep
from platewheel.cli.output.alone import alone_in
from platewheel.cli.output.folder import write_folder
from platewheel.cli.work import lock
from platewheel.cli.work.lock import NOT_OURS, NoLock, alone, alone_for_now
from platewheel.cli.work.not_finished import NotFinished


def busy(who: str) -> NotFinished:
    return NotFinished([who])


@pytest.mark.parametrize("kind", ["link", "link to nowhere", "folder", "pipe"])
@pytest.mark.parametrize("taken", [alone, alone_for_now])
def test_what_is_no_lock_is_left_alone(taken: object, kind: str, tmp_path: Path) -> None:
    place, own = tmp_path / ".job.lock", tmp_path / "accounts"
    own.write_text("mine")
    if kind == "folder":
        place.mkdir()
    elif kind == "pipe":
        os.mkfifo(place)
    else:
        place.symlink_to("accounts" if kind == "link" else "nowhere")
    with pytest.raises(NoLock, match=NOT_OURS) as told, taken(place, 1, busy):  # type: ignore[operator]
        pytest.fail("taken")
    assert told.value.filename == str(place)
    assert own.read_text() == "mine"
    assert sorted(one.name for one in tmp_path.iterdir()) == [".job.lock", "accounts"]


def test_a_file_of_another_s_is_no_lock(tmp_path: Path) -> None:
    place = tmp_path / ".job.lock"
    place.write_text("12 eggs")
    with pytest.raises(NoLock), alone_for_now(place, 1, busy):
        pytest.fail("taken")
    assert place.read_text() == "12 eggs"
    place.write_text("12345\n")  # of a run that was killed
    with alone_for_now(place, 1, busy):
        assert place.read_text() == f"{os.getpid()}\n"
    assert not place.exists()


def test_another_person_s_lock_is_taken_as_it_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """flock(2): either lock can be placed, in whatever mode the file was opened."""
    place, opened = tmp_path / ".stock.toml.lock", os.open
    place.write_text("")

    def not_ours(path: str, flags: int, *mode: int) -> int:
        if flags & os.O_RDWR:
            raise PermissionError(errno.EACCES, "Permission denied")
        return opened(path, flags, *mode)

    monkeypatch.setattr(os, "open", not_ours)
    with alone(place, 1, busy), pytest.raises(NotFinished), alone(place, 1, busy):
        pytest.fail("taken twice")
    with alone_for_now(place, 1, busy):
        assert place.read_bytes() == b""


def test_a_folder_that_another_run_took_away_is_made_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened, times = lock._opened, []

    def gone_once(path: Path) -> object:
        times.append(path)
        if len(times) == 1:
            path.parent.rmdir()  # the other run was refused, and takes its empty folder away
        return opened(path)

    monkeypatch.setattr(lock, "_opened", gone_once)
    with alone_in(tmp_path / "out", "job"):
        assert (tmp_path / "out" / ".job.lock").exists()
    assert len(times) == 2


def test_a_disk_without_locks_keeps_no_ledger(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(handle: int) -> bool:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr(lock, "lock_now", none)
    path = tmp_path / "stock.toml"
    path.write_text("")
    with pytest.raises(NotFinished, match=r"stock\.toml: its disk knows no locks"):
        keep.changed(path, lambda ledger: ledger)
    write_folder(tmp_path, "job", lambda made: (made / "report.json").write_text("x"))
    assert (tmp_path / "job" / "report.json").read_text() == "x"


def test_a_ledger_by_a_link_that_leads_round(tmp_path: Path) -> None:
    (tmp_path / "stock.toml").symlink_to("stock.toml")
    with pytest.raises(Exception, match="Too many levels"):
        keep.changed(tmp_path / "stock.toml", lambda ledger: ledger)


def test_a_lock_that_cannot_be_written_is_named_and_goes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """write(2): EFBIG, ENOSPC; what stood in a buffer came again as the file was closed."""

    def full(handle: int, text: bytes) -> int:
        raise OSError(errno.EFBIG, "File too large")

    path = tmp_path / ".pond.lock"
    monkeypatch.setattr(lock.os, "write", full)
    with (
        pytest.raises(OSError, match=r"File too large: '.*\.pond\.lock'"),
        lock.alone_for_now(path, 1, RuntimeError),
    ):
        pytest.fail("it is not locked")
    assert [*tmp_path.iterdir()] == []


def test_a_lock_that_cannot_be_made_is_nobody_s(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """open(2): ENOENT also where a folder, as one of the kernel's own, takes no new file."""

    def none(path: str, flags: int, *mode: int) -> int:
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(path))

    place = tmp_path / ".job.lock"
    monkeypatch.setattr(lock.os, "open", none)
    with pytest.raises(FileNotFoundError) as told, alone_for_now(place, 3, busy):
        pytest.fail("taken")
    assert told.value.filename == str(place)
