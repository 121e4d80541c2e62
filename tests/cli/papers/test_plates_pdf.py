"""plates.pdf: one page a layout, with the figures of the report, every part's number, room kept."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.cli.jobs import NAME, ROWS, job_text, run, write_job
from tests.cli.papers.plates.pages import (
    assert_inside,
    in_rows,
    nested,
    own_parts,
    pages_of,
    stock,
    words_at,
)

# ISO 216 and ASME Y14.1: the long side, the short side
PAPERS = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}
LED = {"cutting.lead_in_mm": "3", "cutting.tab_count": "2"}


@pytest.mark.parametrize("paper", PAPERS)
def test_a_page_a_layout_as_the_plate_lies(tmp_path: Path, paper: str) -> None:
    upright = stock(420.0, 900.0)  # longer along y
    keys = {"paper.size": f'"{paper}"', "cutting.least_offcut_mm": "150"}
    file, sheets = nested(tmp_path, keys, rows=upright)
    pages = pages_of(file)
    assert len(pages) == len(sheets) == 2
    long, short = PAPERS[paper]
    for page, sheet in zip(pages, sheets, strict=True):
        across = sheet["length_mm"] >= sheet["width_mm"]
        sides = (long, short) if across else (short, long)
        assert (page.wide_mm, page.high_mm) == pytest.approx(sides, abs=0.1)
        assert_inside(page)
    assert [page.wide_mm > page.high_mm for page in pages] == [False, True]
    # what is kept of the upright plate is named along it, read from below
    kept = sheets[0]["offcuts"][0]["name"]
    first, last = (words_at(pages[0], kept[-k:])[0] for k in (len(kept), 4))
    assert first[1] > last[1] + 10
    assert first[0] == pytest.approx(last[0], abs=1.0)


def test_the_same_job_gives_the_same_bytes(tmp_path: Path) -> None:
    first, _ = nested(tmp_path, LED, rows=ROWS)
    before = first.read_bytes()
    first.unlink()
    again, _ = nested(tmp_path, LED, rows=ROWS)
    assert again.read_bytes() == before
    assert before.startswith(b"%PDF-")


@pytest.mark.parametrize("more", [{}, LED, {"cutting.skeleton_piece_mm": "150"}])
def test_its_figures_are_those_of_the_report(tmp_path: Path, more: dict[str, str]) -> None:
    """Minutes told in three add up to the report's, by the speeds that the page tells."""
    file, sheets = nested(tmp_path, more | {"job.wheels": "12"}, rows=ROWS)
    assert max(sheet["repeat"] for sheet in sheets) > 1
    for page, sheet in zip(pages_of(file), sheets, strict=True):
        for words in (
            f"file {sheet['file']}",
            f"pierces {sheet['pierces']}",
            f"length of cut {sheet['cut_length_mm'] / 1000:.1f} m",
            f"travel {sheet['rapid_length_mm'] / 1000:.1f} m",
            f"minutes a plate {sheet['cutting_minutes']:.1f} min",
            f"parts on it {len(sheet['placements'])}",
            f"scrap {sheet['scrap_percent']:.1f} %",
            f"cut {sheet['repeat']} off",
            f"parts counted: {len(sheet['placements'])} a plate",
        ):
            assert page.says(words), words
        split = re.search(r"cut ([\d.]+), pierce ([\d.]+), travel ([\d.]+) min", page.words)
        assert split
        cut, pierce, travel = map(float, split.groups())
        assert cut + pierce + travel == pytest.approx(sheet["cutting_minutes"], abs=0.16)
        # 2000 mm/min and 1 s a pierce, 10000 mm/min between: the keys' defaults
        assert cut == pytest.approx(sheet["cut_length_mm"] / 2000, abs=0.051)
        assert pierce == pytest.approx(sheet["pierces"] / 60, abs=0.051)
        assert travel == pytest.approx(sheet["rapid_length_mm"] / 10000, abs=0.051)
        assert "to set up" not in page.words
        if sheet["repeat"] > 1:
            hours = sheet["repeat"] * sheet["cutting_minutes"] / 60
            assert f"all {sheet['repeat']} plates {hours:.1f} h" in page.words


HOLES = """
[[cut_speed]]
thickness_mm = 5
speed_mm_per_min = 2000
pierce_s = 1
[[cut_speed]]
thickness_mm = 6
speed_mm_per_min = 2000
pierce_s = 1
[[cut_speed]]
thickness_mm = 5
speed_mm_per_min = 400
pierce_s = 2
hole_up_to_mm = 10
[[cut_speed]]
thickness_mm = 5
speed_mm_per_min = 800
pierce_s = 2
hole_up_to_mm = 20
[[cut_speed]]
thickness_mm = 5
speed_mm_per_min = 900
pierce_s = 2
hole_up_to_mm = 500
"""


def test_slow_holes_and_setting_up_are_told(tmp_path: Path) -> None:
    """Of the rows for holes those that the plate has holes for; minutes that add up,
    and a pierce of 2 s at each disc's bore and two vents, of 1 s at all else."""
    rows = ROWS + HOLES
    more = {"cutting.setup_minutes": "7", "cutting.file_units": '"in"'}
    file, sheets = nested(tmp_path, more, rows=rows)
    page, sheet = pages_of(file)[0], sheets[0]
    assert "holes up to 10 mm" not in page.words
    for words in (
        "holes up to 20 mm 800 mm/min, pierce 2 s",
        "holes up to 500 mm 900 mm/min, pierce 2 s",
        "to set up, each 7 min",
        "unit of the file inch",
        f"the plate is {sheet['length_mm'] / 25.4:.2f} by {sheet['width_mm'] / 25.4:.2f} on the",
    ):
        assert page.says(words), words
    split = re.search(r"cut ([\d.]+), pierce ([\d.]+), travel ([\d.]+) min", page.words)
    assert split
    assert sum(map(float, split.groups())) == pytest.approx(sheet["cutting_minutes"], abs=0.16)
    discs = sum(one["blank"] == "disc" for one in sheet["placements"])
    holes = 3 * discs
    assert float(split[2]) == pytest.approx((sheet["pierces"] + holes) / 60, abs=0.051)


def test_wide_margins_leave_every_word_on_the_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platewheel.cli.job.plan.nest", in_rows)
    sizes = {f"part_{i:02d}": (50.0, 40.0 + i) for i in range(40)}
    rows = stock(2000.0, 1000.0) + own_parts(tmp_path, sizes)
    file, sheets = nested(tmp_path, LED | {"paper.margin_mm": "30"}, rows=rows)
    pages = pages_of(file)
    assert len(pages) == len(sheets)
    for page in pages:
        assert_inside(page, 30.0)
        assert "The makers' and the local rules come first." in page.words
    assert all(name in pages[0].words for name in sizes)


def test_inches_on_paper_in_inches(tmp_path: Path) -> None:
    file, sheets = nested(tmp_path, LED | {"paper.units": '"inch"'}, rows=ROWS)
    page = pages_of(file)[0]
    # by hand: 400 and 500 mm are 15.75 and 19.685 inches, 5 mm 0.19685, 2000 mm/min 78.7 in/min
    for words in (
        "width x length 15 3/4 in x 19 11/16 in (400 x 500 mm)",
        "thickness 13/64 in (5 mm)",
        "79 in/min (2000 mm/min)",
        "kerf 0.067 in (1.7 mm)",
        f"{sheets[0]['cut_length_mm'] / 304.8:.0f} ft ({sheets[0]['cut_length_mm'] / 1000:.1f} m)",
    ):
        assert page.says(words), words


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({}, ("the finished part: offset ON", "lead in none in the file", "tabs none")),
        ({"cutting.kerf_in_path": "true"}, ("the torch path: offset OFF", "offset OFF: the kerf")),
        (LED, ("lead in 3 mm, line", "2 a part, 1.5 mm wide", "Dot: the torch pierces")),
    ],
)
def test_it_tells_how_the_lines_are_meant(
    tmp_path: Path, more: dict[str, str], words: tuple[str, ...]
) -> None:
    file, _ = nested(tmp_path, more, rows=ROWS)
    page = pages_of(file)[0]
    assert [one for one in words if not page.says(one)] == []


def test_by_hand_a_page_of_straight_cuts_and_nothing_of_a_torch(tmp_path: Path) -> None:
    file, sheets = nested(tmp_path, {"cutting.process": '"hand"'}, rows=ROWS)
    pages = pages_of(file)
    plates, cuts = pages[: len(sheets)], pages[len(sheets) :]
    assert len(cuts) >= 1
    for page, row in zip(plates, sheets, strict=True):
        for words in ("process by hand", "cut outside, grind to it", "straight cuts scribed"):
            assert page.says(words), words
        assert f"straight, by grinder or saw {row['by_hand']['straight_mm'] / 1000:.1f} m" in (
            page.words
        )
        assert not [w for w in ("pierce", "torch", "travel", "lead", "tab ") if w in page.words]
        assert row["pierces"] is None
    assert all("Straight cuts, in order: " in page.words for page in cuts)  # a loose one too
    for row in sheets:
        name = f"in order: {row['file'].removeprefix('sheets/')}"
        own = [page for page in cuts if name in page.words]
        for cut in row["by_hand"]["straight_cuts"]:
            line = f"{cut['number']} {cut['line_mm']:.1f} mm {cut['measured_from']}"
            assert any(page.says(line) for page in own)


@pytest.mark.parametrize(("length", "heavy"), [(1000.0, False), (2000.0, True)])
def test_a_plate_above_25_kg_is_not_for_one_person(
    tmp_path: Path, length: float, heavy: bool
) -> None:
    """500 mm x 5 mm x 7.85 kg/dm3: 19.6 kg to the metre. EN 1991-1-1, table A.4."""
    file, _ = nested(tmp_path, rows=stock(length, 500.0))
    page = pages_of(file)[0]
    assert f"mass of the plate {19.625 * length / 1000:.1f} kg" in page.words
    assert ("more than 25 kg is not for one person" in page.words) is heavy


def test_what_is_left_is_named_with_its_number_for_each_plate(tmp_path: Path) -> None:
    changes = {"job.wheels": "12", "cutting.least_offcut_mm": "80"}
    file, sheets = nested(tmp_path, changes, rows=stock(700.0, 300.0))
    told = list(zip(pages_of(file), sheets, strict=True))
    repeated = [(page, row) for page, row in told if row["repeat"] > 1 and row["offcuts"]]
    for page, row in repeated:
        first, last = row["offcuts"][0]["name"], row["offcuts"][row["repeat"] - 1]["name"]
        assert page.says(f"{first} to {last.rsplit('-', 1)[-1]}: ")
        assert page.says("offcuts chalked and put away")
    assert repeated
    bare = [page for page, row in told if not row["offcuts"]]
    assert bare
    assert all(page.says("nothing to keep: scrap cleared away") for page in bare)


def test_warnings_of_a_sheet_stand_on_its_own_page(tmp_path: Path) -> None:
    result = run(
        "build",
        write_job(tmp_path, job_text({"cutting.lead_in_mm": "12"})),
        "--out",
        tmp_path / "out",
    )
    assert result.exit_code in (0, 1), result.stderr
    folder = tmp_path / "out" / NAME
    report = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    pages = pages_of(folder / "plates.pdf")
    own = 0
    for page, sheet in zip(pages, report["sheets"], strict=True):
        mine = [w for w in report["warnings"] if w.startswith(f"{sheet['file']}: ")]
        told = [w.removeprefix(f"{sheet['file']}: ") for w in mine]
        assert [line for line in told if not page.says(line)] == []
        own += len(told)
    assert own
    assert 'href="plates.pdf"' in (folder / "job-sheet.html").read_text(encoding="utf-8")
