"""Numbers as a person reads them."""

from __future__ import annotations


def figure(value: float | None, unit: str = "") -> str:
    """Four significant digits, never an exponent for large ones; empty for None."""
    if value is None:
        return ""
    digits = f"{value:.0f}" if abs(value) >= 1000 else f"{value:.4g}"
    return f"{digits} {unit}".strip()
