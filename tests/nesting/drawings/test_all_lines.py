"""Parts of very many lines are refused in numbers that no run would end with."""

from __future__ import annotations

import math

from platewheel.nesting.drawings.all_lines import MOST_LINES, lines_of, too_many_lines
from platewheel.nesting.drawings.extra import Extra
from platewheel.nesting.drawings.read import Outline
from platewheel.parts.geometry.outline import Circle, polygon


def part(corners: int, count: int, name: str = "part") -> tuple[Extra, Outline]:
    turns = [2 * math.pi * k / corners for k in range(corners)]
    edge = polygon([(50 * math.cos(t), 50 * math.sin(t)) for t in turns])
    extra = Extra(name=name, file=f"{name}.dxf", thickness_mm=6, count=count)
    return extra, Outline(edge, (Circle((0.0, 0.0), 5.0),), (), ())


def numbered(*parts: tuple[Extra, Outline]) -> list[tuple[int, Extra, Outline]]:
    return [(row, *one) for row, one in enumerate(parts)]


def test_holes_count_too() -> None:
    _, drawn = part(300, 1)
    assert lines_of(drawn) == 302  # a circle is two half turns


def test_usual_parts_may_be_as_many_as_are_wanted() -> None:
    assert list(too_many_lines(numbered(part(12, 100_000), part(150, 50_000)))) == []
    assert list(too_many_lines(numbered(part(3900, 80), part(3900, 8, "other")))) == []


def test_what_is_told_is_allowed() -> None:
    """The counts that the advice names, taken for both, are within the bound."""
    rows = numbered(part(3900, 500), part(12, 9000, "bolt"), part(2000, 400, "other"))
    faults = list(too_many_lines(rows))
    assert [fault.key for fault in faults] == ["extra[0].count", "extra[2].count"]
    assert "2751800" in faults[0].allowed  # 500 x 3902 + 400 x 2002; a circle is two half turns
    counts = [int(fault.advice.split()[2]) for fault in faults]
    mended = numbered(part(3900, counts[0]), part(2000, counts[1], "other"))
    assert list(too_many_lines(mended)) == []
    assert sum(lines_of(one) * extra.count for _, extra, one in mended) > 0.95 * MOST_LINES
