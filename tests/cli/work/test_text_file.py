"""What a file is told to be that is not the one asked for, the same for each kind of file."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest

from platewheel.cli.work.text_file import NotText, NotToml, sound_bytes, toml_table
from platewheel.parts.base.faults import SpecError

LEDGER = ("a ledger", "TOML text")


def told(path: Path, key: str = "") -> str:
    with pytest.raises(SpecError) as refused:
        sound_bytes(path, 10, LEDGER, "another", key)
    (fault,) = refused.value.faults
    return str(fault).replace(str(path), "FILE")


def test_a_file_that_is_not_the_one_asked_for(tmp_path: Path) -> None:
    long, right = tmp_path / "long", tmp_path / "right"
    long.write_bytes(b"x" * 11)
    right.write_bytes(b"x" * 10)
    assert sound_bytes(right, 10, LEDGER, "another") == b"x" * 10
    end = "; try: another"
    assert told(long) == f"FILE: found '11 bytes'; allowed: a ledger of at most 10 bytes{end}"
    assert told(tmp_path, "rings") == f"rings: found 'a folder'; allowed: a ledger (TOML text){end}"
    assert told(tmp_path / "none").endswith(f"allowed: a ledger that can be read{end}")


@pytest.mark.parametrize(
    ("text", "line"),
    [("a = 1\nb = \nc = 2\n", 2), ("a = 1\nb = 1\nb = 2\n", 3), ('a = 1\nb = """x\n\n\n', 2)],
)
def test_what_is_no_toml_is_told_by_its_line(text: str, line: int) -> None:
    """TOML v1.0.0: a key needs a value, stands once, and a text of many lines ends."""
    with pytest.raises(NotToml) as refused:
        toml_table(text)
    assert refused.value.line == line


def test_numbers_of_absurd_length_and_deep_brackets_are_no_toml_of_ours() -> None:
    with pytest.raises(NotToml, match="a number of thousands of digits"):
        toml_table("a = " + "1" * 5000)
    with pytest.raises(NotText, match="brackets") as refused:
        toml_table("a = 1\nb = " + "[" * 5000)
    assert not isinstance(refused.value, NotToml)
    assert toml_table("a.b = [1, 2]") == {"a": {"b": [1, 2]}}


@pytest.mark.skipif(not os.path.ismount("/proc"), reason="a Linux kernel's own files")
@pytest.mark.parametrize("name", ["/proc/kmsg", "/proc/self/environ", "/proc/self/mem"])
def test_what_the_kernel_makes_up_is_not_read(name: str, tmp_path: Path) -> None:
    """proc(5): kmsg is read only as it comes, environ has what nobody else may see."""
    assert 'found "a file of the system\'s own, on no disk"' in told(Path(name))
    (tmp_path / "job.toml").symlink_to(name)
    assert 'found "a file of the system\'s own, on no disk"' in told(tmp_path / "job.toml")


def test_what_is_no_file_is_told_without_being_opened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = socket.socket(socket.AF_UNIX)
    monkeypatch.chdir(tmp_path)  # a socket's name is short
    made.bind("plug")
    os.mkfifo("tap")
    monkeypatch.setattr(os, "open", lambda *about: pytest.fail("opened"))
    for name, what in {"plug": "a socket", "tap": "a pipe", "/dev/zero": "a device"}.items():
        assert f"found '{what}'" in told(Path(name))
    made.close()
