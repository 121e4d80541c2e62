"""The full search: no worse than the quick plan, the last plate pressed together, stops kept."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.search import best_plan, fuller
from platewheel.nesting.search.best_plan import MOST_KINDS, Search, looked_at
from platewheel.nesting.search.compaction import length_by_area, reach_mm
from platewheel.nesting.search.fuller import Press
from platewheel.nesting.search.nest import EFFORTS, nest
from platewheel.nesting.stock.layout import Nest, Sheet, Wanted
from tests.nesting.plates import cutting, disc, offcut, plate, sector, strip
from tests.nesting.search.test_nest import (
    MARGIN,
    SPACING,
    assert_all_accounted_for,
    assert_laid_well,
    jobs,
    used,
)

SHORT = Search(orders=(4, 2), moves=300, per_try=100, press=Press(400, 100, 0.0005))


@pytest.fixture(autouse=True)
def short_searches(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(EFFORTS, "normal", SHORT)
    monkeypatch.setattr(best_plan, "SMALL_JOB", 2)


def kits(wheels: int) -> list[Wanted]:
    return [Wanted(disc(126.0), 2 * wheels), Wanted(sector(75.0, 90.0, 104.0), 3 * wheels)]


SHEET = plate(625.0, 500.0, price=10.0)


@settings(max_examples=3, deadline=None, derandomize=True)
@given(jobs(), st.integers(0, 3))
def test_any_job(job: tuple[list[Wanted], list[Sheet]], seed: int) -> None:
    wanted, stock = job
    done = nest(wanted, stock, cutting(SPACING, MARGIN), seed)
    assert_all_accounted_for(done, wanted)
    assert_laid_well(done, SPACING, MARGIN)
    for sheet in stock:
        if sheet.count is not None:
            assert used(done)[sheet.name] <= sheet.count


def plates(done: Nest) -> int:
    return sum(layout.repeat for layout in done.layouts)


def test_the_search_lays_more_than_the_quick_plan_and_the_last_plate_is_short() -> None:
    cut = cutting(3.0, 5.0)
    quick = nest(kits(10), [SHEET], cut, effort="quick")
    full = nest(kits(10), [SHEET], cut)
    assert plates(full) <= plates(quick)
    last = [min(d.layouts, key=lambda lay: len(lay.placements)) for d in (quick, full)]
    assert len(last[1].placements) <= len(last[0].placements)
    assert reach_mm(last[1].placements) < reach_mm(last[0].placements)
    assert_laid_well(full, 3.0, 5.0)


def test_no_layout_is_shorter_than_its_area() -> None:
    done = nest(kits(5), [SHEET], cutting(3.0, 5.0))
    task = fuller.Task(tuple(kits(5)), 3.0, 5.0, 0, 1, 1, Press(1, 1, 1.0), print)
    for layout in done.layouts:
        by_area = length_by_area(task, SHEET, layout.placements)
        assert by_area <= reach_mm(layout.placements) + 5.0


def test_parts_kept_to_the_rolling_direction_lie_along_the_plate() -> None:
    wanted = [Wanted(strip(200.0, 25.0), 18, "half")]
    done = nest(wanted, [SHEET], cutting(3.0, 5.0))
    turns = {p.rotation_deg for layout in done.layouts for p in layout.placements}
    assert turns <= {0.0, 180.0}
    assert done.unplaced == ()


def test_an_offcut_with_a_corner_out_is_filled_by_the_search() -> None:
    edge = [(0.0, 0.0), (500.0, 0.0), (500.0, 200.0), (300.0, 200.0), (300.0, 400.0), (0.0, 400.0)]
    corner = offcut("corner", edge)
    wanted = kits(2)
    done = nest(wanted, [corner], cutting(3.0, 5.0))
    assert done.unplaced == ()
    assert_laid_well(done, 3.0, 5.0)


def stopped(*given: Any, **more: Any) -> Any:
    raise KeyboardInterrupt


def test_ctrl_c_keeps_the_best_found(heard: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[str] = []
    quick = nest(kits(10), [SHEET], cutting(3.0, 5.0), effort="quick")
    monkeypatch.setattr("platewheel.nesting.search.search.separate", stopped)
    done = nest(kits(10), [SHEET], cutting(3.0, 5.0), report=told.append)
    assert plates(done) == plates(quick)
    assert_all_accounted_for(done, kits(10))
    assert any(line.startswith("stopped:") for line in told)
    assert heard == ["the best plan found"]


def test_ctrl_c_while_the_last_plate_is_pressed_keeps_it(
    heard: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr("platewheel.nesting.search.compaction.lay", stopped)
    done = nest(kits(10), [SHEET], cutting(3.0, 5.0), report=told.append)
    assert_all_accounted_for(done, kits(10))
    assert "stopped: the shortest found is kept" in told


def test_one_core_finds_what_two_find(monkeypatch: pytest.MonkeyPatch) -> None:
    two = nest(kits(7), [SHEET], cutting(3.0, 5.0))
    monkeypatch.setattr("platewheel.nesting.search.search.os.cpu_count", lambda: 1)
    assert nest(kits(7), [SHEET], cutting(3.0, 5.0)) == two


def test_of_very_many_plates_the_largest_are_searched_longer() -> None:
    sizes = [(100.0 + 7 * ((13 * k) % 40), 100.0) for k in range(40)]
    rests = [offcut(f"r{k}", [(0, 0), (x, 0), (x, y), (0, y)]) for k, (x, y) in enumerate(sizes)]
    bought = [plate(90.0, 90.0), plate(80.0, 80.0)]
    chosen = looked_at([*rests, *bought])
    assert len(chosen) == MOST_KINDS
    assert set(bought) < set(chosen)
    kept = [sheet for sheet in chosen if sheet.is_offcut]
    assert min(s.area_mm2 for s in kept) >= max(s.area_mm2 for s in rests if s not in kept)
    assert looked_at(rests[:MOST_KINDS]) == rests[:MOST_KINDS]


def test_ctrl_c_while_patterns_are_mixed_keeps_the_quick_plan(
    heard: list[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    told: list[str] = []
    monkeypatch.setattr("platewheel.nesting.search.search.separate", lambda *given: None)
    monkeypatch.setattr("platewheel.nesting.search.best_plan.stock_plan", stopped)
    done = nest(kits(10), [SHEET], cutting(3.0, 5.0), report=told.append)
    assert_all_accounted_for(done, kits(10))
    assert "stopped: the quick plan is kept" in told
