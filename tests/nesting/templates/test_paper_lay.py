"""How blanks are laid on paper: fewer pages by turning, centre marks off the overlaps."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.templates.paper import ORIENTATIONS, Paper
from platewheel.nesting.templates.paper_lay import (
    CLEAR_MM,
    centre_marks,
    lay_on_paper,
    turned_blank,
)
from platewheel.nesting.templates.tiles import blank_on_paper, tile_blank
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText, annular_sector
from platewheel.parts.geometry.outline import Circle, Line, polygon
from tests.nesting.templates.test_tiles import gap, points

A4 = Paper()


def disc(radius: float, *holes: Circle) -> Blank:
    return Blank("disc", "disc", 6.0, Circle((0.0, 0.0), radius), holes)


SECTOR = Blank("flange", "flange", 6.0, annular_sector(150.0, 175.0, 150.0))


@pytest.mark.parametrize("sweep", [40.0, 112.0, 150.0, 340.0])
def test_turning_never_takes_more_pages(sweep: float) -> None:
    blank = Blank("flange", "flange", 6.0, annular_sector(150.0, 175.0, sweep))
    assert len(lay_on_paper(blank, A4).tiles.tiles) <= len(blank_on_paper(blank, A4)[1].tiles)


def test_a_slanted_bar_is_laid_straight() -> None:
    """200 x 20 mm goes on one page of A4 however it is drawn; slanted by 45 degrees it does not."""
    bar = Blank("bar", "extra", 6.0, polygon([(0, 0), (200, 0), (200, 20), (0, 20)]))
    slanted = turned_blank(bar, 45.0)
    assert len(lay_on_paper(slanted, A4).tiles.tiles) == 1
    long = turned_blank(Blank("bar", "extra", 6.0, polygon([(0, 0), (900, 0), (900, 20)])), 45.0)
    assert len(lay_on_paper(long, A4).tiles.tiles) < len(blank_on_paper(long, A4)[1].tiles)


@given(st.floats(-180, 180))
def test_turned_blank_keeps_its_shape(turn: float) -> None:
    marks = (MarkPoint((3.0, 4.0)), MarkText((160.0, 1.0), "a", 5.0, 10.0), Line((1, 2), (3, 4)))
    blank = Blank("x", "extra", 6.0, SECTOR.outline, (Circle((160.0, 5.0), 2.0),), marks)
    turned = turned_blank(blank, turn)
    assert turned.area_mm2 == pytest.approx(blank.area_mm2)
    lines = [shapely.LineString(points(replace(b, holes=()))) for b in (blank, turned)]
    one = shapely.affinity.rotate(lines[0], turn, origin=(0, 0))
    assert one.hausdorff_distance(lines[1]) < 1e-6
    far = shapely.affinity.rotate(shapely.Point(3, 4), turn, origin=(0, 0))
    assert shapely.Point(turned.marks[0].at).distance(far) < 1e-9


def off_overlaps(blank: Blank, paper: Paper) -> list[float]:
    """How far each centre is from the nearest overlap of two pages of the lay."""
    lay = lay_on_paper(blank, paper)
    bands = []
    for cell in lay.tiles.cells:
        for beside in ((cell[0] + 1, cell[1]), (cell[0], cell[1] + 1)):
            if beside[0] <= lay.tiles.columns and beside[1] <= lay.tiles.rows:
                one = shapely.box(*lay.tiles.box(cell))
                bands.append(one.intersection(shapely.box(*lay.tiles.box(beside))))
    return [
        min((shapely.Point(at).distance(band) for band in bands), default=99.0)
        for at in centre_marks(lay.blank)
    ]


@pytest.mark.parametrize("radius", [90.0, 120.0, 141.25, 150.0])
def test_centre_marks_lie_off_the_overlaps(radius: float) -> None:
    """With the grid about the disc's middle the hub's centre lies right in the overlap."""
    blank = disc(radius, Circle((0.0, 0.0), 26.0), Circle((radius - 15, 0.0), 8.0))
    assert min(off_overlaps(blank, A4)) >= CLEAR_MM - 1e-6


@settings(max_examples=30, deadline=None)
@given(st.floats(60, 400), st.floats(8, 30))
def test_shifted_pages_still_show_every_cut(radius: float, overlap: float) -> None:
    paper = Paper(overlap_mm=overlap)
    lay = lay_on_paper(disc(radius, Circle((0.0, 0.0), 20.0)), paper)
    plain = tile_blank(lay.blank, *lay.page.window_size_mm, overlap)
    assert len(lay.tiles.tiles) <= len(plain.tiles)
    for point in points(lay.blank):
        assert min(gap(point, tile.box) for tile in lay.tiles.tiles) <= -1.99


@pytest.mark.parametrize("scale", [0.9, 0.97, 1.0, 1.03, 1.1])
def test_page_of_a_printer_that_is_off(scale: float) -> None:
    """Nothing falls off the sheet, whichever corner or middle the printer scales about."""
    for orientation in ORIENTATIONS:
        page, true = A4.page(orientation, scale), A4.page(orientation)
        assert (page.width_mm, page.height_mm) == pytest.approx(
            (true.width_mm * scale, true.height_mm * scale)
        )
        left, bottom, right, top = page.printable
        for share in (0.0, 0.5, 1.0):  # of what is too much, at the left and below
            x, y = (share * (side * (1 - scale)) for side in (true.width_mm, true.height_mm))
            assert left + x >= A4.margin_mm - 1e-9
            assert right + x <= true.width_mm - A4.margin_mm + 1e-9
            assert bottom + y >= A4.margin_mm - 1e-9
            assert top + y <= true.height_mm - A4.margin_mm + 1e-9
        assert min(page.window_size_mm) - A4.overlap_mm >= 100


@pytest.mark.parametrize("scale", [0.0, 0.89, 1.11, -1.0, 98.0, float("nan"), float("inf")])
def test_print_scale_refused(scale: float) -> None:
    with pytest.raises(SpecError, match=r"--print-scale.*0\.9 to 1\.1"):
        A4.page("portrait", scale)


def test_print_scale_without_room_is_refused() -> None:
    with pytest.raises(SpecError, match=r"--print-scale.*margin_mm"):
        Paper(margin_mm=33.0, overlap_mm=8.0).page("portrait", 1.1)
