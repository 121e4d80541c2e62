"""Where the name of a piece that is kept stands on the plate, and how large."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.geometry.outline import Point

HEIGHTS_MM = (20.0, 16.0, 12.0, 10.0, 8.0, 6.0)  # that can be read on a plate
LEAST_HEIGHTS_MM = (5.0, 4.0, 3.0, 2.0, 1.0)  # of the end of a name on a small piece
LETTER = 1.0  # width of a letter with its gap, of the height: wide enough for any script
EDGE_MM = 6.0  # from a piece's edge


@dataclass(frozen=True)
class NameOnPlate:
    """A word with its middle at `at`, turned about it counter-clockwise, on the layout's axes."""

    word: str
    at: Point
    height_mm: float
    turn_deg: float


def names_on_plate(
    layout: Layout, kept: Sequence[Remnant], names: Sequence[tuple[str, ...]], *, marked: bool
) -> tuple[NameOnPlate, ...]:
    """A word for each piece kept of a layout; `names` as `offcut_names` gives them for `kept`.

    One file cuts all plates of a layout. To be read (`marked` false) the word says all names,
    "job K7PA-3 to 5"; to be marked on the steel it is what they share, "job K7PA-", and the
    number is chalked behind it. Where the whole name finds no room, its last word stands alone.
    """
    pieces = zip(kept, names, strict=True)
    return tuple(_name(piece, own, marked) for piece, own in pieces if piece.layout == layout)


def _name(piece: Remnant, names: tuple[str, ...], marked: bool) -> NameOnPlate:
    word = names[0]
    if len(names) > 1:
        start, _, _ = word.rpartition("-")
        word = f"{start}-" if marked else f"{word} to {names[-1].rpartition('-')[2]}"
    whole = _placed(piece, word, HEIGHTS_MM)
    if whole is not None:
        return whole
    job, _, _ = names[0].rpartition(" ")
    end = word[len(job) :].strip()
    small = _placed(piece, end, (*HEIGHTS_MM, *LEAST_HEIGHTS_MM))
    return small or NameOnPlate(end, _middles(piece)[0], LEAST_HEIGHTS_MM[-1], 0.0)


def _placed(piece: Remnant, word: str, heights: Sequence[float]) -> NameOnPlate | None:
    """The word as large as it finds room, rather level than upright; None without any."""
    import shapely

    room = shapely.Polygon(piece.corners, piece.holes).buffer(-EDGE_MM, join_style="mitre")
    shapely.prepare(room)
    for height in heights:
        along, up = len(word) * LETTER * height / 2, height / 2
        for turn, wide, tall in ((0.0, along, up), (90.0, up, along)):
            for x, y in _middles(piece):
                if room.covers(shapely.box(x - wide, y - tall, x + wide, y + tall)):
                    return NameOnPlate(word, (x, y), height, turn)
    return None


def _middles(piece: Remnant) -> list[Point]:
    """Of a rectangle its middle; of others the middle of the largest circle in it too."""
    import shapely

    x0, y0, x1, y1 = piece.bounds
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    if piece.is_rectangle:
        return [middle]
    shape = shapely.Polygon(piece.corners, piece.holes)
    circle = shapely.maximum_inscribed_circle(shape, tolerance=1.0)
    x, y = circle.coords[0]
    return [(float(x), float(y)), middle]
