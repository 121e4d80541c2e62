"""Numbers as a person reads them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import Any

from platewheel.parts.base.units import Units, inches, length, thousandths


def figure(value: float | None, unit: str = "") -> str:
    """Four significant digits, never an exponent for large ones; empty for None."""
    if value is None:
        return ""
    digits = f"{value:.0f}" if abs(value) >= 1000 else f"{value:.4g}"
    return f"{digits} {unit}".strip()


def payload_words(payload_kg: float) -> str:
    """What a wagon may carry."""
    if payload_kg < 0:
        return f"not even the empty wagon, {-payload_kg:.0f} kg too heavy"
    return f"a wagon may carry {payload_kg:.0f} kg"


def counted(names: Iterable[str]) -> str:
    """How many of each name: "3 disc, 13 flange"."""
    return ", ".join(f"{count} {name}" for name, count in sorted(Counter(names).items()))


def length_beside(mm: float, units: Units, places: int = 1) -> str:
    """A length for a table: mm, or inches to 1/64 with the mm beside."""
    told = f"{mm:.{places}f}"
    return told if units == "mm" else f"{inches(mm)} ({told} mm)"


def fine_length(mm: float, units: Units) -> str:
    """A length for a micrometer: to 0.001 mm, or inches to a ten-thousandth with the mm beside."""
    told = f"{mm:.3f} mm"
    return told if units == "mm" else f"{thousandths(mm)} ({told})"


def thickness(mm: float, units: Units) -> str:
    """Of a plate: mm, or inches with the mm beside, as plate is often sold by them."""
    return f"{mm:g} mm" if units == "mm" else f"{inches(mm)} ({mm:g} mm)"


def check_cells(row: Any, units: Units = "mm") -> tuple[str, str, str, str, str, str]:
    """A check as table cells: verdict, title, value, limit, what it says, source."""
    value, limit = figure(row.value, row.unit), figure(row.limit, row.unit)
    if units == "inch" and row.unit == "mm":
        value, limit = (
            f"{length(mm, units)} ({text})" if mm is not None else text
            for mm, text in ((row.value, value), (row.limit, limit))
        )
    return row.verdict, row.title, value, limit, row.says, row.source


def web_words(web_mm: float, edge_web_mm: float) -> str:
    """What steel is left standing beside the kerfs, in a sentence."""
    if web_mm > 0:
        between = f"Between the kerfs of two neighbours {web_mm:.1f} mm of steel stand"
    else:
        between = "The kerfs of two neighbours run into one, no steel stands between them"
    return f"{between}; {edge_web_mm:.1f} mm between a kerf and the sheet's edge."
