"""The build record as a PDF: the lines of the job sheet's record, on the job's own paper."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pypdf
import pytest

from platewheel.cli.papers import typeset as module
from platewheel.cli.papers.templates.place import TEMPLATES
from tests.cli.jobs import files_of, job_text, run, write_job

HEADS = "Wheel Axle Wagon Ring Tape Run-out Vents open Back to back"
RINGS = "ring,outside_circumference_mm\na,565.0\nb,567.0\nc,565.2\n"


def read(file: Path) -> tuple[list[list[str]], pypdf.PdfReader]:
    """Each page's lines of words, and the file."""
    reader = pypdf.PdfReader(io.BytesIO(file.read_bytes()))
    pages = [
        [" ".join(line.split()) for line in p.extract_text().splitlines()] for p in reader.pages
    ]
    return pages, reader


def job_file(folder: Path, changes: dict[str, str]) -> Path:
    return write_job(folder, job_text({"job.wheels": "3", "wagon.axles": "1"} | changes))


def test_a_line_a_wheel_on_the_jobs_paper(own_folder: Path) -> None:
    job_file(own_folder, {"paper.size": '"Letter"'})
    result = run("record", "job.toml")
    assert (result.exit_code, result.stdout) == (0, "record.pdf\n")
    (lines,), reader = read(own_folder / "record.pdf")
    assert lines[0] == "pond-line: record of 3 wheels"
    at = lines.index(HEADS)
    assert lines[at + 1 : at + 4] == ["1 A1 W1", "2 A1 W1", "3 spare"]
    assert any("platewheel record --rings" in line for line in lines)
    box = reader.pages[0].mediabox
    assert (box.width, box.height) == pytest.approx((8.5 * 72, 11 * 72), abs=0.01)
    fonts = [str(font) for font in reader.pages[0]["/Resources"]["/Font"].values()]  # type: ignore[index]
    assert fonts
    assert all("Libertinus" in font for font in fonts)  # those of Typst, not the machine's


@pytest.mark.parametrize(
    ("units", "tape"), [("mm", "567.0 mm"), ("inch", "22 21/64 in (567.0 mm)")]
)
def test_measured_rings_fill_it(own_folder: Path, units: str, tape: str) -> None:
    """567 / 25.4 = 22.323 in, 20.66 / 64 over 22."""
    job_file(own_folder, {"paper.units": f'"{units}"'})
    (own_folder / "rings.csv").write_text(RINGS)
    assert run("record", "job.toml", "--rings", "rings.csv").exit_code == 0
    (lines,), _ = read(own_folder / "record.pdf")
    assert f"3 spare b {tape}" in lines
    assert sorted(line.split()[3] for line in lines if " A1 W1 " in line) == ["a", "c"]


def test_heads_stand_on_every_page_and_bytes_are_the_same_again(own_folder: Path) -> None:
    job_file(own_folder, {"job.wheels": "60"})
    assert run("record", "job.toml").exit_code == 0
    pages, _ = read(own_folder / "record.pdf")
    assert len(pages) > 1
    assert all(HEADS in lines for lines in pages)
    wheels = re.findall(r"^(\d+) A\d+ W\d+$", "\n".join(map("\n".join, pages)), re.MULTILINE)
    assert wheels == [str(i) for i in range(1, 61)]
    feet = [f"page {i + 1} of {len(pages)}" for i in range(len(pages))]
    assert [lines[-1][-len(foot) :] for lines, foot in zip(pages, feet, strict=True)] == feet
    assert run("record", "job.toml", "--out", "again.pdf").exit_code == 0
    assert Path("again.pdf").read_bytes() == Path("record.pdf").read_bytes()


def test_data_are_text_and_no_markup() -> None:
    words = "b #emph[c] *d* $e$ \\ f"
    page = {"width_mm": 210, "height_mm": 297, "margin_mm": 10}
    columns = [{"head": words, "align": "text", "wide": True}]
    data = {"title": "t", "font": "Libertinus Serif", "words": words, "page": page}
    data |= {"columns": columns, "rows": [[words]]}
    text = pypdf.PdfReader(io.BytesIO(module.typeset("record.typ", data))).pages[0].extract_text()
    assert [line.strip() for line in text.splitlines()].count(words) == 3


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        ((), 2, "record.pdf: is there already; try another name, or --overwrite"),
        (("--out", "folder"), 2, "is a folder; try a file in it, such as folder/record.pdf"),
        (("--out", "no/such.pdf"), 2, "there is no folder no"),
        (("--overwrite", "--rings", "none.csv"), 2, "none.csv"),
    ],
)
def test_what_cannot_be_written_is_refused(
    own_folder: Path, options: tuple[str, ...], code: int, said: str
) -> None:
    job_file(own_folder, {})
    (own_folder / "record.pdf").write_text("mine")
    (own_folder / "folder").mkdir()
    before = files_of(own_folder)
    result = run("record", "job.toml", *options)
    assert result.exit_code == code
    assert said in result.stderr
    assert files_of(own_folder) == before


def test_a_full_disk_leaves_the_former_file(
    own_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(path: Path, target: Path) -> None:
        raise OSError(28, "No space left on device", str(target))

    job_file(own_folder, {})
    (own_folder / "record.pdf").write_text("former")
    monkeypatch.setattr(Path, "replace", full)
    result = run("record", "job.toml", "--overwrite")
    assert (result.exit_code, result.stderr) == (3, "record.pdf: No space left on device\n")
    assert sorted(path.name for path in own_folder.iterdir()) == ["job.toml", "record.pdf"]
    assert (own_folder / "record.pdf").read_text() == "former"


@pytest.mark.parametrize(
    ("old", "new", "where", "said"),
    [
        ("#data.words", "#data.wrods", "#data.words", 'does not contain key "wrods"'),
        ("data.rows.flatten(),", "data.rows.flatten(", "#table(", "unclosed delimiter"),
    ],
)
def test_a_broken_template_is_told_by_its_line_and_nothing_is_written(
    own_folder: Path,
    tmp_path_factory: pytest.TempPathFactory,
    monkeypatch: pytest.MonkeyPatch,
    old: str,
    new: str,
    where: str,
    said: str,
) -> None:
    home = tmp_path_factory.mktemp("templates")
    text = (TEMPLATES / "record.typ").read_text(encoding="utf-8")
    assert text.count(old) == 1
    line = text[: text.index(where)].count("\n") + 1
    (home / "record.typ").write_text(text.replace(old, new), encoding="utf-8")
    monkeypatch.setattr(module, "TEMPLATES", home)
    job_file(own_folder, {})
    result = run("record", "job.toml")
    assert result.exit_code == 3
    assert result.stderr.startswith(f"{home / 'record.typ'}, line {line}: ")
    assert said in result.stderr
    assert len(result.stderr.splitlines()) == 1
    assert [path.name for path in own_folder.iterdir()] == ["job.toml"]


def test_rings_that_are_no_file_are_told_by_the_whole_path(own_folder: Path) -> None:
    job_file(own_folder, {})
    for rings in ("/dev/null", "gone/rings.csv"):
        result = run("record", "job.toml", "--rings", rings)
        assert result.exit_code == 2
        assert result.stderr.startswith(f"{rings}: found ")
    assert not (own_folder / "record.pdf").exists()
