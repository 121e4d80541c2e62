"""Each page as reStructuredText, made from what the code itself says."""

from __future__ import annotations

import ast
import inspect
import re
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

import platewheel
from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.cli.schema.report import Report
from platewheel.parts.base.spec_model import Spec, allowed, example, toml_value

TABLES = {"Report", "WheelSpec"}  # their fields are told as tables
GROUPS: dict[str, str | tuple[str, ...]] = {
    "A job and its answers": "cli.script",
    "A wheel and its parts": "parts.wheel",
    "Shapes": "parts.geometry",
    "Reports": "cli.schema",
    "What went wrong": ("parts.base", "cli.work"),
}


def index_page() -> str:
    """The first page."""
    pages = ("Read this first <readme>", "examples", "reference", "job-file", "report")
    return "\n".join(
        [
            *_head("platewheel"),
            (platewheel.__doc__ or "").split("\n")[0],
            "",
            *_picture("wheel-section", "Section of the demo's wheel, drawn by the code"),
            *_picture("flange-window", "Its flange angle: flatter climbs, steeper grinds"),
            ".. toctree::",
            "   :maxdepth: 2",
            "",
            *(f"   {page}" for page in pages),
            "",
        ]
    )


def reference_page() -> str:
    """Every name of `platewheel.__all__`, and no other."""
    lines = [*_head("Reference"), "Every name stands on the package: ``platewheel.load``.", ""]
    for title, rooms in GROUPS.items():
        lines += _head(title, "-")
        for name in names_of(rooms):
            one = getattr(platewheel, name)
            kind = "class" if inspect.isclass(one) else "function"
            if kind == "class" and issubclass(one, BaseException):
                kind = "exception"
            lines += [f".. auto{kind}:: platewheel.{name}"]
            if kind == "class" and name not in TABLES:
                lines += ["   :members:", "   :exclude-members: __init__"]
            lines += [""]
        if title == "A wheel and its parts":
            lines += ["Keys of ``WheelSpec``: :doc:`job-file`, section ``[wheel]``.", ""]
    return "\n".join(lines)


def names_of(rooms: str | tuple[str, ...]) -> list[str]:
    """Public names whose home is in these rooms, in their order."""
    homes = platewheel._HOMES
    return [name for name in platewheel.__all__ if homes.get(name, "").startswith(rooms)]


def examples_page(scripts: Iterable[Path]) -> str:
    """Each script under the first line of what it says of itself."""
    lines = [*_head("Examples"), "Whole scripts, run by the tests.", ""]
    for path in scripts:
        told = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or path.stem
        first = re.split(r"[.:]\s|\.$", told.replace("\n", " "))[0]
        lines += [
            *_head(first, "-"),
            f".. literalinclude:: {path.name}",
            "   :language: python",
            "",
        ]
    return "\n".join(lines)


def keys_page() -> str:
    """Every key of a job file: what it takes, its default or an example, and why."""
    lines = [*_head("Keys of a job file"), "Strict TOML. ``platewheel new --all`` writes all.", ""]
    for name, kind in (*SINGLE.items(), *REPEATED.items()):
        lines += _head(f"[{name}]" if name in SINGLE else f"[[{name}]]", "-")
        lines += _table(("key", "takes", "default", "what it is"), _keys(kind))
    return "\n".join(lines)


def _keys(kind: type[Spec]) -> Iterator[Sequence[str]]:
    for key, field in kind.model_fields.items():
        must = field.is_required()
        try:
            value = "``" + toml_value(example(field)) + "``"
        except TypeError:  # none: the key is left out
            value = "left out"
        usual = f"must be given, as {value}" if must else value
        yield f"``{key}``", allowed(key, field), usual, field.description or ""


def report_page() -> str:
    """Every key of report.json."""
    schema = Report.model_json_schema()
    lines = [*_head("report.json"), "As ``platewheel schema`` prints it.", ""]
    for name, table in (("Report", schema), *schema["$defs"].items()):
        lines += _head(name, "-")
        if table.get("description"):
            lines += [_plain(table["description"].split("\n\n>>>")[0]), ""]
        rows = (
            (f"``{key}``", _type(one), one["description"])
            for key, one in table.get("properties", {}).items()
        )
        lines += _table(("key", "holds", "what it is"), rows)
    return "\n".join(lines)


def _type(one: dict[str, object]) -> str:
    if "$ref" in one:
        return f"`{str(one['$ref']).rsplit('/', 1)[-1]}`_"
    if isinstance(parts := one.get("anyOf"), list):
        return " or ".join(_type(part) for part in parts)
    if one.get("type") == "array" and isinstance(items := one.get("items"), dict):
        return f"list of {_type(items)}"
    if "enum" in one and isinstance(words := one["enum"], list):
        return " | ".join(f"``{word}``" if word else "empty" for word in words)
    return str(one.get("type", one.get("const", "any")))


def _head(title: str, line: str = "=") -> list[str]:
    return [title, line * len(title), ""]


def _picture(name: str, words: str) -> list[str]:
    return [f".. figure:: {name}.svg", "   :width: 80%", "", f"   {words}", ""]


def _table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    lines = [".. list-table::", "   :header-rows: 1", ""]
    for row in (heads, *rows):
        cells = [cell if cell.startswith(("`", "list of `")) else _plain(cell) for cell in row]
        lines += [f"   {'* -' if k == 0 else '  -'} {cell}" for k, cell in enumerate(cells)]
    return [*lines, ""]


def _plain(text: str) -> str:
    """Words in which nothing is markup."""
    for sign in "\\`*|_":
        text = text.replace(sign, f"\\{sign}")
    return text.replace("\n", " ")
