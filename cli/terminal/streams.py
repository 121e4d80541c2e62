"""stdout and stderr that may be closed, full, or a pipe whose reader has gone: the work goes on."""

from __future__ import annotations

import errno
import io
import os
import sys
from typing import Any, TextIO

FIRST_FREE = 3  # 0, 1, 2 are the three streams


class Forgiving(io.TextIOWrapper):
    """A stream that, once it cannot be written to, takes what comes and forgets it."""

    lost: OSError | None = None

    def write(self, text: str, /) -> int:
        try:
            return super().write(text)
        except OSError as error:
            self._lose(error)
            return len(text)

    def flush(self) -> None:
        try:
            super().flush()
        except OSError as error:
            self._lose(error)

    def _lose(self, error: OSError) -> None:
        self.lost = self.lost or error
        os.dup2(_nowhere(), self.fileno())  # what is buffered still goes there
        super().flush()


def forgiving_streams() -> None:
    """Put them in the place of Python's own. Before any file is opened: one that was opened as
    number 1 would get what libraries print."""
    while (opened := _nowhere()) < FIRST_FREE:
        pass
    os.close(opened)
    if sys.stdin is None:
        sys.stdin = open(0, encoding="utf-8", closefd=False)  # noqa: SIM115 - as long as the run
    sys.stdout = sys.__stdout__ = _forgiving(sys.stdout, 1)  # type: ignore[misc]
    sys.stderr = sys.__stderr__ = _forgiving(sys.stderr, 2)  # type: ignore[misc]


def lost_output() -> str | None:
    """Why stdout could not take what was shown; None where it did, or nobody wanted more."""
    error = getattr(sys.stdout, "lost", None)
    if error is None or error.errno == errno.EPIPE:
        return None
    return f"stdout: {error.strerror or error}; what was to be shown there is lost"


def _nowhere() -> int:
    return os.open(os.devnull, os.O_RDWR)


def _forgiving(stream: TextIO | None, number: int) -> Any:
    lines = number == 2 or (stream is not None and stream.isatty())
    if stream is None or not isinstance(stream, io.TextIOWrapper):
        raw = os.fdopen(number, "wb", closefd=False)
        return Forgiving(raw, encoding="utf-8", errors="replace", line_buffering=lines)
    encoding = stream.encoding
    return Forgiving(stream.detach(), encoding=encoding, errors="replace", line_buffering=lines)
