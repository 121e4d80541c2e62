"""Cutting lists against trying everything, on small cases."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.sawing.cut_lengths import CutPlan, Length, Piece, cut_lengths

quick = settings(max_examples=150, deadline=None, derandomize=True)


def uses_mm(lengths: list[float], kerf_mm: float) -> float:
    """Least bar that a row of pieces is cut from: a kerf between each two."""
    return sum(lengths) + kerf_mm * max(0, len(lengths) - 1)


def made(plans: tuple[CutPlan, ...]) -> Counter[str]:
    total: Counter[str] = Counter()
    for plan in plans:
        for name, count in plan.pieces:
            total[name] += count * plan.repeat
    return total


def assert_can_be_cut(
    plans: tuple[CutPlan, ...],
    missing: tuple[Piece, ...],
    pieces: list[Piece],
    stock: list[Length],
    kerf_mm: float,
) -> None:
    """Every plan goes on its bar, stock lasts, pieces cut and missing are those wanted."""
    long = {piece.name: piece.length_mm for piece in pieces}
    for plan in plans:
        assert plan.repeat >= 1
        row = [long[name] for name, count in plan.pieces for _ in range(count)]
        assert row
        used = uses_mm(row, kerf_mm)
        assert used <= plan.stock.length_mm + 1e-6
        left = max(0.0, plan.stock.length_mm - used - kerf_mm)
        assert plan.rest_mm == pytest.approx(left, abs=1e-6)
    for length in stock:
        if length.count is not None:
            assert sum(p.repeat for p in plans if p.stock is length) <= length.count
    lacking = Counter({piece.name: piece.count for piece in missing})
    assert made(plans) + lacking == Counter({p.name: p.count for p in pieces if p.count})
    keys = [(plan.stock.name, plan.pieces) for plan in plans]
    assert len(set(keys)) == len(keys)  # each way told once


def paid(plans: tuple[CutPlan, ...], stock: list[Length]) -> float:
    priced = all(length.price > 0 for length in stock)
    return math.fsum((p.stock.price if priced else p.stock.length_mm) * p.repeat for p in plans)


def best_by_trying_all(
    pieces: list[Piece], stock: list[Length], kerf_mm: float
) -> tuple[int, float]:
    """Least pieces missing, and then the least cost, by going through every way to cut."""
    long = [piece.length_mm for piece in pieces]
    priced = all(length.price > 0 for length in stock)
    cost = [length.price if priced else length.length_mm for length in stock]

    def rows(bar: int) -> list[tuple[int, ...]]:
        most = [range(piece.count + 1) for piece in pieces]
        return [
            counts
            for counts in itertools.product(*most)
            if any(counts)
            and uses_mm([a for a, n in zip(long, counts, strict=True) for _ in range(n)], kerf_mm)
            <= stock[bar].length_mm + 1e-9
        ]

    ways = [rows(bar) for bar in range(len(stock))]

    @cache
    def best(wanted: tuple[int, ...], bars: tuple[int, ...]) -> tuple[int, float]:
        found = (sum(wanted), 0.0)
        for bar, left in enumerate(bars):
            if not left:
                continue
            after = (*bars[:bar], left - 1, *bars[bar + 1 :])
            for counts in ways[bar]:
                rest = tuple(w - n for w, n in zip(wanted, counts, strict=True))
                if min(rest) >= 0:
                    short, more = best(rest, after)
                    found = min(found, (short, round(more + cost[bar], 6)))
        return found

    everything = sum(piece.count for piece in pieces)
    return best(
        tuple(piece.count for piece in pieces),
        tuple(everything if s.count is None else min(s.count, everything) for s in stock),
    )


@st.composite
def cases(draw: st.DrawFn) -> tuple[list[Piece], list[Length], float]:
    kinds = draw(st.integers(1, 2))
    length = st.integers(2, 12).map(lambda n: 100.0 * n) | st.floats(150, 1200)
    pieces = [Piece(f"piece-{i}", draw(length), draw(st.integers(0, 3))) for i in range(kinds)]
    stock = [
        Length(
            f"bar-{i}",
            draw(st.integers(3, 20).map(lambda n: 100.0 * n) | st.floats(300, 2000)),
            draw(st.none() | st.integers(0, 2)),
            draw(st.sampled_from([0.0, 10.0, 17.0, 30.0])),
        )
        for i in range(draw(st.integers(1, 2)))
    ]
    return pieces, stock, draw(st.sampled_from([0.0, 3.0]) | st.floats(0, 10))


@quick
@given(cases())
def test_no_way_to_cut_is_better(case: tuple[list[Piece], list[Length], float]) -> None:
    pieces, stock, kerf_mm = case
    plans, missing = cut_lengths(pieces, stock, kerf_mm)
    assert_can_be_cut(plans, missing, pieces, stock, kerf_mm)
    short, cost = best_by_trying_all(pieces, stock, kerf_mm)
    assert sum(piece.count for piece in missing) == short
    assert paid(plans, stock) == pytest.approx(cost, abs=1e-5)


def test_kerf_lies_between_pieces_and_not_after_a_flush_one() -> None:
    """6000 mm gives six of 997.5 with 3 mm kerfs (6 x 997.5 + 5 x 3 = 6000), of 997.6 only five."""
    bar = Length("bar", 6000.0, None, 0.0)
    (flush,), _ = cut_lengths([Piece("tread", 997.5, 6)], [bar], 3.0)
    assert (flush.pieces, flush.rest_mm, flush.repeat) == ((("tread", 6),), 0.0, 1)
    plans, missing = cut_lengths([Piece("tread", 997.6, 6)], [bar], 3.0)
    assert sum(plan.repeat for plan in plans) == 2
    assert not missing


def test_price_decides_where_every_bar_has_one() -> None:
    """Two of 900: from one of 2000 at 50, or from two of 1000 at 20 each; by length the same."""
    long, short = Length("long", 2000.0, None, 50.0), Length("short", 1000.0, None, 20.0)
    plans, _ = cut_lengths([Piece("tread", 900.0, 2)], [long, short], 3.0)
    assert [(p.stock.name, p.repeat) for p in plans] == [("short", 2)]


def test_length_decides_where_a_price_is_missing() -> None:
    long, short = Length("long", 1900.0, None, 0.0), Length("short", 1000.0, None, 20.0)
    plans, _ = cut_lengths([Piece("tread", 900.0, 2)], [long, short], 3.0)
    assert [(p.stock.name, p.repeat) for p in plans] == [("long", 1)]


def test_what_fits_no_bar_or_finds_none_left_is_told() -> None:
    pieces = [Piece("long", 7000.0, 2), Piece("tread", 2500.0, 7)]
    plans, missing = cut_lengths(pieces, [Length("bar", 6000.0, 3, 1.0)], 3.0)
    assert made(plans) == {"tread": 6}
    assert set(missing) == {Piece("long", 7000.0, 2), Piece("tread", 2500.0, 1)}


def test_no_bar_to_hand_all_is_missing() -> None:
    piece = Piece("tread", 900.0, 4)
    assert cut_lengths([piece], [], 3.0) == ((), (piece,))
    assert cut_lengths([piece], [Length("bar", 6000.0, 0, 1.0)], 3.0) == ((), (piece,))


def test_nothing_wanted_nothing_cut() -> None:
    bar = Length("bar", 6000.0, None, 0.0)
    assert cut_lengths([Piece("tread", 900.0, 0)], [bar], 3.0) == ((), ())


def test_many_missing_does_not_waste_stock() -> None:
    """Far more asked than the stock holds: every bar is used once, each for one piece."""
    pieces = [Piece("tread", 900.0, 400)]
    stock = [Length("a", 1000.0, 20, 10.0), Length("b", 1000.0, 20, 10.1)]
    plans, missing = cut_lengths(pieces, stock, 3.0)
    assert sum(plan.repeat for plan in plans) == 40
    assert missing == (Piece("tread", 900.0, 360),)


def test_a_large_job_comes_near_the_bound_of_its_lengths() -> None:
    """300 rings of 917 mm: six to a bar of 6000 (6 x 917 + 5 x 3 = 5517), so 50 bars."""
    plans, missing = cut_lengths(
        [Piece("tread", 917.0, 300)], [Length("bar", 6000.0, None, 40.0)], 3.0
    )
    assert not missing
    assert [(plan.pieces, plan.repeat) for plan in plans] == [((("tread", 6),), 50)]
