"""Parts of the user's own in a job: read beside the job file, listed, drawn and told."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import ezdxf
import pypdf
import pytest

from platewheel.cli.job.blanks import job_blanks, other_blanks
from platewheel.cli.job.job import read_job
from platewheel.cli.job.own_parts import MOST_PARTS, own_parts, require_all_read
from platewheel.cli.output.write import write_blanks, write_templates
from platewheel.cli.report.rows import blank_rows
from platewheel.nesting.drawings.read import read_outline
from platewheel.parts.base.faults import SpecError
from platewheel.parts.wheel.assembly import wheel_parts
from tests.cli.jobs import ROWS, job_text, run

EXTRA = """
[[extra]]
name = "bracket"
file = "drawings/bracket.dxf"
thickness_mm = 6
count = 20
turns = "half"
[[extra]]
name = "gusset"
file = "drawings/bracket.dxf"
unit = "cm"
thickness_mm = 8
count = 4
steel = "S355"
"""


@pytest.fixture
def job_file(tmp_path: Path) -> Path:
    home = tmp_path / "there"
    (home / "drawings").mkdir(parents=True)
    doc = ezdxf.new("R12")
    space = doc.modelspace()
    space.add_polyline2d([(5, 5), (45, 5), (45, 15), (20, 15), (20, 30), (5, 30)], close=True)
    space.add_circle((12, 22), 3)
    doc.saveas(home / "drawings" / "bracket.dxf")
    path = home / "job.toml"
    path.write_text(job_text(rows=ROWS + EXTRA), encoding="utf-8")
    return path


def test_files_are_seen_from_the_job_files_folder(job_file: Path) -> None:
    job = read_job(job_file)
    assert [e.blank.name for e in job.extras] == ["bracket", "gusset"]
    assert [e.steel for e in job.extras] == [job.wheel.steel, "S355"]
    assert job.extras[1].blank.bounds == pytest.approx((0, 0, 400, 250))
    assert job.extras[0].warnings == (
        "drawings/bracket.dxf: the drawing names no unit: taken as mm",
    )


def test_blanks_and_templates_are_written_of_extras_too(job_file: Path, tmp_path: Path) -> None:
    job = read_job(job_file)
    parts = wheel_parts(job.wheel)
    files = write_blanks(job, parts, tmp_path)
    pages = dict(write_templates(job, parts, tmp_path))
    rows = {row.name: row for row in blank_rows(job, parts)}
    assert [row.file for row in rows.values()] == files
    row = rows["bracket"]
    assert (row.kind, row.count, row.steel) == ("extra", 20, job.wheel.steel)
    assert (row.length_mm, row.width_mm) == (40.0, 25.0)
    assert row.drawing == "drawings/bracket.dxf"
    assert rows["disc"].drawing is None
    back = read_outline(tmp_path / row.file)
    blank = next(one.blank for one in job_blanks(job, parts) if one.blank.name == "bracket")
    assert back.outline == blank.outline
    assert back.holes == blank.holes
    assert "templates/extra-bracket.pdf" not in pages  # it shares a page with other small parts
    text = pypdf.PdfReader(tmp_path / "templates" / "small-parts.pdf").pages[0].extract_text()
    assert "bracket, cut 20 off, 6 mm plate" in text
    assert pages["templates/extra-gusset.pdf"] > 1


def test_extras_are_laid_each_on_its_steel_and_as_they_may_turn(job_file: Path) -> None:
    bracket, gusset = other_blanks(read_job(job_file))
    assert (bracket.blank.name, bracket.count, bracket.turns) == ("bracket", 20, "half")
    assert (gusset.blank.name, gusset.count, gusset.turns) == ("gusset", 4, "any")
    assert (bracket.steel, gusset.steel) == ("S235", "S355")


def test_all_faults_of_a_job_come_with_those_of_its_drawings(job_file: Path) -> None:
    text = job_file.read_text(encoding="utf-8").replace("wheels = 2", "wheels = 0")
    text = text.replace('"drawings/bracket.dxf"', '"gone.dxf"', 1)
    job_file.write_text(text, encoding="utf-8")
    with pytest.raises(SpecError) as caught:
        read_job(job_file)
    assert [fault.key for fault in caught.value.faults] == ["job.wheels", "extra[0].file"]


def test_templates_twice_into_one_folder(job_file: Path, own_folder: Path) -> None:
    for _ in range(2):  # files of extras are ours, and replaced
        result = run("templates", str(job_file), "--json")
        assert result.exit_code == 0, result.stderr
    made = json.loads(result.stdout)["templates"]
    assert "templates/extra-gusset.pdf" in [row["file"] for row in made]


def test_layers_and_the_kerf_are_held_against_every_drawing(job_file: Path) -> None:
    text = job_file.read_text(encoding="utf-8")
    rows = """
[[drawing_layer]]
name = "ENGRAVE"
use = "mark"
[[drawing_layer]]
name = "0"
use = "cut"
part = "brackett"
[[file_layer]]
layer = "cut-outline"
name = "A"
"""
    job_file.write_text(text + rows, encoding="utf-8")
    with pytest.raises(SpecError) as caught:
        read_job(job_file)
    keys = [fault.key for fault in caught.value.faults]
    assert keys == ["extra[0].file", "extra[1].file", "drawing_layer[1].part"]
    assert "layers that the drawing has: 0" in caught.value.faults[0].allowed
    bad = rows.replace('"mark"', '"scribe"')
    job_file.write_text(text + bad, encoding="utf-8")
    with pytest.raises(SpecError) as caught:  # no drawing is read by rows at fault
        read_job(job_file)
    keys = [fault.key for fault in caught.value.faults]
    assert keys == ["drawing_layer[0].use", "drawing_layer[1].part"]


def test_a_fine_hollow_is_refused_at_reading_whoever_offsets(job_file: Path) -> None:
    text = job_file.read_text(encoding="utf-8").replace('"drawings/bracket.dxf"', '"slit.dxf"', 1)
    doc = ezdxf.new("R12")
    corners = [(0, 0), (90, 0), (90, 60), (46, 60), (46, 30), (45, 30), (45, 60), (0, 60)]
    doc.modelspace().add_polyline2d(corners, close=True)
    doc.saveas(job_file.parent / "slit.dxf")
    for in_path in ("true", "false"):
        cut = f"\n[cutting]\nkerf_in_path = {in_path}\n"
        assert "[cutting]" not in text
        job_file.write_text(text + cut, encoding="utf-8")
        with pytest.raises(SpecError) as caught:
            read_job(job_file)
        (fault,) = caught.value.faults
        assert (fault.key, fault.value) == ("extra[0].file", "slit.dxf")
        assert "bracket has a hollow 1.00 mm wide" in fault.allowed
        allowed = text.replace("count = 20\n", "count = 20\nfiner_than_kerf = true\n")
        job_file.write_text(allowed + cut, encoding="utf-8")
        part = read_job(job_file).extras[0]
        assert part.blank.area_mm2 == pytest.approx(90 * 60)
        assert any("its steel stays" in line for line in part.warnings)


def test_what_the_writer_of_paths_refuses_is_told_at_reading(job_file: Path) -> None:
    """A notch that the kerf reaches the bottom of, but whose sides it only rounds."""
    text = job_file.read_text(encoding="utf-8").replace('"drawings/bracket.dxf"', '"dent.dxf"', 1)
    doc = ezdxf.new("R12")
    corners = [(0, 0), (90, 0), (90, 60), (46, 60), (46, 59.5), (44, 59.5), (44, 60), (0, 60)]
    doc.modelspace().add_polyline2d(corners, close=True)
    doc.saveas(job_file.parent / "dent.dxf")
    job_file.write_text(text, encoding="utf-8")
    assert len(read_job(job_file).extras) == 2
    job_file.write_text(text + "\n[cutting]\nkerf_in_path = true\n", encoding="utf-8")
    with pytest.raises(SpecError) as caught:
        read_job(job_file)
    (fault,) = caught.value.faults
    assert (fault.key, fault.value) == ("extra[0].file", "dent.dxf")
    assert "bracket: kerf in the path" in fault.allowed


def test_layers_of_the_files_are_named_as_the_job_says(job_file: Path, tmp_path: Path) -> None:
    rows = """
[[file_layer]]
layer = "cut-outline"
name = "OUTSIDE"
colour = 5
"""
    text = job_file.read_text(encoding="utf-8")
    job_file.write_text(text + rows, encoding="utf-8")
    job = read_job(job_file)
    files = write_blanks(job, wheel_parts(job.wheel), tmp_path)
    for file in files:
        doc = ezdxf.readfile(tmp_path / file)
        assert doc.layers.get("OUTSIDE").dxf.color == 5
        assert len(doc.modelspace().query('*[layer=="OUTSIDE"]')) == 1
    job_file.write_text(text + rows + rows, encoding="utf-8")
    with pytest.raises(SpecError, match=r"file_layer\[1\]\.layer"):
        read_job(job_file)


def test_more_drawings_than_one_job_can_lay_are_refused(job_file: Path) -> None:
    """Each is held against each other at each of its turns: none is read first."""
    rows = [{"name": f"p{k}", "file": "gone.dxf"} for k in range(MOST_PARTS + 1)]
    read, (fault,) = own_parts({"extra": rows}, job_file.parent, ())
    assert read == []
    assert (fault.key, fault.value) == ("extra", MOST_PARTS + 1)
    assert f"at most {MOST_PARTS}" in fault.allowed


@pytest.mark.parametrize("table", ["extra", "disc"])
def test_a_drawing_without_a_line_to_cut_is_never_dropped(table: str, job_file: Path) -> None:
    doc = ezdxf.new("R2000", units=4)
    doc.modelspace().add_circle((0, 0), 0.0004)
    doc.saveas(job_file.parent / "drawings" / "bracket.dxf")
    if table == "disc":
        disc = '[disc]\nfile = "drawings/bracket.dxf"\n'
        job_file.write_text(job_text(rows=ROWS + disc), encoding="utf-8")
    with pytest.raises(SpecError) as refusal:
        read_job(job_file)
    told = [one for one in refusal.value.faults if "all that are drawn are shorter" in one.allowed]
    keys = {"extra": ["extra[0].file", "extra[1].file"], "disc": ["disc.file"]}
    assert [one.key for one in told] == keys[table]


def test_a_row_without_part_or_fault_is_a_fault_of_ours(job_file: Path) -> None:
    job = tomllib.loads(job_file.read_text(encoding="utf-8"))
    drawn, faults = own_parts(job, job_file.parent, ())
    assert not faults
    require_all_read(job, drawn, None)
    with pytest.raises(RuntimeError, match="neither read nor refused"):
        require_all_read(job, drawn[1:], None)
    with pytest.raises(RuntimeError, match="neither read nor refused"):
        require_all_read({"disc": {"file": "mine.dxf"}}, [], None)
    with pytest.raises(RuntimeError, match="without a fault"):
        SpecError([])
