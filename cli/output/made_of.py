"""Of what a job folder's files were made, so that files of two states of a job never lie together.

Here stands, once, what each kind of file is made of. A file that nobody need read keeps a digest of
it for each kind that is in the folder.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass, fields
from hashlib import sha256
from pathlib import Path

from platewheel.cli.job.blanks import job_blanks
from platewheel.cli.job.job import FIELDS, Job
from platewheel.cli.work.text_file import file_bytes
from platewheel.parts.base.faults import SpecError
from platewheel.parts.wheel.assembly import wheel_parts
from platewheel.parts.wheelset.assembly import wheelset

MADE_OF = ".made-of.json"
MOST_BYTES = 1000
# of a job: where its keys stand; PIECES and the file's own rows tell the rack
PLACE = ("places", "rack")
WHOLE = tuple(one.name for one in fields(Job) if one.name not in PLACE)
CUT = "cut"  # every blank with its count, whatever its shape came from
AXLES = "axles"  # the wheelset, whatever its sizes came from
PIECES = "pieces"  # of the ledger; known to what lays a plan

USED = "offcuts-used.toml"  # stays until a plan is made anew: what it tells of may be cut
OF_PLATES = ("report.json", "job-sheet.html", "job-sheet.pdf")  # tell of the cutting files
OF_THE_WHEEL = (*OF_PLATES, "calculation.pdf", "standards.pdf")  # tell of the wheel


@dataclass(frozen=True)
class Kind:
    """Entries of a job folder, and what of a job they are made of: its fields, `field.key` for one
    key alone, CUT, AXLES."""

    entries: tuple[str, ...]
    of: tuple[str, ...]


_SHOP = ("cutting", "shop", "wheel", CUT)
KINDS = {
    "blanks": Kind(("blanks",), ("cutting", "file_layers", CUT)),
    "templates": Kind(("templates", "marking-out.pdf"), (*_SHOP, "head.name", "paper")),
    "sheets": Kind(
        ("sheets", "plates.pdf", "offcuts.toml", USED),
        (
            *_SHOP,
            AXLES,
            *("head.name", "head.wheels", "head.ledger", "paper"),
            *("costs.labour_price_per_h", "costs.steel_price_per_kg"),  # what setting up costs
            *("stock", "offcuts", "bars", "pipes", "rounds"),
            *("cut_speeds", "file_layers"),
        ),
    ),
    "solids": Kind(
        ("solids",),
        (
            *("wheel", "own_disc", AXLES, "track", "axle", "shop", "cutting.process"),
            *("head.name", "head.author"),
        ),
    ),
    "papers": Kind(OF_THE_WHEEL, (*WHOLE, CUT)),
    PIECES: Kind(OF_THE_WHEEL, ()),
}


@dataclass(frozen=True)
class Stale:
    """Entries that are not of the job as it is, and such as nothing tells of what they are."""

    changed: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()


def made_of(job: Job, pieces: Collection[object] | None = None) -> dict[str, str]:
    """A digest for each kind of what it is made of, for the papers also of the `pieces` of the
    ledger that a plan cuts, where there is a plan."""
    state: dict[str, object] = {name: getattr(job, name) for name in WHOLE}
    if job.rack:  # as the file has them: what other jobs take and leave changes nothing of this one
        state |= {FIELDS.get(name, name): rows for name, rows in job.rack.own.items()}
    drawn = [(one.spec, one.steel, one.notes) for one in job.extras]  # their blanks are cut
    state |= {CUT: _cut(job), AXLES: _axles(job), "extras": drawn}
    once = {name: _digest(value) for name, value in state.items()}  # drawings have many lines
    now = {
        what: _digest([(one, _read(state, one) if "." in one else once[one]) for one in kind.of])
        for what, kind in KINDS.items()
    }
    now.pop(PIECES)
    return now if pieces is None else now | {PIECES: _digest(pieces)}


def stale(home: Path, now: Mapping[str, str], made: Collection[str]) -> Stale:
    """Entries of a job folder to be taken away where `made` are made anew, of `now`."""
    was, changed, unknown = _was(home), list[str](), list[str]()
    for what, kind in KINDS.items():
        left = [one for one in kind.entries if one not in made and (home / one).exists()]
        if not left:
            continue
        if _anew(kind, made):  # made no more
            changed += left
            continue
        left = [one for one in left if one != USED]
        if what not in was:
            unknown += left
        elif what in now and was[what] != now[what]:
            changed += left
    told = dict.fromkeys(changed)
    return Stale((*told,), (*(one for one in dict.fromkeys(unknown) if one not in told),))


def write_made_of(
    folder: Path, now: Mapping[str, str], home: Path, made: Collection[str], gone: Collection[str]
) -> None:
    """Put it down in the folder that takes the place of `home`: `now` of what is made anew, of what
    stays that which is known of it."""
    was, told = _was(home), dict[str, str]()
    for what, kind in KINDS.items():
        if _anew(kind, made):
            told |= {what: now[what]} if what in now else {}
        elif what in was and any((home / one).exists() for one in kind.entries if one not in gone):
            told[what] = was[what]
    (folder / MADE_OF).write_text(json.dumps(told) + "\n", encoding="utf-8")


def _cut(job: Job) -> list[object]:
    try:
        cut = job_blanks(job, wheel_parts(job.wheel, disc=job.own_disc))
    except SpecError:  # gauges that cannot be made; no plate is cut of such a job
        return [one.blank for one in job.extras]
    return [(one.stem, one.count, one.steel, one.turns, one.blank) for one in cut]


def _axles(job: Job) -> object:
    if not job.has_axle:
        return None
    try:
        return wheelset(job.setting)
    except SpecError as error:
        return str(error)


def _anew(kind: Kind, made: Collection[str]) -> bool:
    return any(one in made for one in kind.entries)


def _was(home: Path) -> dict[str, str]:
    try:
        was = json.loads(file_bytes(home / MADE_OF, MOST_BYTES))
    except (OSError, ValueError, RecursionError):
        return {}
    return was if isinstance(was, dict) else {}


def _read(state: Mapping[str, object], name: str) -> object:
    field, key = name.split(".")
    return getattr(state[field], key)


def _digest(made: object) -> str:
    found = sha256()
    for one in made if isinstance(made, list | tuple) else (made,):
        found.update(f"{one!r};".encode())
    return found.hexdigest()
