"""Layers of the cutting files as a machine wants them: the job file's [[file_layer]] tables.

A pure change of names and colours, made last of all on a finished drawing, so that whatever
proves the drawing knows the layers by our names.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, ClassVar

from pydantic import Field

from platewheel.nesting.files.dxf_entities import LAYERS, Version
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec

R12_NAME_LENGTH = 31  # letters, digits, $, - and _ only. Source: DXF reference, release 12
# Programs make it for the points that a dimension hangs on, and plot nothing of it. Source: from
# memory. Other names that the format keeps have a '*' or '|', which none of ours may; '0' is plain.
NOT_PLOTTED = "Defpoints"
OURS = ", ".join(LAYERS)
NOT_CUT = ("mark", "text", "sheet-edge")  # a machine takes all of a layer alike


def _known(v: Any) -> Iterator[Fault]:
    if v.layer not in LAYERS:
        yield Fault("layer", v.layer, f"one of our layers: {OURS}", 'layer = "cut-outline"')


def _says(v: Any) -> Iterator[Fault]:
    if v.name is None and v.colour is None:
        yield Fault("name", None, "a name, a colour or both", 'name = "CUT", or remove the row')


def _plotted(v: Any) -> Iterator[Fault]:
    if v.name is not None and v.name.lower() == NOT_PLOTTED.lower():
        allowed = f"a name but {NOT_PLOTTED}, a layer that drawing programs do not plot"
        yield Fault("name", v.name, allowed, 'name = "CUT"')


class FileLayer(Spec):
    """What one of our layers is called in the files, and its colour."""

    rules: ClassVar[tuple[Rule, ...]] = (_known, _says, _plotted)

    layer: str = Field(
        examples=["cut-outline"],
        description="our layer",
        json_schema_extra={"takes": f"one of {OURS}"},
    )
    name: str | None = Field(
        None,
        pattern=r"^[A-Za-z0-9$_-]([A-Za-z0-9 $_.-]{0,58}[A-Za-z0-9$_-])?$",
        examples=["CUT"],
        description="in the files; two of ours may share one, and so a colour, but mark, text and "
        "sheet-edge none with what is cut; absent = ours",
        json_schema_extra={
            "takes": "of 1 to 60 letters, digits, spaces, '$', '_', '-' or '.', in R12 at most "
            "31 and no space or '.'"
        },
    )
    colour: int | None = Field(
        None,
        ge=1,
        le=255,
        examples=[5],
        description="colour index of the file format; absent = ours, or that of the layer it "
        "shares a name with",
        json_schema_extra={"takes": "a whole number"},
    )


def file_layer_faults(rows: Sequence[FileLayer], version: Version) -> Iterator[Fault]:
    """Where rows do not go together or with the version of the format; keys are paths."""
    first: dict[str, int] = {}
    for i, row in enumerate(rows):
        if row.layer in first:
            allowed = f"one row for each layer; [[file_layer]] {first[row.layer]} has it"
            yield Fault(f"file_layer[{i}].layer", row.layer, allowed, "remove one of them")
        first.setdefault(row.layer, i)
        plain = row.name is None or not set(row.name) & set(" .")
        if version == "R12" and not (plain and len(row.name or "") <= R12_NAME_LENGTH):
            allowed = f"in R12 at most {R12_NAME_LENGTH} letters, digits, '$', '_' or '-'"
            yield Fault(f"file_layer[{i}].name", row.name, allowed, 'name = "CUT"')
    colours: dict[str, tuple[str, int | None]] = {}  # by name in small letters: name, colour
    for i, row in enumerate(rows):
        name = row.name or row.layer
        spelt, colour = colours.get(name.lower(), (name, row.colour))
        if spelt != name:
            allowed = f"layers told apart by more than capitals; there is {spelt}"
            yield Fault(f"file_layer[{i}].name", name, allowed, f'name = "{spelt}"')
        if None not in (colour, row.colour) and colour != row.colour:
            allowed = f"one colour for all that share the name {spelt}; it has {colour}"
            yield Fault(f"file_layer[{i}].colour", row.colour, allowed, f"colour = {colour}")
        colours[name.lower()] = (spelt, colour if colour is not None else row.colour)
    yield from _cut_by_mistake(rows)
    named = {row.layer for row in rows if row.name is not None}
    for i, row in enumerate(rows):  # a name of ours that is not given up
        same = [one for one in LAYERS if one.lower() == (row.name or "").lower()]
        if same and same[0] != row.name and same[0] not in named:
            allowed = f"layers told apart by more than capitals; there is {same[0]}"
            yield Fault(f"file_layer[{i}].name", row.name, allowed, f'name = "{same[0]}"')


def _cut_by_mistake(rows: Sequence[FileLayer]) -> Iterator[Fault]:
    """What is not cut under a name that is: the machine would cut marks, or round the plate."""
    names = {layer: name for layer, (name, _) in names_of(rows).items()}
    rank = {row.layer: i for i, row in enumerate(rows) if row.name is not None}
    for layer in NOT_CUT:
        cuts = [one for one in LAYERS if one not in NOT_CUT and names[one] == names[layer]]
        given = [one for one in (layer, *cuts) if one in rank]
        if cuts and given:
            i = rank[given[0]]
            allowed = f"{layer} under another name than what is cut ({', '.join(cuts)}), or it is"
            advice = f'name = "{layer.upper()}"' if given[0] == layer else "another name"
            yield Fault(f"file_layer[{i}].name", rows[i].name, f"{allowed} cut too", advice)


def names_of(rows: Iterable[FileLayer]) -> dict[str, tuple[str, int]]:
    """Our layer -> its name and colour in the files, all of them."""
    given = {row.layer: row for row in rows}
    names = {layer: (given[layer].name or layer if layer in given else layer) for layer in LAYERS}
    told = {names[layer]: row.colour for layer, row in given.items() if row.colour is not None}
    ours: dict[str, int] = {}  # the first of ours that has the name lends its colour
    for layer, colour in LAYERS.items():
        ours.setdefault(names[layer], colour)
    return {layer: (name, told.get(name, ours[name])) for layer, name in names.items()}


def rename_layers(drawing: Any, names: Mapping[str, tuple[str, int]]) -> None:
    """Give a finished drawing's layers their names and colours in the files, in place."""
    if all(names[layer] == (layer, colour) for layer, colour in LAYERS.items()):
        return
    for entity in drawing.entitydb.values():
        layer = str(entity.dxf.get("layer")) if entity.dxf.is_supported("layer") else ""
        if layer in names and entity.dxftype() != "LAYER":
            entity.dxf.layer = names[layer][0]
    for layer in names:
        if layer in drawing.layers:
            drawing.layers.remove(layer)
    for name, colour in names.values():
        if name in drawing.layers:
            drawing.layers.get(name).dxf.color = colour
        else:
            drawing.layers.add(name, color=colour)


KINDS = {  # what else than polylines stands on a layer of ours
    "TEXT": ("text",),
    "POINT": ("mark",),
    "LINE": ("lead", "skeleton", "mark"),
    "ARC": ("lead", "mark"),
}


def ours_again(drawing: Any, rows: Sequence[FileLayer]) -> None:
    """Give a drawing that was read its layers by our names again, in place: for pictures. Of those
    that share a name, cuts are told apart by the way they run, others by their kind."""
    names = names_of(rows)
    of: dict[str, list[str]] = {}
    for layer, (name, _) in names.items():
        of.setdefault(name, []).append(layer)
    for entity in drawing.modelspace():
        layers = of.get(entity.dxf.layer, [entity.dxf.layer])
        entity.dxf.layer = layers[0] if len(layers) == 1 else _ours(entity, layers)


def _ours(entity: Any, layers: Sequence[str]) -> str:
    kind = entity.dxftype()
    if kind in KINDS:
        return next((layer for layer in KINDS[kind] if layer in layers), layers[0])
    if kind == "CIRCLE" or not _clockwise(entity):
        return "cut-hole" if "cut-hole" in layers else layers[0]
    return "cut-outline" if "cut-outline" in layers else layers[0]


def _clockwise(entity: Any) -> bool:
    """Whether a polyline of either version runs so, as outlines do."""
    from ezdxf import path

    points = [(at.x, at.y) for at in path.make_path(entity).flattening(0.1)]
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return bool(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs) < 0)
