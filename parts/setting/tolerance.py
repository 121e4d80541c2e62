"""Tolerances of two sides, less and more than the nominal size."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from pydantic import Field

from platewheel.parts.base.faults import Fault

Tolerance = Annotated[
    tuple[
        Annotated[float, Field(strict=True, allow_inf_nan=False)],
        Annotated[float, Field(strict=True, allow_inf_nan=False)],
    ],
    Field(strict=False),
]


def tolerance_faults(
    key: str, pair: tuple[float, float], most_mm: float, such_as: tuple[float, float]
) -> Iterator[Fault]:
    """Faults of a tolerance [less, more] in mm: sides that cross, a nominal size outside them, a
    side of more than `most_mm`."""
    less, more = pair
    shown = [less, more]
    advice = f"{key} = [{such_as[0]:g}, {such_as[1]:g}]"
    if less > more:
        yield Fault(key, shown, "the least first, the most second", f"{key} = [{more:g}, {less:g}]")
    elif not less <= 0 <= more:
        yield Fault(key, shown, "least at most 0, most at least 0: the nominal size is one", advice)
    if max(abs(less), abs(more)) > most_mm:
        yield Fault(key, shown, f"sides of up to {most_mm:g} mm", advice)
