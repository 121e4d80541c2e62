"""Words of the standards: bounds that can be kept to as they are printed, widening that ends."""

from __future__ import annotations

from platewheel.cli.words.standards import setting_out_words, standards_table, widening_words
from platewheel.parts.standards.rows import Standard
from platewheel.parts.standards.turnout import Sized
from platewheel.parts.standards.widening import Widening


def test_bounds_are_rounded_inwards() -> None:
    row = Standard("Track", "twist", "", "Twist", 33.9482, 34.0, 36.0482, "what it follows from")
    ((_, _, least, has, most, *_),) = standards_table((row,), ()).cells("mm")
    assert (least, has, most) == ("34.0", "34.0", "36.0")
    whole = Standard("Track", "twist", "", "Twist", 34.0, 34.0, 36.0 + 1e-9, "the same")
    ((_, _, least, _, most, *_),) = standards_table((whole,), ()).cells("mm")
    assert (least, most) == ("34.0", "36.0")
    spread = Standard("Track", "gauge", "G", "Gauge", 455.02, 457.02, 459.02, "its tolerance")
    ((_, _, least, has, most, *_),) = standards_table((spread,), ()).cells("mm")
    assert (least, has, most) == ("455.0", "457.0", "459.0")


def test_widening_ends_at_the_first_curve_that_needs_none() -> None:
    rows = [Widening(6.0, None), Widening(8.0, 2.5), Widening(12.0, 0.0), Widening(20.0, 0.0)]
    assert list(widening_words(rows).cells("mm")) == [
        ["6 m", "", "no widening lets this wagon through"],
        ["8 m", "2.5 mm", ""],
        ["12 m", "none needed", "nor in any easier curve"],
    ]


def test_sizes_of_a_turnout_by_unit() -> None:
    rows = (
        Sized("a", 3.5521, "b", "1 in"), Sized("c", 23.31, "d", "m"), Sized("e", 20.02, "f"),
        Sized("g", 20.02, "h", least=True), Sized("i", None, "j"),
    )  # fmt: skip
    told = [cells[1] for cells in setting_out_words(rows).cells("mm")]
    assert told == ["1 in 3.55", "23.3 m", "20.0 mm", "20.1 mm", ""]
