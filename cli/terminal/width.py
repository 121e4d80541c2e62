"""How wide the lines are that a person reads, and how they are folded."""

from __future__ import annotations

import os
import re
import textwrap
from collections.abc import Iterable, Iterator
from typing import TextIO

PIPED = 160  # columns of a table for a file or another program
UNTOLD = 80  # of a terminal that does not say
NARROW = 80  # below it a table is told a row a block
LEAST = 20
SIZE = "[1-9][0-9]{0,3}"  # of a terminal, as a variable says it
# not parted at the end of a line: `key = 4`, `16 %`, `3.5 mm`
_KEPT = re.compile(r"(?<=\w) = (?=\S)|(?<=\d) (?=(?:%|N|mm|kg|km|deg|m|x)\b|%)")
_GLUE = "\N{NO-BREAK SPACE}"


def columns(stream: TextIO, asked: bool = False) -> int | None:
    """Columns of the terminal behind a stream, or of COLUMNS where that is set; None where a
    program reads, for which no line is folded, unless COLUMNS has `asked` for it."""
    wanted = os.environ.get("COLUMNS", "")
    if not stream.isatty() and not (asked and wanted):
        return None
    if re.fullmatch(SIZE, wanted):
        return max(int(wanted), LEAST)
    try:
        given = os.get_terminal_size(stream.fileno()).columns
    except OSError:  # no terminal
        given = 0
    return max(given or UNTOLD, LEAST)


def folded(line: str, width: int | None, indent: int = 6) -> list[str]:
    """A line in lines of the width, those below the first indented; a long word is not broken."""
    if width is None or len(line) <= width:
        return [line]
    kept = _KEPT.sub(lambda found: found[0].replace(" ", _GLUE), line)
    lines = textwrap.wrap(
        kept,
        width,
        subsequent_indent=" " * min(indent, width // 4),
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [text.replace(_GLUE, " ") for text in lines]


def row_blocks(
    heads: Iterable[str], rows: Iterable[Iterable[str]], width: int | None
) -> Iterator[str]:
    """Lines of a table too wide for its place: a row a block, `head: cell` below each other."""
    heads = list(heads)
    for row in rows:
        for head, cell in zip(heads, row, strict=True):
            if cell:
                yield from folded(f"{head}: {cell}", width, 2)
        yield ""
