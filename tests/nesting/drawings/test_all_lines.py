"""Parts of very many lines are refused in numbers that no run would end with."""

from __future__ import annotations

import math

from platewheel.nesting.drawings.all_lines import (
    MOST_LINES,
    Copies,
    copies_of,
    copies_of_disc,
    lines_of,
    too_many_lines,
)
from platewheel.nesting.drawings.extra import Extra
from platewheel.nesting.drawings.read import Outline
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Line, polygon


def many_sided(corners: int, radius: float) -> tuple[Line, ...]:
    turns = [2 * math.pi * k / corners for k in range(corners)]
    return polygon([(radius * math.cos(t), radius * math.sin(t)) for t in turns])


def part(corners: int, count: int, name: str = "part") -> tuple[Extra, Outline]:
    edge = many_sided(corners, 50.0)
    extra = Extra(name=name, file=f"{name}.dxf", thickness_mm=6, count=count)
    return extra, Outline(edge, (Circle((0.0, 0.0), 5.0),), (), ())


def numbered(*parts: tuple[Extra, Outline]) -> list[Copies]:
    return [copies_of(*one, row) for row, one in enumerate(parts)]


def test_holes_count_too() -> None:
    _, drawn = part(300, 1)
    assert lines_of(drawn) == 302  # a circle is two half turns


def test_usual_parts_may_be_as_many_as_are_wanted() -> None:
    assert list(too_many_lines(numbered(part(12, 100_000), part(150, 50_000)))) == []
    assert list(too_many_lines(numbered(part(3900, 80), part(3900, 8, "other")))) == []
    assert list(too_many_lines(numbered(part(250, 2000), part(1000, 600, "other")))) == []


def test_what_is_told_is_allowed() -> None:
    """The counts that the advice names, taken for both, are within the bound."""
    rows = numbered(part(3900, 500), part(12, 9000, "bolt"), part(2000, 400, "other"))
    faults = list(too_many_lines(rows))
    assert [fault.key for fault in faults] == ["extra[0].count", "extra[2].count"]
    assert "2751800" in faults[0].allowed  # 500 x 3902 + 400 x 2002; a circle is two half turns
    counts = [int(fault.advice.split()[2]) for fault in faults]
    mended = numbered(part(3900, counts[0]), part(2000, counts[1], "other"))
    assert list(too_many_lines(mended)) == []
    assert sum(lines_of(one.drawn) * one.count for one in mended) > 0.95 * MOST_LINES


def test_discs_count_two_to_a_wheel() -> None:
    """An opening of 3898 lines, and 4 of rim and bore."""
    bore, rim = Circle((-100.0, 0.0), 9.0), Circle((0.0, 0.0), 140.0)
    disc = Blank("disc", "hub disc", 6.0, rim, (many_sided(3898, 60.0), bore))
    (fault,) = too_many_lines([copies_of_disc("mine.dxf", disc, 400)])
    assert (fault.key, fault.value) == ("disc.file", "mine.dxf")
    assert f"there are {2 * 400 * 3902}, 3902 on each disc" in fault.allowed
    assert fault.advice.startswith("wheels = 153 in [job] and the rest")
    assert 2 * 153 * 3902 <= MOST_LINES < 2 * 154 * 3902
    assert list(too_many_lines([copies_of_disc("mine.dxf", disc, 153)])) == []
    beside = [copies_of_disc("mine.dxf", disc, 140), *numbered(part(3900, 80))]
    assert [one.key for one in too_many_lines(beside)] == ["disc.file", "extra[0].count"]
