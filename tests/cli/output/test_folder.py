"""The job folder is the former or the new one at every moment, and what a run left is cleared."""

from __future__ import annotations

import errno
import os
import sys
import threading
from pathlib import Path

import pytest

from platewheel.cli.output import alone, folder
from platewheel.cli.output.alone import alone_in, clear, mend
from platewheel.cli.output.exchange import exchange
from platewheel.cli.output.folder import write_folder
from platewheel.cli.output.made_of import KINDS
from platewheel.cli.work import lock
from platewheel.cli.work.not_finished import NotFinished
from tests.cli.output.test_two_states import whole_job

NAME = "pond"
NOW = dict.fromkeys(KINDS, "1")


def put(text: str, name: str = "report.json") -> object:
    return lambda made: (made / name).write_text(text)


def names(out: Path) -> list[str]:
    return sorted(str(path.relative_to(out)) for path in out.rglob("*"))


@pytest.mark.parametrize("whole", [True, False], ids=["exchanged", "by-two-renames"])
def test_a_new_folder_takes_the_place_of_the_former(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, whole: bool
) -> None:
    if not whole:
        monkeypatch.setattr(folder, "exchange", lambda one, other: False)
    for text in ("former", "new"):
        write_folder(tmp_path, NAME, put(text))  # type: ignore[arg-type]
        assert (tmp_path / NAME / "report.json").read_text() == text
        assert names(tmp_path) == [NAME, f"{NAME}/report.json"]


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the call is Linux's")
def test_two_folders_exchange_their_places(tmp_path: Path) -> None:
    """renameat2(2): RENAME_EXCHANGE, both paths must exist."""
    one, other = tmp_path / "one", tmp_path / "other"
    one.mkdir()
    assert not exchange(one, other)
    other.mkdir()
    (one / "file").write_text("1")
    assert exchange(one, other)
    assert names(tmp_path) == ["one", "other", "other/file"]


def test_a_full_disk_is_told_with_the_folder(tmp_path: Path) -> None:
    """write(2) knows no name."""

    def full(made: Path) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with pytest.raises(OSError, match=f"No space left on device: .*{NAME}"):
        write_folder(tmp_path, NAME, full)
    assert names(tmp_path) == []


def test_a_name_that_some_systems_take_for_another_is_refused(tmp_path: Path) -> None:
    """There the one job's folder would take the place of the other's."""
    write_folder(tmp_path, "Pond", put("mine"))  # type: ignore[arg-type]
    with pytest.raises(NotFinished, match="Pond: there, and for some systems pond is the same"):
        write_folder(tmp_path, "pond", put("other"))  # type: ignore[arg-type]
    write_folder(tmp_path, "Pond", put("again"))  # type: ignore[arg-type]
    assert names(tmp_path) == ["Pond", "Pond/report.json"]


@pytest.mark.parametrize("leads", ["nowhere", "out"])
def test_a_link_that_leads_nowhere_is_no_folder(leads: str, tmp_path: Path) -> None:
    (tmp_path / "out").symlink_to(leads)
    with pytest.raises(NotFinished, match="out: there, but no folder"):
        write_folder(tmp_path / "out", NAME, put("x"))  # type: ignore[arg-type]


@pytest.mark.parametrize("leads", ["nowhere", "elsewhere"])
def test_a_job_folder_that_is_a_link_is_told_as_one(leads: str, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / NAME).symlink_to(leads)
    with pytest.raises(NotFinished, match=f"{NAME}: is a link, .* take it away, or name"):
        write_folder(tmp_path, NAME, put("x"))  # type: ignore[arg-type]
    assert [*(tmp_path / "elsewhere").iterdir()] == []
    (tmp_path / NAME).unlink()
    (tmp_path / NAME).touch()
    with pytest.raises(NotFinished, match=f"{NAME}: there, but no folder"):
        write_folder(tmp_path, NAME, put("x"))  # type: ignore[arg-type]


def test_a_job_folder_of_another_person_is_told_before_the_work(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_folder(tmp_path, NAME, whole_job)
    ours = os.access
    for closed in ("", "sheets"):
        shut = tmp_path / NAME / closed
        monkeypatch.setattr(
            os, "access", lambda path, how, shut=shut: path != shut and ours(path, how)
        )
        with pytest.raises(NotFinished, match="not yours to write in"):
            folder.require_ours(tmp_path, NAME)


def test_a_run_that_was_ended_between_two_renames_is_put_back(tmp_path: Path) -> None:
    former = tmp_path / f".{NAME}-ab3_5678" / f"former-{NAME}"
    former.mkdir(parents=True)
    (former / "report.json").write_text("former")
    (former.parent / "made").mkdir()
    clear(tmp_path, NAME)
    assert (tmp_path / NAME / "report.json").read_text() == "former"
    assert [path.name for path in tmp_path.iterdir()] == [NAME]


def test_what_a_run_left_beside_a_whole_folder_goes_and_nothing_else_does(tmp_path: Path) -> None:
    own = f".{NAME}-archived/1998"
    for left in (f".{NAME}-ab3_5678/made", f".{NAME}-x-ab3_5678/made", own, NAME):
        (tmp_path / left).mkdir(parents=True)
    (tmp_path / f".{NAME}-ab3_5678" / f"former-{NAME}").mkdir()
    (tmp_path / NAME / "report.json").write_text("new")
    mend(tmp_path, NAME)
    kept = [f".{NAME}-archived", f".{NAME}-x-ab3_5678", NAME]
    assert sorted(path.name for path in tmp_path.iterdir()) == kept
    assert (tmp_path / NAME / "report.json").read_text() == "new"


def test_a_second_run_is_refused_by_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(alone, "TRIES", 2)
    told: list[str] = []

    def second() -> None:  # another thread is as far away as another process
        try:
            write_folder(tmp_path, NAME, put("second"))  # type: ignore[arg-type]
        except NotFinished as error:
            told.extend(error.lines)
        write_folder(tmp_path, "lake", put("another job"))  # type: ignore[arg-type]

    with alone_in(tmp_path, NAME), alone_in(tmp_path, NAME):
        other = threading.Thread(target=second)
        other.start()
        other.join()
        write_folder(tmp_path, NAME, put("first"))  # type: ignore[arg-type]
    (line,) = told
    assert line.startswith(f"{tmp_path / NAME}: platewheel, process ")
    assert line.endswith("is at work there; try again when it is done")
    assert (tmp_path / NAME / "report.json").read_text() == "first"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["lake", NAME]


def test_what_another_run_has_is_not_waited_for_to_be_mended(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    waits: list[float] = []
    monkeypatch.setattr(lock.time, "sleep", waits.append)
    with lock.alone(tmp_path / f".{NAME}.lock", 1, RuntimeError):
        mend(tmp_path, NAME)
    assert sum(waits) < 0.5
    assert (tmp_path / f".{NAME}.lock").exists()


def test_folders_that_an_ended_run_has_made_go_where_they_are_empty(tmp_path: Path) -> None:
    inner, outer, held = tmp_path / "a/out", tmp_path / "a", tmp_path / "b"
    for one in (inner, held / "kept"):
        one.mkdir(parents=True)
    mend(inner, NAME, [inner, outer])
    mend(held, NAME, [held])
    assert names(tmp_path) == ["b", "b/kept"]


def test_a_folder_made_for_nothing_goes_again(tmp_path: Path) -> None:
    with pytest.raises(RuntimeError), alone_in(tmp_path / "a" / "out", NAME):
        raise RuntimeError
    assert names(tmp_path) == []


def test_a_disk_without_locks_is_written_on_and_not_cleared(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(handle: int) -> bool:
        raise OSError(errno.ENOLCK, "No locks available")

    (tmp_path / f".{NAME}-ab3_5678").mkdir()
    monkeypatch.setattr(lock, "lock_now", none)
    write_folder(tmp_path, NAME, put("new"))  # type: ignore[arg-type]
    assert (tmp_path / NAME / "report.json").read_text() == "new"
    assert (tmp_path / f".{NAME}-ab3_5678").is_dir()
    assert not (tmp_path / f".{NAME}.lock").exists()
    former = tmp_path / f".{NAME}-ab3_9999" / f"former-{NAME}"  # of a run between two renames
    former.parent.mkdir()
    (tmp_path / NAME).rename(former)
    with alone_in(tmp_path, NAME):
        assert (tmp_path / NAME / "report.json").read_text() == "new"


def test_a_file_that_a_person_puts_there_meanwhile_stays(tmp_path: Path) -> None:
    write_folder(tmp_path, NAME, put("former"))  # type: ignore[arg-type]

    def slowly(made: Path) -> None:
        (made / "report.json").write_text("new")
        (tmp_path / NAME / "my-notes.txt").write_text("mine")

    with pytest.raises(NotFinished, match=r"holds my-notes\.txt"):
        write_folder(tmp_path, NAME, slowly)
    there = {path.name: path.read_text() for path in (tmp_path / NAME).iterdir()}
    assert there == {"report.json": "former", "my-notes.txt": "mine"}


@pytest.mark.parametrize("step", [1, 2])
def test_a_stop_at_either_rename_leaves_a_whole_folder(
    step: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In a script a stop may come at any moment, where a disk knows no exchange."""
    write_folder(tmp_path, NAME, put("former"))  # type: ignore[arg-type]
    rename, done = Path.rename, list[Path]()

    def stopped(one: Path, other: Path) -> Path:
        done.append(one)
        moved = rename(one, other)
        if len(done) == step:
            raise KeyboardInterrupt
        return moved

    monkeypatch.setattr(folder, "exchange", lambda one, other: False)
    monkeypatch.setattr(Path, "rename", stopped)
    with pytest.raises(KeyboardInterrupt):
        write_folder(tmp_path, NAME, put("new"))  # type: ignore[arg-type]
    text = (tmp_path / NAME / "report.json").read_text()
    assert text == ("former" if step == 1 else "new")
    assert names(tmp_path) == [NAME, f"{NAME}/report.json"]


def test_what_a_file_manager_leaves_is_no_strangers(tmp_path: Path) -> None:
    write_folder(tmp_path, NAME, whole_job)
    for place in (tmp_path / NAME, tmp_path / NAME / "sheets"):
        (place / ".DS_Store").write_text("")
    write_folder(tmp_path, NAME, put("new"))  # type: ignore[arg-type]
    assert names(tmp_path) == [NAME, f"{NAME}/report.json"]


def test_where_nothing_can_be_made_nothing_is_taken_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(**about: object) -> str:
        raise OSError(errno.ENOSPC, "No space left on device")

    (tmp_path / ".none").mkdir()
    monkeypatch.setattr(folder.tempfile, "mkdtemp", full)
    with pytest.raises(OSError, match="No space"):
        write_folder(tmp_path, NAME, put("new"))  # type: ignore[arg-type]
    assert names(tmp_path) == [".none"]


def short_of_handles(folder: Path, **how: object) -> None:
    """shutil.rmtree holds one for each folder that it is in; where it gets none it goes on."""


def test_few_handles_take_away_what_was_written_aside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(alone.shutil, "rmtree", short_of_handles)
    for _ in range(2):
        write_folder(tmp_path, NAME, whole_job)
    assert [path.name for path in tmp_path.iterdir()] == [NAME]


def test_what_cannot_be_taken_away_now_is_left_to_the_process_beside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(alone, "tell_guard", lambda what, *more: told.append(what))
    write_folder(tmp_path, NAME, whole_job)
    assert told == ["begins", "ends"]
    with monkeypatch.context() as without:
        without.setattr(alone.shutil, "rmtree", short_of_handles)
        without.setattr(alone.os, "walk", lambda *where, **how: iter(()))
        write_folder(tmp_path, NAME, whole_job)
    assert told == ["begins", "ends", "begins"]
    mend(tmp_path, NAME)
    assert [path.name for path in tmp_path.iterdir()] == [NAME]
