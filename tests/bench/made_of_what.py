"""Whether the digests of a job folder tell two jobs apart wherever files of theirs differ; by hand:

python -m tests.bench.made_of_what JOB.toml [SECTION.KEY ...]

Of each key another value, no rule asked; blanks, templates, cutting files and solids are written of
both jobs. "FAULT": the files differ and the digest does not. "wide": the other way round.
Without keys: all of them, five seconds each.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from platewheel.cli.job.job import FIELDS, Job, read_job
from platewheel.cli.output.made_of import made_of
from platewheel.cli.schema.job_sections import KINDS
from tests.cli.jobs import files_of
from tests.cli.read_of import WRITERS, states

OF_DRAWINGS = ("disc", "extra", "drawing_layer")


def main() -> None:
    """Exit code 1 where there is a fault."""
    job, keys = read_job(Path(sys.argv[1]), gauges_cut=True), sys.argv[2:]
    first, files, faults = made_of(job), written(job), 0
    for name in keys or all_keys():
        section, key = name.split(".")
        field = FIELDS.get(section, section)
        for other in states(job, field, key) if getattr(job, field) else ():
            try:
                now, new = made_of(other), written(other)
            except LookupError:
                print(f"{name}: no such job")
                continue
            told = []
            for what in WRITERS:
                if new[what] is None:
                    told.append(f"{what} cannot be made")
                elif (new[what] != files[what]) != (now[what] != first[what]):
                    told.append(f"{what} {'FAULT' if now[what] == first[what] else 'wide'}")
            faults += sum("FAULT" in one for one in told)
            print(f"{name}: {', '.join(told) or 'as told'}", flush=True)
    raise SystemExit(bool(faults))


def all_keys() -> Iterator[str]:
    """Of all sections but those of drawings."""
    for section, kind in KINDS.items():
        if section not in OF_DRAWINGS:
            yield from (f"{section}.{key}" for key in kind.model_fields)


def written(job: Job) -> dict[str, dict[str, bytes] | None]:
    """The files of each kind; None where this job can have none."""
    found: dict[str, dict[str, bytes] | None] = {}
    for what, write in WRITERS.items():
        with TemporaryDirectory() as folder:
            try:
                write(job, Path(folder))
            except Exception:  # a value that no rule was asked about
                found[what] = None
            else:
                found[what] = files_of(Path(folder))
    return found


if __name__ == "__main__":
    main()
