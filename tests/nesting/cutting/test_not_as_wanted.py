"""What could not be had is told of each part once."""

from __future__ import annotations

from platewheel.nesting.cutting.lead_place import Neighbour
from platewheel.nesting.cutting.not_as_wanted import NotAsWanted
from platewheel.nesting.stock.layout import Placement
from tests.nesting.plates import cutting, disc


def part(number: int) -> Neighbour:
    placed = Placement(disc(20.0), 100.0 * number, 10.0, 0.0)
    return Neighbour(placed, placed.blank.outline, (), (0.0, 0.0, 1.0, 1.0), number=number)


def test_holes_of_one_part_are_counted() -> None:
    told, first, second = NotAsWanted(), part(1), part(2)
    told.no_lead += [("", second), *[("a hole of ", first)] * 40, ("a hole of ", second)]
    (line,) = told.lines(cutting())
    assert line.count("hole") == 2
    assert f"40 holes of {first.said}, {second.said}, a hole of {second.said}" in line
