"""What the terminal shows of a comparison: three tables, and which job is better where."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from platewheel.cli.compare.run import CheckPair, Comparison
from platewheel.cli.terminal.show import say, show_table
from platewheel.cli.words.phrases import Given, Name
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Figure
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.spec_model import toml_value
from platewheel.parts.checks.result import CheckResult, verdict_words


def show_comparison(found: Comparison, files: tuple[Path, Path]) -> None:
    """Keys, figures and checks of A and B, and a sentence for each."""
    for name, file, side in zip("AB", files, (found.a, found.b), strict=True):
        say(f"{name}: {file}, {so_many(side.job.head.wheels, 'wheel')}")
    if found.keys:
        show_table("Keys that differ", keys_table(found))
    else:
        say("The two job files say the same.")
    show_table("Figures", figures_table(found))
    if found.checks:
        title = "Checks that differ: verdict, value against limit, margin"
        show_table(title, _checks(found))
    for line in conclusions(found):
        say(line)


def keys_table(found: Comparison) -> Table:
    """Keys of the job files that differ."""
    columns = (Column("key", "key", Name), Column("A", "A", Given), Column("B", "B", Given))
    return table(
        columns,
        (
            {
                "key": Name(row.key),
                "A": Given(row.a, _value(row.a)),
                "B": Given(row.b, _value(row.b)),
            }
            for row in found.keys
        ),
    )


def figures_table(found: Comparison) -> Table:
    """Figures of both, and which is better."""
    columns = (
        Column("name", "figure", Name),
        Column("unit", "unit", Name),
        Column("A", "A", Figure),
        Column("B", "B", Figure),
        Column("better", "better", Name),
    )
    return table(
        columns,
        (
            {
                "name": Name(row.name),
                "unit": Name(row.unit),
                "A": _figure(row.a),
                "B": _figure(row.b),
                "better": Name(row.better) if row.better else None,
            }
            for row in found.figures
        ),
    )


def _figure(value: float | None) -> Figure | Given:
    return Given(None, "not known") if value is None else Figure(value)


def _checks(found: Comparison) -> Table:
    columns = (
        Column("check", "check", Name),
        Column("A", "A", Name),
        Column("B", "B", Name),
        Column("better", "better", Name),
    )
    return table(
        columns,
        (
            {
                "check": Name(pair.title),
                "A": Name(_check(pair.a)),
                "B": Name(_check(pair.b)),
                "better": Name(pair.better),
            }
            for pair in found.checks
        ),
    )


def conclusions(found: Comparison) -> list[str]:
    """Which job is better where, what the cost leaves out, what was not compared."""
    lines = [line for name in "AB" if (line := _praise(found, name))]
    if not lines:
        lines = ["Neither job is better in any figure or verdict."]
    for name, side in zip("AB", (found.a, found.b), strict=True):
        if side.cost and side.cost.not_priced:
            lines.append(f"Not priced in {name}: {', '.join(side.cost.not_priced)}.")
        if side.short:
            lines.append(f"{name} has neither plates nor cost: its blanks fit no stock, see below.")
    if found.a.job.head.wheels != found.b.job.head.wheels:
        lines.append("Not as many wheels: plates and cutting of the whole jobs are not judged.")
    if not any(row.name == "mean wheel load borne" for row in found.figures):
        lines.append("Not rated.")
    return lines


def _praise(found: Comparison, name: str) -> str:
    figures = [row.name for row in found.figures if row.better == name]
    verdicts = [pair.title for pair in found.checks if _turned(pair) and pair.better == name]
    margins = sum(not _turned(pair) and pair.better == name for pair in found.checks)
    told = list(figures)
    if verdicts:
        told.append(f"verdict of {', '.join(verdicts)}")
    if margins:
        told.append(f"the margin of {so_many(margins, 'check')} more")
    return f"{name} is better in: {'; '.join(told)}." if told else ""


def _turned(pair: CheckPair) -> bool:
    return pair.a is None or pair.b is None or pair.a.verdict != pair.b.verdict


def _value(value: Any) -> str:
    if value is None:
        return "not given"
    if isinstance(value, dict):
        return ", ".join(f"{k} = {_value(v)}" for k, v in value.items() if v is not None)
    return toml_value(list(value) if isinstance(value, tuple) else value)


def _check(check: CheckResult | None) -> str:
    if check is None:
        return "does not apply"
    margin = "" if check.margin is None else f", {check.margin:+.1%}"
    if check.value is None:
        return verdict_words(check.verdict)
    side = "at most" if check.at_most else "at least"
    limit = "" if check.limit is None else f", {side} {Figure(check.limit).told('mm')}"
    value = Figure(check.value).told("mm")
    return f"{verdict_words(check.verdict)}: {value}{limit} {check.unit}".rstrip() + margin


def comparison_table(found: Comparison) -> dict[str, Any]:
    """The same as numbers; margins are relative to the limit."""
    return {
        "jobs": {
            name: {"name": side.job.head.name, "wheels": side.job.head.wheels, "short": side.short}
            for name, side in (("A", found.a), ("B", found.b))
        },
        "keys": keys_table(found).as_json(),
        "figures": figures_table(found).as_json(),
        "checks": [
            {
                "id": pair.id,
                "title": pair.title,
                "A": _check_row(pair.a),
                "B": _check_row(pair.b),
                "better": pair.better or None,
            }
            for pair in found.checks
        ],
        "conclusions": conclusions(found),
    }


def _check_row(check: CheckResult | None) -> dict[str, Any] | None:
    if check is None:
        return None
    return {
        "verdict": check.verdict,
        "value": check.value,
        "limit": check.limit,
        "unit": check.unit,
        "margin": check.margin,
    }
