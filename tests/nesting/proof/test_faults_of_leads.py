"""Faults of leads, marks and what is left, each told by the proof of the file."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.nesting.proof.good_file import (
    line,
)
from tests.nesting.proof.spoilt import (
    IN_PATH,
    PLAIN,
    TABS,
    Faults,
    assert_told,
    begin_at,
    edit,
    put,
)

FAULTS: Faults = {
    # leads
    "no lead": (PLAIN, edit(("drop", ("lead 2",))), ["has no lead-in and the user is not told"]),
    "no lead behind a tab": (
        TABS,
        edit(("drop", ("lead 3b",))),
        ["begun at (231.500, 120.750) has no lead-in and the user is not told, 5 mm wanted"],
    ),
    "lead that runs backwards": (
        PLAIN,
        put("lead 2", at=((40.0, 100.0), (35.0, 100.0))),
        ["the lead at (40.000, 100.000) runs into no cut and off none", "has no lead-in"],
    ),
    "lead at no cut": (
        PLAIN,
        edit(("before", ("lead 3", line("lead", (20.0, 200.0), (25.0, 200.0))))),
        ["the lead at (20.000, 200.000) runs into no cut and off none"],
    ),
    "pierce in the own part": (
        PLAIN,
        begin_at("lead 3", 195.0, 80.0),
        ["pierces in part 3, scrap", "pierces inside what it cuts", "runs into its own part"],
    ),
    "pierce of a hole in another part": (
        PLAIN,
        begin_at("lead 2h", 88.0, 100.0),
        ["pierces in part 1, scrap", "from the kerf of part 1", "near to part 1, 0.75 wanted"],
    ),
    "pierce of a hole in the part": (
        PLAIN,
        begin_at("lead 3h", 230.0, 65.0),
        ["pierces in part 3, scrap", "pierces outside what it cuts", "runs into its own part"],
    ),
    "pierce in a piece to keep": (
        PLAIN,
        edit(
            (
                "put",
                {
                    "name": "square",
                    "at": ((270, 80, 0), (270, 40, 0), (190, 40, 0), (190, 120, 0), (270, 120, 0)),
                },
            ),
            ("put", {"name": "lead 3", "at": ((301.0, 80.0), (270.0, 80.0))}),
        ),
        ["pierces in a piece to keep", "runs into a piece to keep", "the kerf of a parting cut"],
    ),
    "pierce off the plate": (
        PLAIN,
        begin_at("lead 2", -1.0, 100.0),
        ["pierces off the plate", "lies off the plate"],
    ),
    "pierce at the plate's edge": (
        PLAIN,
        begin_at("lead 2", 0.7, 100.0),
        ["pierces 0.700 mm from the plate's edge, half the kerf wanted: 0.75"],
    ),
    "pierce near its own edge": (
        PLAIN,
        begin_at("lead 3", 186.01, 80.0),
        ["pierces 3.990 mm from its own edge, 4 wanted"],
    ),
    "pierce near its own edge, kerf in the path": (
        IN_PATH,
        begin_at("lead 3", 186.01, 80.0),
        ["pierces 3.990 mm from its own edge, 4 wanted"],
    ),
    "pierce near the kerf of another": (
        PLAIN,  # the ring's edge at x = 160, its kerf to 161.5
        begin_at("lead 3", 165.49, 100.0),
        ["pierces 3.990 mm from the kerf of part 2, ring"],
    ),
    "pierce near the kerf of another, in the path": (
        IN_PATH,
        begin_at("lead 3", 165.49, 100.0),
        ["pierces 3.990 mm from the kerf of part 2, ring"],
    ),
    "lead over another part": (
        PLAIN,
        begin_at("lead 1", 170.0, 100.0),
        [
            "the lead at (170.000, 100.000) of part 1, disc, at (115.000, 100.000) comes "
            "0.000 mm near to part 2, 0.75 wanted"
        ],
    ),
    "lead near to another": (
        PLAIN,
        edit(
            ("put", {"name": "lead 1", "at": ((128.7, 100.0), (115.0, 100.0))}),
            ("put", {"name": "ring hole", "at": ((135.0, 100.0, 1.0), (65.0, 100.0, 1.0))}),
            ("put", {"name": "lead 2h", "at": ((130.0, 100.0), (135.0, 100.0))}),
        ),
        ["comes 1.300 mm near to the lead at (130.000, 100.000) of a hole of part 2"],
    ),
    "lead over a mark": (
        PLAIN,
        put("kept letter", at=((187.0, 81.0, 0.0), (187.0, 80.5, 0.0))),
        ["runs over the mark at (187.000, 81.000)", "the stroke at (187.000, 81.000)"],
    ),
    "lead along the far side of its hole": (
        PLAIN,
        begin_at("lead 3h", 230.0, 89.5),
        ["pierces 0.500 mm from its own edge, 4 wanted", "runs into its own part"],
    ),
    "lead beside a piece to keep": (
        PLAIN,
        edit(
            (
                "put",
                {
                    "name": "square",
                    "at": ((270, 80, 0), (270, 40, 0), (190, 40, 0), (190, 120, 0), (270, 120, 0)),
                },
            ),
            ("put", {"name": "lead 3", "at": ((299.5, 80.0), (270.0, 80.0))}),
        ),
        ["runs into a piece to keep", "the kerf of a parting cut"],
    ),
    # marks
    "centre on an edge": (
        PLAIN,
        put("centre", at=(190.0, 60.0)),
        ["the centre at (190.000, 60.000) lies in a hole or beside"],
    ),
    "centre in a hole": (
        PLAIN,
        put("centre", at=(230.0, 82.0)),
        ["the centre at (230.000, 82.000) lies in a hole or beside the parts, steel wanted"],
    ),
    "centre beside the parts": (
        PLAIN,
        put("centre", at=(20.0, 20.0)),
        ["the centre at (20.000, 20.000) lies in a hole or beside"],
    ),
    "stroke across an edge": (
        PLAIN,
        put("letter", at=((200.0, 42.0, 0.0), (200.0, 38.0, 0.0))),
        ["the stroke at (200.000, 42.000) does not lie whole on the steel"],
    ),
    "stroke across a hole": (
        PLAIN,
        put("letter", at=((212.0, 72.0, 0.0), (218.0, 72.0, 0.0))),
        ["the stroke at (212.000, 72.000) does not lie whole on the steel"],
    ),
    "stroke in scrap": (
        PLAIN,
        put("letter", at=((20.0, 20.0, 0.0), (20.0, 25.0, 0.0))),
        ["the stroke at (20.000, 20.000) does not lie whole on the steel"],
    ),
    # what is left
    "parting cut that ends in steel": (
        PLAIN,
        put("parting", at=((299.25, 0.0), (299.25, 299.0))),
        ["ends at (299.250, 299.000) in steel", "is not cut free"],
    ),
    "parting cut that begins in steel": (
        PLAIN,
        put("parting", at=((299.25, 1.0), (299.25, 300.0))),
        ["ends at (299.250, 1.000) in steel", "is not cut free"],
    ),
    "no parting cut": (
        PLAIN,
        edit(("drop", ("parting",))),
        ["the piece to keep at (350.000, 150.000) is not cut free"],
    ),
    "parting cut far off": (
        PLAIN,
        edit(("shift", ("parting", -8.0, 0.0))),
        ["is not cut free"],
    ),
    "parting cut through the piece": (
        PLAIN,
        edit(("shift", ("parting", 6.0, 0.0))),
        ["runs into a piece to keep", "cuts take"],
    ),
    "parting cut through the middle of the piece": (
        PLAIN,
        edit(("shift", ("parting", 50.75, 0.0))),
        ["runs into a piece to keep", "a cut runs through the piece to keep at (350"],
    ),
    "parting cut in a part": (
        PLAIN,
        edit(("before", ("grid", line("offcut", (299.25, 100.0), (268.0, 100.0))))),
        ["comes 0.000 mm near to part 3, 0.75 wanted"],
    ),
    "grid near to a part": (
        PLAIN,
        put("grid", at=((100.0, 160.7), (100.0, 300.0))),
        ["comes 0.700 mm near to part 2, 0.75 wanted"],
    ),
    "grid near to a piece to keep": (
        PLAIN,
        put("grid", at=((200.0, 200.0), (299.3, 200.0))),
        ["comes 0.700 mm near to a piece to keep"],
    ),
}


@pytest.mark.parametrize("version", ["R2000", "R12"])
@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_told(tmp_path: Path, version: str, name: str) -> None:
    assert_told(FAULTS, name, version, tmp_path / "s.dxf")
