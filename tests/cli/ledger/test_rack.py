"""A row of a job file and the piece on the rack that has its name are one piece, or it is told."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.ledger.piece import Ledger, Piece
from platewheel.cli.ledger.rack import Rack
from platewheel.nesting.stock.stock import Offcut
from platewheel.parts.base.faults import SpecError

RING = [[0, 0], [600, 0], [600, 400], [0, 400]]
HOLES = [[[10, 10], [50, 10], [50, 50]], [[100, 100], [150, 100], [150, 150]]]
SIZES = {"thickness_mm": 6, "outline": RING, "holes": HOLES}


def require(sizes: dict[str, Any], kind: str = "offcut", name: str = "Corner") -> None:
    there = Piece(kind, "corner", SIZES)
    row = Offcut(name=name, **SIZES | sizes)
    Rack(Ledger(Path("stock.toml"), (there,)), None, {"offcut": (row,)}).require_free("pond")


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("steel", "S355"),
        ("thickness_mm", 8),
        ("outline", [[0, 0], [700, 0], [700, 400], [0, 400]]),
        ("outline", [[0, 0], [600, 0], [500, 400], [0, 400]]),
        ("holes", []),
        ("holes", HOLES[:1]),
    ],
)
def test_a_piece_that_two_places_know_by_other_sizes_is_refused(key: str, value: object) -> None:
    with pytest.raises(SpecError) as caught:
        require({key: value})
    (fault,) = caught.value.faults
    assert fault.key == f"offcut[0].{key}"
    assert "stock.toml says of offcut 'corner'" in fault.allowed
    require({key: value}, name="another corner")


def test_a_plate_of_that_name_is_no_offcut() -> None:
    with pytest.raises(SpecError, match=r"stock\.toml has a plate 'corner'"):
        require({}, kind="plate")


def test_corners_are_the_same_wherever_the_list_begins_and_whichever_way_it_runs() -> None:
    for ring in (RING, RING[::-1]):
        for at in range(4):
            turned = [*ring[at:], *ring[:at]]
            require({"outline": turned, "holes": [HOLES[1][::-1], HOLES[0]]})
