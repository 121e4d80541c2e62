"""One file written beside its place and then put into it: all of it or nothing."""

from __future__ import annotations

import os
from pathlib import Path


def write_whole(file: Path, made: bytes) -> None:
    """Write the bytes. Raises: OSError."""
    aside = file.with_name(f".{file.name}-{os.getpid()}")
    try:
        with aside.open("xb") as target:
            target.write(made)
        aside.replace(file)
    finally:
        aside.unlink(missing_ok=True)
