"""Maps of a plate are bounded however many kinds of blank there are."""

from __future__ import annotations

import pytest

from platewheel.nesting.quick.greedy import MOST_CELLS, greedy_plan, orders_of, step_mm
from platewheel.nesting.quick.no_fit import variants
from platewheel.nesting.quick.plainer import MANY_KINDS
from platewheel.nesting.stock.layout import Sheet, Wanted
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import polygon

PLATE = Sheet("1500 x 3000", 6.0, 3000.0, 1500.0, None, 1.0)
LARGE = Sheet("2000 x 6000", 6.0, 6000.0, 2000.0, None, 1.0)


def kinds(count: int) -> list[Wanted]:
    """Brackets, no two alike, the last so long that it goes one way round only."""
    made = []
    for k in range(count):
        a, b = (560.0 if k == count - 1 else 60.0 + k % 7), 80.0 + k % 11
        edge = polygon([(0, 0), (20, 0), (20, a - 20), (b, a - 20), (b, a), (0, a)])
        made.append(Wanted(Blank(f"b{k}", "extra", 6.0, edge), 1))
    return made


def test_the_step_is_as_fine_as_ever_for_usual_jobs() -> None:
    assert step_mm(kinds(10), [PLATE], few=False) == 1.0
    assert step_mm(kinds(10), [PLATE, LARGE], few=False) == 2.0


def test_maps_are_bounded() -> None:
    for count in (20, 60, 120):
        few = count > MANY_KINDS
        step = step_mm(kinds(count), [PLATE], few=few)
        maps = sum(len(variants(w.blank, few=few)) for w in kinds(count))
        assert step > 1
        assert maps * PLATE.length_mm * PLATE.width_mm / step**2 <= MOST_CELLS * 1.001


def test_of_very_many_kinds_a_part_still_lies_the_way_that_it_fits(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("platewheel.nesting.quick.greedy.MANY_KINDS", 3)
    narrow = Sheet("500 x 1500", 6.0, 1500.0, 500.0, 1, 1.0)
    group = kinds(4)
    layouts, left = greedy_plan(group, [narrow], Cutting(), 0, (1, 1))
    (layout,) = layouts
    long_one = [p for p in layout.placements if p.blank.name == group[-1].blank.name]
    assert [p.rotation_deg for p in long_one] == [90.0]
    assert all(p.rotation_deg in (0.0, 90.0) for p in layout.placements)
    assert group[-1].blank.name not in {w.blank.name for w in left}


def test_orders_of_very_many_kinds_lay_so_many_parts_at_most() -> None:
    assert orders_of(kinds(46), [PLATE], 12) == 12
    assert orders_of(kinds(120), [PLATE], 12) == 5  # 120 parts out of 240 maps
    assert orders_of([Wanted(w.blank, 10) for w in kinds(120)], [LARGE], 12) == 1
