"""How papers and pages tell what a report says: the one place that every sentence passes.

Terminal and JSON tell it as it stands, with the keys of the job file; a page in a shop does not.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from platewheel.cli.words.phrases import Phrase, Sentence
from platewheel.cli.words.plain import plain
from platewheel.cli.words.table import Column, Look, Table
from platewheel.cli.words.values import Value
from platewheel.parts.base.plain_values import without_unseen
from platewheel.parts.base.units import Units

KEY = re.compile(r"\[{1,2}[a-z_]+\]{1,2}|\b[a-z]+(?:_[a-z]+)*\.[a-z]+(?:_[a-z0-9]+)*(?![\w.])")
BRACKETS = re.compile(r"\s*\([^)]*\)")


def without_keys(says: str) -> str:
    """What is left of a note by what a line is priced: clauses without a key of the job file."""
    return "; ".join(filter(None, map(_without_keys, says.split("; "))))


def _without_keys(clause: str) -> str:
    if not KEY.search(clause):
        return clause
    key, colon, rest = clause.partition(": ")
    if colon and KEY.fullmatch(key):
        return rest
    parts = BRACKETS.sub("", clause).split(", ")
    return ", ".join(part for part in parts if not KEY.search(part))


def on_paper(said: str | Value | None, units: Units, bare: bool = False) -> str:
    """A value, or a sentence that came as plain text; nothing for an empty cell."""
    if said is None:
        return ""
    if isinstance(said, str):
        said = Sentence(said)
    if isinstance(said, Sentence):
        said = Sentence(plain(said.text))
    if isinstance(said, Phrase):
        parts = (
            _seen(plain(one)) if isinstance(one, str) else on_paper(one, units, bare)
            for one in said.parts
        )
        return "".join(parts)
    return _seen(said.told(units, bare))


def _seen(text: str) -> str:
    """Without marks that nobody sees but ends of lines: a name or a path may have any."""
    return "\n".join(map(without_unseen, text.split("\n")))


def lines_on_paper(table: Table, units: Units) -> Iterator[tuple[Look, list[tuple[Column, str]]]]:
    """Each row of a table: how it looks, and its cells, each with its column."""
    for row in table.rows:
        yield (
            row.look,
            [(one, on_paper(row.cells[one.key], units, one.bare)) for one in table.columns],
        )


def backticked(line: str) -> list[str]:
    """Words, then what stood between backticks, then words and so on."""
    return re.split(r"`([^`]+)`", line)
