"""One limit on the wheel load: how much it allows, where it bites, by what it is set."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Limit:
    """Wheel load that one criterion allows, N. Where it is about fatigue, `range_per_n` is the
    stress range of one turn for 1 N and `fat_n_mm2` the detail's class, of shear if `in_shear`."""

    name: str
    load_n: float
    where: str
    by: str
    range_per_n: float = 0.0
    fat_n_mm2: float = 0.0
    in_shear: bool = False


@dataclass
class Worst:
    """Largest value offered so far, and where it was."""

    value: float = 0.0
    where: str = ""

    def offer(self, value: float, where: str) -> None:
        """Keep it if it is larger."""
        if value > self.value:
            self.value, self.where = value, where
