"""A job's templates as files: small ones together, notes, units, print scale; read by pypdf."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.templates.paper import Paper
from platewheel.nesting.templates.pdf import Template, blank_template, write_template
from platewheel.nesting.templates.sets import write_template_set
from platewheel.nesting.templates.wrap_strip import strip_template
from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Circle, polygon

HAND = Cutting(process="hand")
DISC = Blank(
    "disc",
    "disc",
    6.0,
    Circle((0.0, 0.0), 141.25),
    (Circle((0.0, 0.0), 26.25), *(Circle((x, 0.0), 8.0) for x in (-126.0, 126.0))),
)
WASHER = Blank("washer", "extra", 5.0, Circle((0.0, 0.0), 30.0), (Circle((0.0, 0.0), 11.0),))
BRACKET = Blank("bracket", "extra", 5.0, polygon([(0, 0), (90, 0), (90, 50), (0, 50)]))
GUSSET = Blank("gusset", "extra", 6.0, polygon([(0, 0), (100, 0), (0, 70)]))


def templates(units: Units, *blanks: Blank) -> list[Template]:
    return [blank_template(blank, 4, units, HAND) for blank in blanks]


def text(path: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def test_small_parts_share_a_page(tmp_path: Path) -> None:
    wanted = templates("mm", DISC, WASHER, BRACKET, GUSSET)
    made = dict(write_template_set(wanted, Paper(), tmp_path, job_name="trial"))
    assert made == {"disc": 4, "small-parts": 1}
    assert sorted(path.name for path in tmp_path.iterdir()) == ["disc.pdf", "small-parts.pdf"]
    said = text(tmp_path / "small-parts.pdf")
    for name in ("washer", "bracket", "gusset"):
        assert f"{name}, cut 4 off" in said
        assert f"{name}: struck by hand" in said
    assert len(PdfReader(tmp_path / "small-parts.pdf").pages) == 1


def test_one_small_part_keeps_its_own_file(tmp_path: Path) -> None:
    made = dict(write_template_set(templates("mm", DISC, WASHER), Paper(), tmp_path, job_name="t"))
    assert made == {"disc": 4, "washer": 1}


def test_sharing_saves_pages_or_is_left_alone(tmp_path: Path) -> None:
    many = [
        Blank(f"plate-{i}", "extra", 5.0, polygon([(0, 0), (w, 0), (w, h), (0, h)]))
        for i, (w, h) in enumerate(((60, 40), (150, 100), (80, 80), (160, 30), (120, 120)))
    ]
    made = write_template_set(templates("mm", *many), Paper(), tmp_path, job_name="trial")
    assert sum(pages for _, pages in made) < len(many)
    said = " ".join(text(path) for path in tmp_path.iterdir())
    for blank in many:
        assert said.count(f"{blank.name}: struck by hand") == 1


def test_notes_of_a_disc_cut_by_hand(tmp_path: Path) -> None:
    write_template(DISC, 96, Paper(), tmp_path / "disc.pdf", job_name="trial", cutting=HAND)
    said = text(tmp_path / "disc.pdf")
    for words in (
        "diameter 282.5 mm",
        "circle through their centres, diameter 252 mm",
        "2 x 16 mm drill 13 mm, pilot first",
        "to grind all round 1.5 mm",
        "1 x 52.5 mm chain drilled",
        "cuts, each touching the line at its middle 20",
        "across two opposite cuts 282.5 mm",
        "--print-scale FACTOR",
    ):
        assert words in said, words


def test_notes_of_a_disc_cut_by_torch(tmp_path: Path) -> None:
    torch = Cutting(least_hole_mm=25.0)
    write_template(DISC, 96, Paper(), tmp_path / "disc.pdf", job_name="trial", cutting=torch)
    said = text(tmp_path / "disc.pdf")
    for words in (
        "2 x 16 mm too small to cut: drill 16 mm",
        "1 x 52.5 mm cut",
        "least hole cut by plasma in this plate: 25 mm",
    ):
        assert words in said, words


def test_inches_with_millimetres_beside(tmp_path: Path) -> None:
    """282.575 mm are 11 1/8 in, 9.525 mm are 3/8 in: 25.4 mm an inch, exactly."""
    disc = Blank("disc", "disc", 9.525, Circle((0.0, 0.0), 11.125 * 25.4 / 2))
    paper = Paper(units="inch")
    write_template(disc, 2, paper, tmp_path / "disc.pdf", job_name="trial", cutting=HAND)
    said = text(tmp_path / "disc.pdf")
    assert "disc, cut 2 off, 3/8 in (9.525 mm) plate" in said
    assert "diameter 11 1/8 in 282.6 mm" in said
    assert "4 in - measure me" in said
    assert "100 mm" not in said


def test_print_scale_is_told_on_the_page(tmp_path: Path) -> None:
    path = tmp_path / "disc.pdf"
    write_template(DISC, 2, Paper(), path, job_name="trial", print_scale=0.98)
    assert "made for a printer that prints 0.98" in text(path)
    for page in PdfReader(path).pages:  # the sheet itself keeps its size: ISO 216, A4
        sides = sorted(float(side) / 72 * 25.4 for side in page.mediabox[2:])
        assert sides == pytest.approx([210, 297], abs=0.01)
    with pytest.raises(SpecError, match="--print-scale"):
        write_template(DISC, 2, Paper(), tmp_path / "no.pdf", job_name="trial", print_scale=1.2)
    assert not (tmp_path / "no.pdf").exists()


def test_strip_is_drawn_with_its_length(tmp_path: Path) -> None:
    strip = strip_template("tread", 323.9, 60.0, "mm")
    ((stem, pages),) = write_template_set([strip], Paper(), tmp_path, job_name="trial")
    said = text(tmp_path / f"{stem}.pdf")
    assert pages > 1  # a metre round
    assert "once round the steel, by tape 1017.6 mm" in said
    assert "pi x (outside + paper) 1017.9 mm" in said
    assert "paper strip to wrap round the tread pipe" in said


def test_notes_without_room_get_a_page_of_their_own(tmp_path: Path) -> None:
    """Arcs all over the page leave no white place for the longest tables."""
    holes = tuple(
        Circle((9.0 * i, 9.0 * j), 2.0) for i in range(-7, 8) for j in range(-9, 10) if (i, j)
    )
    full = Blank("sieve", "extra", 5.0, polygon([(-80, -110), (80, -110), (80, 110), (-80, 110)]))
    full = Blank("sieve", "extra", 5.0, full.outline, holes)
    pages = write_template(full, 1, Paper(), tmp_path / "sieve.pdf", job_name="trial", cutting=HAND)
    reader = PdfReader(tmp_path / "sieve.pdf")
    assert pages == len(reader.pages) == 2
    assert "notes: nothing to cut on this page" in reader.pages[1].extract_text()
    assert "sieve: struck by hand" in text(tmp_path / "sieve.pdf")


def test_holes_to_drill_are_dotted_and_their_centres_half_black(tmp_path: Path) -> None:
    """The page's own commands: dots for the holes too small, filled quarters at their centres."""
    counts = {}
    for name, cutting in (("drill", Cutting(least_hole_mm=25.0)), ("cut", Cutting())):
        write_template(WASHER, 1, Paper(), tmp_path / name, job_name="trial", cutting=cutting)
        drawn = PdfReader(tmp_path / name).pages[0].get_contents().get_data().decode("latin-1")
        counts[name] = (
            len(re.findall(r"\[\.4 \.9\] 0 d", drawn)),
            len(re.findall(r"\bf\b", drawn)),
        )
    assert counts["drill"][0] == counts["cut"][0] + 1
    assert counts["drill"][1] == counts["cut"][1] + 2


def test_arrows_bear_the_numbers_of_the_pages_beside(tmp_path: Path) -> None:
    """On the first of four pages: one arrow to page 2, one to page 3."""
    path = tmp_path / "flange.pdf"
    ring = Blank("flange", "flange", 8.0, annular_sector(120.0, 140.0, 359.0))
    assert write_template(ring, 1, Paper(), path, job_name="trial") == 4
    first = PdfReader(path).pages[0].extract_text().splitlines()
    for number in ("2", "3"):
        assert first.count(number) == 2  # once on the page map, once beside an arrow
    assert first.count("1") == first.count("4") == 1
