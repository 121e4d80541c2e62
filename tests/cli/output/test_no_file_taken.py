"""A folder that takes no file, whatever its permissions say: told with the system's reason."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from platewheel.cli.output import folder
from platewheel.cli.output.folder import write_folder
from platewheel.cli.work.not_finished import NotFinished

NAME = "pond"


@pytest.mark.parametrize("inner", ["", "deeper"])
def test_a_folder_that_takes_no_file_is_told_with_the_reason(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, inner: str
) -> None:
    """As those of the kernel, where permissions say that one may write."""

    def none(**where: object) -> object:
        assert where["dir"] == tmp_path
        raise OSError(errno.ENOENT, "No such file or directory")

    monkeypatch.setattr(folder.tempfile, "TemporaryFile", none)
    with pytest.raises(NotFinished) as told:
        write_folder(tmp_path / inner, NAME, lambda made: pytest.fail("work was done"))
    (line,) = told.value.lines
    assert line.startswith(f"{tmp_path}: cannot be written in (No such file or directory); name ")
    assert [*tmp_path.iterdir()] == []


@pytest.mark.skipif(not os.path.ismount("/proc"), reason="a folder of the Linux kernel's own")
def test_the_kernel_s_own_folder_is_not_said_to_be_at_work() -> None:
    with pytest.raises(NotFinished) as told:
        folder.require_ours(Path("/proc"), NAME)
    assert "writ" in told.value.lines[0]
    assert "at work" not in told.value.lines[0]
