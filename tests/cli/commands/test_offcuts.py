"""What a job leaves, offcuts.toml, goes into the next job as it stands."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import ezdxf
import pytest

from tests.cli.jobs import NAME, ROWS, job_text, run, write_job

LARGE = ROWS.replace("length_mm = 500", "length_mm = 900")


def nest(text: str) -> dict[str, list[dict[str, object]]]:
    write_job(Path(), text)
    result = run("nest", "job.toml", "--json")
    assert result.exit_code == 0, result.stderr
    shown = json.loads(result.stdout)
    assert isinstance(shown, dict)
    return shown


@pytest.mark.parametrize("name", [NAME, "n" * 60], ids=["short-name", "longest-name"])
def test_left_over_steel_is_used_by_the_next_job(own_folder: Path, name: str) -> None:
    changes = {"job.name": f'"{name}"', "job.wheels": "1"}
    nest(job_text(changes, rows=LARGE))
    left = (own_folder / "out" / name / "offcuts.toml").read_text(encoding="utf-8")
    offcuts = tomllib.loads(left)["offcut"]
    assert [row["thickness_mm"] for row in offcuts] == [5]
    shown = nest(job_text(changes, rows=f"{ROWS}\n{left}"))
    assert offcuts[0]["name"] in [sheet["stock"] for sheet in shown["sheets"] if sheet["offcut"]]


@pytest.mark.usefixtures("own_folder")
@pytest.mark.parametrize(
    "outline",
    [
        "[[0, 0], [450, 0], [450, 400], [0, 400]]",
        "[[0, 0], [0, 400], [450, 400], [450, 0]]",  # walked round the other way
        "[[7, 9], [457, 9], [457, 409], [7, 409]]",  # on an origin of its own
        "[[0, 0], [500, 0], [450, 400], [0, 400]]",
    ],
    ids=["rectangle", "clockwise", "off-origin", "slanted"],
)
def test_offcuts_of_plain_shapes_are_used_first(outline: str) -> None:
    rows = f'{ROWS}[[offcut]]\nname = "lid"\nthickness_mm = 5\noutline = {outline}\n'
    shown = nest(job_text({"job.wheels": "1"}, rows=rows))
    assert shown["sheets"][0]["stock"] == "lid"


def test_marks_in_an_offcuts_name_stay_text(own_folder: Path) -> None:
    outline = "[[0, 0], [500, 0], [450, 400], [0, 400]]"
    name = r"<b>\"5 mm\"</b> & \\ caf\u00e9\nlid"
    rows = f'{ROWS}[[offcut]]\nname = "{name}"\nthickness_mm = 5\noutline = {outline}\n'
    write_job(own_folder, job_text({"job.wheels": "1"}, rows=rows))
    result = run("build", "job.toml", "--json")
    if result.exit_code == 2:
        assert "offcut[0].name" in result.stderr  # refusing it is as good
        return
    assert result.exit_code == 0, result.stderr
    home = own_folder / "out" / NAME
    sheets = json.loads(result.stdout)["sheets"]
    assert sheets[0]["stock"].startswith('<b>"5 mm"</b>')
    for sheet in sheets:
        drawing = ezdxf.readfile(home / sheet["file"])
        assert len(drawing.audit().errors) == 0
        assert len(drawing.modelspace().query('*[layer=="cut-outline"]')) == len(
            sheet["placements"]
        )
    assert "<b>" not in (home / "job-sheet.html").read_text(encoding="utf-8")


def test_every_layout_has_a_file_of_its_own(own_folder: Path) -> None:
    """Two thicknesses that look alike when rounded are two plates all the same."""
    changes = {"wheel.disc_thickness_mm": "5.0000001", "job.wheels": "1"}
    rows = ROWS + ROWS.replace("= 5\n", "= 5.0000001\n")
    files = [sheet["file"] for sheet in nest(job_text(changes, rows=rows))["sheets"]]
    assert len(set(files)) == len(files) == 3
    assert len(list((own_folder / "out" / NAME / "sheets").iterdir())) == 3
