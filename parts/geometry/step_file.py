"""STEP (ISO 10303-21, AP214) of parts and assemblies: same solid, same bytes."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.modeller import path_of_text, silent_modeller
from platewheel.parts.geometry.product import Body, Product, document, group_of

if TYPE_CHECKING:
    import cadquery as cq

_HEAD = re.compile(r"FILE_DESCRIPTION\(.*?;\s*FILE_NAME\(.*?\);\n", re.DOTALL)
_TRANSLATOR = "'Open CASCADE STEP translator'"
_NO_DATE = "'1970-01-01T00:00:00'"  # the header wants a date; a fixed one keeps files repeatable

_STYLES = "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION"
_ENTITY = re.compile(r"^#(\d+) = (.*?);$", re.MULTILINE | re.DOTALL)
_USE = re.compile(r"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\()'\d+'([^;]*;)")
_LAYER = re.compile(r"(PRESENTATION_LAYER_ASSIGNMENT\([^(]*)\(([^)]*)\)\);")
_REFERENCE = re.compile(r"#(\d+)")


@dataclass(frozen=True)
class Header:
    """What the head of a file says of it: the job, who drew it, and what wrote it."""

    job: str = ""
    author: str = ""
    made_by: str = "platewheel"


NO_JOB = Header()


def write_step(
    model: cq.Solid | cq.Assembly | Product, name: str, path: Path, header: Header = NO_JOB
) -> None:
    """Write a solid under this name, an assembly or a product (names and colours kept), mm.

    Raises: GeometryError where the translator refuses; OSError from the disk.
    """
    import cadquery as cq
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.Interface import Interface_Static
    from OCP.STEPCAFControl import STEPCAFControl_Writer
    from OCP.STEPControl import STEPControl_StepModelType

    if isinstance(model, cq.Assembly):
        model = group_of(model)
    elif isinstance(model, cq.Shape):
        model = Body(name, model)
    writer = STEPCAFControl_Writer()
    writer.SetColorMode(True)
    writer.SetLayerMode(True)
    writer.SetNameMode(True)
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 1)
    Interface_Static.SetIVal_s("write.precision.mode", 0)
    Interface_Static.SetCVal_s("xstep.cascade.unit", "MM")
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    Interface_Static.SetIVal_s("write.stepcaf.subshapes.name", 1)  # cadquery too, once asked to
    writer.Transfer(document(model), STEPControl_StepModelType.STEPControl_AsIs)
    with silent_modeller(), path_of_text(path) as there:
        done = writer.Write(there) == IFSelect_ReturnStatus.IFSelect_RetDone
    if not done or not path.is_file():
        raise GeometryError(
            f"{name}: the STEP translator wrote nothing to {path.name}; is the disk full?"
        )
    text = path.read_text(encoding="utf-8", errors="surrogateescape")
    text = _HEAD.sub(lambda _: _head(name, header), text, count=1)
    counter = itertools.count(1)  # the translator's own runs on from file to file
    text = _USE.sub(lambda found: f"{found[1]}'{next(counter)}'{_unwrapped(found[2])}", text)
    text = _LAYER.sub(_layer_in_order, text)
    text = _colours_in_order(text)
    path.write_text(text, encoding="utf-8", errors="surrogateescape")


def _head(name: str, header: Header) -> str:
    """Description and name of the file. Source: ISO 10303-21, 8.2 (FILE_DESCRIPTION, FILE_NAME:
    name, time stamp, author, organization, preprocessor, originating system, authorisation)."""
    called = step_text(f"{header.job}: {name}" if header.job else name)
    author, made_by = step_text(header.author), step_text(header.made_by)
    told = f"{called},{_NO_DATE},({author}),(''),{_TRANSLATOR},{made_by},''"
    return f"FILE_DESCRIPTION(({called}),'2;1');\nFILE_NAME({told});\n"


def step_text(text: str) -> str:
    """A string as a STEP file has it: apostrophe and backslash doubled, what is not in ASCII as
    UCS-2 or UCS-4 in hexadecimal. Source: ISO 10303-21, 6.4.3."""
    written = ""
    for letter in text:
        code = ord(letter)
        if letter in "'\\":
            written += 2 * letter
        elif 32 <= code < 127:
            written += letter
        elif code < 0x10000:
            written += f"\\X2\\{code:04X}\\X0\\"
        else:
            written += f"\\X4\\{code:08X}\\X0\\"
    return f"'{written}'"


def _layer_in_order(found: re.Match[str]) -> str:
    """What lies on a layer, which the translator lists by memory addresses, by its number."""
    numbers = sorted(map(int, _REFERENCE.findall(found[2])))
    return f"{found[1]}({','.join(f'#{number}' for number in numbers)}));"


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
