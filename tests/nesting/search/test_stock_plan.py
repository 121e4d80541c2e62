"""The integer programme over patterns, against every mix tried and a textbook's cutting stock."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.search.stock_plan import Pattern, stock_plan
from platewheel.nesting.stock.layout import Placement, Sheet
from platewheel.parts.geometry.blank import Blank
from tests.nesting.plates import disc, plate

BIG, SMALL = disc(90.0, "big"), disc(40.0, "small")


def pattern(sheet: Sheet, price: float, **counts: int) -> Pattern:
    blanks: dict[str, Blank] = {"big": BIG, "small": SMALL}
    placed = tuple(
        Placement(blanks.get(name, disc(10.0, name)), 0.0, 0.0, 0.0)
        for name, n in counts.items()
        for _ in range(n)
    )
    return Pattern(sheet, placed, price)


def test_the_cheaper_size_is_taken_and_the_fewest_patterns() -> None:
    large, small = plate(1000.0, 500.0), plate(500.0, 500.0)
    patterns = [
        pattern(large, 100.0, big=4, small=4),
        pattern(large, 100.0, big=4, small=5),
        pattern(small, 45.0, big=2, small=1),
    ]
    assert stock_plan(patterns[::2], {"big": 8, "small": 8}) == [2, 0]
    assert stock_plan(patterns, {"big": 8, "small": 10}) == [0, 2, 0]
    assert stock_plan(patterns, {"big": 2, "small": 1}) == [0, 0, 1]


def test_plates_to_hand_are_not_overdrawn() -> None:
    one = plate(500.0, 500.0, count=1)
    assert stock_plan([pattern(one, 10.0, big=2)], {"big": 3}) is None
    more = plate(900.0, 500.0)
    assert stock_plan([pattern(one, 10.0, big=2), pattern(more, 99.0, big=2)], {"big": 3}) == [1, 1]


def test_a_textbook_cutting_stock_problem() -> None:
    """Chvatal, Linear Programming (1983), chapter 13: finals of 45, 36, 31, 14 inches, 97, 610,
    395 and 211 off, from raws of 100 inches: 453 raws (from memory)."""
    finals = {"a": (45, 97), "b": (36, 610), "c": (31, 395), "d": (14, 211)}
    raw = plate(100.0, 10.0)
    patterns = [
        pattern(raw, 1.0, **dict(zip(finals, counts, strict=True)))
        for counts in product(range(3), range(3), range(4), range(8))
        if any(counts) and sum(n * finals[f][0] for n, f in zip(counts, finals, strict=True)) <= 100
    ]
    times = stock_plan(patterns, {name: count for name, (_, count) in finals.items()})
    assert times is not None
    assert sum(times) == 453


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, 3), st.integers(0, 3), st.sampled_from([7.0, 10.0, 13.0])),
        min_size=1,
        max_size=4,
    ),
    st.integers(0, 5),
    st.integers(0, 5),
)
def test_no_mix_is_cheaper(rows: list[tuple[int, int, float]], big: int, small: int) -> None:
    patterns = [pattern(plate(500.0, 500.0), price, big=a, small=b) for a, b, price in rows]
    demand = {"big": big, "small": small}
    mixes = [
        (sum(n * price for n, (_, _, price) in zip(mix, rows, strict=True)), sum(map(bool, mix)))
        for mix in product(range(6), repeat=len(rows))
        if sum(n * a for n, (a, _, _) in zip(mix, rows, strict=True)) >= big
        and sum(n * b for n, (_, b, _) in zip(mix, rows, strict=True)) >= small
    ]
    times = stock_plan(patterns, demand)
    if not mixes:
        assert times is None
        return
    assert times is not None
    spent = sum(n * p.price for n, p in zip(times, patterns, strict=True))
    assert (spent, sum(map(bool, times))) == min(mixes)
