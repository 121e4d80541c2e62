"""A row of a proposal as the search would lay it, for tests of what is done with rows."""

from __future__ import annotations

from typing import Any

from platewheel.cli.schema.propose import ProposalRow
from platewheel.parts.wheel.spec import WheelSpec


def laid(wheel: WheelSpec, estimate: float, **more: Any) -> ProposalRow:
    """Of this wheel, its cost as estimated and one more on the plates."""
    about: dict[str, Any] = {
        "rank": 0,
        "play_mm": 8.0,
        "back_to_back_mm": 425.0,
        "cost_per_wheel": estimate + 1,
        "cost_estimate": estimate,
        "mass_kg": 9.0,
        "hours_per_wheel": 1.5,
        "rated_n": 3100.0,
        "load_n": 3000.0,
        "governs": "toes",
        "payload_kg_per_wagon": 500,
        "sheets_used": 1,
        "binds": "a check: narrowly",
        "binds_margin": 0.01,
        "warnings": [],
        "changes": [],
    }
    return ProposalRow(wheel=wheel.model_dump(), **about | more)
