"""A digest tells two states of a job apart for each kind of file that the change goes into.

Of solids, which take seconds, and byte by byte: `python -m tests.bench.made_of_what`.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import fields, replace
from functools import cache
from pathlib import Path

import pytest

from platewheel.cli.job.job import FIELDS, Job, job_of
from platewheel.cli.output.made_of import KINDS, made_of
from platewheel.cli.schema.job_sections import KINDS as SECTIONS
from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.nesting.drawings.extra import Extra, ExtraPart
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle
from tests.cli.jobs import ROWS, job_text
from tests.cli.read_of import WHOLE, WRITERS, states, traced

MORE_ROWS = """
[[offcut]]
name = "left"
thickness_mm = 5
outline = [[0, 0], [300, 0], [300, 200], [0, 200]]
[[bar]]
width_mm = 50
thickness_mm = 6
length_mm = 3000
[[pipe]]
outside_mm = 180
wall_mm = 6
length_mm = 1000
[[round]]
diameter_mm = 30
length_mm = 2000
[[cut_speed]]
thickness_mm = 5
speed_mm_per_min = 2500
pierce_s = 0.5
[[cut_speed]]
thickness_mm = 6
speed_mm_per_min = 2200
pierce_s = 0.6
[[file_layer]]
layer = "cut-outline"
name = "OUT"
[[way]]
share = 0.5
radius_m = 12
"""
EVERY = {"axle.retention": '"key"', "gauges.track": "true", "gauges.thickness_mm": "5"}


@cache
def every() -> Job:
    """A job with a row of everything that needs no drawing."""
    return job_of(tomllib.loads(job_text(EVERY, rows=ROWS + MORE_ROWS)))


def digests(job: Job, field: str, key: str) -> Iterator[dict[str, str]]:
    """Of the job with another value of that key, where such a wheel can be at all."""
    for one in states(job, field, key):
        with suppress(LookupError, ArithmeticError):
            yield made_of(one)


KEYS = [
    (FIELDS.get(section, section), key)
    for section, kind in SECTIONS.items()
    if section not in ("disc", "extra", "drawing_layer")  # of drawings, below
    for key in kind.model_fields
]


def test_papers_tell_every_key_of_a_job_apart() -> None:
    job = every()
    first = made_of(job)
    assert len(KEYS) > 150
    for field, key in KEYS:
        found = [*digests(job, field, key)]
        assert found, (field, key)
        assert all(one["papers"] != first["papers"] for one in found), (field, key)


def test_every_section_goes_into_the_papers() -> None:
    """A new one with them, as it is a field of the job."""
    of = {name.split(".")[0] for name in KINDS["papers"].of}
    assert {FIELDS.get(name, name) for name in (*SINGLE, *REPEATED)} <= of
    assert {one.name for one in fields(Job)} - of == {"places", "rack"}


def test_a_drawing_tells_apart_whatever_is_made_of_its_lines() -> None:
    """The same file with other lines: its name in the job is the same."""
    spec = Extra(name="lid", file="lid.dxf", thickness_mm=5, count=2)
    job = every()
    small, large = (Blank("lid", "extra", 5.0, Circle((0.0, 0.0), r)) for r in (30.0, 31.0))
    one, other = (
        made_of(replace(job, extras=(ExtraPart(spec, blank, "S235"),))) for blank in (small, large)
    )
    same = {what for what in one if one[what] == other[what]}
    assert same == {"solids"}
    disc = made_of(replace(job, own_disc=small))
    assert {what for what in disc if disc[what] == made_of(job)[what]} == set()


# what these read of a job, the digests have from themselves: blanks, and the wheelset
THROUGH = ("wheel_parts", "job_blanks", "other_blanks", "wheelset")
# read beside: faults of the reading are told, not written; names chalked are those of the pieces
TOLD = {"extras", "drawn_disc", "rack", "has_axle", "setting"}


@pytest.mark.parametrize("process", ["plasma", "hand"])
@pytest.mark.parametrize("what", ["blanks", "templates", "sheets"])
def test_what_a_writer_reads_its_digest_tells_apart(
    what: str, process: str, tmp_path: Path
) -> None:
    """Whatever is read of a job while files are made may stand in them."""
    rows = ROWS + MORE_ROWS if process == "plasma" else ROWS
    job = job_of(tomllib.loads(job_text(EVERY | {"cutting.process": f'"{process}"'}, rows=rows)))
    seen: set[str] = set()
    WRITERS[what](traced(job, seen, THROUGH), tmp_path)
    first = made_of(job)
    assert len(seen - TOLD) > 2
    for name in sorted(seen - TOLD):
        field, _, key = name.partition(".")
        if not key:
            other = made_of(replace(job, **{field: "another"}))
            assert other[what] != first[what], name
        elif key in WHOLE:
            assert field in KINDS[what].of, name
        else:
            found = [*digests(job, field, key)]
            assert all(one[what] != first[what] for one in found), name
            assert found, name
