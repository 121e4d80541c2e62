"""Arguments of a question, held to their ranges before any work begins."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar

from pydantic import Field

from platewheel.nesting.search.nest import Effort
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec


class PlanAsked(Spec):
    """How long a plan is looked for."""

    effort: Effort = "normal"
    seed: int = Field(0, ge=0, le=2**31 - 1, examples=[0])


def _least_first(v: Any) -> Iterator[Fault]:
    least, most = v.least_diameter_mm, v.most_diameter_mm
    if least > most:
        advice = f"least_diameter_mm = {most:g}, most_diameter_mm = {least:g}"
        yield Fault("least_diameter_mm", least, f"up to most_diameter_mm, {most:g} mm", advice)


class ProposeAsked(Spec):
    """How far and how hard wheels are looked for."""

    least_diameter_mm: float = Field(ge=60, le=2000, examples=[240.0])
    most_diameter_mm: float = Field(ge=60, le=2000, examples=[400.0])
    step_mm: float = Field(20.0, ge=1, le=200)
    proposals: int = Field(4, ge=1, le=12)
    analyses: int = Field(72, ge=12, le=1000)
    reserve: float = Field(0.1, ge=0, le=2)

    rules: ClassVar[tuple[Rule, ...]] = (_least_first,)
