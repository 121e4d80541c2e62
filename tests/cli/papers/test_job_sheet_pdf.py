"""job-sheet.pdf read back by two readers: its paper, its pages, its fonts, what it is."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from importlib.metadata import version
from pathlib import Path
from typing import Any

import numpy as np
import pypdf
import pypdfium2
import pytest

from platewheel.cli.job.job import Job
from platewheel.cli.output import build
from platewheel.cli.papers.job_sheet_pdf import job_sheet_pdf
from tests.cli.jobs import ROWS, job_text, run, write_job
from tests.places import DEMO

PT_MM = 25.4 / 72
A4_MM = (210.0, 297.0)  # ISO 216
LETTER_MM = (8.5 * 25.4, 11 * 25.4)  # ANSI/ASME Y14.1, size A
HOSTILE = "#strong[x] *b* <script>alert(1)</script> $y$ @z `w` \\"
OFFCUT = f"""
[[offcut]]
name = '{HOSTILE}'
thickness_mm = 5
outline = [[0, 0], [500, 0], [500, 400], [0, 400]]
"""
ODD = {
    "paper.size": '"Letter"',
    "paper.units": '"inch"',
    "cutting.process": '"hand"',
    "job.wheels": "1",
    "costs.currency": "'<b>*#1'",
}


@dataclass(frozen=True)
class Made:
    """A paper, and what it was made of."""

    data: bytes
    given: tuple[Any, ...]

    @cached_property
    def pages(self) -> list[str]:
        """Words of each page, on one line."""
        texts = (
            page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(self.data)
        )
        return [" ".join(text.split()) for text in texts]

    def parts(self) -> list[int]:
        """Pages (from 0) on which a part begins, by the outline."""
        reader = pypdf.PdfReader(io.BytesIO(self.data))
        tops = [one for one in reader.outline if not isinstance(one, list)]
        found = [reader.get_destination_page_number(one) for one in tops]
        assert None not in found
        return [page for page in found if page is not None]


def made(text: str, folder: Path, patch: pytest.MonkeyPatch) -> Made:
    """The paper of a job that is built."""
    papers: list[Made] = []

    def kept(*given: Any) -> bytes:
        data = job_sheet_pdf(*given)
        papers.append(Made(data, given))
        return data

    patch.setattr(build, "job_sheet_pdf", kept)
    # not asked for here
    patch.setattr(build, "write_solids", lambda job, parts, folder: [])
    patch.setattr("platewheel.nesting.proof.cuts.require_cuts", lambda path, asked: None)
    result = run("build", write_job(folder, text), "--effort", "quick", "--out", folder / "out")
    assert result.exit_code in (0, 1), result.stderr
    (paper,) = papers
    (file,) = (folder / "out").glob("*/job-sheet.pdf")
    assert file.read_bytes() == paper.data
    return paper


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory, module_patch: pytest.MonkeyPatch) -> Made:
    return made(DEMO.read_text("utf-8"), tmp_path_factory.mktemp("demo"), module_patch)


@pytest.fixture(scope="module")
def odd(tmp_path_factory: pytest.TempPathFactory, module_patch: pytest.MonkeyPatch) -> Made:
    """One wheel cut by hand from a plate with a strange name, in inches on Letter."""
    text = job_text(ODD, rows=OFFCUT + ROWS)
    return made(text, tmp_path_factory.mktemp("odd"), module_patch)


def sizes_mm(data: bytes) -> Iterator[list[tuple[float, float]]]:
    """Of all pages, by each of the two readers."""
    boxes = [page.mediabox for page in pypdf.PdfReader(io.BytesIO(data)).pages]
    yield [(float(box.width) * PT_MM, float(box.height) * PT_MM) for box in boxes]
    document = pypdfium2.PdfDocument(data)
    yield [
        (wide * PT_MM, high * PT_MM)
        for wide, high in map(document.get_page_size, range(len(document)))
    ]


def test_pages_are_of_the_paper_that_the_job_names(demo: Made, odd: Made) -> None:
    for paper, size in ((demo, A4_MM), (odd, LETTER_MM)):
        for sizes in sizes_mm(paper.data):
            for one in sizes:  # a plate may lie across
                assert sorted(one) == pytest.approx(size, abs=0.1)
            assert sizes[0] == pytest.approx(size, abs=0.1)


def test_the_demo_takes_ten_pages_and_its_plates(demo: Made) -> None:
    report = demo.given[1]
    assert len(demo.pages) <= 10 + len(report.sheets)
    words = [re.findall(r"plate (\d+) of", page) for page in demo.pages]
    assert [int(found[0]) for found in words if found] == list(range(1, len(report.sheets) + 1))


@pytest.mark.parametrize("name", ["demo", "odd"])
def test_every_page_is_half_full_but_the_last_of_a_part(
    name: str, request: pytest.FixtureRequest
) -> None:
    paper: Made = request.getfixturevalue(name)
    last = {page - 1 for page in paper.parts()} | {len(paper.pages) - 1}
    document = pypdfium2.PdfDocument(paper.data)
    for number in set(range(len(document))) - last:
        grey = np.asarray(document[number].render(scale=0.5).to_pil().convert("L"))
        inked = np.flatnonzero((grey < 128).any(axis=1))
        assert inked[-1] >= len(grey) / 2, number
    first = np.asarray(document[0].render(scale=0.5).to_pil().convert("L"))
    assert np.flatnonzero((first < 128).any(axis=1))[-1] >= len(first) / 2


def test_every_page_says_of_which_job_it_is(demo: Made, odd: Made) -> None:
    for paper, job in ((demo, "oyster-tramway: 48 wheels"), (odd, "pond-line: 1 wheel")):
        count = len(paper.pages)
        for number, words in enumerate(paper.pages, 1):
            assert job in words
            assert f"platewheel {version('platewheel')}" in words
            assert f"page {number} of {count}" in words


def test_fonts_are_all_inside(demo: Made) -> None:
    """ISO 19005-2, 6.2.11.4: the font programs of all fonts used are embedded."""
    fonts = 0
    for page in pypdf.PdfReader(io.BytesIO(demo.data)).pages:
        for one in page["/Resources"].get("/Font", {}).values():
            for inner in one.get_object()["/DescendantFonts"]:
                descriptor = inner.get_object()["/FontDescriptor"].get_object()
                assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor)
                fonts += 1
    assert fonts >= len(demo.pages)


def test_it_says_that_it_is_pdf_a_2a_with_title_language_and_tags(odd: Made) -> None:
    """ISO 19005-2, 6.6.4 (part and level in the metadata), 6.7.2 (marked), 6.7.4 (language)."""
    reader = pypdf.PdfReader(io.BytesIO(odd.data))
    root = reader.trailer["/Root"].get_object()
    metadata = root["/Metadata"].get_object().get_data().decode()
    assert re.search(r"<pdfaid:part>2</pdfaid:part>", metadata)
    assert re.search(r"<pdfaid:conformance>A</pdfaid:conformance>", metadata)
    assert root["/MarkInfo"]["/Marked"] is True or root["/MarkInfo"]["/Marked"].value
    assert "/StructTreeRoot" in root
    assert root["/Lang"] == "en"
    assert reader.metadata is not None
    assert reader.metadata.title == "pond-line: 1 wheel"


def test_the_same_job_gives_the_same_bytes(odd: Made) -> None:
    assert job_sheet_pdf(*odd.given) == odd.data


def test_strange_names_are_words_and_nothing_else(odd: Made) -> None:
    bare = "".join("".join(odd.pages).split())
    assert "".join(HOSTILE.split()) in bare
    assert "Price,<b>*#1" in bare


def test_lengths_are_told_in_inches(odd: Made) -> None:
    """381 mm are 15 in: the gauge; 180 mm are 7 3/32 in to the nearest 1/64: the tread."""
    first = odd.pages[0]
    assert "15 in (381.0 mm) gauge" in first
    assert "7 3/32 in (180.0 mm) over the tread" in first


def test_a_long_record_has_its_head_on_every_page(odd: Made) -> None:
    job, *others = odd.given
    assert isinstance(job, Job)
    many = replace(job, head=job.head.model_copy(update={"wheels": 150}))
    paper = Made(job_sheet_pdf(many, *others), ())
    pages = paper.pages[paper.parts()[-1] :]
    assert len(pages) >= 2
    assert all("Wheel Axle Wagon Ring" in words for words in pages)
    assert "150" in pages[-1]


def test_its_parts_are_there_in_order(demo: Made, odd: Made) -> None:
    def heads(paper: Made) -> list[str]:
        outline = pypdf.PdfReader(io.BytesIO(paper.data)).outline
        return [str(one["/Title"]) for one in outline if not isinstance(one, list)]

    parts = ["To buy", "Blanks", "The axle", "Plates to cut", "Steps to build", "Record"]
    assert heads(demo) == ["oyster-tramway: 48 wheels", *parts]
    assert heads(odd) == ["pond-line: 1 wheel", *(one for one in parts if one != "The axle")]


def test_the_first_page_tells_what_warns_and_what_it_carries(demo: Made) -> None:
    report, first = demo.given[1], demo.pages[0]
    for row in report.checks:
        if row.verdict in ("warn", "fail"):
            assert row.title in first
    assert f"rated {report.rating.rated_n:.0f} N, needed" in first
    assert "A sealed hollow in a zinc bath explodes" in first


def test_the_tube_to_buy_is_one_that_is_stocked(demo: Made) -> None:
    assert "no stock size: take 57 x 8.8 mm (EN 10220), bored to 40 mm" in demo.pages[1]
    tube = next(row for row in demo.given[1].buying if row.kind == "tube")
    assert tube.metres == pytest.approx(48 * (70 + 1.7) / 1000)  # pieces and saw cuts
    assert tube.standard.startswith("S235JRH")


def test_each_step_names_the_files_that_it_is_done_by(odd: Made) -> None:
    job, report, *others = odd.given
    steps = [row.model_copy(update={"uses": [f"templates/{row.id}.pdf"]}) for row in report.steps]
    paper = Made(job_sheet_pdf(job, report.model_copy(update={"steps": steps}), *others), ())
    words = "".join("".join(paper.pages).split())
    for row in steps:
        assert f"Needstemplates/{row.id}.pdf" in words


@pytest.mark.parametrize(
    ("key", "value", "allowed"),
    [("paper.size", '"A5"', "'A4'"), ("paper.font", '"Comic"', "'Libertinus Serif'")],
)
def test_an_unknown_paper_or_font_is_refused_by_its_key(
    own_folder: Path, key: str, value: str, allowed: str
) -> None:
    result = run("build", write_job(own_folder, job_text({key: value})))
    assert result.exit_code == 2
    assert f"{key}: found " in result.stderr
    assert allowed.strip("'") in result.stderr
    assert not (own_folder / "out").exists()
