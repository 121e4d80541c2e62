"""Base of the report's tables."""

from __future__ import annotations

from importlib.metadata import version

from pydantic import BaseModel, ConfigDict, Field

SCHEMA_VERSION = 1  # of every report.json; one more where a key goes or means something else


class Row(BaseModel):
    """Nothing beyond the named keys, and never changed."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Versioned(Row):
    """A whole report: by what it was written, and how it is to be read."""

    version: str = Field(
        default_factory=lambda: version("platewheel"), description="of platewheel, that wrote it"
    )
    schema_version: int = Field(
        default=SCHEMA_VERSION,
        description="of this schema: one more where a key goes or means something else; keys that "
        "are added change nothing here",
    )
