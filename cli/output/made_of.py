"""Of what a job folder's files were made, so that files of two states of a job never lie together.

The parts of a job go into its blanks, templates and cutting files, wheel and axle into its solids.
A file that nobody need read keeps a digest of each.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from hashlib import sha256
from pathlib import Path

from platewheel.cli.job.blanks import job_blanks
from platewheel.cli.job.job import Job
from platewheel.cli.work.text_file import file_bytes
from platewheel.parts.base.faults import SpecError
from platewheel.parts.wheel.assembly import wheel_parts

MADE_OF = ".made-of.json"
MOST_BYTES = 1000
ENTRIES = {  # what is made of it
    "parts": ("blanks", "sheets", "templates", "plates.pdf", "marking-out.pdf", "offcuts.toml"),
    "solids": ("solids",),
}


def made_of(job: Job) -> dict[str, str]:
    """A digest of what is cut, each part with its count, and of wheel and axle."""
    try:
        cut = job_blanks(job, wheel_parts(job.wheel, disc=job.own_disc))
    except SpecError:  # gauges that cannot be made; no plate is cut of such a job
        cut = ()
    axle = (job.track, job.axle, job.wagon) if job.has_axle else None
    return {
        "parts": _digest([(one.stem, one.count, one.steel, one.blank) for one in cut]),
        "solids": _digest((job.wheel, job.own_disc, axle)),
    }


def write_made_of(folder: Path, now: Mapping[str, str]) -> None:
    """Put it down beside the files."""
    (folder / MADE_OF).write_text(json.dumps(now) + "\n", encoding="utf-8")


def of_another_state(home: Path, now: Mapping[str, str]) -> Iterator[str]:
    """Entries of a job folder that were made of other parts, or of another wheel, than `now`;
    none where it is not known."""
    try:
        was = json.loads(file_bytes(home / MADE_OF, MOST_BYTES))
    except (OSError, ValueError, RecursionError):
        return
    for what, entries in ENTRIES.items():
        if isinstance(was, dict) and was.get(what) != now[what]:
            yield from (one for one in entries if (home / one).exists())


def _digest(made: object) -> str:
    return sha256(repr(made).encode()).hexdigest()
