"""The README as reStructuredText: of Markdown no more than the README has."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

PICTURE = re.compile(r"!\[([^]]*)\]\(([^)]+)\)")
PIECE = re.compile(r"(`[^`]+`|\*\*[^*]+\*\*|\[[^]]+\]\([^)]+\))")
COMMENT = re.compile(r"^<!--.*-->$")


def as_rst(text: str) -> str:
    """Headings, paragraphs, lists, tables, code, pictures and links."""
    return "\n".join(_blocks(text.splitlines())) + "\n"


def _blocks(lines: Sequence[str]) -> Iterator[str]:
    k = 0
    while k < len(lines):
        line, begun = lines[k], k
        if line.startswith("```"):
            k = next(i for i in range(k + 1, len(lines)) if lines[i].startswith("```")) + 1
            language = line[3:].replace("sh", "shell") or "text"
            yield from _code(lines[begun + 1 : k - 1], language)
        elif line.startswith("    ") and (not begun or not lines[begun - 1].strip()):
            while k < len(lines) and (lines[k].startswith("    ") or not lines[k].strip()):
                k += 1
            yield from _code([one[4:] for one in lines[begun:k]], "text")
        elif line.startswith("|"):
            while k < len(lines) and lines[k].startswith("|"):
                k += 1
            yield from _table(lines[begun:k])
        else:
            k += 1
            yield from _line(line)


def _line(line: str) -> Iterator[str]:
    if line.startswith("#"):
        title = line.lstrip("# ")
        yield from (title, ("=" if line.startswith("# ") else "-") * len(title), "")
    elif found := PICTURE.fullmatch(line.strip()):
        yield from ("", f".. image:: {found[2]}", f"   :alt: {found[1]}", "")
    elif not COMMENT.match(line):
        yield _words(line)


def _code(lines: Sequence[str], language: str) -> Iterator[str]:
    yield from ("", f".. code-block:: {language}", "")
    yield from (f"   {line}" for line in lines)
    yield ""


def _table(lines: Sequence[str]) -> Iterator[str]:
    yield from ("", ".. list-table::", "   :header-rows: 1")
    if PICTURE.search(lines[-1]):
        yield f"   :widths: {' '.join(['1'] * (lines[0].count('|') - 1))}"
    yield ""
    for line in (lines[0], *lines[2:]):
        for k, cell in enumerate(line.strip("|").split("|")):
            start, words = ("   * -" if k == 0 else "     -"), cell.strip()
            if found := PICTURE.fullmatch(words):
                yield from (f"{start} .. image:: {found[2]}", f"          :alt: {found[1]}")
                yield "          :width: 100%"
            else:
                yield f"{start} {_words(words)}"
    yield ""


def _words(text: str) -> str:
    pieces = PIECE.split(text)
    return "".join(_marked(one) if k % 2 else _plain(one) for k, one in enumerate(pieces))


def _marked(piece: str) -> str:
    if piece.startswith("`"):
        return f"`{piece}`\\ "
    if piece.startswith("**"):
        return f"{piece}\\ "
    words, target = piece[1:-1].split("](")
    return f":download:`{words} <{target}.txt>`\\ "


def _plain(text: str) -> str:
    return re.sub(r"([\\*_|])", r"\\\1", text)
