"""An equation that is written here and not read off a check: symbols, numbers, result, by one
template, so that both agree."""

from __future__ import annotations

from collections.abc import Mapping

from platewheel.cli.papers.calculation.terms import digits, with_unit
from platewheel.parts.base.units import Units


def equation(
    symbol: str, formula: str, values: Mapping[str, float], result: float, unit: str, units: Units
) -> dict[str, str]:
    """The equation, and the values of its symbols; `formula` has them in braces: `{way} / {D}`."""
    letters = formula.format(**{name: name for name in values})
    numbers = formula.format(**{name: digits(value) for name, value in values.items()})
    return {
        "equation": f"{symbol} = {letters} = {numbers} = {with_unit(result, unit, units)}",
        "given": ", ".join(f"{name} = {digits(value)}" for name, value in values.items()),
    }
