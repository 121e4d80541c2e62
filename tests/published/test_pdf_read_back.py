"""Templates measured on the page as a printer would see it, by rasterisers that are not ours.

Sources: ISO 32000-1, 8.3.2.3 (the unit of a PDF page is 1/72 inch; an inch is 25.4 mm), as the
PDF programs PDFium and, where it is installed, Poppler read it.
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from platewheel.nesting.templates.paper import Page, Paper
from platewheel.nesting.templates.paper_lay import lay_on_paper
from platewheel.nesting.templates.pdf import blank_template, draw_template
from platewheel.nesting.templates.plywood import plywood_template
from platewheel.nesting.templates.tiles import TileSet, registration_points
from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.outline import Arc, Circle, Line, polygon, segments
from platewheel.parts.making.plywood import plywood_gauges
from tests.parts.wheels import plain_wheel

DPI = 300
PX_PER_MM = DPI / 25.4
Pages = list[np.ndarray]  # darkness from 0 (white) to 1, first row at the top of the page


def by_pdfium(path: Path, dpi: float = DPI) -> Pages:
    document = pypdfium2.PdfDocument(path)
    images = [page.render(scale=dpi / 72, grayscale=True).to_numpy() for page in document]
    document.close()
    return [1 - image.reshape(image.shape[:2]) / 255 for image in images]


def by_poppler(path: Path, dpi: float = DPI) -> Pages:
    stem = path.with_suffix("")
    subprocess.run(["pdftoppm", "-gray", "-r", f"{dpi:g}", str(path), str(stem)], check=True)
    images = sorted(stem.parent.glob(f"{stem.name}-*.pgm"))
    return [1 - np.asarray(Image.open(image), dtype=float) / 255 for image in images]


Rasteriser = Callable[[Path, float], Pages]
BEST: Rasteriser = by_poppler if shutil.which("pdftoppm") else by_pdfium
# with what is printed, and on a printer of what scale: measured bar / true bar
PRINTERS: list[tuple[Rasteriser, float]] = [(by_pdfium, 1.0), (BEST, 0.98)]
if BEST is by_poppler:
    PRINTERS.append((BEST, 1.0))

BLANKS = {
    # 339 mm across: more than one page of A4 either way
    "flange": Blank("flange", "flange", 6.0, annular_sector(150.0, 175.0, 150.0)),
    "disc": Blank(
        "disc",
        "disc",
        6.0,
        Circle((0.0, 0.0), 125.0),
        (Circle((0.0, 0.0), 29.0), Circle((100.0, 0.0), 8.0), Circle((-100.0, 0.0), 8.0)),
    ),
    "strip": Blank(
        "tread",
        "tread",
        8.0,
        polygon([(0.0, 0.0), (916.0, 0.0), (916.0, 60.0), (0.0, 60.0)]),
    ),
    # a tread with a taper: its centre is metres away
    "tapered": Blank("tread", "tread", 8.0, annular_sector(3860.0, 3920.0, 6.0)),
}
# 395 mm across: two pages
WIDE = {one.board.name: one for one in plywood_gauges(plain_wheel(tread_diameter_mm=500.0), "mm")}
BLANKS["plywood"] = WIDE["plywood-flange"].board
TEMPLATES = {name: blank_template(blank, 2, "mm") for name, blank in BLANKS.items()}
TEMPLATES["plywood"] = plywood_template(BLANKS["plywood"], "gauge of the tip", "No light.", "mm")


@dataclass(frozen=True)
class Printed:
    """A blank's pages as they come out of the printer, in true millimetres."""

    blank: Blank
    page: Page
    tiles: TileSet
    images: Pages


Print = Callable[[str], Printed]


@pytest.fixture(scope="module", params=PRINTERS, ids=lambda one: f"{one[0].__name__} at {one[1]:g}")
def printed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Print:
    """Pages of a blank on A4 by its name. A printer that prints 0.98 is a rasteriser of 0.98 x
    as many pixels an inch; `print_scale` is told so."""
    done: dict[str, Printed] = {}
    rasterise, scale = request.param

    def pages(name: str) -> Printed:
        if name not in done:
            path = tmp_path_factory.mktemp("pdf") / f"{name}.pdf"
            job_name = 20 * "long name "
            draw_template(TEMPLATES[name], Paper(), path, job_name=job_name, print_scale=scale)
            lay = lay_on_paper(BLANKS[name], Paper(), scale)
            images = rasterise(path, DPI * scale)
            done[name] = Printed(lay.blank, lay.page, lay.tiles, images)
        return done[name]

    return pages


def middle_of_line(profile: np.ndarray) -> float:
    """Where a single line lies across a run of pixels: centre of its darkness, in pixels."""
    assert profile.sum() > 0.5, "no line there"
    return float((profile * (np.arange(len(profile)) + 0.5)).sum() / profile.sum())


def bar_length_mm(image: np.ndarray, start: tuple[float, float], height_mm: float) -> float:
    """Distance of the end ticks of a bar to the right of `start`, measured above the bar."""
    x, y = start
    rows = slice(*(round((height_mm - y - up) * PX_PER_MM) for up in (1.7, 1.0)))
    ends = []
    for at in (x, x + 100):
        first = round((at - 1.5) * PX_PER_MM)
        window = image[rows, first : round((at + 1.5) * PX_PER_MM)]
        ends.append(first + middle_of_line(window.mean(axis=0)))
    return (ends[1] - ends[0]) / PX_PER_MM


@pytest.mark.parametrize("name", BLANKS)
def test_check_bars_are_100_mm_on_every_page(printed: Print, name: str) -> None:
    drawn = printed(name)
    page, tiles, images = drawn.page, drawn.tiles, drawn.images
    assert len(images) == len(tiles.tiles)
    for image in images:
        assert bar_length_mm(image, page.across_bar, page.height_mm) == pytest.approx(100, abs=0.1)
        x, y = page.upright_bar
        # the page on its side, a quarter turn clockwise: what pointed up now points right
        turned = np.rot90(image, -1)
        start = (y, page.width_mm - x)
        assert bar_length_mm(turned, start, page.width_mm) == pytest.approx(100, abs=0.1)


def pasted(page: Page, tiles: TileSet, images: Pages) -> tuple[np.ndarray, float, float]:
    """All windows laid on one another where their tiles are; with the left and top of all."""
    boxes = [tile.box for tile in tiles.tiles]
    left, top = min(box[0] for box in boxes), max(box[3] for box in boxes)
    right, bottom = max(box[2] for box in boxes), min(box[1] for box in boxes)
    whole = np.zeros([round(side * PX_PER_MM) + 3 for side in (top - bottom, right - left)])
    x0, _, x1, y1 = page.window
    tall = y1 - page.window[1]
    for box, image in zip(boxes, images, strict=True):
        first_row = round((page.height_mm - y1) * PX_PER_MM)
        first_column = round(x0 * PX_PER_MM)
        cut = image[
            first_row : first_row + round(tall * PX_PER_MM),
            first_column : first_column + round((x1 - x0) * PX_PER_MM),
        ]
        row, column = round((top - box[3]) * PX_PER_MM), round((box[0] - left) * PX_PER_MM)
        patch = whole[row : row + cut.shape[0], column : column + cut.shape[1]]
        np.maximum(patch, cut, out=patch)
    return whole, left, top


def along(segment: Line | Arc, step_mm: float) -> Iterator[tuple[float, float, float, float]]:
    """Points on a true line or arc, with the direction across it; its ends left out."""
    count = int(segment.length_mm / step_mm)
    for i in range(1, count):
        if isinstance(segment, Arc):
            x, y = segment.at(segment.start_deg + segment.sweep_deg * i / count)
            cx, cy = segment.centre
            yield x, y, (x - cx) / segment.radius_mm, (y - cy) / segment.radius_mm
        else:
            (ax, ay), (bx, by) = segment.start, segment.end
            share, long = i / count, segment.length_mm
            x, y = ax + share * (bx - ax), ay + share * (by - ay)
            yield x, y, (ay - by) / long, (bx - ax) / long


ACROSS_MM = np.arange(-0.8, 0.801, 0.02)


def line_across(dark: np.ndarray) -> tuple[float, float]:
    """Middle and width of the dark run nearest to the middle of `ACROSS_MM`."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], dark.astype(int), [0]))))
    runs = [(ACROSS_MM[a], ACROSS_MM[b - 1]) for a, b in edges.reshape(-1, 2)]
    low, high = min(runs, key=lambda run: abs(run[0] + run[1]))
    return (low + high) / 2, high - low


@pytest.mark.parametrize("name", BLANKS)
def test_pages_together_give_the_true_outline(printed: Print, name: str) -> None:
    """Along every true line and arc, the cut line lies within 0.2 mm of where it should be."""
    drawn = printed(name)
    page, tiles, images = drawn.page, drawn.tiles, drawn.images
    whole, left, top = pasted(page, tiles, images)
    offs, widths = [], []
    blank = printed(name).blank
    for loop in (blank.outline, *blank.holes):
        for segment in segments(loop):
            for x, y, nx, ny in along(segment, 2.0):
                columns = ((x + ACROSS_MM * nx - left) * PX_PER_MM).astype(int)
                rows = ((top - y - ACROSS_MM * ny) * PX_PER_MM).astype(int)
                dark = whole[rows, columns] > 0.5
                assert dark.any(), f"no line at {x:.1f}, {y:.1f}"
                off, width = line_across(dark)
                offs.append(abs(off))
                widths.append(width)
    assert len(offs) > 100
    assert max(offs) <= 0.2
    assert np.median(widths) == pytest.approx(0.35, abs=0.1)  # as thick as cut lines are


def test_circles_have_their_diameters(printed: Print) -> None:
    """Across each circle of the disc, every 15 degrees, from line to line within 0.2 mm."""
    drawn = printed("disc")
    whole, left, top = pasted(drawn.page, drawn.tiles, drawn.images)
    for circle in (drawn.blank.outline, *drawn.blank.holes):
        assert isinstance(circle, Circle)
        (cx, cy), radius = circle.centre, circle.radius_mm
        for turn in np.radians(np.arange(5, 180, 15)):
            diameter = 0.0
            for nx, ny in ((np.cos(turn), np.sin(turn)), (-np.cos(turn), -np.sin(turn))):
                along_mm = radius + ACROSS_MM
                columns = ((cx + along_mm * nx - left) * PX_PER_MM).astype(int)
                rows = ((top - cy - along_mm * ny) * PX_PER_MM).astype(int)
                diameter += radius + line_across(whole[rows, columns] > 0.5)[0]
            assert diameter == pytest.approx(2 * radius, abs=0.2)


@pytest.mark.parametrize("name", BLANKS)
def test_pages_that_meet_show_the_same_in_their_overlap(printed: Print, name: str) -> None:
    """The strip that two pages share holds the same lines on both, at the same place."""
    drawn = printed(name)
    page, tiles, images = drawn.page, drawn.tiles, drawn.images
    window_left, _, _, window_top = page.window
    pairs = 0
    for cell, number in tiles.numbers.items():
        for beside in ((cell[0] + 1, cell[1]), (cell[0], cell[1] + 1)):
            if beside not in tiles.numbers:
                continue
            pairs += 1
            one, other = tiles.box(cell), tiles.box(beside)
            # 1 mm off the edges: trim and lay lines are on one of the two pages only
            xs = np.arange(max(one[0], other[0]) + 1, min(one[2], other[2]) - 1, 0.1)
            ys = np.arange(max(one[1], other[1]) + 1, min(one[3], other[3]) - 1, 0.1)
            shown = []
            for box, image in (
                (one, images[number - 1]),
                (other, images[tiles.numbers[beside] - 1]),
            ):
                columns = ((window_left + xs - box[0]) * PX_PER_MM).astype(int)
                rows = ((page.height_mm - window_top + box[3] - ys) * PX_PER_MM).astype(int)
                shown.append(image[np.ix_(rows, columns)])
            assert (shown[0] > 0.5).sum() > 100  # not two empty strips
            # lines are 1.5 to 4 pixels wide and the two pages' pixels do not coincide
            both, either = np.minimum(*shown) > 0.2, np.maximum(*shown) > 0.5
            assert both[either].mean() > 0.6
    assert pairs > 0


@pytest.mark.parametrize("name", BLANKS)
def test_registration_crosses_are_on_both_pages(printed: Print, name: str) -> None:
    drawn = printed(name)
    page, tiles, images, blank = drawn.page, drawn.tiles, drawn.images, drawn.blank
    window_left, _, _, window_top = page.window
    for tile, image in zip(tiles.tiles, images, strict=True):
        points = registration_points(blank, tiles, tile.cell)
        assert len(tiles.tiles) == 1 or len(points) >= 2
        for x, y in points:
            column = (window_left + x - tile.box[0]) * PX_PER_MM
            row = (page.height_mm - window_top + tile.box[3] - y) * PX_PER_MM
            arm = round(3.5 * PX_PER_MM)
            first_row, first_column = int(row) - arm, int(column) - arm
            patch = image[first_row : int(row) + arm, first_column : int(column) + arm]
            # two lines right across: the one darkest column and row are the cross's own
            off = (
                first_column + 0.5 + patch.sum(axis=0).argmax() - column,
                first_row + 0.5 + patch.sum(axis=1).argmax() - row,
            )
            assert max(map(abs, off)) / PX_PER_MM <= 0.15
            assert min(patch.mean(axis=0).max(), patch.mean(axis=1).max()) > 0.5


@pytest.mark.parametrize("name", BLANKS)
def test_margins_and_the_rim_of_the_window_stay_white(printed: Print, name: str) -> None:
    """Nothing is lost in a printer's margin; no words or bars reach into the drawing."""
    drawn = printed(name)
    page, images = drawn.page, drawn.images
    for image in images:

        def patch(left: float, bottom: float, right: float, top: float, of=image) -> np.ndarray:
            rows = slice(*(round((page.height_mm - y) * PX_PER_MM) for y in (top, bottom)))
            return of[rows, round(left * PX_PER_MM) : round(right * PX_PER_MM)]

        margin, wide, high = page.margin_mm - 0.3, page.width_mm, page.height_mm
        assert not patch(0, 0, margin, high).any()
        assert not patch(wide - margin, 0, wide, high).any()
        assert not patch(0, 0, wide, margin).any()
        assert not patch(0, high - margin, wide, high).any()
        left, bottom, right, top = page.window
        assert not patch(left, bottom - 1.7, right, bottom - 0.3).any()
        assert not patch(right + 0.3, bottom, right + 1.0, top).any()
        assert patch(left, bottom, right, top).any()
