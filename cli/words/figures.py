"""Figures of plates and payload in sentences, the same for terminal and page."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from platewheel.parts.base.so_many import so_many


def payload_words(payload_kg: float) -> str:
    """What a wagon may carry."""
    if payload_kg < 0:
        return f"not even the empty wagon, {-payload_kg:.0f} kg too heavy"
    return f"a wagon may carry {payload_kg:.0f} kg"


def counted(names: Iterable[str]) -> str:
    """How many of each name: "3 disc, 13 flange"."""
    return ", ".join(f"{count} {name}" for name, count in sorted(Counter(names).items()))


def web_words(web_mm: float, edge_web_mm: float) -> str:
    """What steel is left standing beside the kerfs, in a sentence."""
    if web_mm > 0:
        between = f"Between the kerfs of two neighbours {web_mm:.1f} mm of steel stand"
    else:
        between = "The kerfs of two neighbours run into one, no steel stands between them"
    return f"{between}; {edge_web_mm:.1f} mm between a kerf and the sheet's edge."


def over_words(travels: int) -> str:
    """How often travel crosses parts already cut, and what to do; nothing where it does not."""
    if not travels:
        return ""
    verb = so_many(travels, "travel crosses", "travels cross")
    return f"{verb} parts already cut: lift the torch clear of one that tips up, or ask for tabs"
