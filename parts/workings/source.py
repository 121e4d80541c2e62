"""The text of the code itself: the tree of a function, where a constant stands, what both say."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from textwrap import dedent
from types import FunctionType
from typing import NamedTuple

OURS = "platewheel"


class ModuleText(NamedTuple):
    """A module as it is written: its lines, and names assigned or imported at its top."""

    lines: tuple[str, ...]
    assigned: dict[str, ast.stmt]
    imported: dict[str, tuple[str, str]]  # name -> module, name there


@cache
def module_text(name: str) -> ModuleText:
    """Of a module that is loaded; bodies of its functions are read when they are asked for."""
    lines = tuple(_file(name).splitlines())
    assigned: dict[str, ast.stmt] = {}
    imported: dict[str, tuple[str, str]] = {}
    for top in ast.parse("\n".join(_top(lines))).body:
        if isinstance(top, ast.Assign):
            for target in top.targets:
                names = target.elts if isinstance(target, ast.Tuple) else [target]
                assigned.update({one.id: top for one in names if isinstance(one, ast.Name)})
        elif isinstance(top, ast.AnnAssign) and isinstance(top.target, ast.Name):
            assigned[top.target.id] = top
        elif isinstance(top, ast.ImportFrom) and top.module:
            for one in top.names:
                imported[one.asname or one.name] = (top.module, one.name)
    return ModuleText(lines, assigned, imported)


def _file(module: str) -> str:
    file = sys.modules[module].__file__
    assert file is not None
    return Path(file).read_text(encoding="utf-8")


def _top(lines: tuple[str, ...]) -> Iterator[str]:
    """The lines with those of functions and classes blank, so that numbers stay."""
    inside = False
    for line in lines:
        if line and not line[0].isspace():
            inside = line.startswith(("def ", "class ", "@")) or (inside and line[0] == ")")
        yield "" if inside else line


@cache
def function_tree(function: FunctionType) -> ast.FunctionDef | None:
    """The tree of a function of ours, a lambda as a function that returns; None of any other, and
    of a lambda that is not alone on its line."""
    if not is_ours(function):
        return None
    first = function.__code__.co_firstlineno
    if function.__name__ == "<lambda>":
        return _lambda(function.__module__, first)
    lines = module_text(function.__module__).lines[first - 1 :]
    indent = len(lines[0]) - len(lines[0].lstrip())
    head = next((k for k, line in enumerate(lines) if line.lstrip().startswith("def ")), None)
    if head is None or not lines[0].lstrip().startswith(("def ", "@")):
        return None  # made by a library
    body = range(head + 1, len(lines))
    end = next((k for k in body if _outside(lines[k], indent)), len(lines))
    tree = ast.parse(dedent("\n".join(lines[:end]))).body[0]
    return tree if isinstance(tree, ast.FunctionDef) else None


def _outside(line: str, indent: int) -> bool:
    """Whether a line stands after a body that begins so far in; the end of a head does not."""
    text = line.lstrip()
    deep = len(line) - len(text)
    return bool(text) and deep <= indent and not (deep == indent and text.startswith(")"))


def _lambda(module: str, line: int) -> ast.FunctionDef | None:
    every = (node for node in ast.walk(ast.parse(_file(module))) if isinstance(node, ast.Lambda))
    there = [node for node in every if node.lineno == line]
    if len(there) != 1:
        return None
    return ast.FunctionDef("lambda", there[0].args, [ast.Return(there[0].body)], [])


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
    own = [_said(line) for line in text.lines[node.lineno - 1 : end]]
    following: list[str] = []
    for line in text.lines[end:]:  # a comment that runs on below the constant
        if not line.startswith("# "):
            if line and "  # " not in line:  # it is about the next one, which has none of its own
                following = []
            break
        following.append(line[2:])
    if not own[-1]:
        following = []
    words = " ".join([*own, *following]).strip().replace("`", "")
    if words:
        return words
    above: list[str] = []
    for line in reversed(text.lines[: node.lineno - 1]):
        if not line.startswith("# "):
            break
        above.insert(0, line[2:])
    return " ".join(above)


def _said(line: str) -> str:
    """The comment at the end of a line, but not one that is for a tool."""
    return re.sub(r"^(?:fmt|type|noqa)\b:?.*", "", line.partition("  # ")[2])


class Says(NamedTuple):
    """A docstring in three: its first sentence, all but its source, its source."""

    first: str
    whole: str
    source: str


def says(function: FunctionType | property | type | None) -> Says:
    """What a function says of itself, on one line; what it raises is left out."""
    return _says(getattr(function, "__doc__", None) or "")


# `None of what has none`, to the end of the clause; points and semicolons in brackets do not end it
_OF_NONE = r"(?:[;,] (?:and )?|(?<=\.) |^)None (?:[^.;(]|\.(?=\d)|\([^)]*\))*(?=[.;]|$)"


@cache
def _says(doc: str) -> Says:
    text = " ".join(doc.replace("`", "").split())
    text = re.sub(r" ?Raises?: (?:[^.]|\.(?!\s|$))*(?:\.(?=\s|$)|$)", "", text).strip()
    text = re.sub(
        r"(?:[;,] (?:and )?|(?<=\.) |^)None (?:[^.;(]|\.(?=\d)|\([^)]*\))*(?=[.;]|$)", "", text
    ).strip()
    text, _, source = text.partition("Source: ")
    text = text.strip()
    first = re.split(r"(?<=[^.A-Z]{2})\. |: |; ", text)[0].rstrip(".")
    source = re.sub(r" ?see _[A-Z_]+$", "", source.strip().rstrip("."))
    return Says(first, text.rstrip("."), source.strip())
