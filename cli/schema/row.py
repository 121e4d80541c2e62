"""Base of the report's tables."""

from __future__ import annotations

from importlib.metadata import version
from typing import Any, Self

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    SerializerFunctionWrapHandler,
    model_serializer,
)

SCHEMA_VERSION = 1  # of every report.json; one more where a key goes or means something else
DIGITS = 12  # of a figure: sums in another order end otherwise


class Row(BaseModel):
    """Nothing beyond the named keys, and never changed. Its figures are rounded as it is written:
    the last bits of a sum are no part of a report."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)

    @classmethod
    def of(cls, record: object, **own: Any) -> Self:
        """The row of a record that calls things as the row does: every key that is not among `own`
        is the record's. Raises: AttributeError where the record has no such."""
        keys = cls.model_fields.keys() - own.keys()
        return cls(**{key: getattr(record, key) for key in keys}, **own)

    @model_serializer(mode="wrap")
    def _rounded(self, write: SerializerFunctionWrapHandler) -> dict[str, Any]:
        return {key: rounded(value) for key, value in write(self).items()}


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


def rounded(value: Any) -> Any:
    """Floats, and those in lists, to the digits that are meant."""
    if isinstance(value, float):
        return float(f"{value:.{DIGITS}g}")
    if isinstance(value, list | tuple):
        return [rounded(one) for one in value]
    return value
