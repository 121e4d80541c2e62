"""Pages that a blank needs: closed forms, and any blank against a general geometry library."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, box

from platewheel.nesting.templates.paper import ORIENTATIONS, SIZES_MM, Paper
from platewheel.nesting.templates.tiles import (
    EDGE_MM,
    TileSet,
    blank_on_paper,
    cross_arm_mm,
    registration_points,
    tile_blank,
)
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import Blank, MarkPoint, MarkText, annular_sector
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Loop,
    Point,
    moved,
    polygon,
    segments,
)


def plate(edge: Loop, holes: tuple[Loop, ...] = (), marks: tuple = ()) -> Blank:
    return Blank("plate", "disc", 6.0, edge, holes, marks)


def rectangle(length: float, width: float) -> Loop:
    return polygon([(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)])


def along(segment: Line | Arc, share: float) -> Point:
    if isinstance(segment, Arc):
        return segment.at(segment.start_deg + share * segment.sweep_deg)
    (ax, ay), (bx, by) = segment.start, segment.end
    return ax + share * (bx - ax), ay + share * (by - ay)


def points(blank: Blank, count: int = 60) -> list[Point]:
    """Points on outline and holes, ends of every segment among them."""
    loops = (blank.outline, *blank.holes)
    return [
        along(segment, i / count)
        for loop in loops
        for segment in segments(loop)
        for i in range(count + 1)
    ]


def gap(point: Point, rectangle: tuple[float, float, float, float]) -> float:
    """How far a point is outside a rectangle; below 0 inside."""
    (x, y), (left, bottom, right, top) = point, rectangle
    return max(left - x, x - right, bottom - y, y - top)


@st.composite
def blanks(draw: st.DrawFn) -> Blank:
    size = st.floats(5, 1500)
    place = (draw(st.floats(-500, 500)), draw(st.floats(-500, 500)), draw(st.floats(0, 360)))
    shape = draw(st.sampled_from(["rectangle", "disc", "sector"]))
    if shape == "rectangle":
        return plate(moved(rectangle(draw(size), draw(st.floats(5, 300))), *place))
    if shape == "disc":
        radius = draw(size)
        hole = Circle((0.0, 0.0), radius * draw(st.floats(0.02, 0.9)))
        return plate(moved(Circle((0.0, 0.0), radius), *place), (moved(hole, *place),))
    inner, width = draw(st.floats(20, 4000)), draw(st.floats(5, 150))
    sweep = draw(st.floats(2, 350)) * min(1.0, 800 / inner)  # long arcs of large radius, too
    return plate(moved(annular_sector(inner, inner + width, sweep), *place))


TILES = st.tuples(st.floats(110, 400), st.floats(110, 400), st.floats(8, 80)).filter(
    lambda tile: min(tile[0], tile[1]) - tile[2] > 60
)


@settings(max_examples=80, deadline=None)
@given(blanks(), TILES)
def test_every_point_of_the_cuts_is_on_a_page(
    blank: Blank, tile: tuple[float, float, float]
) -> None:
    tiles = tile_blank(blank, *tile)
    for point in points(blank):
        assert min(gap(point, one.box) for one in tiles.tiles) <= 1e-6 - min(EDGE_MM, tile[2] / 2)


@settings(max_examples=80, deadline=None)
@given(blanks(), TILES)
def test_pages_are_those_whose_core_the_cuts_meet(
    blank: Blank, tile: tuple[float, float, float]
) -> None:
    tiles = tile_blank(blank, *tile)
    chains = []
    for loop in (blank.outline, *blank.holes):
        run = segments(loop)
        chains.append(LineString([along(s, i / 400) for s in run for i in range(401)]))
    # chords leave their arcs by r (1 - cos(turn / 2)), the turn being of one step
    arcs = [s for loop in (blank.outline, *blank.holes) for s in segments(loop)]
    off = max(
        s.radius_mm * (1 - math.cos(math.radians(s.sweep_deg) / 800)) if isinstance(s, Arc) else 0
        for s in arcs
    )
    drawn = {page.cell for page in tiles.tiles if page.has_lines}
    for cell in tiles.cells:
        core = tiles.core(cell)
        far = min(chain.distance(box(*core)) for chain in chains)
        if cell in drawn:
            assert far <= off + 1e-6
        else:
            inner = box(*core).buffer(-off - 1e-6)
            assert not any(chain.intersects(inner) for chain in chains)


@settings(max_examples=80, deadline=None)
@given(blanks(), TILES)
def test_overlap_is_held_and_cores_fill_the_grid(
    blank: Blank, tile: tuple[float, float, float]
) -> None:
    width, height, overlap = tile
    tiles = tile_blank(blank, *tile)
    for cell in tiles.cells:
        column, row = cell
        left, bottom, right, top = tiles.box(cell)
        assert (right - left, top - bottom) == pytest.approx((width, height))
        if column < tiles.columns:
            assert right - tiles.box((column + 1, row))[0] == pytest.approx(overlap)
            assert tiles.core(cell)[2] == tiles.core((column + 1, row))[0]
        if row < tiles.rows:
            assert tiles.box((column, row + 1))[3] - bottom == pytest.approx(overlap)
            assert tiles.core(cell)[1] == tiles.core((column, row + 1))[3]


@settings(max_examples=50, deadline=None)
@given(blanks(), TILES)
def test_pages_hang_together_and_pages_that_meet_share_two_crosses(
    blank: Blank, tile: tuple[float, float, float]
) -> None:
    tiles = tile_blank(blank, *tile)
    crosses = {one.cell: set(registration_points(blank, tiles, one.cell)) for one in tiles.tiles}
    reached, edge = set(), {tiles.tiles[0].cell}
    arm = cross_arm_mm(tiles)
    while edge:
        reached |= edge
        column, row = edge.pop()
        for beside in ((column + 1, row), (column - 1, row), (column, row + 1), (column, row - 1)):
            if beside not in crosses:
                continue
            both = crosses[column, row] & crosses[beside]
            assert len(both) == 2
            for point in both:  # the whole cross on both pages
                assert gap(point, tiles.box((column, row))) <= 1e-6 - arm
                assert gap(point, tiles.box(beside)) <= 1e-6 - arm
            edge |= {beside} - reached
    assert reached == set(crosses)


def count_by_hand(length: float, tile: float, overlap: float) -> int:
    count = 1
    while count * tile - (count - 1) * overlap < length + 2 * EDGE_MM:
        count += 1
    return count


@pytest.mark.parametrize("length", [100.0, 166.0, 170.0, 300.0, 916.0, 5000.0])
def test_strip_takes_the_fewest_pages(length: float) -> None:
    tiles = tile_blank(plate(rectangle(length, 60.0)), 170.0, 240.0, 15.0)
    assert (tiles.columns, tiles.rows) == (count_by_hand(length, 170.0, 15.0), 1)
    assert len(tiles.tiles) == tiles.columns
    assert [tile.cell for tile in tiles.tiles] == [(i + 1, 1) for i in range(tiles.columns)]


def ring_of(marks: tuple = (), holes: tuple[Loop, ...] = ()) -> TileSet:
    """A disc so large that no cut comes near the middle of a grid of 5 x 5 pages or more."""
    return tile_blank(plate(Circle((0.0, 0.0), 600.0), holes, marks), 260.0, 260.0, 20.0)


def test_inside_of_a_large_disc_is_not_printed() -> None:
    tiles = ring_of()
    middle = ((tiles.columns + 1) // 2, (tiles.rows + 1) // 2)
    assert middle not in tiles.numbers
    assert 0 < len(tiles.tiles) < tiles.columns * tiles.rows


def test_lone_hole_is_linked_to_the_rest() -> None:
    hub = Circle((0.0, 0.0), 30.0)
    tiles = ring_of(holes=(hub,))
    links = [tile for tile in tiles.tiles if not tile.has_lines]
    assert links
    assert {tile.cell for tile in ring_of().tiles} < {tile.cell for tile in tiles.tiles}


def test_marks_on_the_plate_take_a_page() -> None:
    for mark in (
        MarkPoint((0.0, 0.0)),
        MarkText((0.0, 0.0), "disc", 8.0),
        Line((-5.0, 0.0), (5.0, 0.0)),
        Arc((0.0, -3000.0), 3000.0, 89.9, 0.2),
    ):
        assert len(ring_of((mark,)).tiles) > len(ring_of().tiles), mark


def test_marks_off_the_plate_take_no_page() -> None:
    sector = moved(annular_sector(2860.0, 2920.0, 18.0), 0.0, -2860.0, 81.0)
    apex = MarkPoint((0.0, -2860.0))
    far = Line((0.0, -500.0), (0.0, -2000.0))
    bare = tile_blank(plate(sector), 170.0, 240.0, 15.0)
    assert tile_blank(plate(sector, (), (apex, far)), 170.0, 240.0, 15.0) == bare
    # an apex inside the bounds, but not on the plate: the middle of a wide flange
    flange = annular_sector(800.0, 815.0, 330.0)
    bare = tile_blank(plate(flange), 170.0, 240.0, 15.0)
    with_apex = tile_blank(plate(flange, (), (MarkPoint((0.0, 0.0)),)), 170.0, 240.0, 15.0)
    assert with_apex == bare


def test_page_is_laid_the_way_that_takes_fewer() -> None:
    paper = Paper()
    strip = blank_on_paper(plate(rectangle(916.0, 60.0)), paper)
    assert strip[0].orientation == "landscape"
    tall = blank_on_paper(plate(rectangle(60.0, 916.0)), paper)
    assert tall[0].orientation == "portrait"
    small = blank_on_paper(plate(Circle((0.0, 0.0), 50.0)), paper)
    assert (small[0].orientation, len(small[1].tiles)) == ("portrait", 1)


# ISO 216:2007, A3 and A4; ASME Y14.1, sizes A and B: 8.5 x 11 and 11 x 17 inches
@pytest.mark.parametrize(
    ("size", "width", "height"),
    [("A4", 210, 297), ("A3", 297, 420), ("Letter", 215.9, 279.4), ("Tabloid", 279.4, 431.8)],
)
def test_paper_sizes(size: str, width: float, height: float) -> None:
    paper = Paper(size=size)
    assert (paper.width_mm, paper.height_mm) == pytest.approx((width, height))
    page = paper.page("landscape")
    assert (page.width_mm, page.height_mm) == pytest.approx((height, width))


PAPERS = [
    {"size": size, "margin_mm": margin, "overlap_mm": overlap}
    for size in SIZES_MM
    for margin, overlap in ((3.0, 8.0), (10.0, 15.0), (10.0, 50.0), (25.0, 15.0), (33.0, 8.0))
]


@pytest.mark.parametrize("keys", PAPERS, ids=str)
def test_page_has_room_for_the_bars(keys: dict) -> None:
    paper = Paper(**keys)
    for orientation in ORIENTATIONS:
        page = paper.page(orientation)
        assert min(page.window_size_mm) - paper.overlap_mm >= 100
        (x, y), (px, py) = page.across_bar, page.upright_bar
        left, bottom, right, top = page.printable
        assert left <= x < x + 100 <= right
        assert bottom <= y <= page.window[1]
        assert bottom <= py < py + 100 <= top
        assert page.window[2] <= px <= right


@pytest.mark.parametrize(
    ("keys", "fault"),
    [
        ({"margin_mm": 38.0}, "margin_mm"),
        ({"margin_mm": 30.0, "overlap_mm": 30.0}, "overlap_mm"),
        ({"margin_mm": 2.0}, "margin_mm"),
        ({"overlap_mm": 5.0}, "overlap_mm"),
        ({"overlap_mm": float("nan")}, "overlap_mm"),
        ({"size": "A5"}, "size"),
        ({"overlap_in": 1.0}, "overlap_in"),
    ],
)
def test_paper_refused(keys: dict, fault: str) -> None:
    with pytest.raises(SpecError) as refusal:
        Paper(**keys)
    assert [one.key for one in refusal.value.faults] == [fault]
