"""The text of the code itself: the tree of a function, where a constant stands, what both say."""

from __future__ import annotations

import ast
import re
import sys
from functools import cache
from pathlib import Path
from types import FunctionType
from typing import NamedTuple

OURS = "platewheel"
FUNCTION = ast.FunctionDef | ast.Lambda


class ModuleText(NamedTuple):
    """A module as it is written: functions by the line of their `def`, names assigned or imported
    at its top."""

    functions: dict[int, ast.FunctionDef]
    assigned: dict[str, ast.stmt]
    imported: dict[str, tuple[str, str]]  # name -> module, name there
    lines: tuple[str, ...]


@cache
def module_text(name: str) -> ModuleText:
    """Of a module that is loaded."""
    file = sys.modules[name].__file__
    assert file is not None
    text = Path(file).read_text(encoding="utf-8")
    tree = ast.parse(text)
    functions: dict[int, ast.FunctionDef] = {}
    lambdas: dict[int, list[ast.FunctionDef]] = {}
    assigned: dict[str, ast.stmt] = {}
    imported: dict[str, tuple[str, str]] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            functions[min([node.lineno, *(one.lineno for one in node.decorator_list)])] = node
        elif isinstance(node, ast.Lambda):
            short = ast.FunctionDef("lambda", node.args, [ast.Return(node.body)], [])
            lambdas.setdefault(node.lineno, []).append(short)
    for top in tree.body:
        if isinstance(top, ast.Assign):
            for target in top.targets:
                names = target.elts if isinstance(target, ast.Tuple) else [target]
                assigned.update({one.id: top for one in names if isinstance(one, ast.Name)})
        elif isinstance(top, ast.AnnAssign) and isinstance(top.target, ast.Name):
            assigned[top.target.id] = top
        elif isinstance(top, ast.ImportFrom) and top.module:
            for one in top.names:
                imported[one.asname or one.name] = (top.module, one.name)
    functions |= {line: some[0] for line, some in lambdas.items() if len(some) == 1}
    return ModuleText(functions, assigned, imported, tuple(text.splitlines()))


def function_tree(function: FunctionType) -> ast.FunctionDef | None:
    """The tree of a function of ours; None of any other, and of what has no `def`."""
    if not is_ours(function):
        return None
    return module_text(function.__module__).functions.get(function.__code__.co_firstlineno)


def is_ours(function: FunctionType) -> bool:
    """Whether it is written in this project."""
    module = function.__module__ or ""
    return module.split(".")[0] == OURS and module in sys.modules


class Constant(NamedTuple):
    """Where a constant stands and what is said beside it."""

    home: str
    name: str
    says: str


@cache
def constant(module: str, name: str) -> Constant | None:
    """A name of a module's top followed to where it is assigned; None where it is no constant."""
    text = module_text(module)
    if name in text.imported:
        home, other = text.imported[name]
        if home.split(".")[0] != OURS or home not in sys.modules:
            return None
        return constant(home, other)
    if name not in text.assigned:
        return None
    return Constant(module, name, _comment(text, text.assigned[name]))


def _comment(text: ModuleText, node: ast.stmt) -> str:
    """The comment on a constant's lines, or else the lines of comment above it."""
    end = node.end_lineno or node.lineno
    own = [line.partition("  # ")[2] for line in text.lines[node.lineno - 1 : end]]
    following = []
    for line in text.lines[end:]:  # a comment that runs on below the constant
        if not (line.startswith("# ") and own[-1]):
            break
        following.append(line[2:])
    words = " ".join([*own, *following]).strip()
    if words and words != "type: ignore":
        return words
    above: list[str] = []
    for line in reversed(text.lines[: node.lineno - 1]):
        if not line.startswith("# "):
            break
        above.insert(0, line[2:])
    return " ".join(above)


class Says(NamedTuple):
    """A docstring in three: its first sentence, all but its source, its source."""

    first: str
    whole: str
    source: str


def says(function: FunctionType | property | type | None) -> Says:
    """What a function says of itself, on one line; what it raises is left out."""
    return _says(getattr(function, "__doc__", None) or "")


@cache
def _says(doc: str) -> Says:
    text = " ".join(doc.replace("`", "").split())
    text = re.sub(r" ?Raises?: [^.]*(\.(?=\s|$)|$)", "", text).strip()
    text, _, source = text.partition("Source: ")
    text = text.strip()
    first = re.split(r"(?<=[^.A-Z]{2})\. |: |; ", text)[0].rstrip(".")
    return Says(first, text, source.strip().rstrip("."))
