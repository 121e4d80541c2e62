"""A line that two strips share: the sound file is taken, each fault in it is told.

The file is made by hand, number by number: strips of 100 x 20 mm, 1.5 mm apart, on 160 x 100 mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from platewheel.nesting.proof.asked import Asked, AskedPart
from platewheel.nesting.proof.cuts import prove_cuts
from platewheel.parts.geometry.outline import polygon
from tests.nesting.proof.good_file import KERF, LEAD, QUARTER, E, Edit, line, path, write
from tests.nesting.proof.spoilt import TOTALS, edit, put

H = KERF / 2
PLATE = ((0.0, 0.0), (160.0, 0.0), (160.0, 100.0), (0.0, 100.0))
LOW = polygon([(30.0, 20.0), (130.0, 20.0), (130.0, 40.0), (30.0, 40.0)])
HIGH = polygon([(30.0, 41.5), (130.0, 41.5), (130.0, 61.5), (30.0, 61.5)])
LEFT_LOW = [(30, 20 - H, -QUARTER), (30 - H, 20)]
ROUND_LOW = [
    (30 - H, 30.0),
    (30 - H, 40, -QUARTER),
    (30, 40 + H),
    (130, 40 + H, -QUARTER),
    (130 + H, 40),
    (130 + H, 20, -QUARTER),
    (130, 20 - H),
    *LEFT_LOW,
]
OPEN_HIGH = [
    (30, 40.75, -QUARTER),
    (29.25, 41.5),
    (29.25, 61.5, -QUARTER),
    (30, 62.25),
    (130, 62.25, -QUARTER),
    (130.75, 61.5),
    (130.75, 41.5, -QUARTER),
    (130, 40.75),
]


def good() -> list[E]:
    return [
        path("sheet-edge", list(PLATE), "edge"),
        line("lead", (30 - H - LEAD, 30.0), (30 - H, 30.0), "lead"),
        path("cut-outline", ROUND_LOW, "low"),
        path("cut-outline", OPEN_HIGH, "high", closed=False),
    ]


def asked() -> Asked:
    """Two rounds of 240 mm and of the corners, less the shared 100 mm."""
    return Asked(
        plate=PLATE,
        parts=(AskedPart(1, "low", LOW), AskedPart(2, "high", HIGH)),
        pierces=2,
        cut_length_mm=2 * (240 + 2 * math.pi * H) - 100 + LEAD,
        kerf_mm=KERF,
        kerf_in_path=True,
        lead_in_mm=LEAD,
        pierce_clear_mm=4.0,
        shared=((1, 2),),
    )


def flat(corners: list[tuple[float, ...]]) -> tuple[tuple[float, ...], ...]:
    return tuple((*c, 0.0)[:3] for c in corners)


Change = Callable[[Edit], None]
FAULTS: dict[str, tuple[Change, list[str]]] = {
    "stops short": (
        put("high", at=flat([*OPEN_HIGH[:5], (130.75, 61.5), (130.75, 45.0)])),
        [
            "its end at (130.750, 45.000) lies 4.306 mm from the cut of part 1",
            "at (130.000, 43.000) the nearest cut, its own or that of part 1, is 2.1360 mm off",
            "some of the edge is left out",
        ],
    ),
    "stops a hair short": (
        put("high", at=flat([*OPEN_HIGH[:5], (130.75, 61.5), (130.75, 41.5)])),
        ["its end at (130.750, 41.500) lies 0.927", "some of the edge is left out"],
    ),
    "begins off the kerf": (
        put("high", at=flat([(29.25, 41.5), *OPEN_HIGH[2:]])),
        ["its end at (29.250, 41.500) lies 0.927", "some of the edge is left out"],
    ),
    "cut twice, closed": (
        put("high", closed=True),
        ["shares a line with part 1: one open cut of it wanted", "run along the same way"],
    ),
    "cut twice, still open": (
        put("high", at=flat([(130, 40.75), *OPEN_HIGH])),
        ["run along the same way"],
    ),
    "open at the wrong side": (
        put("high", at=flat([*OPEN_HIGH[4:], *OPEN_HIGH[:4]])),
        [
            "its end at (130.000, 62.250) lies 21.500",
            "its end at (30.000, 62.250) lies 21.500",
            "at (109.000, 61.500) the nearest cut, its own or that of part 1, is 20.7500 mm off",
            "run along the same way",
        ],
    ),
    "on the side of the part": (
        put("high", at=flat([(30, 40.75), (30.75, 41.5), (30.75, 60.75), (129.25, 60.75),
                             (129.25, 41.5), (130, 40.75)])),
        ["lies on the side of the part", "mm from the finished edge", "some of the edge is left",
         "the nearest cut, its own"],
    ),
    "the other way round": (
        put("high", at=flat([(x, y, QUARTER if b else 0.0) for (x, y), b in zip(
            [c[:2] for c in reversed(OPEN_HIGH)], (1, 0) * 4, strict=True)])),
        ["high, at (30.000, 41.500), begun at (130.000, 40.750) runs counter-clockwise"],
    ),
    "before the strip in whose cut it begins": (
        edit(("move_before", ("lead", "high"))),
        ["begins in the cut of part 1, which comes after it", "the numbers in their order"],
    ),
    "a strip too near": (
        put("high", at=tuple((x, y - 0.02, b) for x, y, b in flat(OPEN_HIGH))),
        ["lies 0.7700 mm from the finished edge", "or that of part 1, is 0.7300 mm off"],
    ),
    "in two runs": (
        edit(
            ("put", {"name": "high", "at": flat(OPEN_HIGH[:5])}),
            ("before", ("high", path("cut-outline", OPEN_HIGH[4:], "rest", closed=False))),
        ),
        ["one open cut of it wanted"],
    ),
    "the first strip open too": (
        put("low", closed=False),
        ["part 1, low, at (30.000, 20.000), begun at (24.250, 30.000) is left open"],
    ),
    "the first strip not cut": (
        edit(("drop", ("lead", "low"))),
        ["part 1, low, at (30.000, 20.000) is not cut"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("version", ["R2000", "R12"])
def test_a_sound_file_is_taken(tmp_path: Path, version: str) -> None:
    assert prove_cuts(write(good(), tmp_path / "s.dxf", version), asked()) == []


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_told(tmp_path: Path, version: str, name: str) -> None:
    change, wanted = FAULTS[name]
    on = Edit(good())
    change(on)
    told = prove_cuts(write(on.entities, tmp_path / "s.dxf", version), asked())
    for part in wanted:
        assert [one for one in told if part in one], f"{part}: {told}"
    others = [one for one in told if not any(part in one for part in [*wanted, TOTALS])]
    assert not others, others


def test_an_open_cut_without_lead_is_sound_only_where_a_line_is_shared(tmp_path: Path) -> None:
    file = write(good(), tmp_path / "s.dxf")
    told = prove_cuts(file, replace(asked(), shared=()))
    assert any("part 2, high" in one and "is left open" in one for one in told)
    assert any("part 2, high" in one and "has no lead-in" in one for one in told)
    told = prove_cuts(file, replace(asked(), shared=((2, 1),)))
    assert any("part 1: one open cut" in one or "one open cut of it wanted" in one for one in told)
