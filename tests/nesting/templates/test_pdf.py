"""Templates as files: pages, words and sameness, read back by another library."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
from pypdf import PdfReader

from platewheel.nesting.templates.ink import printable_words
from platewheel.nesting.templates.paper import Paper
from platewheel.nesting.templates.paper_lay import lay_on_paper
from platewheel.nesting.templates.pdf import blank_template, write_template
from platewheel.nesting.templates.printed_length import printed_length
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText, annular_sector
from platewheel.parts.geometry.outline import Arc, Circle, Line, polygon
from platewheel.parts.wheel.flange import flange_blank
from platewheel.parts.wheel.hub_disc import disc_blank
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import tread_blank

WHEEL = WheelSpec(
    tread_diameter_mm=300.0,
    tread_width_mm=60.0,
    tread_thickness_mm=8.0,
    flange_depth_mm=15.0,
    flange_angle_deg=70.0,
    flange_thickness_mm=6.0,
    flange_segments=3,
    disc_thickness_mm=5.0,
    hub_bore_mm=35.0,
    vent_circle_mm=230.0,
)
JOB = "Tipping wagon No. 4"
BLANKS = {
    "flange": flange_blank(WHEEL),
    "disc": disc_blank(WHEEL),
    "tread": tread_blank(WHEEL),
    "tapered": tread_blank(WHEEL.model_copy(update={"tread_taper_1_in": 20.0})),
}


def words(page) -> str:
    return " ".join(page.extract_text().split())


@pytest.mark.parametrize("name", BLANKS)
@pytest.mark.parametrize("size", ["A4", "A3", "Letter", "Tabloid"])
def test_pages_and_their_words(name: str, size: str, tmp_path: Path) -> None:
    blank, paper, path = BLANKS[name], Paper(size=size), tmp_path / "one.pdf"
    assert blank is not None
    count = write_template(blank, 6, paper, path, job_name=JOB)
    reader = PdfReader(path)
    assert len(reader.pages) == count
    lay = lay_on_paper(blank, paper)
    layout, tiles = lay.page, lay.tiles
    sides = {"portrait": (paper.width_mm, paper.height_mm)}
    sides["landscape"] = sides["portrait"][::-1]
    for number, (page, tile) in enumerate(zip(reader.pages, tiles.tiles, strict=True), start=1):
        # ISO 32000-1, 8.3.2.3: lengths in 1/72 inch
        size_mm = [float(side) / 72 * 25.4 for side in page.mediabox[2:]]
        assert size_mm == pytest.approx(sides[layout.orientation], abs=0.01)
        text = words(page)
        column, row = tile.cell
        for said in (
            f"{blank.name}, cut 6 off, {blank.thickness_mm:g} mm plate",
            f"page {number} of {count}",
            f"column {column} of {tiles.columns}, row {row} of {tiles.rows}",
            JOB,
            "Check the bars before cutting.",
        ):
            assert said in text
        # once for the bar across, once for the one up the page
        assert text.count("100 mm - measure me: print at 100 %, no fit-to-page") == 2
        for other in re.findall(r"glue: page (\d+) is laid up to this line", text):
            assert f"lay it on page {number}" in words(reader.pages[int(other) - 1])


def test_viewer_is_asked_for_true_size(tmp_path: Path) -> None:
    write_template(BLANKS["disc"], 1, Paper(), tmp_path / "one.pdf", job_name=JOB)
    root = PdfReader(tmp_path / "one.pdf").trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"  # ISO 32000-1, table 150


def test_same_input_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("one", "two"):
        write_template(BLANKS["flange"], 6, Paper(), tmp_path / name, job_name=JOB)
    one, two = ((tmp_path / name).read_bytes() for name in ("one", "two"))
    assert one == two
    write_template(BLANKS["flange"], 7, Paper(), tmp_path / "three", job_name=JOB)
    assert (tmp_path / "three").read_bytes() != one


def test_marks_are_in_other_lines_than_cuts(tmp_path: Path) -> None:
    """The page's own commands: a wide solid line for cuts, narrower dashes for marks."""
    edge = polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 80.0), (0.0, 80.0)])
    marks = (
        Line((10.0, 10.0), (90.0, 10.0)),
        Arc((50.0, 40.0), 20.0, 0.0, 90.0),
        MarkPoint((50.0, 40.0)),
        MarkText((50.0, 60.0), "this side up", 5.0, 30.0),
    )
    blank = Blank("plate", "disc", 4.0, edge, (Circle((20.0, 40.0), 8.0),), marks)
    bare = Blank("plate", "disc", 4.0, edge)
    path = tmp_path / "one.pdf"
    assert write_template(blank, 1, Paper(), path, job_name=JOB) == 1
    page = PdfReader(path).pages[0]
    assert "this side up" in page.extract_text()
    drawn = page.get_contents().get_data().decode("latin-1")
    write_template(bare, 1, Paper(), path, job_name=JOB)
    less = PdfReader(path).pages[0].get_contents().get_data().decode("latin-1")
    dashed = r"\[1\.2 \.8\] 0 d"
    assert len(re.findall(dashed, drawn)) == len(re.findall(dashed, less)) + 2
    assert len(re.findall(r"\.35 w", drawn)) == len(re.findall(r"\.35 w", less)) + 1  # the hole


def test_arcs_are_true_to_a_hundredth(tmp_path: Path) -> None:
    """Cubics of the file itself, in the blank's millimetres, against the radius they stand for."""
    inner, outer, path = 3940.0, 4000.0, tmp_path / "one.pdf"
    blank = Blank("tread", "tread", 8.0, annular_sector(inner, outer, 20.0))
    write_template(blank, 1, Paper(), path, job_name=JOB)
    drawn = PdfReader(path).pages[0].get_contents().get_data().decode("latin-1")
    step_of_path = r"((?:-?[\d.]+ )+)([mlc])\b"
    here, off, curves = (0.0, 0.0), 0.0, 0
    for numbers, step in re.findall(step_of_path, drawn[drawn.rindex(".35 w") :]):
        *_, x, y = ends = [float(one) for one in numbers.split()]
        if step == "c":
            curves += 1
            start, one, two, end = (np.array(p) for p in (here, ends[:2], ends[2:4], ends[4:]))
            for t in np.linspace(0, 1, 21):
                u = 1 - t
                at = u**3 * start + 3 * u * u * t * one + 3 * u * t * t * two + t**3 * end
                off = max(off, min(abs(np.hypot(*at) - radius) for radius in (inner, outer)))
        here = (x, y)
    assert curves == 4  # two arcs in pieces of at most 15 degrees
    assert off < 0.01


def test_large_sheet_of_a_whole_flange(tmp_path: Path) -> None:
    """A ring wider than any page: the pages inside it are not printed, the file still whole."""
    blank = Blank("flange", "flange", 8.0, annular_sector(560.0, 590.0, 340.0))
    path = tmp_path / "one.pdf"
    count = write_template(blank, 1, Paper(size="Letter"), path, job_name=JOB)
    tiles = lay_on_paper(blank, Paper(size="Letter")).tiles
    assert count == len(PdfReader(path).pages) == len(tiles.tiles) < tiles.columns * tiles.rows


def test_count_below_one_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SpecError, match="count"):
        write_template(BLANKS["disc"], 0, Paper(), tmp_path / "one.pdf", job_name=JOB)
    assert not list(tmp_path.iterdir())


def test_letters_that_the_fonts_lack() -> None:
    assert printable_words("Zürich “A” €") == "Zürich “A” €"
    assert printable_words("Łódź\n  kő") == "Lódz ko"
    assert printable_words("Ж\x00") == "??"


def test_an_inch_plate_and_what_is_less_than_a_64th() -> None:
    """1/4 in is 6.35 mm, no 6.3 (25.4 mm to the inch, by the agreement of 1959)."""
    blank = Blank("plate", "disc", 6.35, polygon([(0, 0), (90, 0), (90, 60), (0, 60)]))
    assert "1/4 in (6.35 mm) plate" in blank_template(blank, 2, "inch").heading
    assert printed_length(0.15, "inch") == ("0.006 in", "0.1 mm")
    assert printed_length(0.0, "inch") == ("0 in", "0 mm")
