"""Checks that hang on too much to be asked of every wheel: asked of those in question alone."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from platewheel.parts.base.faults import SpecError
from platewheel.parts.propose.screening import FAILED, Check, Wheels, judge, watched
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec


@dataclass
class LateChecks:
    """Whether a screened wheel passes the checks left over. An answer serves all wheels that agree
    in what its check reads, as in `parts.propose.screening`."""

    setting: Setting
    wheels: Wheels
    checks: tuple[Check, ...]
    reads: dict[Check, frozenset[str]] = field(default_factory=dict)
    known: dict[Any, bool] = field(default_factory=dict)
    told: dict[int, bool] = field(default_factory=dict)

    def passes(self, row: int) -> bool:
        """Whether the wheel can be made and fails none of them."""
        if row not in self.told:
            read = self.wheels.read(row)
            self.told[row] = all(self._good(c, row, read) for c in self.checks) and possible(
                self.wheels.values(row)
            )
        return self.told[row]

    def _good(self, check: Check, row: int, values: dict[str, Any]) -> bool:
        reads = self.reads.get(check, frozenset())
        key = (check, *(values[name] for name in sorted(reads)))
        if key not in self.known:
            answer, read = watched(self.wheels, row, judge(self.setting, check))
            if not read <= reads:
                reads = self.reads[check] = reads | read
                self.known = {k: v for k, v in self.known.items() if k[0] is not check}
                key = (check, *(values[name] for name in sorted(reads)))
            self.known[key] = answer < FAILED
        return self.known[key]


def possible(values: dict[str, Any]) -> bool:
    """Whether these are a wheel that can be made."""
    try:
        WheelSpec(**values)
    except SpecError:
        return False
    return True
