"""STEP (ISO 10303-21, AP214) of parts and assemblies: same solid, same bytes."""

from __future__ import annotations

import itertools
import re
from pathlib import Path
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import GeometryError

if TYPE_CHECKING:
    import cadquery as cq

_STAMP = re.compile(r"'\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d'")
_NO_DATE = "'1970-01-01T00:00:00'"  # the header wants a date; a fixed one keeps files repeatable

_STYLES = "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION"
_ENTITY = re.compile(r"^#(\d+) = (.*?);$", re.MULTILINE | re.DOTALL)
_USE = re.compile(r"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\()'\d+'([^;]*;)")
_REFERENCE = re.compile(r"#(\d+)")


def write_step(model: cq.Solid | cq.Assembly, name: str, path: Path) -> None:
    """Write one solid or an assembly (names and colours kept), mm.

    Raises: GeometryError where the translator refuses; OSError from the disk.
    """
    import cadquery as cq

    if isinstance(model, cq.Assembly):
        assembly = model
    else:
        # the translator names a bare solid after a counter of its own: a child keeps its name
        assembly = cq.Assembly(name=f"{name}-file").add(model, name=name)
    assembly.export(str(path), exportType="STEP")
    if not path.is_file():
        raise GeometryError(f"{name}: the STEP translator wrote nothing to {path.name}")
    text = path.read_text(encoding="utf-8", errors="surrogateescape")
    text = _STAMP.sub(_NO_DATE, text, count=1)
    counter = itertools.count(1)  # the translator's own runs on from file to file
    text = _USE.sub(lambda found: f"{found[1]}'{next(counter)}'{_unwrapped(found[2])}", text)
    text = _colours_in_order(text)
    path.write_text(text, encoding="utf-8", errors="surrogateescape")


def _colours_in_order(text: str) -> str:
    """The file with its colour entities, which the translator writes last and in the order of
    memory addresses, put in the order of the solids they colour."""
    start = text.find(f"#{_first_style(text)} = ")
    if start < 0:
        return text
    body, end, tail = text[start:].partition("ENDSEC;")
    entities = {int(m[1]): _unwrapped(m[2]) for m in _ENTITY.finditer(body)}
    heads = [key for key, entity in entities.items() if entity.startswith(_STYLES)]
    heads.sort(key=lambda key: int(_REFERENCE.findall(entities[key])[-1]))  # the solid's context
    lines: list[str] = []
    numbers: dict[int, int] = {}
    first = min(entities)

    def put(key: int) -> None:
        numbers[key] = first + len(numbers)
        for used in map(int, _REFERENCE.findall(entities[key])):
            if used in entities and used not in numbers:
                put(used)
        entity = _REFERENCE.sub(lambda m: f"#{numbers.get(int(m[1]), int(m[1]))}", entities[key])
        lines.append(f"#{numbers[key]} = {entity};")

    for head in heads:
        put(head)
    return text[:start] + "\n".join(lines) + "\n" + end + tail


def _unwrapped(entity: str) -> str:
    return re.sub(r"\n\s*", "", entity)  # where lines are broken hangs on the width of numbers


def _first_style(text: str) -> int:
    found = re.search(rf"^#(\d+) = {_STYLES}", text, re.MULTILINE)
    return int(found[1]) if found else -1
