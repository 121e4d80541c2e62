"""Letters as strokes: all there, none like another, in their cells, as wide as told."""

from __future__ import annotations

import itertools
import math
import string
import unicodedata

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.geometry.stroke_letters import BELOW, FOOT, GLYPHS, TAIL, TOP, WIDE
from platewheel.nesting.geometry.stroke_words import has_strokes, word_box, word_strokes

WANTED = string.ascii_letters + string.digits + string.punctuation.translate({123: None, 125: None})
WANTED += "°±×Øø"
ORIGIN = (0.0, 0.0)


def drawn(word: str, height: float = 6.0) -> shapely.Geometry:
    return shapely.MultiLineString(word_strokes(word, ORIGIN, height))


def test_every_letter_has_strokes_in_its_cell() -> None:
    assert set(GLYPHS) == set(WANTED) | {" "}
    assert GLYPHS[" "] == ()
    for letter in WANTED:
        strokes = [[tuple(map(int, corner)) for corner in s.split()] for s in GLYPHS[letter]]
        assert strokes
        for stroke in strokes:
            assert len(stroke) >= 2
            assert all(len(corner) == 2 for corner in stroke)
            assert all(a != b for a, b in itertools.pairwise(stroke))
            for x, y in stroke:
                assert 0 <= x <= WIDE
                assert TAIL <= y <= TOP + (letter == "$")


def test_no_two_letters_are_alike() -> None:
    """Some of one lies 0.6 of a cell's unit (a tenth of its height) or more off the other, the
    box of what has no letter among them; capital and small letters of one form differ in size."""
    shapes = {letter: drawn(letter) for letter in WANTED + "\u6f22"}
    for (a, one), (b, other) in itertools.combinations(shapes.items(), 2):
        assert shapely.hausdorff_distance(one, other, densify=0.05) > 0.6, (a, b)


@pytest.mark.parametrize("pair", ["0O", "1I", "1l", "Il", "5S", "2Z", "8B", "9g", "gq", "6b"])
def test_letters_often_mistaken_differ_by_a_stroke(pair: str) -> None:
    """Steel of one that lies off the other, in cell units: a stroke's worth."""
    one, other = (drawn(letter) for letter in pair)
    off = one.difference(other.buffer(0.5)).length + other.difference(one.buffer(0.5)).length
    assert off >= 1.5


words = st.text(alphabet=WANTED + " ", min_size=1, max_size=12).filter(lambda w: w.strip())
heights = st.floats(1.0, 50.0)


@given(words, heights)
def test_a_word_fills_its_box_and_no_more(word: str, height: float) -> None:
    """n letters are n - 1/3 of their height wide: cells of 4 by 6, gaps of 2, by the docstring."""
    box, shape = word_box(word, height), drawn(word, height)
    assert 2 * box.half_mm == pytest.approx((len(word) - 1 / 3) * height)
    x0, y0, x1, y1 = shape.bounds
    slack = 1e-9 * height
    assert -box.half_mm - slack <= x0 <= x1 <= box.half_mm + slack
    assert y1 <= box.up_mm + slack
    assert y0 >= -box.down_mm - slack
    tails = bool(set(word) & set("gjpqy,_;|$"))
    assert (box.down_mm > height / 2 * 1.01) == tails


def test_capitals_are_as_tall_and_as_wide_as_told() -> None:
    assert drawn("H", 9.0).bounds == pytest.approx((-3.0, -4.5, 3.0, 4.5))
    assert drawn("HH", 9.0).bounds == pytest.approx((-7.5, -4.5, 7.5, 4.5))


@given(words, heights, st.floats(-500, 500), st.floats(-500, 500), st.floats(-360, 360))
def test_a_word_moves_and_turns_as_a_whole(
    word: str, height: float, x: float, y: float, turn: float
) -> None:
    """By a polygon library's own rotation."""
    there = shapely.MultiLineString(word_strokes(word, (x, y), height, turn))
    turned = shapely.affinity.rotate(drawn(word, height), turn, origin=ORIGIN)
    wanted = shapely.affinity.translate(turned, x, y)
    found, expected = (shapely.get_coordinates(shape).ravel() for shape in (there, wanted))
    assert found == pytest.approx(expected, abs=1e-9 * max(1.0, math.hypot(x, y) + 50 * height))


def test_a_sign_without_a_letter_is_a_box() -> None:
    (box,) = word_strokes("\u6f22", ORIGIN, 6.0)
    assert set(box) == {(-2.0, -3.0), (-2.0, 3.0), (2.0, 3.0), (2.0, -3.0)}
    assert box[0] == box[-1]
    assert len(word_strokes("a\u6f22a", ORIGIN, 6.0)) == 2 * len(GLYPHS["a"]) + 1


@pytest.mark.parametrize("letter", "ÄÖÜäöüÉéèêñÑåÅãçÇşğİíőűčřžąęșȚŪĝạḷ")
def test_an_accent_is_added_to_its_letter(letter: str) -> None:
    """Unicode's own decomposition says to which; what is added lies clear of it, in its box."""
    base, *marks = unicodedata.normalize("NFD", letter)
    plain, whole = drawn(base), drawn(letter)
    added = whole.difference(plain.buffer(1e-9))
    assert has_strokes(letter)
    assert added.length > 0.9
    x0, y0, x1, y1 = whole.bounds
    box = word_box(letter, 6.0)
    assert -box.half_mm <= x0 <= x1 <= box.half_mm
    assert (-box.down_mm, box.up_mm) == pytest.approx((min(y0, -3.0), max(y1, 3.0)))
    if marks[0] not in BELOW:
        under = [y for _, y in shapely.get_coordinates(plain) if base not in "ij"]
        assert added.bounds[1] > max(under, default=1.0)


def test_letters_stand_on_one_line_in_order() -> None:
    feet = [drawn(letter).bounds[1] for letter in "HExk1"]
    assert feet == pytest.approx([-3.0] * 5)
    assert FOOT > TAIL
    starts = [stroke[0][0] for stroke in word_strokes("LLL", ORIGIN, 6.0)]
    assert starts == pytest.approx([-8.0, -2.0, 4.0])
