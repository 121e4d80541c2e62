"""Which gauges are cut along with the wheels: the job file's [gauges] section."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec

KINDS = ("back_to_back", "track", "flange", "wear", "flangeway")


def _idle(v: Any) -> Iterator[Fault]:
    if any(getattr(v, kind) for kind in KINDS):
        return
    for key, unset in (("thickness_mm", None), ("number", 1), ("steel", None)):
        value = getattr(v, key)
        if value != unset:
            asks = " = true, ".join(KINDS)
            yield Fault(key, value, "nothing while no gauge is asked for", f"{asks} = true")


class GaugesSpec(Spec):
    """Measuring plates of the shop's own."""

    rules: ClassVar[tuple[Rule, ...]] = (_idle,)

    back_to_back: bool = Field(
        False, description="go and no-go between the backs of the two flanges (default: none)"
    )
    track: bool = Field(
        False, description="steps of the least, nominal and greatest gauge (default: none)"
    )
    flange: bool = Field(
        False, description="angle and depth of the flange, new and as welded (default: none)"
    )
    wear: bool = Field(
        False,
        description="limits of a worn wheel: flange too deep or thin, tread hollow (default: none)",
    )
    flangeway: bool = Field(
        False,
        description="go and no-go of the flangeway, and one more for check rails opposite "
        "crossings where the track has them (default: none)",
    )
    thickness_mm: float | None = Field(
        None,
        gt=0,
        le=100,
        examples=[6.0],
        description="plate that they are cut from, one of those in stock",
        json_schema_extra={"takes": "a number"},
    )
    number: int = Field(1, ge=1, le=100, description="of sets (default: one for the shop)")
    steel: Literal["S235", "S275", "S355"] | None = Field(
        None,
        examples=["S235"],
        description="grade of that plate; absent = the wheel's",
        json_schema_extra={"takes": '"S235" | "S275" | "S355"'},
    )

    @property
    def any_wanted(self) -> bool:
        """Whether any is to be cut."""
        return any(getattr(self, kind) for kind in KINDS)
