"""The pages of plates.pdf read back by pypdfium2, and jobs whose plates are full of parts."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import ezdxf
import pypdfium2

from platewheel.nesting.stock.layout import Layout, Nest, Placement, Sheet, Wanted
from tests.cli.jobs import NAME, job_text, run, write_job

PT_MM = 25.4 / 72
MARGIN_MM = 10.0
GAP_MM = 20.0
TREAD = """
[[stock]]
thickness_mm = 6
width_mm = 150
length_mm = 600
"""


@dataclass(frozen=True)
class PlatePage:
    """Words of a page, its size, and where its letters stand: mm, y down from its upper edge."""

    words: str
    wide_mm: float
    high_mm: float
    letters: tuple[tuple[str, float, float, float, float], ...]

    def within(self, x0: float, y0: float, x1: float, y1: float) -> list[tuple[str, float, float]]:
        """The words in a box, each with the place of its middle; a word ends where two letters are
        not side by side."""
        words: list[list[tuple[str, float, float]]] = []
        for letter, left, top, right, low in self.letters:
            x, y = (left + right) / 2, (top + low) / 2
            if letter.strip() and x0 < x < x1 and y0 < y < y1:
                last = words[-1][-1][1:] if words else (-100.0, -100.0)
                if math.dist((x, y), last) > 1.1 * max(right - left, low - top):
                    words.append([])
                words[-1].append((letter, x, y))
        return [_word(word) for word in words]

    def says(self, words: str) -> bool:
        """Whether they stand there, however the lines are broken."""
        return "".join(words.split()) in "".join(self.words.split())


def _word(letters: list[tuple[str, float, float]]) -> tuple[str, float, float]:
    count = len(letters)
    x, y = sum(one[1] for one in letters) / count, sum(one[2] for one in letters) / count
    return "".join(one[0] for one in letters), x, y


def pages_of(file: Path | bytes) -> list[PlatePage]:
    return [_page(page) for page in pypdfium2.PdfDocument(file)]


def _page(page: Any) -> PlatePage:
    text = page.get_textpage()
    wide, high = page.get_size()
    letters = []
    for i in range(text.count_chars()):
        letter = text.get_text_range(i, 1)
        x0, y0, x1, y1 = text.get_charbox(i)
        box = (x0 * PT_MM, (high - y1) * PT_MM, x1 * PT_MM, (high - y0) * PT_MM)
        letters.append((letter, *box))
    words = " ".join(text.get_text_range().split())
    return PlatePage(words, wide * PT_MM, high * PT_MM, tuple(letters))


def nested(
    folder: Path, changes: Mapping[str, str] | None = None, *, rows: str, name: str = NAME
) -> tuple[Path, list[dict[str, Any]]]:
    """plates.pdf of a nest written there, and the rows of its sheets."""
    job = write_job(folder, job_text(changes, rows=rows))
    result = run("nest", job, "--out", folder / "out", "--effort", "quick", "--json")
    assert result.exit_code == 0, result.stderr
    return folder / "out" / name / "plates.pdf", json.loads(result.stdout)["sheets"]


def in_rows(wanted: Sequence[Wanted], sheets: Sequence[Sheet], *_: object, **__: object) -> Nest:
    """In place of a search: all parts of a thickness on one plate, row after row, 20 mm apart."""
    layouts = []
    for thickness in sorted({item.blank.thickness_mm for item in wanted}):
        sheet = next(one for one in sheets if one.thickness_mm == thickness)
        placed, x, y, tall = [], GAP_MM, GAP_MM, 0.0
        for blank in [
            w.blank for w in wanted if w.blank.thickness_mm == thickness for _ in range(w.count)
        ]:
            x0, y0, x1, y1 = blank.bounds
            if x + x1 - x0 > sheet.length_mm - GAP_MM:
                x, y, tall = GAP_MM, y + tall + GAP_MM, 0.0
            placed.append(Placement(blank, x - x0, y - y0, 0.0))
            x, tall = x + x1 - x0 + GAP_MM, max(tall, y1 - y0)
        assert y + tall < sheet.width_mm
        layouts.append(Layout(sheet, tuple(placed)))
    return Nest(tuple(layouts))


def own_parts(
    folder: Path, sizes: Mapping[str, tuple[float, float]], count: int = 1, hole_mm: float = 0.0
) -> str:
    """Rows of the job file for oblongs of these sizes, drawn into the folder."""
    rows = ""
    for name, (length, width) in sizes.items():
        drawing = ezdxf.new("R2000")
        drawing.units = 4
        space = drawing.modelspace()
        space.add_lwpolyline([(0, 0), (length, 0), (length, width), (0, width)], close=True)
        if hole_mm:
            space.add_circle((length / 2, width / 2), hole_mm / 2)
        drawing.saveas(folder / f"{name}.dxf")
        rows += f'[[extra]]\nname = "{name}"\nfile = "{name}.dxf"\n'
        rows += f"thickness_mm = 5\ncount = {count}\n"
    return rows


def stock(length_mm: float, width_mm: float) -> str:
    """A plate of 5 mm for discs, flanges and own parts; the treads' own beside it."""
    return f"\n[[stock]]\nthickness_mm = 5\nwidth_mm = {width_mm}\nlength_mm = {length_mm}\n{TREAD}"


def numbers_drawn(
    page: PlatePage, count: int, below: str = "Parts by name"
) -> dict[int, tuple[float, float]]:
    """Numbers from 1 to `count` that stand in the picture, above and at the left of all boxes."""
    figures = next(box for box in words_at(page, "file"))
    legend = next(box for box in words_at(page, below))
    words = page.within(0.0, 20.0, figures[0] - 2.0, legend[1] - 2.0)
    found = {int(text): (x, y) for text, x, y in words if text.isdigit()}
    return {number: at for number, at in found.items() if 1 <= number <= count}


def words_at(page: PlatePage, words: str) -> list[tuple[float, float]]:
    """Left and upper edge of the first letter of these words, each time that they stand there."""
    text = "".join(letter[0] for letter in page.letters)
    assert len(text) == len(page.letters)
    starts = [found.start() for found in re.finditer(re.escape(words), text)]
    return [page.letters[i][1:3] for i in starts]


def assert_inside(page: PlatePage, margin_mm: float = MARGIN_MM) -> None:
    """No letter stands beyond the margin, and none across the frame of a box below."""
    for letter, x0, y0, x1, y1 in page.letters:
        if letter.strip():
            # the last f of the first line leans out by a third of a millimetre
            assert margin_mm - 0.1 < x0 < x1 < page.wide_mm - margin_mm + 0.4, letter
            assert margin_mm - 0.1 < y0 < y1 < page.high_mm - margin_mm + 0.1, letter
