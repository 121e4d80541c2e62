"""Parts of very many lines are refused in numbers that no run would end with."""

from __future__ import annotations

import math

from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.drawings.all_lines import (
    MOST_LINES,
    Copies,
    copies_of,
    copies_of_disc,
    lines_of,
    too_many_lines,
)
from platewheel.nesting.drawings.extra import Extra, ExtraPart
from platewheel.nesting.stock.stock import Offcut, Stock
from platewheel.parts.base.faults import Fault
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Line, polygon

LARGE = Stock(thickness_mm=6, width_mm=2000, length_mm=6000)
REST = Offcut(name="rest", thickness_mm=6, outline=[[0, 0], [1000, 0], [1000, 1000], [0, 1000]])


def many_sided(corners: int, radius: float) -> tuple[Line, ...]:
    turns = [2 * math.pi * k / corners for k in range(corners)]
    return polygon([(radius * math.cos(t), radius * math.sin(t)) for t in turns])


def part(corners: int, count: int, name: str = "part", radius: float = 50.0) -> ExtraPart:
    blank = Blank(name, name, 6.0, many_sided(corners, radius), (Circle((0.0, 0.0), 5.0),))
    extra = Extra(name=name, file=f"{name}.dxf", thickness_mm=6, count=count)
    return ExtraPart(extra, blank, "S235")


def numbered(*parts: ExtraPart) -> list[Copies]:
    return [copies_of(one, row) for row, one in enumerate(parts)]


def told(
    rows: list[Copies], stock: tuple[Stock, ...] = (LARGE,), offcuts: tuple[Offcut, ...] = ()
) -> list[Fault]:
    return list(too_many_lines(rows, stock, offcuts))


def test_holes_count_too() -> None:
    assert lines_of(part(300, 1).blank) == 302  # a circle is two half turns


def test_usual_parts_may_be_as_many_as_are_wanted() -> None:
    assert told(numbered(part(12, 100_000), part(150, 50_000))) == []
    assert told(numbered(part(3900, 80), part(3900, 8, "other"))) == []
    assert told(numbered(part(250, 2000), part(1000, 450, "other"))) == []


def test_what_is_told_is_allowed() -> None:
    """The counts that the advice names, taken for both, are within the bound."""
    rows = numbered(part(3900, 500), part(12, 9000, "bolt"), part(2000, 400, "other"))
    faults = told(rows)
    assert [fault.key for fault in faults] == ["extra[0].count", "extra[2].count"]
    assert "2751800" in faults[0].allowed  # 500 x 3902 + 400 x 2002; a circle is two half turns
    counts = [int(fault.advice.split()[2]) for fault in faults]
    mended = numbered(part(3900, counts[0]), part(2000, counts[1], "other"))
    assert told(mended) == []
    assert sum(lines_of(one.drawn) * one.count for one in mended) > 0.95 * MOST_LINES


def test_single_parts_beside_very_many_stay_and_the_many_are_fewer() -> None:
    """As many drawings as a job may have, each of nearly as many lines as one may have."""
    once = [part(3900, 1)] * 200
    rows = numbered(*once, part(3900, 500, "many"), part(300, 3, "three"))
    faults = told(rows)
    assert [fault.key for fault in faults] == ["extra[200].count", "extra[201].count"]
    counts = [int(fault.advice.split()[2]) for fault in faults]
    mended = numbered(*once, part(3900, counts[0], "many"), part(300, counts[1], "three"))
    assert told(mended) == []
    assert sum(lines_of(one.drawn) * one.count for one in mended) > 0.95 * MOST_LINES


def test_single_parts_that_are_too_many_together_are_told() -> None:
    rows = numbered(*[part(9998, 1)] * 99, part(500, 30, "thirty"))
    assert told(rows[:-1]) == []
    faults = told(rows)
    assert [fault.key for fault in faults] == ["extra[99].count"]
    more = told(numbered(*[part(9998, 1)] * 101))
    assert len(more) == 101
    assert more[0].advice.startswith("some in jobs of their own, or")


def test_plates_that_are_cut_alike_count_once() -> None:
    """Of one kind at most three plates differ, of two four; an offcut is one more."""
    small = (Stock(thickness_mm=6, width_mm=1500, length_mm=1500),)
    each = math.pi * 150.0**2
    assert told(numbered(part(3900, 100_000, radius=150.0)), small) == []
    two = [part(3900, 100_000, name, radius=150.0) for name in "ab"]
    assert told(numbered(*two), small) == []
    ten = numbered(*two, *(part(12, 9, f"bolt{k}") for k in range(8)))
    for plates, offcuts in ((12, ()), (12 + 4 / 9, (REST,))):
        faults = told(ten, small, offcuts)
        assert [fault.key for fault in faults] == ["extra[0].count", "extra[1].count"]
        room = math.ceil(plates * 1500**2 / each)
        assert f"about {2 * 3902 * room}," in faults[0].allowed


def test_other_steel_has_no_room_for_it() -> None:
    thick = Stock(thickness_mm=8, width_mm=2000, length_mm=6000)
    strong = Stock(steel="S355", thickness_mm=6, width_mm=2000, length_mm=6000)
    assert told(numbered(part(3900, 1000)), (thick, strong)) == []
    assert len(told(numbered(part(3900, 1000)), (thick, strong, LARGE))) == 1


@settings(max_examples=25)
@given(
    st.lists(
        st.tuples(st.integers(201, 3000), st.integers(1, 9000) | st.just(1)), min_size=1, max_size=4
    ),
    st.floats(20.0, 200.0),
)
def test_whatever_is_told_may_be_followed(sizes: list[tuple[int, int]], radius: float) -> None:
    parts = [part(n, count, f"p{k}", radius) for k, (n, count) in enumerate(sizes)]
    faults = told(numbered(*parts))
    fewer = {fault.key: int(fault.advice.split()[2]) for fault in faults}
    left = [
        part(n, fewer.get(f"extra[{k}].count", count), f"p{k}", radius)
        for k, (n, count) in enumerate(sizes)
    ]
    assert told(numbered(*left)) == []


def test_discs_count_two_to_a_wheel() -> None:
    """An opening of 3898 lines, and 4 of rim and bore."""
    bore, rim = Circle((-100.0, 0.0), 9.0), Circle((0.0, 0.0), 140.0)
    disc = Blank("disc", "hub disc", 6.0, rim, (many_sided(3898, 60.0), bore))
    (fault,) = told([copies_of_disc("mine.dxf", disc, "S235", 290)])
    assert (fault.key, fault.value) == ("disc.file", "mine.dxf")
    assert f"there are about {2 * 290 * 3902}, 3902 on each disc" in fault.allowed
    assert fault.advice.startswith("wheels = 128 in [job] and the rest")
    assert 2 * 128 * 3902 <= MOST_LINES < 2 * 129 * 3902
    assert told([copies_of_disc("mine.dxf", disc, "S235", 128)]) == []
    beside = [copies_of_disc("mine.dxf", disc, "S235", 120), *numbered(part(3900, 80))]
    assert [one.key for one in told(beside)] == ["disc.file", "extra[0].count"]
