"""The cheapest wheels that are strong enough, with few stress analyses.

A stress analysis takes a second; a hundred thousand wheels wait for one. Each limit of the rating
(static strength, toes, roots...) is smooth in the wheel's sizes, so its logarithm is fitted by a
quadratic in theirs, from the wheels analysed so far, and the wheel that should be the cheapest of
those strong enough is analysed next. What is told of a wheel in the end is its own analysis, never
the fit. Source: response surfaces, Box and Wilson 1951 (method, from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from platewheel.parts.base.interruptible import kept
from platewheel.parts.base.so_many import so_many

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Limits = dict[str, float]  # limit of the rating -> wheel load that it allows, N
RIDGE = 1e-3
IDLE = 3  # rounds of climbing without gain after which no wheel is taken to be strong enough
BESIDE = 0.8  # a wheel one size away from the cheapest strong one is tried at so much already
SAME = 1e-9  # costs no further apart are equal
TRUST = 0.97  # a wheel is tried when the fit gives it so much of the load it must carry


@dataclass
class Tried:
    """What has been analysed: row -> limits; an empty one where the wheel cannot be rated. Wheels
    of the same sizes share one analysis; `count` has the analyses made, `stopped` whether Ctrl-C
    ended it."""

    limits: dict[int, Limits] = field(default_factory=dict)
    count: int = 0
    stopped: bool = False

    def load_n(self, row: int) -> float:
        return min(self.limits[row].values(), default=0.0)


def cheapest_strong(
    sizes: NDArray[np.float64],
    cost: NDArray[np.float64],
    family: NDArray[np.int64],
    needed_n: float,
    analyse: Callable[[Sequence[int]], Sequence[Limits]],
    passes: Callable[[int], bool] = lambda row: True,
    *,
    wanted: int,
    most: int,
    first: int = 12,
    batch: int = 4,
) -> Tried:
    """Analyse wheels until `wanted` families have their cheapest strong one, or `most` were tried.

    `sizes`: logarithms of the sizes that strength hangs on, a row a wheel; `family` is a number
    for wheels of one kind; `passes` says whether a row is wanted however strong. Deterministic:
    equal costs fall to the stronger, then to the first. Ctrl-C in a command keeps what is
    known, once a strong one is.
    """
    import numpy as np

    tried = Tried()
    _, kind = np.unique(sizes, axis=0, return_inverse=True)
    kind = kind.ravel()
    _analyse(tried, kind, spread(sizes, min(first, most), int(np.argmin(cost))), analyse)
    barred = np.zeros(len(cost), dtype=bool)
    idle = 0
    while tried.count < most:
        strong = fitted_load_n(sizes, tried)
        best = _best_of_families(tried, cost, family, needed_n, passes)
        known = np.isin(np.arange(len(cost)), list(tried.limits))
        open_ = ~known & ~barred & _better(tried, cost, family, strong, best, wanted)
        batch_now = min(batch, most - tried.count)
        rows: list[int] = []
        for among, apart in (
            (open_ & _beside(sizes, best, cost) & (strong >= BESIDE * needed_n), False),
            (open_ & (strong >= TRUST * needed_n), True),
        ):
            order = np.flatnonzero(among)
            order = order[np.lexsort((order, -strong[order], cost[order]))]
            room = batch_now // 2 if not apart else batch_now - len(rows)
            rows += _picked(order, kind, family, apart, room, rows, barred, passes)
        if not rows:
            if best or idle == IDLE:
                break
            idle = 0 if _climb(kind, tried, strong, batch_now, analyse) else idle + 1
            continue
        try:
            _analyse(tried, kind, rows, analyse)
        except KeyboardInterrupt:
            if not best:
                raise
            kept(f"the proposal of the best of {so_many(len(best), 'wheel')} found")
            tried.stopped = True
            break
    return tried


def _better(
    tried: Tried,
    cost: NDArray[np.float64],
    family: NDArray[np.int64],
    strong: NDArray[np.float64],
    best: dict[int, int],
    wanted: int,
) -> NDArray[np.bool_]:
    """Wheels that would be cheaper than the cheapest strong one of their family, or as cheap and
    by the fit stronger; of no more families than are wanted."""
    import numpy as np

    ceiling = [*sorted(cost[row] for row in best.values())[wanted - 1 : wanted], np.inf][0]
    most_cost, load = np.full(len(cost), np.inf), np.full(len(cost), np.inf)
    for one, row in best.items():
        most_cost[family == one], load[family == one] = cost[row], tried.load_n(row)
    cheaper = cost < np.minimum(ceiling, most_cost) - SAME
    equal = (np.abs(cost - most_cost) <= SAME) & (cost <= ceiling + SAME)
    return np.asarray(cheaper | (equal & (strong > load)))


def _beside(
    sizes: NDArray[np.float64], best: dict[int, int], cost: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Wheels that differ in one size alone from the cheapest strong one."""
    import numpy as np

    if not best:
        return np.zeros(len(sizes), dtype=bool)
    first = min(best.values(), key=lambda row: (cost[row], row))
    return np.asarray((np.abs(sizes - sizes[first]) > 1e-9).sum(axis=1) == 1)


def _picked(
    order: NDArray[np.int64],
    kind: NDArray[np.int64],
    family: NDArray[np.int64],
    apart: bool,
    room: int,
    taken: Sequence[int],
    barred: NDArray[np.bool_],
    passes: Callable[[int], bool],
) -> list[int]:
    """The first of the order that pass, each of its own sizes and, `apart`, of its own family;
    those that do not pass are barred from now on."""
    rows: list[int] = []
    kinds = {int(kind[row]) for row in taken}
    families: set[int] = set()
    for row in order.tolist():
        if len(rows) == room:
            break
        if int(kind[row]) in kinds or (apart and int(family[row]) in families):
            continue
        if not passes(row):
            barred[row] = True
            continue
        rows.append(row)
        kinds.add(int(kind[row]))
        families.add(int(family[row]))
    return rows


def _analyse(
    tried: Tried,
    kind: NDArray[np.int64],
    rows: Sequence[int],
    analyse: Callable[[Sequence[int]], Sequence[Limits]],
) -> None:
    import numpy as np

    found = analyse(rows)
    tried.count += len(rows)
    for row, limits in zip(rows, found, strict=True):
        for twin in np.flatnonzero(kind == kind[row]):
            tried.limits[int(twin)] = limits


def _climb(
    kind: NDArray[np.int64],
    tried: Tried,
    strong: NDArray[np.float64],
    batch: int,
    analyse: Callable[[Sequence[int]], Sequence[Limits]],
) -> bool:
    """With none strong enough yet: analyse what should be the strongest; whether that helped."""
    import numpy as np

    before = max((tried.load_n(row) for row in tried.limits), default=0.0)
    left = np.where(np.isin(kind, kind[list(tried.limits)]), -np.inf, strong)
    order = np.argsort(-left, kind="stable")
    _, heads = np.unique(kind[order], return_index=True)
    rows = [int(row) for row in order[np.sort(heads)][:batch] if np.isfinite(left[row])]
    if not rows:
        return False
    _analyse(tried, kind, rows, analyse)
    return max(tried.load_n(row) for row in tried.limits) > 1.01 * before


def _best_of_families(
    tried: Tried,
    cost: NDArray[np.float64],
    family: NDArray[np.int64],
    needed_n: float,
    passes: Callable[[int], bool],
) -> dict[int, int]:
    """The cheapest strong row of each family; of equals the stronger, then the first."""
    best: dict[int, int] = {}
    good = [row for row in tried.limits if tried.load_n(row) >= needed_n and passes(row)]
    for row in sorted(good, key=lambda row: (cost[row], -tried.load_n(row), row)):
        best.setdefault(int(family[row]), row)
    return best


def spread(sizes: NDArray[np.float64], count: int, start: int) -> list[int]:
    """So many different rows, each as far as can be from those before it, in sizes scaled to
    their range; fewer where there are no more."""
    import numpy as np

    span = np.ptp(sizes, axis=0)
    scaled = (sizes - sizes.min(axis=0)) / np.where(span > 0, span, 1.0)
    rows, away = [start], np.linalg.norm(scaled - scaled[start], axis=1)
    while len(rows) < count and away.max() > 1e-9:
        rows.append(int(np.argmax(away)))
        away = np.minimum(away, np.linalg.norm(scaled - scaled[rows[-1]], axis=1))
    return rows


def fitted_load_n(sizes: NDArray[np.float64], tried: Tried) -> NDArray[np.float64]:
    """The least limit that the fit gives every wheel, N; wheels tried have their own."""
    import numpy as np

    rated = {row: limits for row, limits in tried.limits.items() if limits}
    if not rated:
        return np.zeros(len(sizes))
    span = np.ptp(sizes, axis=0)
    scaled = 2 * (sizes - sizes.min(axis=0)) / np.where(span > 0, span, 1.0) - 1
    scaled = scaled[:, span > 0]
    terms = np.hstack([np.ones((len(sizes), 1)), scaled, scaled**2])
    penalty = RIDGE * np.diag([0.0] + [1.0] * scaled.shape[1] + [10.0] * scaled.shape[1])
    rows = list(rated)
    least = np.full(len(sizes), np.inf)
    for name in sorted({name for limits in rated.values() for name in limits}):
        have = [row for row in rows if name in rated[row]]
        known = np.log([rated[row][name] for row in have])
        at = terms[have]
        weights = np.linalg.solve(at.T @ at + penalty, at.T @ known)
        least = np.minimum(least, terms @ weights)
    load: NDArray[Any] = np.exp(least)
    for row in tried.limits:
        load[row] = tried.load_n(row)
    return load
