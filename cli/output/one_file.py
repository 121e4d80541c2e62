"""One file written beside its place and then put into it: all of it or nothing."""

from __future__ import annotations

import os
from pathlib import Path

from platewheel.cli.work.stopping import placed, undisturbed


def write_whole(file: Path, made: bytes) -> None:
    """Write the bytes. Raises: OSError."""
    aside = file.with_name(f".{file.name}-{os.getpid()}")
    try:
        with aside.open("xb") as target:
            target.write(made)
        with undisturbed():
            aside.replace(file)
            placed(f"{file} is the new one, whole")
    finally:
        aside.unlink(missing_ok=True)
