"""A file is written as a whole, where its name says, and nothing else is touched."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest
import typer

from platewheel.cli.terminal.exits import require_new, write_new
from platewheel.cli.work.lock import lock_now
from platewheel.cli.work.whole_file import write_whole


def names(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir())


def test_a_link_stays_one_and_the_file_keeps_who_may_read_it(tmp_path: Path) -> None:
    file, link = tmp_path / "far.pdf", tmp_path / "near.pdf"
    file.write_bytes(b"former")
    file.chmod(0o604)
    link.symlink_to("far.pdf")
    write_whole(link, b"new")
    assert link.is_symlink()
    assert file.read_bytes() == b"new"
    assert file.stat().st_mode & 0o777 == 0o604
    assert names(tmp_path) == ["far.pdf", "near.pdf"]


@pytest.mark.parametrize("name", ["x" * 251 + ".pdf", "\N{LATIN SMALL LETTER E WITH ACUTE}" * 127])
def test_the_longest_name_has_room(name: str, tmp_path: Path) -> None:
    """NAME_MAX of limits.h, 255 bytes on most disks."""
    write_whole(tmp_path / name, b"new")
    assert names(tmp_path) == [name]


@pytest.mark.parametrize("links", [True, False])
def test_what_is_there_stays_unless_told_otherwise(
    links: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(*about: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    if not links:  # link(2): EPERM, the disk knows no hard links
        monkeypatch.setattr(os, "link", none)
    write_whole(tmp_path / "a", b"first", over=False)
    with pytest.raises(FileExistsError):
        write_whole(tmp_path / "a", b"second", over=False)
    assert (tmp_path / "a").read_bytes() == b"first"
    assert names(tmp_path) == ["a"]


def test_a_full_disk_leaves_what_was_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    (tmp_path / "job.toml").write_bytes(b"former")
    for name in ("job.toml", "new.toml"):
        with pytest.raises(OSError, match=f"No space left on device: .*{name}"):
            write_new(tmp_path / name, "new", overwrite=True)
    assert (tmp_path / "job.toml").read_bytes() == b"former"
    assert names(tmp_path) == ["job.toml"]


@pytest.mark.parametrize("overwrite", [None, False, True])
def test_what_is_no_file_is_never_written_over(
    overwrite: bool | None, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A pipe would be waited for; in place of a device, or of a link, stood a file."""
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "round").symlink_to("round")
    (tmp_path / "gone").symlink_to("nowhere")
    for place in (tmp_path / "pipe", tmp_path / "round", tmp_path / "gone", Path("/dev/null")):
        with pytest.raises(typer.Exit) as left:
            require_new(place, overwrite)
        assert left.value.exit_code == 2
        told = capsys.readouterr().err
        assert told.startswith(f"{place}: is ")
        assert "no file" in told
        assert "overwrite" not in told
    assert names(tmp_path) == ["gone", "pipe", "round"]


@pytest.mark.parametrize("over", [True, False])
def test_one_that_is_stopped_leaves_what_was_there(
    over: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(*given: object) -> None:
        raise KeyboardInterrupt

    (tmp_path / "mine.toml").write_text("former")
    monkeypatch.setattr("platewheel.cli.work.whole_file._put", stop)
    with pytest.raises(KeyboardInterrupt):
        write_whole(tmp_path / "mine.toml", b"new", over=over)
    assert (tmp_path / "mine.toml").read_text() == "former"
    assert names(tmp_path) == ["mine.toml"]


def test_what_a_run_that_was_ended_left_goes_but_not_that_of_one_at_work(tmp_path: Path) -> None:
    left, used, own = (f".platewheel-{end}" for end in (16 * "1", 16 * "2", "notes-of-2024"))
    for name in (left, used, own):
        (tmp_path / name).write_text("half")
    with (tmp_path / used).open("r+b") as at_work:
        assert lock_now(at_work.fileno())
        write_whole(tmp_path / "mine.toml", b"new")
    assert names(tmp_path) == [used, own, "mine.toml"]
