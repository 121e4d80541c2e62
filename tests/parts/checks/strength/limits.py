"""Where a check turns: the load at which its verdict changes, found by halving."""

from __future__ import annotations

from collections.abc import Callable

from platewheel.parts.checks.result import CheckResult


def most_load_n(check: Callable[[float], CheckResult | None], high_n: float = 1e5) -> float:
    """Greatest wheel load that the check lets pass."""
    low = 0.0
    for _ in range(60):
        middle = (low + high_n) / 2
        result = check(middle)
        assert result is not None
        low, high_n = (middle, high_n) if result.verdict == "pass" else (low, middle)
    return low


def share_told(result: CheckResult | None) -> int:
    """Percent that a check which passes says is used."""
    assert result is not None
    assert result.verdict == "pass"
    return int(result.says.split("used to ")[1].split(" %")[0])
