"""Templates by hand: chains drawn hole by hole and told; a saw in the shop makes them go."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from platewheel.nesting.by_hand.hole_ways import HoleTools, arc_ways, way_of
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.templates.hole_words import arc_words, way_words
from platewheel.nesting.templates.paper import Paper
from platewheel.nesting.templates.pdf import blank_template, draw_template
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Circle

WASHER = Blank("washer", "extra", 6.0, Circle((0.0, 0.0), 45.0), (Circle((0.0, 0.0), 30.0),))
HAND = Cutting(process="hand")


def drawn(path: Path, tools: HoleTools, cutting: Cutting = HAND) -> tuple[str, int]:
    """Words on the page, and how many small rings are drawn on it."""
    template = blank_template(WASHER, 1, "mm", cutting, tools=tools)
    draw_template(template, Paper(), path, job_name="trial")
    page = PdfReader(path).pages[0]
    rings = page.get_contents().get_data().decode("latin-1").count(" h\n")
    return " ".join(page.extract_text().split()), rings


def test_a_chain_is_drawn_with_its_centres(tmp_path: Path) -> None:
    """24 holes, of 60 less 2 x 0.75 and 6 on a circle of 52.5 (worked in test_hole_ways)."""
    words, many = drawn(tmp_path / "chain.pdf", HoleTools())
    for told in ("24 holes, drill 6 mm", "circle through their centres 52.5 mm", "6.9 mm"):
        assert told in words, told
    words, few = drawn(tmp_path / "saw.pdf", HoleTools((60.0,)))
    assert "hole saw 60 mm, pilot first" in words
    assert many - few > 20  # the saw has a centre of its own shape
    words, _ = drawn(tmp_path / "plasma.pdf", HoleTools((60.0,)), Cutting())
    assert "hole saw 60" not in words


@pytest.mark.parametrize(
    ("size", "tools", "words"),
    [
        (57.75, HoleTools((57.0,)), "hole saw 57 mm, pilot 6.4 mm, about 150 rpm or less, oil, then"
         " grind 0.4 mm off all round"),
        (12.0, HoleTools(), "drill 12 mm, pilot first"),
        (60.0, HoleTools(), "chain of 24 holes, drill 6 mm, on a circle of 52.5 mm, dividers 6.9 "
         "mm; break out, grind up to 4 mm off to the line"),
    ],
)  # fmt: skip
def test_words_of_a_hole(size: float, tools: HoleTools, words: str) -> None:
    assert way_words(way_of(size, [(0.0, 0.0)], 6.0, tools), "mm") == words


# speeds of a maker's table for mild steel: 14 mm 580, 25 mm 350, 38 mm 230, 51 mm 170, 64 mm 135
@pytest.mark.parametrize(("saw", "rpm"), [(14, 580), (25, 350), (38, 230), (51, 170), (64, 135)])
def test_speed_of_a_hole_saw(saw: float, rpm: float) -> None:
    words = way_words(way_of(saw, [(0.0, 0.0)], 6.0, HoleTools((float(saw),))), "mm")
    told = float(words.split("about ")[1].split(" rpm")[0])
    assert told == pytest.approx(rpm, rel=0.08)


def test_words_of_an_inner_arc() -> None:
    (way,) = arc_ways(Blank("flange", "flange", 8.0, annular_sector(150.0, 170.0, 120.0)))
    words = arc_words(way, "mm")
    assert words.startswith(
        "chain of 46 holes, drill 6 mm, on the radius 146.2 mm, one on each end"
    )
    assert "dividers 6.8 mm" in words
    assert "(6.8 mm)" in arc_words(way, "inch")
