"""The picture of a turnout: what it prints can be read, and lies in it."""

from __future__ import annotations

import re

import pytest

from platewheel.cli.papers.drawings.turnout import SIZE, turnout
from tests.parts.drawn_text import outside, overlaps

MM = {"Fc": "17", "Fx": "24", "C": "440", "S": "416", "opening": "35", "heel": "35", "nose": "5"}
MM |= {"G": "457"}
INCHES = MM | {"C": "17 21/64", "S": "16 3/8", "opening": "1 3/8", "heel": "1 3/8", "Fx": "15/16"}
INCHES |= {"G": "17 63/64", "Fc": "43/64", "nose": "13/64"}
NAMED = {"opening": "open tongue", "Fc": "Fc, check rail", "Fx": "Fx, at the nose"}


@pytest.mark.parametrize("sizes", [MM, INCHES], ids=["mm", "inches"])
def test_texts_are_large_and_clear_of_each_other(sizes: dict[str, str]) -> None:
    svg = turnout(sizes, "mm")
    assert not overlaps(svg)
    assert not outside(svg)
    letters = {
        text: float(size) for size, text in re.findall(r'font-size="([\d.]+)"[^>]*>([^<]+)</t', svg)
    }
    for key, size in sizes.items():
        assert letters[f"{NAMED.get(key, key)} {size}"] >= (SIZE if sizes is MM else 0.8 * SIZE)
