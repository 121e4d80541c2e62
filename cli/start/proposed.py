"""The short job with the wheel that `propose` found."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from platewheel.parts.wheel.spec import WheelSpec


def with_proposal(
    table: Mapping[str, Any], wheel: Mapping[str, Any], back_to_back_mm: float | None
) -> dict[str, Any]:
    """The job's table with every key of `wheel` that is not left to its default or was there, and
    the back-to-back in [axle] where one must be set; all lengths mm."""
    fields = WheelSpec.model_fields
    here = table["wheel"]
    kept = {k: v for k, v in wheel.items() if k in here or v != fields[k].default}
    axle = {} if back_to_back_mm is None else {"axle": {"back_to_back_mm": back_to_back_mm}}
    return {**table, "wheel": kept, **axle}
