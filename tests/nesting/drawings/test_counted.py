"""Large drawings: counted before they are read, and joined without going through all pairs."""

from __future__ import annotations

import math
import random
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.nesting.drawings import counted, opened
from platewheel.nesting.drawings.counted import (
    MOST_ENTITIES,
    entities_in_space,
    entities_in_text,
)
from platewheel.nesting.drawings.joined_ends import gaps, joined_ends, walks
from platewheel.nesting.drawings.read import read_outline
from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.outline import area_mm2, segments
from tests.nesting.drawn_files import drawing, save


def fill(space: Any) -> int:
    """One of each sort that is written as several records; returns how many entities."""
    space.add_polyline2d([(0, 0), (9, 0), (9, 9)], close=True)
    space.add_circle((20, 20), 5)
    space.add_text("0")
    space.add_point((0, 0))
    return 4


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
def test_entities_are_counted_in_the_text(version: str, tmp_path: Path) -> None:
    doc = drawing(version)
    block = doc.blocks.new("b")
    fill(block)
    count = fill(doc.modelspace()) + 1
    insert = doc.modelspace().add_blockref("b", (50, 0))
    insert.add_attrib("TAG", "x")
    path = save(doc, tmp_path)
    assert entities_in_text(path.read_bytes()) == count
    assert entities_in_text(path.read_bytes().replace(b"\n", b"\r\n")) == count
    assert entities_in_space(doc) == count - 1 + 4 + 1  # the block's, and what is written by it


def test_blocks_count_as_often_as_they_are_set_out() -> None:
    doc = drawing()
    inner, outer = doc.blocks.new("inner"), doc.blocks.new("outer")
    fill(inner)
    grid = {"row_count": 3, "column_count": 5, "row_spacing": 40, "column_spacing": 40}
    outer.add_blockref("INNER", (0, 0), dxfattribs=grid)
    for _ in range(2):
        doc.modelspace().add_blockref("outer", (0, 0))
    assert entities_in_space(doc) == 2 * 15 * 4


def test_too_many_are_told_with_their_number_before_the_file_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    doc = drawing()
    for i in range(30):
        doc.modelspace().add_circle((30 * i, 0), 5)
    path = save(doc, tmp_path)
    monkeypatch.setattr(opened, "MOST_ENTITIES", 29)
    monkeypatch.setattr("ezdxf.readfile", lambda path: pytest.fail("read all the same"))
    with pytest.raises(SpecError) as caught:
        read_outline(path, said="many.dxf")
    (fault,) = caught.value.faults
    assert (fault.key, fault.value) == ("file", "many.dxf")
    assert "at most 29 entities" in fault.allowed
    assert "there are 30" in fault.allowed
    assert "save the one part alone" in fault.advice


def test_blocks_that_multiply_are_told_before_they_are_taken_apart(tmp_path: Path) -> None:
    doc = drawing()
    names = [f"b{i}" for i in range(9)]
    doc.blocks.new(names[0]).add_circle((0, 0), 1)
    for inner, outer in pairwise(names):
        block = doc.blocks.new(outer)
        for i in range(10):
            block.add_blockref(inner, (i, 0))
    doc.modelspace().add_blockref(names[-1], (0, 0))
    assert entities_in_space(doc) == 10**8
    with pytest.raises(SpecError, match=f"at most {MOST_ENTITIES} entities.*there are 100000000"):
        read_outline(save(doc, tmp_path))


def test_blocks_of_nothing_that_multiply_are_told_too(tmp_path: Path) -> None:
    """Nothing is drawn by them, but to find that takes as long."""
    doc = drawing()
    doc.blocks.new("b0")
    for i in range(10):
        block = doc.blocks.new(f"b{i + 1}")
        for k in range(10):
            block.add_blockref(f"b{i}", (k, 0))
    doc.modelspace().add_blockref("b10", (0, 0))
    with pytest.raises(SpecError, match=f"at most {MOST_ENTITIES} entities.*are 10000000000"):
        read_outline(save(doc, tmp_path))


@pytest.mark.parametrize("empty", [True, False])
def test_an_array_of_a_million_blocks_is_told(empty: bool, tmp_path: Path) -> None:
    doc = drawing()
    block = doc.blocks.new("b")
    if not empty:
        block.add_circle((0, 0), 1)
    grid = {"row_count": 1000, "column_count": 1000, "row_spacing": 4, "column_spacing": 4}
    doc.modelspace().add_blockref("b", (0, 0), dxfattribs=grid)
    with pytest.raises(SpecError, match="there are 1000000"):
        read_outline(save(doc, tmp_path))


@pytest.mark.parametrize("round_about", [1, 4])
def test_a_block_that_holds_itself_is_told_by_name(round_about: int) -> None:
    doc = drawing()
    for i in range(round_about):
        doc.blocks.new(f"b{i}").add_blockref(f"B{(i + 1) % round_about}", (1, 1))
    doc.modelspace().add_blockref("b0", (0, 0))
    with pytest.raises(counted.BlockError, match="the block 'B0', which holds itself"):
        entities_in_space(doc)


def test_a_block_that_is_not_there_is_told() -> None:
    doc = drawing()
    doc.modelspace().add_blockref("gone", (0, 0))
    with pytest.raises(counted.BlockError, match="'gone', which is not in the file"):
        entities_in_space(doc)


def test_many_lines_in_any_order_make_their_loop(tmp_path: Path) -> None:
    count, rng = 3000, random.Random(3)
    doc = drawing()
    corners = [
        (500 * math.cos(2 * math.pi * i / count), 300 * math.sin(2 * math.pi * i / count))
        for i in range(count)
    ]
    edges = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    rng.shuffle(edges)
    for a, b in edges:
        ends = [a, b]
        rng.shuffle(ends)
        doc.modelspace().add_line(*ends)
    drawn = read_outline(save(doc, tmp_path))
    assert len(segments(drawn.outline)) == count
    exact = count / 2 * math.sin(2 * math.pi / count) * 500 * 300  # of the polygon
    assert area_mm2(drawn.outline) == pytest.approx(exact, rel=1e-9)


PLACES = st.tuples(st.integers(0, 4), st.integers(0, 4))


@given(st.lists(st.tuples(PLACES, PLACES), min_size=1, max_size=20))
def test_ends_meet_as_if_all_pairs_were_looked_at(lines: list[Any]) -> None:
    """On a grid of 1 mm with ends joined within 0.6, beside a plain count of what meets where."""
    ends = [(float(x), float(y)) for line in lines for x, y in line]
    met = joined_ends(ends, [True] * len(lines), 0.6, 0.6)
    there: dict[Any, list[int]] = {}
    for i, end in enumerate(ends):
        there.setdefault(end, []).append(i)
    pairs = {end: group for end, group in there.items() if len(group) == 2}
    assert met.partner == {i: group[1 - k] for group in pairs.values() for k, i in enumerate(group)}
    assert sorted(met.loose) == sorted(end for end, group in there.items() if len(group) == 1)
    assert dict(met.branches) == {e: len(group) for e, group in there.items() if len(group) > 2}
    if not met.loose and not met.branches:
        walked = [line for walk in walks(met.partner) for line, _ in walk]
        assert sorted(walked) == list(range(len(lines)))


@given(st.lists(PLACES, max_size=30, unique=True))
def test_gaps_are_told_the_nearest_first(places: list[Any]) -> None:
    loose = [(float(x), float(y)) for x, y in places]
    told = gaps(loose, 5)
    assert len(told) == min(5, len(loose) // 2)
    ends = [end for pair in told for end in pair]
    assert len(set(ends)) == len(ends)
    lengths = [math.dist(a, b) for a, b in told]
    if loose[1:]:
        least = min(math.dist(a, b) for i, a in enumerate(loose) for b in loose[:i])
        assert lengths[0] == pytest.approx(least)
