"""A file that a person names: its bytes, not too many, and its TOML, none that takes for ever."""

from __future__ import annotations

import os
import re
import stat
import tomllib
from functools import lru_cache
from pathlib import Path
from typing import Any

from platewheel.parts.base.faults import Fault, SpecError

MOST_LINES = 50_000
MOST_DEEP = 40  # names in a dotted key, brackets in one another: no file of ours has five
# Python's own reader walks the whole path at each dot of it, and calls itself at each bracket
DOTTED = re.compile(rf"(?<![\w\"'-])(?:[\w\"'-]++[ \t]*+\.[ \t]*+){{{MOST_DEEP}}}")
NO_FILE = {stat.S_IFDIR: "a folder", stat.S_IFIFO: "a pipe", stat.S_IFSOCK: "a socket"}
DEEP = re.compile(rf"(?:[\[{{][\s\w.=\"']*+){{{MOST_DEEP}}}")


class NotText(ValueError):  # noqa: N818 - named for what it tells
    """What was found in place of a text that can be read; `line` where it is known."""

    def __init__(self, found: str, line: int = 0) -> None:
        self.found, self.line = found, line
        super().__init__(found)


class TooLong(NotText):
    """How many bytes a file has that has more than any of ours."""


class NotToml(NotText):
    """What TOML has against a text, and the line where."""


def file_bytes(path: Path, most: int) -> bytes:
    """All of a file. What is none is not opened: a pipe would be waited for, a device may act.

    Raises: NotText for what is no file or has more than `most` bytes; OSError.
    """
    _require_file(os.stat(path))
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with os.fdopen(handle, "rb") as source:
        there = os.fstat(handle)  # it may be another one by now
        _require_file(there)
        data = source.read(most + 1)
    if len(data) > most:
        raise TooLong(f"{max(there.st_size, len(data))} bytes")
    return data


def _require_file(there: os.stat_result) -> None:
    kind = stat.S_IFMT(there.st_mode)
    if kind != stat.S_IFREG:
        raise NotText(NO_FILE.get(kind, "a device"))
    if there.st_dev in _kernels_own():
        raise NotText("a file of the system's own, on no disk")


@lru_cache(maxsize=1)
def _kernels_own() -> frozenset[int]:
    """Devices whose files the kernel makes up as they are read: some of them without end."""
    return frozenset(os.stat(root).st_dev for root in ("/proc", "/sys") if os.path.ismount(root))


def path_text(path: Path) -> str:
    """Where it is, as a text for every file and page: a name may have bytes that are none."""
    return os.fsencode(path).decode("utf-8", "backslashreplace")


def sound_bytes(path: Path, most: int, what: tuple[str, str], advice: str, key: str = "") -> bytes:
    """All of a file that is asked for as `what`: "a ledger", and how it is written, "TOML text".

    Raises: SpecError, its key the file or `key`, for what cannot be read or is no such file.
    """
    name, written = what

    def fault(found: str, allowed: str) -> SpecError:
        return SpecError([Fault(key or str(path), found, f"{name} {allowed}", advice)])

    try:
        return file_bytes(path, most)
    except TooLong as error:
        raise fault(error.found, f"of at most {most} bytes") from error
    except NotText as error:
        raise fault(error.found, f"({written})") from error
    except (OSError, ValueError) as error:  # ValueError: no name for a file
        raise fault(getattr(error, "strerror", None) or str(error), "that can be read") from error


def no_utf8(data: bytes, error: UnicodeDecodeError) -> tuple[str, int]:
    """What was found in place of a text in UTF-8, and its line."""
    found = f"bytes that are not UTF-8 text at offset {error.start}"
    return found, data[: error.start].count(b"\n") + 1


def toml_table(text: str) -> dict[str, Any]:
    """Raises: NotToml; NotText where the text is deeper or has more lines than any of ours."""
    require_shallow(text)
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:  # ValueError: numbers of absurd length, too
        place = re.search(r"\(at line (\d+)", str(error))
        last = text.rstrip("\n").count("\n") + 1
        own = isinstance(error, tomllib.TOMLDecodeError)
        found = str(error) if own else "a number of thousands of digits, or more brackets than any"
        raise NotToml(found, int(place[1]) if place else last) from error


def require_shallow(text: str) -> None:
    """Raises: NotText where the text, as TOML, is deeper or has more lines than any of ours."""
    lines = text.count("\n") + 1
    if lines > MOST_LINES:
        raise NotText(f"{lines} lines")
    for pattern, what in ((DOTTED, "names with dots between"), (DEEP, "brackets in brackets")):
        found = pattern.search(text)
        if found:
            line = text.count("\n", 0, found.start()) + 1
            raise NotText(f"{MOST_DEEP} {what}, or more", line)
