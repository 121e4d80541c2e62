"""Where the number of each part stands: inside it, beside it with a line, or small upon it; and
where the names of what is kept stand."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from platewheel.cli.papers.drawings.plan.frame import AROUND_MM, BESIDE_MM, Frame
from platewheel.nesting.cutting.part_cuts import PartCuts
from platewheel.nesting.geometry.facets import outer_polygon
from platewheel.nesting.stock.layout import Placement
from platewheel.parts.geometry.blank import Blank, MarkPoint
from platewheel.parts.geometry.outline import Point, contains, moved_point

if TYPE_CHECKING:
    from shapely import Polygon, STRtree

PT_MM = 25.4 / 72
WIDE, HIGH = 0.54, 0.68  # of a digit in bold type, of its size; from the typeface, rounded up
SIZES_PT = (12.0, 11.0, 10.0, 9.0, 8.0, 7.0, 6.5, 6.0, 5.5, 5.0)
BESIDE_PT = 5.0
TINY_PT = (4.5, 4.0, 3.5, 3.0)
CROSS_MM = 0.9  # half the size of the cross on a centre
TURNS_DEG = (90.0, *(sign * 11.25 * k for k in range(1, 8) for sign in (1, -1)))
LEVEL = tuple((size, 0.0) for size in SIZES_PT)
TURNED = tuple((size, turn) for size in (6.0, 5.0, 4.5, 4.0) for turn in TURNS_DEG)
EITHER = tuple((size, turn) for size in SIZES_PT for turn in (0.0, 90.0))
AWAY_MM = (2.0, 3.0, 4.0, 5.5, 7.0, 9.0, 12.0, 15.0)  # of paper, from the part's middle
DIRECTIONS = 16
GRID, NEARLY = 48, 0.9  # points tried across a part; of the widest place
AIR_MM, INSIDE_MM = 0.25, 0.12  # about a text beside its part, and inside


@dataclass(frozen=True)
class Label:
    """A text centred at x, y of the picture; `to` is what it points at where it stands beside."""

    text: str
    x_mm: float
    y_mm: float
    size_pt: float
    to: Point | None = None
    turn_deg: float = 0.0  # as it is read, counter-clockwise

    def corners(self, air_mm: float = 0.0) -> list[Point]:
        """Of the text's box, with so much air about it."""
        wide, high = text_mm(self.text, self.size_pt)
        a, b = wide / 2 + air_mm, high / 2 + air_mm
        turn = math.radians(-self.turn_deg)  # y runs down
        cos, sin = math.cos(turn), math.sin(turn)
        around = ((-a, -b), (a, -b), (a, b), (-a, b))
        return [(self.x_mm + cos * x - sin * y, self.y_mm + sin * x + cos * y) for x, y in around]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y."""
        xs, ys = zip(*self.corners(), strict=True)
        return min(xs), min(ys), max(xs), max(ys)


def text_mm(text: str, size_pt: float) -> tuple[float, float]:
    """Width and height of a text."""
    return len(text) * WIDE * size_pt * PT_MM, HIGH * size_pt * PT_MM


def part_numbers(
    parts: Sequence[PartCuts], frame: Frame, taken: Sequence[Label] = ()
) -> tuple[Label, ...]:
    """One for each part, in their order. What fits inside comes first; none of the others stands
    on another or on what is `taken`, as long as there is a place and a size for it."""
    import shapely

    shapes = [_shape(part, frame) for part in parts]
    middles = list(_middles(parts, frame))
    found: dict[int, Label] = {}
    for i, part in enumerate(parts):
        number = _inside(f"{part.number}", [middles[i]], shapes[i], LEVEL + TURNED)
        if number is not None:
            found[i] = number
    tree = shapely.STRtree(shapes)
    for i, part in enumerate(parts):
        if i not in found:
            tried = _beside(f"{part.number}", middles[i], frame, tree)
            number = next((n for n in tried if not _meets(n, [*taken, *found.values()])), None)
            if number is not None:
                found[i] = number
    for i, part in enumerate(parts):
        if i not in found:
            sized = [Label(f"{part.number}", *middles[i], size) for size in TINY_PT]
            clear = (n for n in sized if not _meets(n, [*taken, *found.values()]))
            found[i] = next(clear, sized[-1])
    return tuple(found[i] for i in range(len(parts)))


def _shape(part: PartCuts, frame: Frame) -> Polygon:
    """A part on the paper, its holes and crosses out; facets lie within a third of a millimetre of
    steel. Facets of two holes with a thin web between them may cross, so each is taken out."""
    import shapely

    rings = [outer_polygon(ring) for ring in (part.placement.outline, *part.placement.holes)]
    edge, *holes = (shapely.Polygon([frame.at(c) for c in ring]) for ring in rings)
    spots = shapely.MultiPoint([frame.at(centre) for centre in centres(part.placement)])
    crosses = spots.buffer(CROSS_MM, cap_style="square")
    return edge.difference(shapely.union_all([*holes, crosses]))


def centres(placement: Placement) -> Iterator[Point]:
    """What is marked on the part's steel, to drill or to measure from, where it lies."""
    blank = placement.blank
    for mark in blank.marks:
        if not isinstance(mark, MarkPoint) or any(contains(h, mark.at) for h in blank.holes):
            continue
        if contains(blank.outline, mark.at):
            yield moved_point(mark.at, placement.x_mm, placement.y_mm, placement.rotation_deg)


def _inside(
    text: str, places: Sequence[Point], shape: Polygon, ways: Sequence[tuple[float, float]]
) -> Label | None:
    """The text in a shape, by the first way (size, turn) that goes."""
    import shapely

    shapely.prepare(shape)
    for size, turn in ways:
        for x, y in places:
            label = Label(text, x, y, size, None, turn)
            if shape.contains(shapely.Polygon(label.corners(INSIDE_MM))):
                return label
    return None


def _middles(parts: Sequence[PartCuts], frame: Frame) -> Iterator[Point]:
    """A wide place near the middle of each part; worked out once for a blank."""
    known: dict[Blank, Point] = {}
    for part in parts:
        place, blank = part.placement, part.placement.blank
        if blank not in known:
            own = replace(part, placement=Placement(blank, 0.0, 0.0, 0.0))
            x, y = _wide_place(_shape(own, frame))
            known[blank] = frame.back((x, y))
        spot = moved_point(known[blank], place.x_mm, place.y_mm, place.rotation_deg)
        x, y = frame.at(spot)
        yield round(x, 3), round(y, 3)


def _wide_place(shape: Polygon) -> Point:
    """Of the points about as far from the edge as any, the one nearest to the middle."""
    import shapely

    circle = shapely.maximum_inscribed_circle(shape, tolerance=0.01 * math.sqrt(shape.area))
    x0, y0, x1, y1 = shape.bounds
    steps = range(GRID + 1)
    spots = [circle.coords[0]]
    spots += [(x0 + (x1 - x0) * i / GRID, y0 + (y1 - y0) * k / GRID) for i in steps for k in steps]
    points = shapely.points(spots)
    within = shapely.contains(shape, points)
    far = shapely.distance(shape.boundary, points)
    middle = shape.centroid
    good = [
        (round(math.dist(spot, (middle.x, middle.y)), 3), spot[1], spot[0])
        for spot, inside, off in zip(spots, within, far, strict=True)
        if inside and off >= NEARLY * circle.length
    ]
    _, y, x = min(good)
    return x, y


def _beside(text: str, middle: Point, frame: Frame, parts: STRtree) -> Iterator[Label]:
    """Places round a part that lie on no part and within the plate's length and width."""
    import shapely

    wide, high = frame.size_mm
    for away in AWAY_MM:
        for k in range(DIRECTIONS):
            turn = 2 * math.pi * k / DIRECTIONS
            x, y = middle[0] + away * math.cos(turn), middle[1] - away * math.sin(turn)
            number = Label(text, round(x, 3), round(y, 3), BESIDE_PT, middle)
            x0, y0, x1, y1 = number.box
            across, up = x0 > BESIDE_MM and x1 < wide - AROUND_MM, y0 > AROUND_MM
            box = shapely.box(x0 - AIR_MM, y0 - AIR_MM, x1 + AIR_MM, y1 + AIR_MM)
            if (
                across
                and up
                and y1 < high - BESIDE_MM
                and not len(parts.query(box, predicate="intersects"))
            ):
                yield number


def _meets(one: Label, others: Iterable[Label]) -> bool:
    x0, y0, x1, y1 = one.box
    for other in others:
        u0, v0, u1, v1 = other.box
        if x0 < u1 and u0 < x1 and y0 < v1 and v0 < y1:
            return True
    return False


def kept_label(
    texts: Sequence[str], ring: Sequence[Point], holes: Sequence[Sequence[Point]], frame: Frame
) -> Label:
    """The first of these texts that goes into a piece to keep, along the paper or up it; at last
    the shortest at its least, in its widest place."""
    import shapely

    edge, inner = [frame.at(c) for c in ring], [[frame.at(c) for c in hole] for hole in holes]
    piece = shapely.Polygon(edge, inner)
    x0, y0, x1, y1 = piece.bounds
    widest = _wide_place(piece)
    places = [((x0 + x1) / 2, (y0 + y1) / 2), widest]
    for text in texts:
        label = _inside(text, places, piece, EITHER)
        if label is not None:
            return label
    return Label(texts[-1], *widest, TINY_PT[-1])
