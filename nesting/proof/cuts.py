"""Proof of a cutting file: the file is read, and each fault against what was asked is told.

A file that fails here is never left in place.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from platewheel.nesting.proof.asked import Asked
from platewheel.nesting.proof.leads import lead_faults
from platewheel.nesting.proof.left_over import left_over_faults
from platewheel.nesting.proof.marks import mark_faults
from platewheel.nesting.proof.order import order_faults, plate_faults, run_faults, twice_faults
from platewheel.nesting.proof.paths import path_faults
from platewheel.nesting.proof.reading import read_sheet
from platewheel.nesting.proof.scene import scene_of
from platewheel.nesting.proof.shared import shared_faults
from platewheel.nesting.proof.totals import total_faults
from platewheel.nesting.stock.layout import NestingError

CHECKS = (
    order_faults,
    run_faults,
    twice_faults,
    plate_faults,
    path_faults,
    shared_faults,
    lead_faults,
    mark_faults,
    left_over_faults,
    total_faults,
)
MOST_TOLD = 12


def prove_cuts(path: Path, asked: Asked) -> list[str]:
    """Each thing wrong with the file, in words; none where it cuts what was asked."""
    return _proved(path, asked)[0]


def _proved(path: Path, asked: Asked) -> tuple[list[str], Any]:
    drawn, faults, drawing = read_sheet(path)
    if not drawn:
        return faults or ["the file is empty"], drawing
    scene = scene_of(asked, drawn)
    return faults + [fault for check in CHECKS for fault in check(scene)], drawing


def require_cuts(path: Path, asked: Asked) -> Any:
    """The file as it was read, to be drawn without reading it again.

    Raises: NestingError telling what the proof refuses.
    """
    wrong, drawing = _proved(path, asked)
    if wrong:
        more = f"; and {len(wrong) - MOST_TOLD} more" if len(wrong) > MOST_TOLD else ""
        raise NestingError(
            f"the cutting file {path.name} is not sound: " + "; ".join(wrong[:MOST_TOLD]) + more
        )
    return drawing
