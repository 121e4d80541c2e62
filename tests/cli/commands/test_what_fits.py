"""Too little stock: told in whole wheels, refused as before, or those wheels planned."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.cli.jobs import NAME, ROWS, files_of, job_text, run, write_job

FEW = ROWS.replace("length_mm = 500", "length_mm = 500\ncount = 2").replace(
    "length_mm = 600", "length_mm = 600\ncount = 3"
)
SAID = [
    "5 mm S235: 10 discs and 15 flanges missing for 5 wheels; 3 more sheets 400 x 500 hold them; "
    "try: a larger count of that [[stock]]",
    "6 mm S235: 3 treads missing for 3 wheels; 2 more sheets 150 x 600 hold them; "
    "try: a larger count of that [[stock]]",
]
PLATE = """
[[extra]]
name = "cover"
file = "cover.dxf"
thickness_mm = 5
count = {count}
"""


def nest(*options: str, rows: str = FEW, **changes: str) -> Any:
    write_job(Path(), job_text({"job.wheels": "9"} | changes, rows=rows))
    return run("nest", "job.toml", "--effort", "quick", *options)


def laid(shown: dict[str, Any]) -> dict[str, int]:
    counts: dict[str, int] = {}
    for sheet in shown["sheets"]:
        for placement in sheet["placements"]:
            name = placement["blank"]
            counts[name] = counts.get(name, 0) + sheet["repeat"]
    return counts


@pytest.fixture(autouse=True)
def _here(own_folder: Path) -> None:
    pass


def test_a_shortage_is_told_in_whole_wheels_and_nothing_is_written() -> None:
    """Four discs of 167 mm go on 400 x 500, two a wheel, so two plates hold four wheels."""
    result = nest()
    assert result.exit_code == 3
    assert result.stderr.splitlines() == [
        "the stock holds 4 of 9 wheels; --what-fits plans those",
        *SAID,
    ]
    assert not Path("out").exists()


def test_that_many_more_plates_do_hold_all() -> None:
    rows = FEW.replace("count = 2", "count = 5").replace("count = 3", "count = 5")
    assert nest(rows=rows).exit_code == 0


def test_what_fits_writes_the_plan_of_the_whole_wheels() -> None:
    result = nest("--what-fits", "--json")
    assert result.exit_code == 0, result.stderr
    assert result.stderr.splitlines()[:3] == ["the stock holds 4 of 9 wheels", *SAID]
    shown = json.loads(result.stdout)
    assert laid(shown) == {"disc": 8, "flange": 12, "tread": 4}
    assert shown["nesting"]["unplaced"] == []
    files = {name for name in files_of(Path("out", NAME)) if name.endswith(".dxf")}
    assert files == {sheet["file"] for sheet in shown["sheets"]}


def test_enough_stock_is_planned_the_same_with_and_without() -> None:
    plain = nest("--json", rows=ROWS)
    files = files_of(Path("out"))
    told = nest("--json", "--what-fits", rows=ROWS)
    assert (plain.exit_code, told.exit_code) == (0, 0)
    assert files_of(Path("out")) == files
    assert told.stderr == plain.stderr


def test_not_one_whole_wheel_is_refused_even_then() -> None:
    result = nest("--what-fits", rows=ROWS.replace("length_mm = 500", "length_mm = 200\ncount = 1"))
    assert result.exit_code == 3
    assert "missing for 9 wheels" in result.stderr
    assert not Path("out").exists()


def test_it_goes_with_no_comparison_of_segments() -> None:
    result = nest("--what-fits", "--segments", "all")
    assert result.exit_code == 2
    assert "plans one job" in result.stderr


@pytest.mark.parametrize(
    ("kind", "row", "words"),
    [
        (
            "bar",
            "width_mm = 50\nthickness_mm = 6\nlength_mm = 2500\ncount = 3",
            "more bar 50 x 6 mm, 2500 long",
        ),
        (
            "pipe",
            "outside_mm = 180\nwall_mm = 6\nlength_mm = 300\ncount = 1",
            "more pipe 180 x 6 mm, 300 long",
        ),
    ],
)
def test_lengths_limit_too(kind: str, row: str, words: str) -> None:
    """A tread of 174 x pi = 546.6 mm goes 4 times into 2500; one of 50 mm, 5 times into 300."""
    rows = f"{ROWS}\n[[{kind}]]\n{row}\n"
    changes = {"wheel.tread_from": f'"{kind}"', "job.wheels": "14"}
    held = {"bar": 12, "pipe": 5}[kind]
    result = nest("--what-fits", "--json", rows=rows, **changes)
    assert result.exit_code == 0, result.stderr
    told, short = result.stderr.splitlines()[:2]
    assert told == f"the stock holds {held} of 14 wheels"
    assert short.startswith(f"tread: {14 - held} lengths of ")
    assert f"missing for {14 - held} wheels; " in short
    assert words in short
    shown = json.loads(result.stdout)
    assert laid(shown) == {"disc": 2 * held, "flange": 3 * held}
    assert sum(c["repeat"] * c["pieces"]["tread"] for c in shown["cutting_lists"]) == held


def draw_cover(width: float) -> None:
    import ezdxf

    drawing = ezdxf.new(units=4)
    corners = [(0, 0), (width, 0), (width, 180), (0, 180)]
    drawing.modelspace().add_lwpolyline(corners, close=True)
    drawing.saveas("cover.dxf")


def test_parts_of_the_users_own_are_laid_first() -> None:
    """A cover takes the room of two discs, so one wheel of the four stays out."""
    draw_cover(370)
    result = nest("--what-fits", "--json", rows=FEW + PLATE.format(count=1))
    assert result.exit_code == 0, result.stderr
    assert result.stderr.splitlines()[0] == "the stock holds 3 of 9 wheels"
    assert laid(json.loads(result.stdout)) == {"cover": 1, "disc": 6, "flange": 9, "tread": 3}


def test_parts_asked_for_once_without_room_are_told_and_left_out_by_no_option() -> None:
    draw_cover(370)
    result = nest("--what-fits", rows=FEW + PLATE.format(count=5))
    assert result.exit_code == 3
    assert "1 cover" in result.stderr
    assert not Path("out").exists()


def test_the_papers_of_a_build_say_how_many_of_how_many(
    own_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platewheel.cli.output.build.assess", lambda setting: None)
    monkeypatch.setattr("platewheel.cli.output.build.write_solids", lambda job, parts, folder: [])
    slow = {"job.wheels": "9", "cutting.setup_minutes": "30"}
    write_job(own_folder, job_text(slow, rows=FEW))
    result = run("build", "job.toml", "--effort", "quick", "--what-fits")
    assert result.exit_code == 0, result.stderr
    assert "4 wheels of " in result.stdout
    report = json.loads((own_folder / "out" / NAME / "report.json").read_text("utf-8"))
    assert (report["job"]["wheels"], report["job"]["asked"]) == (4, 9)
    assert report["warnings"][:3] == ["the stock holds 4 of 9 wheels", *SAID]
    assert {row["name"]: row["count"] for row in report["blanks"]} == laid(report)
    page = (own_folder / "out" / NAME / "job-sheet.html").read_text("utf-8")
    assert f"{NAME}: 4 of 9 wheels" in page
    assert "and 2.0 h to set up" in page  # four plates
    assert "setting up 2.0 h" in result.stdout
    assert "10 discs and 15 flanges missing for 5 wheels" in page
    tomllib.loads((own_folder / "out" / NAME / "offcuts.toml").read_text("utf-8"))
