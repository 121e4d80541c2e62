"""The section [job]: what the job is called, how many wheels, whose drawing."""

from __future__ import annotations

from typing import ClassVar

from pydantic import Field

from platewheel.parts.base.plain_values import name_rule
from platewheel.parts.base.spec_model import Rule, Spec


class JobHead(Spec):
    """What the job is called and how many wheels it makes."""

    rules: ClassVar[tuple[Rule, ...]] = (name_rule,)

    name: str = Field(
        pattern=r"^[A-Za-z0-9]([A-Za-z0-9 ._-]{0,58}[A-Za-z0-9_-])?$",
        examples=["my-wheels"],
        description="names the folder in out/",
        json_schema_extra={
            "takes": "of 1 to 60 letters, digits, spaces, '.', '_' or '-', first a letter or "
            "digit, no end in ' ' or '.'"
        },
    )
    wheels: int = Field(ge=1, le=100000, examples=[8], description="how many to make")
    author: str | None = Field(
        None,
        min_length=1,
        max_length=100,
        examples=["the tramway's workshop"],
        description="who answers for the drawing; stands in the head of every STEP file",
        json_schema_extra={"takes": "text"},
    )
    ledger: str | None = Field(
        None,
        min_length=1,
        max_length=400,
        examples=["stock.toml"],
        description="the steel on the rack, a file seen from this one; see `platewheel stock`",
        json_schema_extra={"takes": "text"},
    )
