"""Flat bar and pipe cut to length with least stock: a cutting list, by integer programme."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Piece:
    """A length wanted, and how many."""

    name: str
    length_mm: float
    count: int


@dataclass(frozen=True)
class Length:
    """A stock length to cut from; `count` None means as many as needed."""

    name: str
    length_mm: float
    count: int | None
    price: float


@dataclass(frozen=True)
class CutPlan:
    """One way to cut one stock length: pieces by name, what is left, how often it is cut so."""

    stock: Length
    pieces: tuple[tuple[str, int], ...]
    rest_mm: float
    repeat: int


def cut_lengths(
    pieces: Sequence[Piece], stock: Sequence[Length], kerf_mm: float
) -> tuple[tuple[CutPlan, ...], tuple[Piece, ...]]:
    """Cheapest plan (by price, or by length where a price is missing), and what cannot be cut.

    A kerf lies between two pieces and after the last one unless it ends flush. Each pattern is
    a column of the cutting-stock problem (Gilmore and Gomory, Operations Research 9, 1961),
    solved by scipy's milp. Where the stock does not last, as many pieces as can be are cut.
    """
    fits = [p for p in pieces if any(p.length_mm <= s.length_mm + 1e-9 for s in stock) and p.count]
    never = tuple(p for p in pieces if p.count and p not in fits)
    if not fits:
        return (), never
    patterns = [
        (length, counts)
        for length in stock
        if length.count != 0
        for counts in _patterns(length, fits, kerf_mm)
    ]
    if not patterns:
        return (), (*never, *fits)
    times, short = (_by_one if len(patterns) == 1 else _solve)(fits, stock, patterns)
    plans, over = [], {p.name: 0 for p in fits}
    for (length, counts), repeat in zip(patterns, times, strict=True):
        if repeat:
            plans += _plans(fits, length, counts, repeat, over, short, kerf_mm)
    missing = tuple(Piece(p.name, p.length_mm, n) for p, n in zip(fits, short, strict=True) if n)
    return tuple(plans), (*never, *missing)


def _patterns(length: Length, pieces: Sequence[Piece], kerf_mm: float) -> Iterator[tuple[int, ...]]:
    """Every fullest combination of pieces on one length."""

    def fill(i: int, room: float) -> Iterator[tuple[int, ...]]:
        need = pieces[i].length_mm + kerf_mm
        most = min(pieces[i].count, int((room + 1e-9) // need))
        if i == len(pieces) - 1:
            yield (most,)
            return
        for count in range(most, -1, -1):
            for rest in fill(i + 1, room - count * need):
                yield (count, *rest)

    return (counts for counts in fill(0, length.length_mm + kerf_mm) if any(counts))


def _by_one(
    pieces: Sequence[Piece],
    stock: Sequence[Length],
    patterns: Sequence[tuple[Length, tuple[int, ...]]],
) -> tuple[list[int], list[int]]:
    """What `_solve` finds where there is one pattern alone, without loading a solver: it is cut
    till nothing that it has is missing, or no length is left."""
    ((length, counts),) = patterns
    times = max(-(-p.count // n) for p, n in zip(pieces, counts, strict=True) if n)
    if length.count is not None:
        times = min(times, length.count)
    return [times], [max(0, p.count - times * n) for p, n in zip(pieces, counts, strict=True)]


def _solve(
    pieces: Sequence[Piece],
    stock: Sequence[Length],
    patterns: Sequence[tuple[Length, tuple[int, ...]]],
) -> tuple[list[int], list[int]]:
    """How often each pattern is cut, and how many of each piece stay uncut."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    priced = all(s.price > 0 for s in stock)
    costs = [s.price if priced else s.length_mm for s, _ in patterns]
    dear = 1e3 * max(costs)  # leaving a piece out costs more than any stock it could use
    n, m = len(patterns), len(pieces)
    made = np.array([[counts[i] for _, counts in patterns] for i in range(m)], dtype=float)
    demand = LinearConstraint(
        np.hstack([made, np.eye(m)]), lb=np.array([p.count for p in pieces], dtype=float)
    )
    limits = [demand]
    for length in stock:
        if length.count is not None:
            row = [1.0 if s is length else 0.0 for s, _ in patterns] + [0.0] * m
            limits.append(LinearConstraint(np.array([row]), ub=float(length.count)))
    result = milp(
        np.array(costs + [dear] * m),
        constraints=limits,
        integrality=np.ones(n + m),
        bounds=Bounds(0, np.inf),
    )
    if result.x is None:
        raise ValueError(f"cutting list: the solver found no plan ({result.message})")
    whole = [round(x) for x in result.x]
    return whole[:n], whole[n:]


def _plans(
    pieces: Sequence[Piece],
    length: Length,
    counts: tuple[int, ...],
    repeat: int,
    made: dict[str, int],
    short: Sequence[int],
    kerf_mm: float,
) -> list[CutPlan]:
    """Plans for one pattern, the last one without the pieces that would be too many."""
    plans: dict[tuple[int, ...], int] = {}
    for _ in range(repeat):
        kept = []
        for piece, count, missing in zip(pieces, counts, short, strict=True):
            take = min(count, piece.count - missing - made[piece.name])
            made[piece.name] += take
            kept.append(take)
        plans[tuple(kept)] = plans.get(tuple(kept), 0) + 1
    result = []
    for kept_counts, times in plans.items():
        used = sum((p.length_mm + kerf_mm) * n for p, n in zip(pieces, kept_counts, strict=True))
        named = tuple((p.name, n) for p, n in zip(pieces, kept_counts, strict=True) if n)
        if named:
            result.append(CutPlan(length, named, max(0.0, length.length_mm - used), times))
    return result


def lengths_price(plans: Sequence[CutPlan]) -> float | None:
    """Price of the stock lengths used; None where one has none."""
    if not all(plan.stock.price > 0 for plan in plans):
        return None
    return sum(plan.stock.price * plan.repeat for plan in plans)
