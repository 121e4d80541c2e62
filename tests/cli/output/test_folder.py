"""The job folder is the former or the new one at every moment, and what a run left is cleared."""

from __future__ import annotations

import errno
import os
import sys
import threading
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from platewheel.cli.job.job import job_of
from platewheel.cli.output import alone, folder
from platewheel.cli.output.alone import alone_in, clear, mend
from platewheel.cli.output.exchange import exchange
from platewheel.cli.output.folder import write_folder, write_part
from platewheel.cli.output.made_of import MADE_OF, made_of, of_another_state, write_made_of
from platewheel.cli.work import lock
from platewheel.cli.work.not_finished import NotFinished
from tests.cli.jobs import job_text

NAME = "pond"


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


def whole_job(made: Path) -> None:
    for name in ("report.json", "calculation.pdf", "offcuts.toml", "sheets/5mm-1.dxf"):
        (made / name).parent.mkdir(exist_ok=True)
        (made / name).write_text("whole")


def sheets(text: str, name: str = "5mm-1.dxf") -> object:
    def write(made: Path) -> None:
        (made / "sheets").mkdir()
        (made / "sheets" / name).write_text(text)
        (made / "offcuts.toml").write_text("whole")

    return write


@pytest.mark.parametrize(
    ("write", "same", "stale"),
    [
        (sheets("whole"), False, False),
        (sheets("other"), False, True),
        (sheets("other"), True, False),
        (sheets("whole", "5mm-2.dxf"), True, True),
        (put("whole", "plates.pdf"), False, True),
    ],
    ids=["the-same", "other-bytes", "another-print", "other-names", "one-more"],
)
def test_part_of_a_folder_leaves_what_does_not_contradict_it(
    tmp_path: Path, write: Callable[[Path], None], same: bool, stale: bool
) -> None:
    write_folder(tmp_path, NAME, whole_job)
    _, told = write_part(tmp_path, NAME, write, folder.OF_PLATES, same=same)
    there = {path.name for path in (tmp_path / NAME).iterdir()}
    assert {"calculation.pdf", "offcuts.toml", "sheets"} <= there
    assert ("report.json" in there) is not stale
    assert len(told) == stale
    assert not told or "other files than are there now: report.json; `platewheel build`" in told[0]


@pytest.mark.parametrize(
    ("parts", "wheel", "gone"),
    [
        ("1", "1", set()),
        ("2", "1", {"sheets", "offcuts.toml", "report.json", "calculation.pdf"}),
        ("1", "2", {"solids", "report.json", "calculation.pdf"}),
    ],
)
def test_files_of_two_states_of_a_job_never_lie_together(
    tmp_path: Path, parts: str, wheel: str, gone: set[str]
) -> None:
    """New templates stood beside cutting files of the former wheel, and nothing told."""
    former, now = {"parts": "1", "solids": "1"}, {"parts": parts, "solids": wheel}

    def built(made: Path) -> None:
        whole_job(made)
        for name in ("templates/disc.pdf", "solids/disc.step", "offcuts-used.toml"):
            (made / name).parent.mkdir(exist_ok=True)
            (made / name).write_text("whole")
        write_made_of(made, former)

    def templates(made: Path) -> None:
        (made / "templates").mkdir()
        (made / "templates" / "disc.pdf").write_text("whole")

    write_folder(tmp_path, NAME, built)
    there = {path.name for path in (tmp_path / NAME).iterdir()}
    _, told = write_part(tmp_path, NAME, templates, folder.OF_PLATES, now)
    assert {path.name for path in (tmp_path / NAME).iterdir()} == there - gone
    assert all(any(name in line for line in told) for name in gone)
    assert write_part(tmp_path, NAME, templates, folder.OF_PLATES, now) == (None, [])


def test_what_is_cut_and_what_is_drawn_tell_states_apart() -> None:
    def state(**changes: str) -> dict[str, str]:
        keys = {key.replace("__", "."): value for key, value in changes.items()}
        return made_of(job_of(tomllib.loads(job_text(keys))))

    first = state()
    assert state(paper__size='"A3"', cutting__kerf_mm="1.2", job__author='"me"') == first
    larger = state(wheel__tread_diameter_mm="182")
    assert larger["parts"] != first["parts"]
    assert larger["solids"] != first["solids"]
    more = state(job__wheels="4")
    assert more["parts"] != first["parts"]
    assert more["solids"] == first["solids"]


def test_a_digest_that_cannot_be_read_is_none(tmp_path: Path) -> None:
    (tmp_path / "sheets").mkdir()
    now = {"parts": "1", "solids": "1"}
    for text in ("", "[", "[" * 900, "\0", "x" * 2000):
        (tmp_path / MADE_OF).write_text(text)
        assert [*of_another_state(tmp_path, now)] == []
    (tmp_path / MADE_OF).write_text("{}")
    assert [*of_another_state(tmp_path, now)] == ["sheets"]


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
