"""One file: all of it or nothing, and nothing left beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from platewheel.cli.work.lock import lock_now
from platewheel.cli.work.one_file import write_whole


def names(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir())


def test_a_link_stays_one_and_the_file_keeps_its_rights(tmp_path: Path) -> None:
    home, link = tmp_path / "mine.toml", tmp_path / "link.toml"
    home.write_text("former")
    home.chmod(0o640)
    link.symlink_to("mine.toml")
    write_whole(link, b"new")
    assert link.is_symlink()
    assert home.read_text() == "new"
    assert home.stat().st_mode & 0o777 == 0o640
    assert names(tmp_path) == ["link.toml", "mine.toml"]


def test_a_file_that_is_there_stays_unless_it_may_go(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text("former")
    with pytest.raises(FileExistsError):
        write_whole(tmp_path / "mine.toml", b"new", over=False)
    assert (tmp_path / "mine.toml").read_text() == "former"
    write_whole(tmp_path / "other.toml", b"new", over=False)
    assert names(tmp_path) == ["mine.toml", "other.toml"]


@pytest.mark.parametrize("over", [True, False])
def test_one_that_is_stopped_leaves_what_was_there(
    over: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(*given: object) -> None:
        raise KeyboardInterrupt

    (tmp_path / "mine.toml").write_text("former")
    monkeypatch.setattr("platewheel.cli.work.one_file._put", stop)
    with pytest.raises(KeyboardInterrupt):
        write_whole(tmp_path / "mine.toml", b"new", over=over)
    assert (tmp_path / "mine.toml").read_text() == "former"
    assert names(tmp_path) == ["mine.toml"]


def test_what_a_run_that_was_ended_left_goes_but_not_that_of_one_at_work(tmp_path: Path) -> None:
    for left in (".mine.toml-17", ".mine.toml-18", ".mine.toml-notes"):
        (tmp_path / left).write_text("half")
    with (tmp_path / ".mine.toml-18").open("r+b") as at_work:
        assert lock_now(at_work.fileno())
        write_whole(tmp_path / "mine.toml", b"new")
    assert names(tmp_path) == [".mine.toml-18", ".mine.toml-notes", "mine.toml"]


def test_a_device_takes_what_comes() -> None:
    write_whole(Path("/dev/null"), b"new")
    assert Path("/dev/null").is_char_device()
