"""The user's own parts of a job: drawings read as their layers and the kerf want them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from pathlib import Path
from typing import Any

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.nesting.drawings.extra import Extra, extra_blank, read_extras
from platewheel.nesting.drawings.layers import DrawingLayer, layer_faults
from platewheel.nesting.drawings.read import Outline
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import NestingError
from platewheel.nesting.stock.small_holes import without_small_holes
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import find_faults

Read = list[tuple[Extra, Outline]]


def own_parts(
    table: dict[str, Any], folder: Path, reserved: Collection[str]
) -> tuple[Read, list[Fault]]:
    """The sound [[extra]] tables of a job file with their drawings, and all faults of the rest.

    Faults of [[drawing_layer]] and [cutting] key by key are told elsewhere: while the former has
    any, no drawing is read; while the latter has, none is held against the kerf.
    """
    extras, rows = (_rows(table, name) for name in ("extra", "drawing_layer"))
    sound = all(isinstance(row, dict) and not find_faults(DrawingLayer, row) for row in rows)
    layers = [DrawingLayer(**row) for row in rows] if sound else None
    given = table.get("cutting", {})
    cutting = (
        Cutting(**given) if isinstance(given, dict) and not find_faults(Cutting, given) else None
    )
    drawn, faults = read_extras(extras, folder, reserved, layers, cutting)
    names = {row["name"] for row in extras if isinstance(row, dict) and _is_name(row.get("name"))}
    faults += layer_faults(rows, names)
    if cutting is not None and cutting.kerf_in_path and sound and not faults:
        places = [i for i, row in enumerate(extras) if isinstance(row, dict)]
        for i, (extra, outline) in zip(places, drawn, strict=True):
            faults += (fault.below(f"extra[{i}]") for fault in _unfollowed(extra, outline, cutting))
    return drawn, faults


def _rows(table: dict[str, Any], name: str) -> Sequence[Any]:
    rows = table.get(name, [])
    return rows if isinstance(rows, list) else []


def _is_name(value: object) -> bool:
    return isinstance(value, str)


def _unfollowed(extra: Extra, drawn: Outline, cutting: Cutting) -> Iterator[Fault]:
    """What the writer of cutting files would refuse, told before anything is laid."""
    blank = without_small_holes(extra_blank(extra, drawn), cutting)
    for loop, hole in ((blank.outline, False), *((one, True) for one in blank.holes)):
        try:
            torch_path(loop, cutting.kerf_mm, hole=hole)
        except NestingError as error:
            allowed = f"edges that the kerf can follow; {extra.name}: {error}"
            yield Fault("file", extra.file, allowed, "draw that place wider, or leave it out")
