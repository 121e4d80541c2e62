"""`platewheel new --all` writes a job file that is good as it stands and explains every key."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from platewheel.cli.job.job import job_of, read_job
from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from tests.cli.jobs import run

pytestmark = pytest.mark.usefixtures("own_folder")


@pytest.fixture
def text(own_folder: Path) -> str:
    """The file that `new` writes into the current folder, as new.toml."""
    result = run("new", "new.toml", "--all")
    assert result.exit_code == 0
    assert result.stdout.strip() == "new.toml"
    assert result.stderr == ""
    return (own_folder / "new.toml").read_text(encoding="utf-8")


def notes_by_key(text: str) -> dict[str, str]:
    """Each "section.key", in use or behind a #, and the note on the line above it."""
    notes: dict[str, str] = {}
    section, before = "", ""
    for line in text.splitlines():
        line = line.removeprefix("# ") if re.match(r"# (# |\[|\w+ = )", line) else line
        if head := re.match(r"\[+(\w+)\]+", line):
            section = head[1]
        elif key := re.match(r"(?:# )?(\w+) = ", line):
            notes[f"{section}.{key[1]}"] = before
        before = line
    return notes


def test_it_reads_as_a_job(text: str) -> None:
    job = read_job(Path("new.toml"))
    assert job == job_of(tomllib.loads(text))
    assert len(job.stock) == 2


def test_no_check_fails(text: str) -> None:
    result = run("check", "new.toml", "--quick")
    assert result.exit_code == 0, result.stderr


def test_every_key_of_every_table_is_there_with_a_note(text: str) -> None:
    notes = notes_by_key(text)
    kinds = (SINGLE | REPEATED).items()
    assert set(notes) == {
        f"{section}.{key}" for section, kind in kinds for key in kind.model_fields
    }
    for key, note in notes.items():  # what it is, and in brackets what it takes
        assert re.fullmatch(r"# \S.+ \(.+\)", note), key


@pytest.mark.parametrize(
    ("key", "takes"),
    [
        ("wheel.flange_angle_deg", "(a number from 45 up to 90 degrees)"),
        ("wheel.tread_from", '("sheet" | "bar" | "pipe")'),
        ("wheel.hub_bore_mm", "(a number above 0 up to 500 mm)"),
        ("wheel.flange_segments", "(a whole number from 1 up to 12)"),
        ("track.min_curve_radius_m", "(a number from 1 up to 10000 m)"),
        ("cutting.kerf_in_path", "(true or false)"),
        ("paper.size", '("A4" | "A3" | "Letter" | "Tabloid")'),
        (
            "offcut.outline",
            "(a list of at least three [x, y] corners in mm, each from -100000 to 100000)",
        ),
        ("pipe.wall_mm", "(a number above 0 up to 100 mm)"),
    ],
)
def test_the_note_tells_the_range(text: str, key: str, takes: str) -> None:
    assert notes_by_key(text)[key].endswith(takes)


def test_every_note_gives_the_very_limits_of_its_key(text: str) -> None:
    notes = notes_by_key(text)
    for section, kind in (SINGLE | REPEATED).items():
        for key, field in kind.model_fields.items():
            for rule in field.metadata:
                for limit in ("gt", "ge", "lt", "le"):
                    if (bound := getattr(rule, limit, None)) is not None:
                        words = notes[f"{section}.{key}"].removeprefix(f"# {field.description} (")
                        assert f"{bound:g}" in re.findall(r"[\d.e+]+", words), key


def test_tables_behind_a_hash_are_good_without_it(text: str) -> None:
    head, marker, tail = text.partition("# left-over pieces")
    assert marker
    lines = [line.removeprefix("# ") for line in tail.splitlines()[1:]]
    whole = "\n".join(
        [
            head,
            *(
                f"# {x}" if x.startswith(("flat bar", "round bar", "pipe,", "the way")) else x
                for x in lines
            ),
        ]
    )
    job = job_of(tomllib.loads(whole))
    assert (len(job.offcuts), len(job.bars), len(job.pipes), len(job.rounds)) == (1, 1, 1, 1)
    assert [(piece.share, piece.radius_m) for piece in job.way] == [(0.25, 12.0)]
