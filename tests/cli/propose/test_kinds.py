"""Proposals of another kind than the cheapest: each is what its name says, and passes in full."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.propose import kinds as module
from platewheel.cli.propose.kinds import OTHERS, by_cost, other_kinds, plates, wanted_kinds
from platewheel.cli.schema.propose import ProposalRow
from platewheel.parts.wheel.assembly import weld_mass_kg, wheel_mass_kg
from platewheel.parts.wheel.spec import WheelSpec
from tests.cli.propose.rows import laid
from tests.places import DEMO

JOB = read_job(DEMO)
MEAN_N = JOB.setting.static_wheel_load_n
FIRST = laid(JOB.wheel, 100.0, rated_n=1.1 * 3000, load_n=3000.0)  # of bar, bears 1.1 of the mean
KEYS: tuple[dict[str, Any], ...] = (
    {"flange_depth_mm": 14.0},  # 0: next to the same
    {"tread_from": "sheet"},  # 1: other stock
    {"flange_depth_mm": 16.0},  # 2: much stronger for 10
    {"flange_depth_mm": 17.0},  # 3: stronger still, for much more
    {"tread_diameter_mm": 240.0, "vent_circle_mm": 190.0},  # 4: lighter
    {"flange_thickness_mm": 6.0},  # 5: one plate alone, that of the discs, and lighter beads
    {"weld_throat_mm": 3.0, "root_weld_mm": 5.0},  # 6: least weld metal
)
COSTS = (101.0, 103.0, 110.0, 140.0, 120.0, 130.0, 125.0)
BEARS = (1.1, 1.1, 1.4, 1.5, 1.12, 1.12, 1.11)


@dataclass
class Wheels:
    """Rows told apart by the keys that differ from the job's."""

    def values(self, row: int) -> dict[str, Any]:
        return JOB.wheel.model_dump() | KEYS[row]

    def play_mm(self, row: int) -> None:
        """As the job has it."""


class Few:
    """What the search found, cheapest first."""

    def __init__(self, *rows: int) -> None:
        self.wheels = Wheels()
        self.rows = rows
        self.strong = sorted(rows, key=lambda row: COSTS[row])
        self.loads_n = [BEARS[row] * MEAN_N for row in rows]
        self.cost = COSTS


def wheel(row: int) -> WheelSpec:
    return WheelSpec(**Wheels().values(row))


def offered(*rows: int) -> list[tuple[str, int]]:
    return [(k, one.row) for k, one in wanted_kinds(Few(*rows), FIRST, MEAN_N)]  # type: ignore[arg-type]


def test_each_kind_is_what_its_name_says() -> None:
    best = dict(reversed(offered(*range(7))))
    assert best == {
        "other stock": 1,
        "most reserve for its money": 2,
        "lightest": 4,
        "least welding": 6,
        "fewest plates": 5,
    }
    assert wheel_mass_kg(wheel(4)) < 0.9 * wheel_mass_kg(JOB.wheel)
    assert weld_mass_kg(wheel(6)) < 0.9 * weld_mass_kg(JOB.wheel)
    assert plates(JOB.wheel) == {6.0, 8.0}
    assert plates(wheel(5)) == {6.0}


def test_what_hardly_differs_is_no_kind() -> None:
    assert offered(0) == []


def test_the_next_of_a_kind_is_there_where_the_best_fails() -> None:
    assert offered(2, 3) == [("most reserve for its money", 2), ("most reserve for its money", 3)]


def told(
    monkeypatch: pytest.MonkeyPatch, good: list[ProposalRow], bad: set[float], *rows: int
) -> list[ProposalRow]:
    def stand_in(one: Job, estimate: float, reserve: float) -> ProposalRow | str:
        return "fails" if estimate in bad else laid(one.wheel, estimate)

    monkeypatch.setattr(module, "finalist", stand_in)
    with ThreadPoolExecutor(1) as pool:
        return other_kinds(JOB, Few(*rows), good, pool, 0.1)  # type: ignore[arg-type]


def test_two_are_added_behind_the_others(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = told(monkeypatch, [FIRST], set(), *range(7))
    assert [row.kind for row in rows] == ["cheapest", "other stock", "most reserve for its money"]
    assert len(rows) == 1 + OTHERS
    assert rows[1].wheel["tread_from"] == "sheet"


def test_one_that_is_proposed_already_is_named_and_not_told_twice(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    next_best, stock = laid(wheel(0), 101.0), laid(wheel(1), 103.0, mass_kg=7.0)
    rows = told(monkeypatch, [FIRST, next_best, stock], set(), 0, 1, 4)
    assert [row.kind for row in rows] == ["cheapest", "", "other stock", "lightest"]
    assert rows[2].mass_kg == 7.0


def test_one_that_fails_in_full_gives_way(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = told(monkeypatch, [FIRST], {110.0, 103.0}, *range(7))
    assert [row.kind for row in rows] == ["cheapest", "most reserve for its money", "lightest"]
    assert rows[1].cost_estimate == 140


def test_without_a_search_there_is_the_first_alone() -> None:
    with ThreadPoolExecutor(1) as pool:
        assert [row.kind for row in other_kinds(JOB, None, [FIRST], pool, 0.1)] == ["cheapest"]


def test_one_that_turns_out_cheaper_becomes_the_first() -> None:
    cheap = laid(wheel(1), 90.0, kind="other stock")
    first, second = by_cost([FIRST.model_copy(update={"kind": "cheapest"}), cheap])
    assert first.cost_estimate == 90
    assert {first.kind, second.kind} == {""}
