"""Which part has which number: names with counts, numbers in runs."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.nesting.cutting.part_cuts import PartCuts


def legend(parts: Sequence[PartCuts]) -> list[dict[str, str]]:
    """By name: how many are on the plate, and their numbers in the order of cutting."""
    numbers: dict[str, list[int]] = {}
    for part in parts:
        numbers.setdefault(part.placement.blank.name, []).append(part.number)
    return [
        {"name": name, "count": f"{len(own)}", "numbers": runs(own)}
        for name, own in sorted(numbers.items())
    ]


def runs(numbers: Sequence[int]) -> str:
    """`1-4, 7, 9, 10` for rising numbers; a run is three or more."""
    told: list[str] = []
    i = 0
    while i < len(numbers):
        j = i
        while j + 1 < len(numbers) and numbers[j + 1] == numbers[j] + 1:
            j += 1
        if j - i >= 2:
            told.append(f"{numbers[i]}-{numbers[j]}")
        else:
            told += [f"{n}" for n in numbers[i : j + 1]]
        i = j + 1
    return ", ".join(told)
