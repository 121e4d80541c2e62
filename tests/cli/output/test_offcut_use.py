"""Offcuts from job to job: named apart, told where used before, kept whole when asked."""

from __future__ import annotations

import json
import os
import sys
import tomllib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.job.job import job_of, read_job
from platewheel.cli.ledger.piece import Ledger
from platewheel.cli.ledger.rack import Rack
from platewheel.cli.output.offcut_use import USED_FILE, uncounted, used_before, used_toml
from platewheel.cli.papers.html.offcut_words import offcut_marks, offcuts_table
from platewheel.cli.schema.report import OffcutRow, SheetRow
from platewheel.cli.words.on_paper import on_paper
from platewheel.nesting.stock.layout import Layout, Nest, Placement, Sheet, Wanted, sheets_of
from platewheel.nesting.stock.stock import Offcut
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import bounds, polygon
from tests.cli.jobs import NAME, ROWS, job_text, run, write_job

OFFCUT = """
[[offcut]]
name = "lid"
thickness_mm = 5
outline = [[0, 0], [450, 0], [450, 400], [0, 400]]
[[offcut]]
name = "spare"
thickness_mm = 9
outline = [[0, 0], [450, 0], [450, 400], [0, 400]]
"""


def one_of_each(
    wanted: Sequence[Wanted], sheets: Sequence[Sheet], *_: object, **__: object
) -> Nest:
    """No search: one of each blank in a row, on the first plate of its thickness."""
    rows: dict[str, list[Placement]] = {}
    for item in wanted:
        sheet = next(s for s in sheets if s.thickness_mm == item.blank.thickness_mm)
        row = rows.setdefault(sheet.name, [])
        x0, y0, _, _ = item.blank.bounds
        at = max((bounds(p.outline)[2] for p in row), default=4.0) + 6.0
        row.append(Placement(item.blank, at - x0, 10.0 - y0, 0.0))
    return Nest(tuple(Layout(s, tuple(rows[s.name])) for s in sheets if s.name in rows))


@pytest.fixture(autouse=True)
def no_search(monkeypatch: pytest.MonkeyPatch) -> None:
    """How parts lie, what they carry and their solids do not count here, and take long."""
    monkeypatch.setattr("platewheel.cli.job.plan.nest", one_of_each)
    monkeypatch.setattr("platewheel.cli.output.build.assess", lambda setting: None)
    monkeypatch.setattr("platewheel.cli.output.build.write_solids", lambda job, parts, folder: [])


def text_of(name: str, rows: str = ROWS + OFFCUT, **more: str) -> str:
    return job_text({"job.name": f'"{name}"', "job.wheels": "1", **more}, rows=rows)


def nest(name: str, rows: str = ROWS + OFFCUT, **more: str) -> tuple[dict[str, Any], list[str]]:
    write_job(Path(), text_of(name, rows, **more))
    result = run("nest", "job.toml", "--json", "--effort", "quick")
    assert result.exit_code == 0, result.stderr
    told = [line for line in result.stderr.splitlines() if "offcut" in line]
    told = [line for line in told if "in no ledger" not in line]
    return json.loads(result.stdout), told


@pytest.mark.usefixtures("own_folder")
def test_an_offcut_used_by_another_job_is_told() -> None:
    """Not one that was only named there, nor one of the job's own former nest."""
    assert nest("first")[1] == []
    record = tomllib.loads(Path("out/first", USED_FILE).read_text(encoding="utf-8"))
    assert record == {"used": [{"name": "lid"}]}
    assert nest("first")[1] == []
    (line,) = nest("second")[1]
    assert line == (
        "offcut 'lid' was used by job 'first' (out/first): check that it is still there"
    )
    assert nest("third", ROWS)[1] == []
    assert tomllib.loads(Path("out/third", USED_FILE).read_text(encoding="utf-8")) == {}


@pytest.mark.usefixtures("own_folder")
def test_what_one_job_left_and_another_used_is_told_to_a_third() -> None:
    shown, _ = nest("maker", ROWS.replace("length_mm = 500", "length_mm = 900"))
    left = Path("out/maker/offcuts.toml").read_text(encoding="utf-8")
    names = [row["name"] for row in tomllib.loads(left)["offcut"]]
    assert names == [row["name"] for sheet in shown["sheets"] for row in sheet["offcuts"]]
    user, told = nest("user", ROWS + left)
    assert told == []
    taken = {sheet["stock"] for sheet in user["sheets"] if sheet["offcut"]}
    assert taken
    assert taken <= set(names)
    _, told = nest("late", ROWS + left)
    assert len(told) == len(taken)
    assert all(any(f"'{name}' was used by job 'user'" in line for line in told) for name in taken)


def test_an_offcut_that_nothing_keeps_count_of_is_told() -> None:
    """Two jobs in two folders took one offcut, and neither was told."""
    job = job_with_offcuts()
    lid, spare, plate = sheets_of(job.stock[:1], job.offcuts)
    edge = polygon([(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)])
    part = (Placement(Blank("lid", "extra", 6.0, edge), 100.0, 100.0, 0.0),)
    whole = next(one for one in (lid, spare, plate) if not one.is_offcut)
    pieces = [one for one in (lid, spare, plate) if one.is_offcut]
    assert uncounted(job, [Layout(whole, part), Layout(pieces[0], ())]) == []
    (line,) = uncounted(job, [Layout(one, part) for one in pieces])
    assert line == (
        "offcuts 'lid', 'spare' are in no ledger: look that no other job is planned on the same "
        'steel; to keep count, job.ledger = "stock.toml" (`platewheel stock new` writes one)'
    )
    assert "job.ledger" not in on_paper(line, "mm")
    rack = Rack(Ledger(Path("stock.toml")), None, {})
    assert uncounted(replace(job, rack=rack), [Layout(one, part) for one in pieces]) == []


def test_build_tells_it_in_report_and_job_sheet(own_folder: Path) -> None:
    nest("first")
    write_job(own_folder, text_of(NAME))
    result = run("build", "job.toml", "--json", "--effort", "quick")
    assert result.exit_code == 0, result.stderr
    line = "offcut 'lid' was used by job 'first' (out/first): check that it is still there"
    assert line in result.stderr.splitlines()
    report = json.loads(result.stdout)
    assert line in report["warnings"]
    assert any("'lid' is in no ledger" in one for one in report["warnings"])
    page = (own_folder / "out" / NAME / "job-sheet.html").read_text(encoding="utf-8")
    assert "was used by job" in page
    assert "is in no ledger: look that no other job" in page
    kept = [row for sheet in report["sheets"] for row in sheet["offcuts"]]
    left = (own_folder / "out" / NAME / "offcuts.toml").read_text(encoding="utf-8")
    assert [row["name"] for row in tomllib.loads(left).get("offcut", [])] == [
        row["name"] for row in kept
    ]
    assert all(row["name"] in page for row in kept)


def job_with_offcuts() -> Any:
    return job_of(tomllib.loads(text_of("mine")))


@pytest.mark.parametrize(
    "data",
    [
        b"used = [",
        b"used = 3",
        b"used = [3]",
        b"[[used]]\nnote = 'x'",
        b"[[used]]\nname = 3",
        b"\xff\xfe",
        b"#" * 1_000_001,
        b"x = " + b"[" * 5000,
        None,
    ],
    ids=["torn", "number", "numbers", "nameless", "no-text", "no-utf8", "huge", "deep", "folder"],
)
def test_a_record_that_cannot_be_read_is_told_and_stops_nothing(
    tmp_path: Path, data: bytes | None
) -> None:
    (tmp_path / "bad").mkdir()
    if data is None:
        (tmp_path / "bad" / USED_FILE).mkdir()
    else:
        (tmp_path / "bad" / USED_FILE).write_bytes(data)
    (tmp_path / "good").mkdir()
    (tmp_path / "good" / USED_FILE).write_bytes(b'[[used]]\nname = "spare"\n')
    bad, good = used_before(job_with_offcuts(), tmp_path)
    assert bad.startswith(f"{tmp_path / 'bad' / USED_FILE}: cannot be read: ")
    assert "job 'bad'" in bad
    assert "codec" not in bad
    assert "\n" not in bad
    assert good.startswith("offcut 'spare' was used by job 'good'")


@pytest.mark.skipif(sys.platform != "linux", reason="a name is any bytes there")
def test_a_folder_s_name_that_is_no_text_is_told_as_one(tmp_path: Path) -> None:
    """A report could not be written for it."""
    for name, text in ((b"bad\xff", b"["), (b"lake\xff", b'[[used]]\nname = "lid"\n')):
        home = tmp_path / os.fsdecode(name)
        home.mkdir()
        (home / USED_FILE).write_bytes(text)
    bad, used = used_before(job_with_offcuts(), tmp_path)
    assert "job 'bad\\xff' used" in bad
    assert "was used by job 'lake\\xff'" in used
    assert (bad + used).encode()


def test_what_is_no_job_beside_it_is_passed_over(tmp_path: Path) -> None:
    (tmp_path / "note.txt").write_text("x")
    (tmp_path / "empty").mkdir()
    for name in ("mine", ".mine-half-written"):
        (tmp_path / name).mkdir()
        (tmp_path / name / USED_FILE).write_bytes(b'[[used]]\nname = "lid"\n')
    (tmp_path / "gone").symlink_to(tmp_path / "nowhere")
    assert used_before(job_with_offcuts(), tmp_path) == []
    assert used_before(job_with_offcuts(), tmp_path / "none") == []
    assert used_before(job_with_offcuts(), tmp_path / "note.txt") == []


@pytest.mark.usefixtures("own_folder")
def test_the_whole_rest_is_kept_when_asked() -> None:
    """A round disc leaves no upright rectangle: its real rest has more corners and area."""
    rows = ROWS.replace("length_mm = 500", "length_mm = 900")
    small = {"cutting.least_offcut_mm": "150"}
    plain, _ = nest("plain", rows, **small)
    real, _ = nest("real", rows, **small, **{"cutting.offcut_outline": '"real"'})
    kept = [[row for s in shown["sheets"] for row in s["offcuts"]] for shown in (plain, real)]
    assert {len(row["outline"]) for row in kept[0]} == {4}
    assert max(len(row["outline"]) for row in kept[1]) > 4
    areas = [sum(row["area_mm2"] for row in rows) for rows in kept]
    assert areas[1] > areas[0]
    scraps = [shown["nesting"]["scrap_percent_after_offcuts"] for shown in (plain, real)]
    assert scraps[1] < scraps[0]
    left = Path("out/real/offcuts.toml").read_text(encoding="utf-8")
    write_job(Path(), text_of("next", ROWS + left))
    assert read_job(Path("job.toml")).offcuts  # it takes what is left as it stands


@pytest.mark.usefixtures("own_folder")
def test_least_side_of_what_is_kept_is_the_jobs() -> None:
    rows = ROWS.replace("length_mm = 500", "length_mm = 900")
    for least in (60, 350):
        shown, _ = nest("plain", rows, **{"cutting.least_offcut_mm": str(least)})
        kept = [row for sheet in shown["sheets"] for row in sheet["offcuts"]]
        assert kept
        assert all(min(row["length_mm"], row["width_mm"]) >= least for row in kept)
    assert len(kept) == 1


def sheet_row(*offcuts: OffcutRow) -> SheetRow:
    return SheetRow.model_construct(
        file="sheets/6mm-1.dxf",
        thickness_mm=6.0,
        length_mm=2500.0,
        width_mm=1250.0,
        offcuts=list(offcuts),
    )


def offcut_row(name: str, corners: list[tuple[float, float]], area_mm2: float) -> OffcutRow:
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return OffcutRow(
        name=name,
        width_mm=max(ys) - min(ys),
        length_mm=max(xs) - min(xs),
        area_mm2=area_mm2,
        outline=corners,
        holes=[],
    )


def test_labels_say_size_and_name_and_small_pieces_the_name_alone() -> None:
    wide = [(1000.0, 0.0), (2250.0, 0.0), (2250.0, 870.0), (1000.0, 870.0)]
    bent = [(0.0, 0.0), (900.0, 0.0), (0.0, 600.0)]
    small = [(0.0, 0.0), (160.0, 0.0), (160.0, 155.0), (0.0, 155.0)]
    row = sheet_row(
        offcut_row("my job K7MN-1", wide, 1250 * 870),
        offcut_row("my job K7MN-2", wide, 1250 * 870),
        offcut_row("my job K7MN-3", bent, 900 * 600 / 2),
        offcut_row("my job K7MN-4", small, 160 * 155),
    )
    assert offcut_marks(row) == [
        (wide, "1250 x 870 mm, keep as my job K7MN-1 to 2"),
        (bent, "in 900 x 600 mm, keep as my job K7MN-3"),
        (small, "K7MN-4"),
    ]
    assert next(offcuts_table([row]).cells("mm")) == [
        "my job K7MN-1",
        "sheets/6mm-1.dxf",
        "6 mm",
        "1250 x 870 mm",
        "10875",
    ]


def test_a_name_with_a_line_break_is_still_a_record() -> None:
    """A break in a name made a file that no later build could read."""
    name, edge = 'rack 3\n"left"', polygon([(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)])
    corners = [[0.0, 0.0], [400.0, 0.0], [400.0, 300.0], [0.0, 300.0]]
    (sheet,) = sheets_of([], [Offcut(name=name, thickness_mm=6.0, outline=corners)])
    placement = Placement(Blank("lid", "extra", 6.0, edge), 100.0, 100.0, 0.0)
    text = used_toml([Layout(sheet, (placement,))], "job")
    assert tomllib.loads(text) == {"used": [{"name": name}]}
