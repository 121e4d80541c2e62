"""What a check found: value against limit, what it means, and where the limit comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Verdict = Literal["pass", "warn", "fail", "not-assessed"]
WORST_FIRST: tuple[Verdict, ...] = ("fail", "warn", "not-assessed", "pass")


def verdict_words(verdict: str) -> str:
    """A verdict as people read it: `not assessed`."""
    return verdict.replace("-", " ")


@dataclass(frozen=True)
class CheckResult:
    """One check. A failed check is a result with a negative margin, never an error.

    `margin` is the relative distance to the limit, positive on the good side; None where
    nothing was assessed. `at_most`: the limit is one from above, False from below; None where
    there is none. `says` is one plain sentence; `source` is never empty.
    """

    id: str
    title: str
    value: float | None
    limit: float | None
    unit: str
    verdict: Verdict
    says: str
    source: str
    margin: float | None = None
    at_most: bool | None = None

    def __post_init__(self) -> None:
        if not self.source.strip() or not self.says.strip():
            raise ValueError(f"check {self.id}: a result needs a source and a sentence")


def judged(
    id: str,
    title: str,
    value: float,
    limit: float,
    unit: str,
    source: str,
    *,
    at_most: bool,
    good: str,
    bad: str,
    bad_verdict: Verdict = "fail",
) -> CheckResult:
    """Result of value against limit; `good` or `bad` is the sentence told."""
    room = limit - value if at_most else value - limit
    scale = abs(limit) if limit else 1.0
    holds = room >= -1e-9 * scale
    verdict: Verdict = "pass" if holds else bad_verdict
    says = good if holds else bad
    return CheckResult(id, title, value, limit, unit, verdict, says, source, room / scale, at_most)


def worst_first(results: list[CheckResult]) -> list[CheckResult]:
    """Results ordered fail, warn, not-assessed, pass; least margin first within each."""

    def rank(result: CheckResult) -> tuple[int, float, str]:
        margin = result.margin if result.margin is not None else 0.0
        return WORST_FIRST.index(result.verdict), margin, result.id

    return sorted(results, key=rank)
