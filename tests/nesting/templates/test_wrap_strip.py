"""The strip round a pipe: once round, its end lines, which pipes have one."""

from __future__ import annotations

import math

import pytest

from platewheel.cli.job.strips import wheel_strips
from platewheel.nesting.templates.wrap_strip import PAPER_MM, strip_length_mm, wrap_strip
from platewheel.parts.geometry.blank import MarkText
from platewheel.parts.geometry.outline import Line, bounds
from tests.parts.wheels import plain_wheel


# Outside diameters of EN 10220; 100 sheets of 80 g/m2 paper are 10 mm thick (common practice).
# The paper's middle lies half a sheet off the steel: once round it, by Archimedes' 223/71 < pi
# < 22/7.
@pytest.mark.parametrize("outside", [26.9, 60.3, 114.3, 323.9])
def test_length_once_round(outside: float) -> None:
    middle = outside + PAPER_MM
    assert PAPER_MM == 10 / 100
    assert 223 / 71 * middle < strip_length_mm(outside) < 22 / 7 * middle
    assert strip_length_mm(outside) == pytest.approx(2 * math.pi * (outside / 2 + PAPER_MM / 2))


def test_end_lines_are_where_other_pipes_end() -> None:
    strip = wrap_strip("strip", 51.0, 70.0)
    ends = {round(line.start[0], 6) for line in strip.marks if isinstance(line, Line)}
    for real in (49.5, 50.0, 50.5, 51.0, 51.5, 52.0, 52.5):
        assert round(math.pi * (real + 0.1), 6) in ends
    words = {mark.text for mark in strip.marks if isinstance(mark, MarkText)}
    assert {"49.5", "50.5", "52.5", "90 deg", "180 deg", "270 deg"} <= words
    long = [m for m in strip.marks if isinstance(m, Line) and abs(m.length_mm - 70) < 1e-9]
    quarters = sorted(line.start[0] for line in long)
    whole = math.pi * 51.1
    assert quarters == pytest.approx([whole / 4, whole / 2, 3 * whole / 4, whole])


@pytest.mark.parametrize(("cut", "width"), [(35.0, 35.0), (100.0, 100.0), (600.0, 100.0)])
def test_both_edges_cut_square_where_the_piece_is_short(cut: float, width: float) -> None:
    strip = wrap_strip("strip", 60.3, cut)
    _, low, far, high = bounds(strip.outline)
    assert high - low == width
    assert far > math.pi * 60.4 + 20  # room to glue
    words = [mark.text for mark in strip.marks if isinstance(mark, MarkText)]
    assert ("both edges: square cuts" in words) == (cut == width)


def test_strips_of_a_wheel() -> None:
    rolled = plain_wheel(tread_from="sheet")
    assert [one.stem for one in wheel_strips(rolled, "mm")] == ["strip-hub-tube"]
    pipe = plain_wheel(tread_from="pipe")
    tread, hub = wheel_strips(pipe, "mm")
    assert (tread.stem, hub.stem) == ("strip-tread", "strip-hub-tube")
    assert tread.blank.sizes["outside_diameter_mm"] == pipe.tread_diameter_mm
    assert hub.blank.sizes["outside_diameter_mm"] == pipe.hub_tube_outside_mm
    assert not wheel_strips(plain_wheel(tread_from="sheet", hub_tube_length_mm=0.0), "mm")
