"""What the layers of a drawing are for: the job file's [[drawing_layer]] tables."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Any, Literal

from pydantic import Field

from platewheel.nesting.drawings.closed_loops import Wrong
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Spec

LayerUse = Literal["cut", "mark", "ignored"]
Uses = Mapping[str, LayerUse]  # by the layer's name in small letters
MARK_LAYER = "mark"  # marked where no row says otherwise
MOST_NAMES = 30  # layers told of one drawing


class DrawingLayer(Spec):
    """One layer of the drawings of [[extra]] and [disc]."""

    name: str = Field(
        min_length=1,
        max_length=255,
        examples=["ENGRAVE"],
        description="of a layer of the drawings of [[extra]] and [disc], capitals or not",
    )
    use: LayerUse = Field(
        examples=["mark"],
        description="what is done with its lines; where a row says cut, each layer with lines "
        "needs a row",
    )
    part: str | None = Field(
        None,
        examples=["bracket"],
        description="name of the one part whose drawing has it; absent = all drawings have it",
        json_schema_extra={"takes": 'the name of an [[extra]], or "disc" for [disc]'},
    )


def uses_for(rows: Iterable[DrawingLayer], part: str) -> dict[str, LayerUse]:
    """What the rows say of one part's drawing; a row for the part goes before one for all."""
    ordered = sorted(rows, key=lambda row: row.part is not None)
    return {row.name.lower(): row.use for row in ordered if row.part is None or row.part == part}


def layer_faults(rows: Sequence[object], parts: Collection[str]) -> Iterator[Fault]:
    """Rows that name one layer twice, or a part that is not there."""
    seen: set[tuple[str, str | None]] = set()
    for i, row in enumerate(rows):
        name = row.get("name") if isinstance(row, dict) else None
        part = row.get("part") if isinstance(row, dict) else None
        if not isinstance(name, str) or not (part is None or isinstance(part, str)):
            continue
        if (name.lower(), part) in seen:
            allowed = "each layer once, capitals or not"
            yield Fault(f"drawing_layer[{i}].name", name, allowed, "remove this row")
        seen.add((name.lower(), part))
        if part is not None and part not in parts:
            told = ", ".join(sorted(parts)) or "there is none"
            allowed = f"the name of an [[extra]]: {told}"
            yield Fault(f"drawing_layer[{i}].part", part, allowed, "remove it, or correct it")


def unlike_drawing(
    uses: Uses, there: Collection[str], hidden: Collection[str], drawn: Collection[str]
) -> Iterator[Wrong]:
    """Where the rows do not go with the drawing's layers: all `there` are, those `hidden`, and
    those with lines `drawn`."""
    small = {name.lower() for name in there}
    for name in sorted(set(uses) - small):
        yield (
            f"layers that the drawing has: {_listed(there)}; a [[drawing_layer]] row names {name}",
            "name one of these, give the row its part, or add the layer to the drawing",
        )
    for name in sorted(set(uses) & {one.lower() for one in hidden}):
        if uses[name] != "ignored":
            yield (
                f"visible layers where a [[drawing_layer]] row says {uses[name]}; {name} is hidden",
                "show the layer in the drawing, or remove the row",
            )
    if "cut" not in uses.values():
        return
    for name in sorted({one.lower() for one in drawn} - set(uses) - {MARK_LAYER}):
        yield (
            "a [[drawing_layer]] row for each layer with lines, as one of them says cut; "
            f"{name} has none",
            f'add a row with name = "{name}" and use = "cut", "mark" or "ignored"',
        )


def use_of(uses: Uses, layer: str) -> LayerUse:
    """What is done with a layer: as its row says, or else marked if it is `mark`, and cut."""
    small = layer.lower()
    return uses.get(small, "mark" if small == MARK_LAYER else "cut")


def _listed(names: Collection[str]) -> str:
    told: list[Any] = sorted(names)[:MOST_NAMES]
    left = len(names) - len(told)
    return ", ".join(told) + (f" and {left} more" if left > 0 else "")
