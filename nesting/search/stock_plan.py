"""Which patterns to cut how often: an integer programme, least cost and then fewest patterns.

Source: the cutting stock problem, Gilmore and Gomory 1961, over patterns that the search found;
solved to the end by the HiGHS solver in scipy.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from platewheel.nesting.stock.layout import Placement, Sheet
from platewheel.parts.base.interruptible import interruptible


@dataclass(frozen=True)
class Pattern:
    """A plate and what may be cut from it; a plan may cut less from it, never more."""

    sheet: Sheet
    placements: tuple[Placement, ...]
    price: float

    @property
    def counts(self) -> Counter[str]:
        return Counter(placement.blank.name for placement in self.placements)


def stock_plan(patterns: Sequence[Pattern], demand: Mapping[str, int]) -> list[int] | None:
    """How often to cut each pattern so that all is made; None where the plates do not suffice.

    Least price of all plates first; then offcuts used up, so that new plates keep larger rests;
    then fewest different patterns of new plates, fewest of these, and the fullest: what is over
    is left off the last one.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    count, names = len(patterns), list(demand)
    made = np.array([[p.counts[name] for p in patterns] for name in names], dtype=float)
    price = np.array([p.price for p in patterns])
    most = np.array([_most(p, demand) for p in patterns], dtype=float)
    sheets = {id(p.sheet): p.sheet for p in patterns if p.sheet.count is not None}
    limits = [
        (np.array([float(p.sheet is sheet) for p in patterns]), float(sheet.count or 0))
        for sheet in sheets.values()
    ]
    whole = np.ones(2 * count)
    zeros = np.zeros_like(made)
    rules = [
        LinearConstraint(np.hstack([made, zeros]), np.array([demand[n] for n in names]), np.inf),
        LinearConstraint(np.hstack([np.eye(count), -np.diag(most)]), -np.inf, 0.0),
    ]
    rules += [
        LinearConstraint(np.concatenate([row, np.zeros(count)])[None, :], 0.0, top)
        for row, top in limits
    ]
    bounds = Bounds(0.0, np.concatenate([most, np.ones(count)]))
    none = np.zeros(count)
    bought = np.array([float(not p.sheet.is_offcut) for p in patterns])
    area = np.array([sum(q.blank.area_mm2 for q in p.placements) for p in patterns]) / 1e6
    aims = (
        np.concatenate([price, none]),
        np.concatenate([(bought - 1) * area, none]),
        np.concatenate([none, bought]),
        np.concatenate([bought, none]),
        np.concatenate([-bought * area, none]),
    )
    answer = None
    for aim in aims:
        found = interruptible(
            partial(milp, aim, constraints=list(rules), bounds=bounds, integrality=whole)
        )
        if not found.success:
            break
        answer = found.x
        slack = 1e-6 * max(1.0, abs(found.fun))
        rules.append(LinearConstraint(aim[None, :], -np.inf, found.fun + slack))
    return None if answer is None else [round(x) for x in answer[:count]]


def _most(pattern: Pattern, demand: Mapping[str, int]) -> int:
    """Plates after which a pattern makes no more that is wanted."""
    times = [-(-demand[name] // n) for name, n in pattern.counts.items() if demand.get(name)]
    most = max(times, default=0)
    return most if pattern.sheet.count is None else min(most, pattern.sheet.count)
