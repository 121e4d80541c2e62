"""Checks as the terminal tells them: what fails last, and counted in the last line."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence

from platewheel.cli.schema.report import CheckRow
from platewheel.cli.terminal.width import PIPED, columns, folded
from platewheel.cli.words.checks import limit_words
from platewheel.cli.words.values import Figure, Margin
from platewheel.parts.base.so_many import so_many
from platewheel.parts.checks.result import Verdict, verdict_words

TOLD: tuple[Verdict, ...] = ("fail", "warn", "pass", "not-assessed")
LOOKS = {"fail": "bold red", "warn": "yellow", "pass": "green", "not-assessed": "dim"}
INDENT = 6  # of the sentence below its head


def check_lines(
    rows: Sequence[CheckRow],
    width: int | None = None,
    *,
    every: bool = False,
    sources: bool = False,
) -> list[tuple[str, str]]:
    """Lines, each with the verdict that it is of, or none; `rows` stand worst first. Passes with
    `every`, sources with either; folded to `width`."""
    lines: list[tuple[str, str]] = []
    told = (row for row in reversed(rows) if every or row.verdict != "pass")
    for head, says, alike in _blocks(told):
        lines += [(alike[0].verdict, text) for text in folded(head, width, INDENT)]
        below = [says] + [source for source in _sources(alike) if every or sources]
        for words in below:
            lines += [("", text) for text in folded(" " * INDENT + words, width, INDENT)]
    if not every:
        more = "--all shows what passes too, --sources where limits come from"
        lines[:0] = [("", text) for text in folded(more, width, INDENT)]
    return [*lines, *(("", text) for text in folded(counted(rows), width, INDENT))]


def _blocks(rows: Iterable[CheckRow]) -> Iterator[tuple[str, str, list[CheckRow]]]:
    """Head, sentence and rows of what is told together: checks that are not assessed, all for one
    reason, say it once."""
    together: dict[tuple[str, str], list[CheckRow]] = {}
    for row in rows:
        reason = row.says if row.verdict == "not-assessed" else row.id
        together.setdefault((row.verdict, reason), []).append(row)
    for block in together.values():
        head = _head(block[0])
        if len(block) > 1:
            names = "; ".join(row.title for row in block)
            head = f"{verdict_words(block[0].verdict)}  {so_many(len(block), 'check')}: {names}"
        yield head, block[0].says, block


def _sources(block: Sequence[CheckRow]) -> list[str]:
    """Where the limits come from, each told of its check where there are some."""
    if len(block) == 1:
        return [f"source: {block[0].source}"]
    return [f"source of {row.title}: {row.source}" for row in block]


def counted(rows: Sequence[CheckRow]) -> str:
    """`2 fail, 3 warn, 51 pass, 4 not assessed`."""
    found = [row.verdict for row in rows]
    return ", ".join(f"{found.count(one)} {verdict_words(one)}" for one in TOLD)


def show_checks(rows: Sequence[CheckRow], every: bool = False, sources: bool = False) -> None:
    """On stdout; coloured on a terminal alone."""
    from rich.console import Console
    from rich.text import Text

    width = columns(sys.stdout, asked=True)
    console = Console(width=width or PIPED, soft_wrap=True, highlight=False)
    for verdict, line in check_lines(rows, width, every=every, sources=sources):
        text = Text(line)
        if line.startswith(verdict_words(verdict)):
            text.stylize(LOOKS.get(verdict, ""), 0, len(verdict_words(verdict)))
        console.print(text)


def _head(row: CheckRow) -> str:
    """`fail  Fillet throat: 2 mm, at least 3 mm, margin -33%`."""
    limit = limit_words(row)
    figures = [
        None if row.value is None else Figure(row.value, row.unit).told("mm"),
        None if limit is None else limit.told("mm"),
        None if row.margin is None else f"margin {Margin(row.margin).told('mm')}",
    ]
    told = ", ".join(text for text in figures if text)
    head = f"{verdict_words(row.verdict) + '  ':<{INDENT}}{row.title}"
    return f"{head}: {told}" if told else head
