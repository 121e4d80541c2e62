"""The job folder: written aside, then put in place; what was there stays until then."""

from __future__ import annotations

import filecmp
import os
import re
import shutil
import tempfile
import unicodedata
from collections.abc import Callable, Collection, Iterator, Mapping
from pathlib import Path
from typing import TypeVar

from platewheel.cli.output.alone import alone_in, former_of, take_away
from platewheel.cli.output.exchange import exchange
from platewheel.cli.output.made_of import MADE_OF, OF_THE_WHEEL, stale, write_made_of
from platewheel.cli.work.guard import in_place
from platewheel.cli.work.not_finished import NotFinished
from platewheel.cli.work.stopping import undisturbed
from platewheel.parts.gauges.wanted import NAMES as GAUGE_NAMES
from platewheel.parts.making.plywood import NAMES as PLYWOOD_NAMES
from platewheel.parts.wheel.kinds import PART_NAMES

T = TypeVar("T")
PART = f"({'|'.join(PART_NAMES)})"
EXTRA = r"extra-[A-Za-z0-9._-]+"  # a part of the user's own
AXLE_PART = "(axle|key|spacer|collar|shim-inner|shim-outer|bush)"
GAUGE = f"({'|'.join(GAUGE_NAMES)})"
PLYWOOD = f"({'|'.join(PLYWOOD_NAMES)})"
# what a file manager leaves in each folder that it has shown
LITTER = (".DS_Store", ".directory", "Thumbs.db", "desktop.ini")
OURS = {  # entry of a job folder -> what the files in it are called; "" for a file
    "report.json": "",
    "job-sheet.html": "",
    "job-sheet.pdf": "",
    "standards.pdf": "",
    "calculation.pdf": "",
    "plates.pdf": "",
    "marking-out.pdf": "",
    "offcuts.toml": "",
    "offcuts-used.toml": "",
    MADE_OF: "",
    "solids": rf"({PART}|{AXLE_PART}|wheel|wheelset)\.(step|stl|3mf)|wheel\.glb",
    "blanks": rf"({PART}|{EXTRA}|{GAUGE})\.dxf",
    "sheets": r"[0-9.]+mm-[0-9]+\.dxf",
    "templates": rf"({PART}|{EXTRA}|{GAUGE}|{PLYWOOD}|strip-{PART}|small-parts)\.pdf",
}

WHEELSET_OURS = {"report.json": "", "wheelset.step": ""}  # of a wheelset
DECK_OURS = {"wheel.inp": "", "README.txt": ""}  # of a deck
PROPOSAL_OURS = {"report.json": "", "proposal.html": ""}  # of a proposal
REFIT_OURS = {  # the same for the folder of a refit
    "report.json": "",
    "record.csv": "",
    "refit-sheet.html": "",
    "plates.pdf": "",
    "marking-out.pdf": "",
    "offcuts.toml": "",
    "offcuts-used.toml": "",
    "blanks": r"(disc|flange)-[0-9]+\.dxf",
    "templates": r"((disc|flange)-[0-9]+|small-parts)\.pdf",
    "sheets": OURS["sheets"],
}


def write_folder(
    out: Path, name: str, write: Callable[[Path], T], ours: Mapping[str, str] = OURS
) -> T:
    """Replace out/name by what `write` puts into the folder it is given.

    Raises: NotFinished where out/name holds files that are not `ours`; whatever `write` raises.
    In every case of failure the former folder is as it was.
    """
    home = out / name
    require_ours(out, name, ours)
    with alone_in(out, name):
        require_ours(out, name, ours)  # once more: it may have waited for another run
        aside: Path | None = None
        try:
            with undisturbed():
                aside = Path(tempfile.mkdtemp(prefix=f".{name}-", dir=out))
            made = aside / "made"
            made.mkdir()
            result = write(made)
            with undisturbed():
                require_ours(out, name, ours)  # nobody put a file of his own there meanwhile
                _put(made, home)
                in_place(f"{home} is the new one, whole")
            return result
        except OSError as error:
            if error.errno is not None and error.filename is None:  # a disk that is full
                error.filename = str(home)
            raise
        finally:
            with undisturbed():
                if aside:
                    take_away(aside)


def write_part(
    out: Path,
    name: str,
    write: Callable[[Path], T],
    papers: Collection[str],
    now: Mapping[str, str],
    *,
    same: bool = False,
) -> tuple[T, list[str]]:
    """Replace only those entries of out/name that `write` makes, of `now` (by `made_of`); all or
    none. What stands beside them and is of another state of the job is taken away with all papers;
    `papers` also where what they tell of is not what was there. A line says so. `same`: the same
    files in another print, by their names.

    Raises: as `write_folder`.
    """
    home, told = out / name, list[str]()

    def beside_the_others(folder: Path) -> T:
        result = write(folder)
        made = [entry.name for entry in folder.iterdir()]
        other = stale(home, now, made)
        for entries, why in (
            (other.changed, "are of the job as it was, not as it is now"),
            (other.unknown, "may be of another state of the job: nothing tells of which"),
        ):
            if entries:
                told.append(_taken(home, entries, why))
        gone = [*other.changed, *other.unknown]
        alike = all(_alike(folder / one, home / one, same) for one in made)
        against = OF_THE_WHEEL if gone else () if alike else papers
        against = [one for one in against if one not in gone and (home / one).exists()]
        if against:
            told.append(_taken(home, against, "tell of other files than are there now"))
        gone += against
        write_made_of(folder, now, home, made, gone)
        _carry(home, folder, gone)
        return result

    return write_folder(out, name, beside_the_others), told


def _taken(home: Path, entries: Collection[str], why: str) -> str:
    anew = "`platewheel build` writes them anew"
    return f"taken away from {home}, as they {why}: {', '.join(entries)}; {anew}"


def _alike(new: Path, former: Path, names: bool) -> bool:
    """Whether two files, or all in two folders, are the same; or are called the same."""
    if not new.is_dir():
        return former.is_file() and (names or filecmp.cmp(new, former, shallow=False))
    inner = sorted(one.name for one in new.iterdir())
    there = sorted(one.name for one in former.iterdir()) if former.is_dir() else []
    return inner == there and all(_alike(new / one, former / one, names) for one in inner)


def _carry(home: Path, made: Path, gone: Collection[str]) -> None:
    """Every entry of `home` that `made` has not and that is not gone, without a second copy where
    the disk can."""
    for entry in sorted(home.iterdir()) if home.exists() else ():
        target = made / entry.name
        if not target.exists() and entry.name not in gone:
            if entry.is_dir():
                target.mkdir()
                for inner in entry.iterdir():
                    _link(inner, target / inner.name)
            else:
                _link(entry, target)


def _link(former: Path, now: Path) -> None:
    try:
        os.link(former, now)
    except OSError:
        shutil.copy2(former, now)


def require_ours(out: Path, name: str, ours: Mapping[str, str] = OURS) -> None:
    """A folder that holds anything else is somebody's own: it is not replaced. For a command that
    takes long, to ask first. Raises: NotFinished."""
    home = out / name
    there = next(one for one in (out, *out.absolute().parents) if os.path.lexists(one))
    if not there.is_dir():
        raise NotFinished([f"{there}: there, but no folder; name a folder as --out"])
    if not os.access(there, os.W_OK | os.X_OK):
        raise NotFinished([f"{there}: not yours to write in; name another folder as --out"])
    _require_written(there)
    if home.is_symlink():
        line = f"{home}: is a link, and a job folder is put in place whole, which would break it"
        raise NotFinished(
            [f"{line}; take it away, or name as --out the folder that it should be in"]
        )
    if home.exists() and not home.is_dir():
        raise NotFinished([f"{home}: there, but no folder; move it away or take another --out"])
    for one in out.iterdir() if out.is_dir() and os.access(out, os.R_OK) else ():
        if one.name != name and _as_every_system_has_it(one.name) == _as_every_system_has_it(name):
            line = f"{one}: there, and for some systems {name} is the same name; take another "
            raise NotFinished([f"{line}--out or job.name"])
    for one in (home, *(home / name for name, inner in ours.items() if inner)):
        if one.is_dir() and not os.access(one, os.R_OK | os.W_OK | os.X_OK):
            line = f"{one}: not yours to write in; take another --out, or ask whose it is"
            raise NotFinished([line])
    strangers = sorted(_strangers(home, ours)) if home.exists() else []
    if strangers:
        raise NotFinished(
            [
                f"{home}: holds {', '.join(strangers[:5])}, not written here; move them or take "
                "another --out or job.name"
            ]
        )


def _require_written(folder: Path) -> None:
    """Some folders take no file whatever their permissions say. Raises: NotFinished."""
    try:
        with undisturbed(), tempfile.TemporaryFile(prefix=".platewheel-", dir=folder):
            pass
    except OSError as error:
        line = f"{folder}: cannot be written in ({error.strerror or error})"
        raise NotFinished([f"{line}; name another folder as --out"]) from error


def _as_every_system_has_it(name: str) -> str:
    """Some know no capitals, or one way of writing an accent."""
    return unicodedata.normalize("NFC", name).casefold()


def _strangers(home: Path, ours: Mapping[str, str]) -> Iterator[str]:
    for entry in home.iterdir():
        if entry.name in LITTER:
            continue
        names = ours.get(entry.name)
        if names is None or entry.is_symlink() or entry.is_dir() != bool(names):
            yield entry.name
        elif names:
            for inner in entry.iterdir():
                if inner.name in LITTER:
                    continue
                if not re.fullmatch(names, inner.name) or not inner.is_file():
                    yield f"{entry.name}/{inner.name}"


def _put(made: Path, home: Path) -> None:
    """Put `made` in the place of `home`: in one step, or else in two, of which the first is taken
    back where the second fails, or by the next run (`alone.py`)."""
    if not home.exists():
        made.rename(home)
    elif not exchange(made, home):
        former = former_of(made.parent, home.name)
        try:
            home.rename(former)
            made.rename(home)
        except BaseException:
            if not home.exists():
                former.rename(home)
            raise
