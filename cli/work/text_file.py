"""Bytes of a file that a person names: a file, not too long, and no TOML that takes for ever."""

from __future__ import annotations

import os
import re
import stat
from pathlib import Path

MOST_LINES = 50_000
MOST_DEEP = 40  # names in a dotted key, brackets in one another: no file of ours has five
# Python's own reader walks the whole path at each dot of it, and calls itself at each bracket
DOTTED = re.compile(rf"(?<![\w\"'-])(?:[\w\"'-]++[ \t]*+\.[ \t]*+){{{MOST_DEEP}}}")
DEEP = re.compile(rf"(?:[\[{{][\s\w.=\"']*+){{{MOST_DEEP}}}")


class NotText(ValueError):  # noqa: N818 - named for what it tells
    """What was found in place of a text that can be read; `line` where it is known."""

    def __init__(self, found: str, line: int = 0) -> None:
        self.found, self.line = found, line
        super().__init__(found)


def file_bytes(path: Path, most: int) -> bytes:
    """All of a file. A pipe or a device is not waited for.

    Raises: NotText for what is no file or has more than `most` bytes; OSError.
    """
    if path.is_dir():
        raise NotText("a folder")
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with os.fdopen(handle, "rb") as source:
        there = os.fstat(handle)
        if not stat.S_ISREG(there.st_mode):
            raise NotText("a pipe or a device")
        data = source.read(most + 1)
    if len(data) > most:
        raise NotText(f"{max(there.st_size, len(data))} bytes")
    return data


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
