"""Checks as the terminal tells them: what fails last, and counted in the last line."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from platewheel.cli.schema.report import CheckRow
from platewheel.cli.terminal.width import PIPED, columns, folded
from platewheel.cli.words.checks import limit_words
from platewheel.cli.words.values import Figure, Margin
from platewheel.parts.checks.result import Verdict

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
    for row in reversed(rows):
        if row.verdict == "pass" and not every:
            continue
        lines += [(row.verdict, text) for text in folded(_head(row), width, INDENT)]
        below = [row.says] + ([f"source: {row.source}"] if every or sources else [])
        for words in below:
            lines += [("", text) for text in folded(" " * INDENT + words, width, INDENT)]
    if not every:
        more = "--all shows what passes too, --sources where limits come from"
        lines[:0] = [("", text) for text in folded(more, width, INDENT)]
    return [*lines, *(("", text) for text in folded(counted(rows), width, INDENT))]


def counted(rows: Sequence[CheckRow]) -> str:
    """`2 fail, 3 warn, 51 pass, 4 not assessed`."""
    found = [row.verdict for row in rows]
    return ", ".join(f"{found.count(one)} {_word(one)}" for one in TOLD)


def show_checks(rows: Sequence[CheckRow], every: bool = False, sources: bool = False) -> None:
    """On stdout; coloured on a terminal alone."""
    from rich.console import Console
    from rich.text import Text

    width = columns(sys.stdout, asked=True)
    console = Console(width=width or PIPED, soft_wrap=True, highlight=False)
    for verdict, line in check_lines(rows, width, every=every, sources=sources):
        text = Text(line)
        if line.startswith(_word(verdict)):
            text.stylize(LOOKS.get(verdict, ""), 0, len(_word(verdict)))
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
    head = f"{_word(row.verdict) + '  ':<{INDENT}}{row.title}"
    return f"{head}: {told}" if told else head


def _word(verdict: str) -> str:
    return verdict.replace("-", " ")
