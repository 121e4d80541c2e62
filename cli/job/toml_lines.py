"""A job file line by line: where each key stands, and what can be read where a line is broken."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from platewheel.parts.base.faults import Fault

# `++` and `*+` give nothing back: a line of a million blanks is looked through once
HEAD = re.compile(r"^\s*+(\[\[?)\s*+([\w.\"'-]++(?: ++[\w.\"'-]++)*+)\s*+(\]\]?)\s*+(#.*)?$")
KEY = re.compile(r"^\s*([\w-]+|\"[^\"\n]*\"|'[^'\n]*')((?:\s*\.\s*[\w\"'-]+)*)\s*=(?!=)")


MOST_FUTILE = 3  # times that a text without end is looked through to the end


@dataclass(frozen=True)
class Statement:
    """A head or a key with its value; `number` is the line that it begins in, from 1."""

    number: int
    text: str


def statements(text: str) -> Iterator[Statement]:
    """Those of a text, without blank lines and notes; one that never ends is one line long."""
    lines = text.split("\n")
    at, futile = 0, 0
    while at < len(lines):
        first = at
        whole = lines[at]
        at += 1
        if not whole.strip() or whole.lstrip().startswith("#"):
            continue
        end = at
        state, depth = unended(whole)
        while state and end < len(lines) and futile < MOST_FUTILE:
            begins = state == "[" and (HEAD.match(lines[end]) or KEY.match(lines[end]))
            if begins and not lines[end].lstrip().startswith("[["):
                break
            state, depth = unended(lines[end], state, depth)
            end += 1
        if not state:
            whole, at = "\n".join(lines[first:end]), end
        else:
            futile += end == len(lines)
        yield Statement(first + 1, whole)


def unended(text: str, state: str = "", depth: int = 0) -> tuple[str, int]:
    """What is still open at the end of a line, and how many brackets are: a bracket, three quotes;
    empty where nothing is. The same of the line before it is given."""
    at = 0
    if len(state) == 3:
        at = text.find(state) + 3
        if at < 3:
            return state, depth
    while at < len(text):
        mark = text[at]
        if text[at : at + 3] in ('"""', "'''"):
            closed = text.find(text[at : at + 3], at + 3)
            if closed < 0:
                return mark * 3, depth
            at = closed + 3
            continue
        if mark in "\"'":
            at = _string_end(text, at)
        elif mark == "#":
            at = text.find("\n", at)
            if at < 0:
                break
        elif mark in "[{":
            depth += 1
        elif mark in "]}":
            depth -= 1
        at += 1
    return ("[", depth) if depth > 0 else ("", 0)


def _string_end(text: str, start: int) -> int:
    """Place of the closing quote; the end of the line where there is none."""
    mark, at = text[start], start + 1
    while at < len(text) and text[at] not in (mark, "\n"):
        at += 2 if text[at] == "\\" and mark == '"' else 1
    return min(at, len(text) - 1)


def parsed(text: str) -> dict[str, Any] | None:
    """The table of a piece of TOML; None where it is none."""
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError):
        return None


def places(text: str) -> dict[str, int]:
    """Lines of keys by `section.key`, and of sections by their names; of rows `row[0].key`."""
    found: dict[str, int] = {}
    rows: dict[str, int] = {}
    section = ""
    for one in statements(text):
        head = HEAD.match(one.text)
        if head:
            section = _plain(head[2])
            found.setdefault(section, one.number)
            if head[1] == "[[":
                rows[section] = rows.get(section, -1) + 1
                section = f"{section}[{rows[section]}]"
                found[section] = one.number
            continue
        key = KEY.match(one.text)
        if key:
            path = _plain(key[1] + key[2])
            found.setdefault(f"{section}.{path}" if section else path, one.number)
            found.setdefault(section or path.split(".")[0], one.number)
    return found


@dataclass(frozen=True)
class Places:
    """Lines of a file's keys and sections, its last line, and the names of all sections."""

    lines: Mapping[str, int] = field(default_factory=dict)
    last: int = 0
    sections: frozenset[str] = frozenset()

    def line(self, key: str) -> int:
        """Line of a key as faults name it: its own, that of its section's head, or the last; 0
        where it is of another file."""
        start = re.match(r"(([\w-]+)(?:\[\d+\])?)(?:\.[\w-]+)?", key)
        if not start or key[start.end() :].startswith(":"):  # `stock.toml:8`
            return 0
        paths = (start[0], start[1], start[2])
        found = (self.lines[path] for path in paths if path in self.lines)
        return next(found, self.last * (start[2] in self.sections))

    def words(self, key: str) -> str:
        """`line 7: ` before what is said of a key; nothing where its line is not known."""
        line = self.line(key)
        return f"line {line}: " if line else ""

    def placed(self, fault: Fault) -> Fault:
        """The fault with its line."""
        return fault if fault.line else replace(fault, line=self.line(fault.key))


def _plain(path: str) -> str:
    return ".".join(part.strip().strip("\"'") for part in path.split("."))
