"""The job folder: written aside, then put in place; what was there stays until then."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from cli.exits import NotFinished

T = TypeVar("T")
OURS = {
    "report.json",
    "job-sheet.html",
    "offcuts.toml",
    "solids",
    "blanks",
    "sheets",
    "templates",
}


def write_folder(out: Path, name: str, write: Callable[[Path], T]) -> T:
    """Replace out/name by what `write` puts into the folder it is given.

    Raises: NotFinished where out/name holds files that are not ours; whatever `write` raises.
    In every case of failure the former folder is as it was.
    """
    return _aside(out, name, write, _swap)


def write_part(out: Path, name: str, write: Callable[[Path], T]) -> T:
    """Replace only those entries of out/name that `write` makes."""

    def put(made: Path, home: Path) -> None:
        home.mkdir(exist_ok=True)
        for entry in sorted(made.iterdir()):
            _swap(entry, home / entry.name)

    return _aside(out, name, write, put)


def _aside(
    out: Path, name: str, write: Callable[[Path], T], put: Callable[[Path, Path], None]
) -> T:
    home = out / name
    _refuse_strangers(home)
    out.mkdir(parents=True, exist_ok=True)
    aside = Path(tempfile.mkdtemp(prefix=f".{name}-", dir=out))
    try:
        made = aside / "made"
        made.mkdir()
        result = write(made)
        put(made, home)
        return result
    finally:
        shutil.rmtree(aside, ignore_errors=True)


def _refuse_strangers(home: Path) -> None:
    """A folder that holds anything else is somebody's own: it is not replaced."""
    if home.is_symlink() or (home.exists() and not home.is_dir()):
        raise NotFinished([f"{home}: there, but no folder; move it away or take another --out"])
    entries = home.iterdir() if home.exists() else iter(())
    strangers = sorted(entry.name for entry in entries if entry.name not in OURS)
    if strangers:
        raise NotFinished(
            [
                f"{home}: holds {', '.join(strangers[:5])}, not written here; move them or take "
                "another --out or job.name"
            ]
        )


def _swap(made: Path, home: Path) -> None:
    """Put `made` in the place of `home`; should that fail, `home` is put back."""
    if not home.exists():
        made.rename(home)
        return
    former = made.parent / f"former-{home.name}"
    home.rename(former)
    try:
        made.rename(home)
    except BaseException:
        former.rename(home)
        raise
