"""Screened wheels rated until the cheapest strong ones are known."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.propose.late_checks import LateChecks
from platewheel.parts.propose.screening import Wheels, asked
from platewheel.parts.propose.sifting import Sifted
from platewheel.parts.propose.strength_search import Limits, cheapest_strong
from platewheel.parts.propose.strength_sizes import strength_sizes
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

NOISE = 6  # decimals of a cost that are its own
Analyse = Callable[[Sequence[Setting]], Sequence[Limits]]


@dataclass(frozen=True)
class Found:
    """Wheels rated, by so many analyses: their rows in `wheels`, cost and rated load, and whether
    they pass the checks left to the end; `stopped` by the user."""

    wheels: Wheels
    analyses: int
    rows: tuple[int, ...]
    loads_n: tuple[float, ...]
    passes: tuple[bool, ...]
    stopped: bool
    needed_n: float
    cost: NDArray[np.float64]  # of every wheel
    family: NDArray[np.int64]

    @property
    def strong(self) -> list[int]:
        """Rows that carry the load and pass, cheapest first; of equals the stronger."""
        rated = dict(zip(self.rows, self.loads_n, strict=True))
        good = [
            row
            for row, passes in zip(self.rows, self.passes, strict=True)
            if passes and rated[row] >= self.needed_n
        ]
        return sorted(good, key=lambda row: (self.cost[row], -rated[row], row))


def needed_n(setting: Setting, reserve: float = 0.0) -> float:
    """Mean wheel load that a wheel must bear, N: that of the loaded wagon and a share of it in
    reserve."""
    return (1 + reserve) * setting.static_wheel_load_n


def prices(wheels: Wheels, parts: Sequence[Callable[[WheelSpec], float]]) -> NDArray[np.float64]:
    """Cost of every wheel: the sum over its parts, rounded free of the noise of summing. Raises:
    GeometryError where a part hangs on a dimension that is not chosen."""
    import numpy as np

    total = np.zeros(wheels.count)
    for part in parts:
        found = asked(wheels, part, part)
        if found is None:
            raise GeometryError("a price hangs on a dimension that is not chosen yet")
        total += found
    return np.round(total, NOISE)


def kinds(wheels: Wheels) -> NDArray[np.int64]:
    """A number for wheels alike in diameter, ring stock and wall: they are variants of one."""
    import numpy as np

    rings = wheels.choices.ring
    alike = {(ring.source, ring.thickness_mm): 0 for ring in rings}
    numbers = {key: k for k, key in enumerate(alike)}
    of_ring = np.array([numbers[ring.source, ring.thickness_mm] for ring in rings])
    kind = wheels.places["diameter"].astype(np.int64) * len(numbers)
    return np.asarray(kind + of_ring[wheels.places["ring"]])


def cheapest_of_alike(wheels: Wheels, cost: NDArray[np.float64]) -> NDArray[np.int64]:
    """Of wheels of one kind with the same strength the cheapest: number of flange segments and
    vents do not count."""
    import numpy as np

    alike = np.column_stack([strength_sizes(wheels), kinds(wheels)])
    _, group = np.unique(alike, axis=0, return_inverse=True)
    order = np.lexsort((np.arange(len(cost)), cost, group.ravel()))
    first = np.ones(len(order), dtype=bool)
    first[1:] = group.ravel()[order][1:] != group.ravel()[order][:-1]
    return np.asarray(np.sort(order[first]))


def find_wheels(
    setting: Setting,
    sift: Sifted,
    cost: NDArray[np.float64],
    analyse: Analyse,
    *,
    wanted: int,
    most: int,
    reserve: float = 0.0,
) -> Found:
    """Analyse screened wheels, see `cheapest_strong`; rated for the load with so much reserve."""
    need = needed_n(setting, reserve)
    keep = cheapest_of_alike(sift.wheels, cost)
    wheels, cost = sift.wheels.kept(keep), cost[keep]
    family = kinds(wheels)
    late = LateChecks(setting, wheels, sift.late)

    def rows_analysed(rows: Sequence[int]) -> Sequence[Limits]:
        return analyse([wheels.setting(setting, row) for row in rows])

    tried = cheapest_strong(
        strength_sizes(wheels, setting.shop.thickness_tolerance),
        cost,
        family,
        need,
        rows_analysed,
        late.passes,
        wanted=wanted,
        most=most,
    )
    rows = tuple(tried.limits)
    loads = tuple(tried.load_n(row) for row in rows)
    passes = tuple(late.passes(row) for row in rows)
    return Found(
        wheels,
        tried.count,
        rows,
        loads,
        passes,
        tried.stopped,
        need,
        cost,
        family,
    )


def families(found: Found, count: int, without: Collection[int] = ()) -> list[int]:
    """The cheapest strong wheel of each family, cheapest family first; `without` some rows, so
    that a family has its next."""
    best: dict[int, int] = {}
    for row in found.strong:
        if row not in without:
            best.setdefault(int(found.family[row]), row)
    return list(best.values())[:count]
