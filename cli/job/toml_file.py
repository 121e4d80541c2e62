"""A job file as a table of plain values; what is wrong with the file itself is told by its name."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from platewheel.parts.base.faults import Fault, SpecError

MOST_BYTES = 1_000_000  # a job file is a few kilobytes


def read_toml(path: Path) -> dict[str, Any]:
    """The file's sections. Raises: SpecError for what is no TOML text of a reasonable size."""
    file = str(path)
    start = "`platewheel new FILE` writes one to start from"
    try:
        if path.is_dir():
            raise SpecError([Fault(file, "a folder", "a job file (TOML text)", start)])
        with path.open("rb") as source:
            data = source.read(MOST_BYTES + 1)
        if len(data) > MOST_BYTES:
            found = f"{max(path.stat().st_size, len(data))} bytes"
            raise SpecError(
                [Fault(file, found, f"a job file of at most {MOST_BYTES} bytes", start)]
            )
    except OSError as error:
        reason = error.strerror or str(error)
        raise SpecError([Fault(file, reason, "a job file that can be read", start)]) from error
    if not data.strip():
        raise SpecError([Fault(file, "an empty file", "a job file (TOML text)", start)])
    try:
        return tomllib.loads(data.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        found = f"bytes that are not UTF-8 text at offset {error.start}"
        raise SpecError([Fault(file, found, "a job file (TOML text)", start)]) from error
    except (ValueError, RecursionError) as error:  # ValueError: numbers of absurd length
        advice = "text in quotes, numbers without; one key = value on a line, each key once"
        if "overwrite" in str(error):
            advice += (
                "; a table that comes more than once, as [[stock]], in double brackets each time"
            )
        raise SpecError([Fault(file, str(error), "TOML, https://toml.io", advice)]) from error
