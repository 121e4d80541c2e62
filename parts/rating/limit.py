"""One limit on the wheel load: how much it allows, where it bites, by what it is set."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Limit:
    """Design wheel load that one criterion allows, N, all other loads in proportion. `damage` is
    what the stated life does to it (Miner's sum), None where it is not about fatigue. A second
    reading that is told beside the judged ones has `judged` false."""

    name: str
    load_n: float
    where: str
    by: str
    damage: float | None = None
    judged: bool = True


@dataclass
class Worst:
    """Largest value offered so far, and where it was."""

    value: float = 0.0
    where: str = ""

    def offer(self, value: float, where: str) -> None:
        """Keep it if it is larger."""
        if value > self.value:
            self.value, self.where = value, where
