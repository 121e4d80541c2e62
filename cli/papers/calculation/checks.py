"""Each check as the template reads it: its lines, its verdict, what it says; and the summary."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from platewheel.cli.papers.calculation.lines import CheckLines, Line, Told
from platewheel.cli.papers.calculation.terms import with_unit
from platewheel.cli.papers.calculation.words import NOT_SET_OUT
from platewheel.cli.words.phrases import Sentence
from platewheel.parts.base.units import Units
from platewheel.parts.checks.result import WORST_FIRST, CheckResult, verdict_words

ROOMS: Final = {  # heading of each group, in the order of the paper
    "running": "Running: does the wheel stay on its rails",
    "strength": "Strength by closed forms",
    "rating": "Load rating and life by stress analysis",
    "wheelset": "Axle, bearings and what holds the wheels",
    "galvanizing": "Galvanizing",
    "making": "Making",
}


def line_data(line: Line) -> dict[str, Any]:
    """One step."""
    return {
        "number": line.number,
        "equation": line.equation,
        "says": line.says,
        "given": "; ".join(line.given),
    }


def check_data(
    number: int, one: CheckLines, results: Mapping[str, CheckResult], units: Units
) -> dict[str, Any]:
    """One check, with the sentence of `results` where it is there (it has tried its advice)."""
    result = results.get(one.working.result.id, one.working.result)
    told = result_data(number, result, units, at_most=one.working.at_most)
    told["asks"] = one.working.says
    told["not_set_out"] = "" if one.working.followed else NOT_SET_OUT
    told["lines"] = [line_data(line) for line in one.lines]
    told["judged"] = _judged(result, one.value, one.limit, units, at_most=one.working.at_most)
    return told


def result_data(
    number: int,
    result: CheckResult,
    units: Units,
    *,
    at_most: bool,
    sides: tuple[Told, Told] = (Told("value", ""), Told("limit", "")),
) -> dict[str, Any]:
    """What a result says, without lines; `sides` are how its value and its limit are called."""
    return {
        "number": number,
        "id": result.id,
        "title": result.title,
        "verdict": result.verdict,
        "value": _side(result.value, result.unit, units),
        "limit": _limit(result, units, at_most=at_most),
        "margin": "" if result.margin is None else f"{100 * result.margin:+.1f} %",
        "says": Sentence(result.says).told(units),
        "source": Sentence(result.source).told(units),
        "asks": "",
        "not_set_out": "",
        "lines": [],
        "judged": _judged(result, *sides, units, at_most=at_most),
    }


def _side(value: float | None, unit: str, units: Units) -> str:
    return "" if value is None else with_unit(value, unit, units)


def _limit(result: CheckResult, units: Units, *, at_most: bool) -> str:
    if result.limit is None:
        return ""
    return f"{'≤' if at_most else '≥'} {with_unit(result.limit, result.unit, units)}"


def _judged(
    result: CheckResult, value: Told | None, limit: Told | None, units: Units, *, at_most: bool
) -> str:
    """`p = 267 N/mm2, at most limit = 543 N/mm2`, of what there is."""
    parts: list[str] = []
    if result.value is not None:
        parts.append(_told(value, "value", result.value, result.unit, units))
    if result.limit is not None:
        side = _told(limit, "limit", result.limit, result.unit, units)
        parts.append(f"at {'most' if at_most else 'least'} {side}" if parts else f"limit {side}")
    if not parts:
        return "not assessed: neither value nor limit"
    return ", ".join(parts)


def _told(one: Told | None, name: str, value: float, unit: str, units: Units) -> str:
    told = one or Told(name, "")
    whence = f" ({told.value})" if told.value else ""
    return f"{told.symbol} = {with_unit(value, unit, units)}{whence}"


def left_open(groups: Sequence[Mapping[str, Any]]) -> list[list[str]]:
    """What does not pass, by verdict, each check with its number; nothing where all pass."""
    checks = [one for group in groups for one in group["checks"]]
    rows = []
    for verdict in ("fail", "warn", "not-assessed"):
        named = [f"{one['number']} {one['id']}" for one in checks if one["verdict"] == verdict]
        if named:
            rows.append([verdict, ", ".join(named)])
    return rows


def counted(results: Sequence[CheckResult]) -> str:
    """How many of each verdict."""
    counts = {name: sum(one.verdict == name for one in results) for name in WORST_FIRST}
    told = (f"{count} {verdict_words(name)}" for name, count in counts.items() if count)
    return ", ".join(told)
