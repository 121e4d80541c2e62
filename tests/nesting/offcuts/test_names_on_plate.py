"""Names of what is kept, where they stand on the plate: inside their piece, as large as can be."""

from __future__ import annotations

import math

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.offcuts.file import offcut_names
from platewheel.nesting.offcuts.names_on_plate import NameOnPlate, names_on_plate
from platewheel.nesting.offcuts.remnant import Remnant, rectangle
from platewheel.nesting.stock.layout import Layout
from tests.nesting.plates import plate

LAYOUT = Layout(plate(2500.0, 1250.0), ())
RIGHT_ANGLED = ((0.0, 0.0), (700.0, 0.0), (0.0, 500.0))


def named(piece: Remnant, *names: str, marked: bool = False) -> NameOnPlate:
    (found,) = names_on_plate(piece.layout, (piece,), (names,), marked=marked)
    return found


def box_of(name: NameOnPlate) -> shapely.Polygon:
    """A letter as wide as high, with its gap."""
    x, y = name.at
    wide, tall = len(name.word) * name.height_mm / 2, name.height_mm / 2
    box = shapely.box(x - wide, y - tall, x + wide, y + tall)
    return shapely.affinity.rotate(box, name.turn_deg, origin=name.at)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.floats(60, 2500), st.floats(60, 1250), st.integers(1, 44), st.booleans())
def test_a_word_lies_in_its_rectangle(
    length: float, width: float, letters: int, marked: bool
) -> None:
    piece = rectangle(LAYOUT, (0.0, 0.0, length, width))
    ((name,),) = offcut_names((piece,), letters * "w")
    found = named(piece, name, marked=marked)
    assert shapely.box(0, 0, length, width).buffer(-5.99, join_style="mitre").covers(box_of(found))
    assert name.endswith(found.word)
    assert found.at == (length / 2, width / 2)


def test_a_word_on_a_real_outline_lies_in_the_steel() -> None:
    """A triangle whose frame's middle lies on its long side."""
    found = named(Remnant(LAYOUT, RIGHT_ANGLED), "job K7PA-1")
    assert shapely.Polygon(RIGHT_ANGLED).covers(box_of(found))
    assert (found.word, found.height_mm) == ("job K7PA-1", 20.0)


def test_it_is_turned_on_an_upright_piece_and_smaller_on_a_small_one() -> None:
    upright = named(rectangle(LAYOUT, (0.0, 0.0, 100.0, 900.0)), "oyster-tramway K7PA-1")
    assert (upright.height_mm, upright.turn_deg) == (20.0, 90.0)
    square = named(rectangle(LAYOUT, (0.0, 0.0, 300.0, 300.0)), "oyster-tramway K7PA-1")
    assert (square.height_mm, square.turn_deg) == (12.0, 0.0)  # 21 letters of 12 in 288
    assert math.isclose(len(square.word) * 12, 252)
    small = named(rectangle(LAYOUT, (0.0, 0.0, 90.0, 90.0)), "oyster-tramway K7PA-1")
    assert (small.word, small.height_mm) == ("K7PA-1", 12.0)


def test_plates_cut_by_one_file_share_a_word() -> None:
    """To be read it says all numbers; on the steel the number is left to the chalk."""
    piece = rectangle(LAYOUT, (0.0, 0.0, 900.0, 900.0))
    names = ("a job K7PA-3", "a job K7PA-4", "a job K7PA-5")
    assert named(piece, *names).word == "a job K7PA-3 to 5"
    assert named(piece, *names, marked=True).word == "a job K7PA-"
    assert named(piece, names[0], marked=True).word == "a job K7PA-3"


def test_each_piece_of_the_layout_and_none_of_others() -> None:
    other = Layout(plate(2000.0, 1000.0), ())
    one, two = (rectangle(lay, (0.0, 0.0, 900.0, 900.0)) for lay in (LAYOUT, other))
    rows = (("job K7PA-1",), ("job K7PA-2",))
    for lay, word in ((LAYOUT, "job K7PA-1"), (other, "job K7PA-2")):
        found = names_on_plate(lay, (one, two), rows, marked=False)
        assert [name.word for name in found] == [word]
