"""Base of the report's tables."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Row(BaseModel):
    """Nothing beyond the named keys, and never changed."""

    model_config = ConfigDict(extra="forbid", frozen=True)
