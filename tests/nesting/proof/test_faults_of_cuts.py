"""Faults of order, way, place and count of the cuts, each told by the proof of the file."""

from __future__ import annotations

from pathlib import Path

import pytest

from platewheel.nesting.proof import order
from tests.nesting.proof.good_file import (
    E,
    circle,
    line,
    path,
)
from tests.nesting.proof.spoilt import (
    IN_PATH,
    PLAIN,
    TABS,
    Faults,
    assert_told,
    edit,
    put,
    turned,
)

FAULTS: Faults = {
    # order
    "mark after a cut": (
        PLAIN,
        edit(("move_before", ("lead 3", "letter"))),
        ["on layer mark at (200.000, 50.000) stands after layer cut-hole"],
    ),
    "grid before a cut": (
        PLAIN,
        edit(("move_before", ("parting", "grid"))),
        ["on layer offcut at (299.250, 0.000) stands after layer skeleton"],
    ),
    "words before the grid": (
        PLAIN,
        edit(("move_before", ("grid", "note"))),
        ["on layer skeleton at (100.000, 170.000) stands after layer text"],
    ),
    "edge of the plate after marks": (
        PLAIN,
        edit(("move_before", ("bend", "edge"))),
        ["on layer sheet-edge at (0.000, 0.000) stands after layer mark"],
    ),
    "hole after its outline": (
        PLAIN,
        edit(("move_before", ("lead 3h", "lead 2h", "ring hole"))),
        ["a hole of part 2, ring, at (135.000, 100.000), begun at (70.000, 100.000) is cut after"],
    ),
    "guest after its host": (
        PLAIN,
        edit(("move_before", ("lead 3h", "lead 1", "disc"))),
        ["lies in part 2 and is cut after it", "is cut after part 2, the numbers"],
    ),
    "guest between hole and outline": (
        PLAIN,
        edit(("move_before", ("lead 2", "lead 1", "disc"))),
        ["lies in part 2 and is cut after it", "is cut after part 2, the numbers"],
    ),
    "guest cut again after its host has begun": (
        PLAIN,
        edit(("before", ("lead 2", circle("cut-outline", 85.0, 15.0, -1.0, "again")))),
        [
            "lies in part 2 and is cut after it",
            "is cut after part 2, the numbers",
            "is cut 2 times, once wanted",
            "run along the same way",
            "has no lead-in",
        ],
    ),
    "lead among the marks": (
        PLAIN,
        edit(("before", ("bend", line("lead", (20.0, 200.0), (25.0, 200.0))))),
        ["on layer mark at (200.000, 80.000) stands after layer lead", "runs into no cut"],
    ),
    # runs
    "a stretch of an edge cut again": (
        PLAIN,
        edit(
            ("before", ("parting", path("cut-outline", [(190, 85), (190, 115)], "x", closed=False)))
        ),
        ["is cut 2 times, once wanted", "is left open", "run along the same way", "no lead-in"],
    ),
    "outline counter-clockwise": (PLAIN, turned("disc"), ["runs counter-clockwise, clockwise"]),
    "hole clockwise": (PLAIN, turned("ring hole"), ["runs clockwise, counter-clockwise wanted"]),
    "outline open": (
        PLAIN,
        put("square", closed=False),
        ["is left open, closed wanted"],
    ),
    "hole open": (TABS, put("slot", closed=False), ["is left open, closed wanted"]),
    "hole not cut": (
        PLAIN,
        edit(("drop", ("lead 3h", "slot"))),
        ["a hole of part 3, square, at (215.000, 70.000) is not cut"],
    ),
    "outline not cut": (PLAIN, edit(("drop", ("lead 1", "disc"))), ["part 1, disc, at"]),
    "hole on the wrong layer": (
        PLAIN,
        put("ring hole", layer="cut-outline"),
        ["is the edge of no part asked", "is not cut"],
    ),
    "a cut that nobody asked for": (
        PLAIN,
        edit(("before", ("parting", path("cut-outline", [(10, 10), (10, 30), (30, 10)], "x")))),
        ["the cut on cut-outline from (10.000, 10.000) is the edge of no part asked"],
    ),
    "edge cut twice, begun elsewhere": (
        PLAIN,
        edit(("before", ("lead 3h", circle("cut-outline", 160.0, 60.0, -1.0, "again")))),
        ["is cut 2 times, once wanted", "run along the same way", "has no lead-in"],
    ),
    # nothing twice
    "mark twice": (
        PLAIN,
        edit(("before", ("bend", line("mark", (260.0, 80.0), (200.0, 80.0))))),
        ["the LINE on layer mark at (200.000, 80.000) stands twice"],
    ),
    "centre twice": (
        PLAIN,
        edit(("before", ("bend", E("point", "mark", (100.0, 100.0))))),
        ["the POINT on layer mark at (100.000, 100.000) stands twice"],
    ),
    "grid twice in part": (
        PLAIN,
        edit(("before", ("note", line("skeleton", (100.0, 220.0), (100.0, 190.0))))),
        ["two cuts run along the same way at (100.000, 205.000), on skeleton"],
    ),
    # the plate
    "grid off the plate": (
        PLAIN,
        put("grid", at=((100.0, 170.0), (100.0, 300.5))),
        ["the LINE on layer skeleton at (100.000, 170.000) lies off the plate"],
    ),
    "mark off the plate": (
        PLAIN,
        put("bend", at=((-5.0, 80.0), (-2.0, 80.0))),
        ["the LINE on layer mark at (-5.000, 80.000) lies off the plate"],
    ),
    "another plate": (
        PLAIN,
        put("edge", at=((0, 0, 0), (401, 0, 0), (401, 300, 0), (0, 300, 0))),
        ["the plate's edge at"],
    ),
    "plate left out": (PLAIN, edit(("drop", ("edge",))), ["the plate's edge at", "0 loops"]),
    # the paths
    "path moved": (
        PLAIN,
        edit(("shift", ("square", 0.006, 0.0)), ("shift", ("lead 3", 0.006, 0.0))),
        ["lies 0.0060 mm from the finished edge, 0 within 0.005 wanted", "runs into its own part"],
    ),
    "path moved, kerf in it": (
        IN_PATH,
        edit(("shift", ("slot", 0.0, 0.006)), ("shift", ("lead 3h", 0.0, 0.006))),
        ["0.75 within 0.005 wanted"],
    ),
    "corner square where the kerf is round": (
        IN_PATH,
        put(
            "square",
            at=(
                *((189.25, 80.0, 0.0), (189.25, 120.75, 0.0), (270.75, 120.75, 0.0)),
                *((270.75, 39.25, 0.0), (189.25, 39.25, 0.0)),
            ),
        ),
        ["lies 1.0607 mm from the finished edge, 0.75 within"],  # 0.75 sqrt 2
    ),
    "no kerf where it should be": (
        IN_PATH,
        edit(
            ("put", {"name": "disc", "at": ((115.0, 100.0, -1.0), (85.0, 100.0, -1.0))}),
            ("put", {"name": "lead 1", "at": ((120.75, 100.0), (115.0, 100.0))}),
        ),
        [
            "lies 0.0000 mm from the finished edge, 0.75 within",
            "goes round 706.8",
            "comes 0.000 mm near to part 1, 0.75 wanted",
        ],
    ),
    "kerf on the side of the part": (
        IN_PATH,
        edit(
            ("put", {"name": "disc", "at": ((114.25, 100.0, -1.0), (85.75, 100.0, -1.0))}),
            ("put", {"name": "lead 1", "at": ((120.75, 100.0), (114.25, 100.0))}),
        ),
        ["lies on the side of the part", "goes round 637.9", "the lead at (120.750, 100.000)"],
    ),
    "a path that comes back on itself": (
        PLAIN,
        put("square", at=((190, 80, 0), (190, 120, 0), (270, 120, 0), (190, 120, 0))),
        ["some of the edge is left out", "run along the same way"],
    ),
    # tabs
    "tab too narrow": (
        TABS,
        put(
            "run 1",
            at=((189.25, 80, 0), (189.25, 120, -0.41421356), (190, 120.75, 0), (228.6, 120.75, 0)),
        ),
        ["is 1.400 mm wide between the kerfs, 1.5 within 0.05 wanted"],
    ),
    "one tab too few": (
        TABS,
        edit(("drop", ("lead 3c", "run 3"))),
        ["is 57.199 mm wide", "some of the edge is left out"],
    ),
    # the file
    "circle": (
        PLAIN,
        put("disc", kind="circle", at=((100.0, 100.0), 15.0)),
        ["a CIRCLE at (115.000, 100.000) on layer cut-outline", "runs counter-clockwise"],
    ),
    "layer of another": (
        PLAIN,
        put("bend", layer="etch"),
        ["a LINE at (200.000, 80.000) on layer etch, not one of ours"],
    ),
}


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_told(tmp_path: Path, version: str, name: str) -> None:
    assert_told(FAULTS, name, version, tmp_path / "s.dxf")


@pytest.mark.parametrize("name", ["a stretch of an edge cut again", "grid twice in part"])
@pytest.mark.parametrize("at_once", [1, 3])
def test_cuts_are_held_against_all_others_however_few_at_once(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, name: str, at_once: int
) -> None:
    monkeypatch.setattr(order, "AT_ONCE", at_once)
    assert_told(FAULTS, name, "R2000", tmp_path / "s.dxf")
