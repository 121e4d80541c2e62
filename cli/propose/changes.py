"""What one step on each axis of a wheel changes, and two steps that help only together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import islice

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_checks
from platewheel.cli.money.cost_estimate import Question, estimate_parts
from platewheel.cli.propose.played import beside
from platewheel.cli.schema.propose import ChangeRow
from platewheel.parts.propose.choices import Choices
from platewheel.parts.propose.neighbours import Step, foretold, neighbours, together
from platewheel.parts.propose.rate_until_known import NOISE, Analyse, needed_n
from platewheel.parts.wheel.assembly import wheel_mass_kg
from platewheel.parts.wheel.spec import WheelSpec

TOO_WEAK = "Load rating"
MOST_PAIRS = 8  # analysed
LEAST_SAVING = 0.005  # of a wheel's cost: less is rounding


@dataclass(frozen=True)
class Changes:
    """What steps from a wheel do, that of `now`, with the play kept that it is set for; `borne` is
    the mean load that it bears itself, N, on which the coarse analyses are scaled; a step must
    leave the reserve."""

    job: Job
    choices: Choices
    now: Job
    borne: float
    analyse: Analyse
    reserve: float = 0.0

    @property
    def wheel(self) -> WheelSpec:
        """The wheel itself."""
        return self.now.wheel

    def rows(self) -> list[tuple[ChangeRow, WheelSpec]]:
        """What one step on each axis does to mass, cost and rating; then, of steps that a wheel
        cannot take alone, those that it may take together and that make it cheaper."""
        steps = neighbours(self.wheel, self.choices, self.job.wheel)
        singles = self._told(steps)
        pairs = self._pairs(steps, singles)
        return [
            (row, step.wheel)
            for row, step in zip(singles + self._told(pairs), [*steps, *pairs], strict=True)
        ]

    def _told(self, steps: Sequence[Step]) -> list[ChangeRow]:
        if not steps:
            return []
        ones = [self.now, *(beside(self.now, step.wheel) for step in steps)]
        limits = self.analyse([one.setting for one in ones])
        loads = [min(limit.values(), default=0.0) for limit in limits]
        rows = []
        for step, load in zip(steps, loads[1:], strict=True):
            fails, warns = self._against(step)
            if loads[0] and self.borne * load / loads[0] < self._needed_n:
                fails.append(TOO_WEAK)
            rows.append(
                ChangeRow(
                    key=step.key,
                    was=step.was,
                    becomes=step.becomes,
                    mass_kg=wheel_mass_kg(step.wheel) - wheel_mass_kg(self.wheel),
                    cost=round(self._cost(step.wheel) - self._cost(self.wheel), NOISE),
                    rating_percent=100 * (load / loads[0] - 1) if load and loads[0] else None,
                    fails=fails,
                    warns=warns,
                )
            )
        return rows

    def _pairs(self, steps: Sequence[Step], rows: Sequence[ChangeRow]) -> list[Step]:
        """Steps that save cost but have something against them, each with one that has less
        against it; the cheapest first, none that the single steps foretell to be too weak."""
        found: dict[str, tuple[float, Step]] = {}
        both = list(zip(steps, rows, strict=True))
        for saves, saved in both:
            if saved.cost >= 0 or not (saved.fails or saved.warns):
                continue
            for mends, mended in both:
                pair = together(self.wheel, saves, mends, self.job.wheel)
                foretold_n = foretold(self.borne, saved.rating_percent, mended.rating_percent)
                if pair is None or foretold_n < self._needed_n:
                    continue
                cost = self._cost(pair.wheel) - self._cost(self.wheel)
                if cost < -LEAST_SAVING:
                    found.setdefault(pair.wheel.model_dump_json(), (cost, pair))
        cheapest = [pair for _, pair in sorted(found.values(), key=lambda one: one[0])]
        return list(islice(filter(self._clean, cheapest), MOST_PAIRS))

    def _clean(self, step: Step) -> bool:
        """Whether nothing that needs no analysis speaks against the step."""
        return not any(self._against(step))

    def _against(self, step: Step) -> tuple[list[str], list[str]]:
        """Checks that the step's wheel fails, and those that warn of it and not of the wheel."""
        checks = job_checks(beside(self.now, step.wheel))
        return (
            [check.title for check in checks if check.verdict == "fail"],
            [c.title for c in checks if c.verdict == "warn" and c.id not in self._own],
        )

    def _cost(self, wheel: WheelSpec) -> float:
        return round(sum(question(wheel) for question in self._questions), NOISE)

    @cached_property
    def _questions(self) -> list[Question]:
        return list(estimate_parts(self.job).values())

    @cached_property
    def _own(self) -> set[str]:
        checks = job_checks(self.now)
        return {check.id for check in checks if check.verdict == "warn"}

    @cached_property
    def _needed_n(self) -> float:
        return needed_n(self.job.setting, self.reserve)
