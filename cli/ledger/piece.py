"""One piece of steel on the rack, and the ledger as a record of all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.nesting.stock.piece_name import as_called
from platewheel.nesting.stock.round_bar import Round
from platewheel.nesting.stock.stock import Bar, Offcut, Pipe, Stock
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.plain_values import name_rule
from platewheel.parts.base.spec_model import Rule, Spec

State = Literal["free", "reserved", "used", "coming"]
KINDS: dict[str, type[Spec]] = {
    "plate": Stock,
    "offcut": Offcut,
    "bar": Bar,
    "pipe": Pipe,
    "round": Round,
}


def _job_told(v: Any) -> Iterator[Fault]:
    if v.state == "free" and v.job:
        yield Fault("job", v.job, "none beside state free", 'state = "reserved", or no job')
    if v.state != "free" and not v.job:
        yield Fault("job", None, f"the job's name beside state {v.state}", 'job = "my-wheels"')


class PieceHead(Spec):
    """What the ledger says of a piece beside its sizes."""

    rules: ClassVar[tuple[Rule, ...]] = (_job_told, name_rule)

    name: str = Field(
        min_length=1,
        max_length=60,
        examples=["plate-1"],
        description="chalked on it; capitals and blanks make no other name",
    )
    state: State = Field(
        "free",
        description="coming: what a job will leave, once it is cut",
    )
    job: str | None = Field(
        None,
        max_length=80,
        examples=["my-wheels"],
        description="that has it, had it, or will leave it",
        json_schema_extra={"takes": "text"},
    )
    job_file: str | None = Field(
        None,
        max_length=4000,
        examples=["/home/shop/my-wheels.toml"],
        description="of that job: two jobs of one name are two",
        json_schema_extra={"takes": "text"},
    )
    note: str | None = Field(
        None,
        max_length=400,
        examples=["upper rack"],
        description="your own words",
        json_schema_extra={"takes": "text"},
    )


@dataclass(frozen=True)
class Holder:
    """A job by its name and its file: a copy of the file elsewhere is another job."""

    job: str
    job_file: str | None = None

    def __str__(self) -> str:
        return f"job '{self.job}'" + (f" of {self.job_file}" if self.job_file else "")


@dataclass(frozen=True)
class Piece:
    """A piece by its name; `sizes` are the keys of its kind's table in a job file, sound ones."""

    kind: str
    name: str
    sizes: Mapping[str, Any]
    state: State = "free"
    job: str | None = None
    job_file: str | None = None
    note: str | None = None

    @property
    def holder(self) -> Holder | None:
        """The job that has it, had it, or will leave it."""
        return Holder(self.job, self.job_file) if self.job else None

    @property
    def called(self) -> str:
        return as_called(self.name)

    @property
    def spec(self) -> Any:
        """The row that it is in a job file."""
        more = {"name": self.name} if self.kind == "offcut" else {}
        return KINDS[self.kind](**more, **self.sizes)

    @property
    def who(self) -> str:
        """`job 'pond-line' of /home/shop/pond.toml has reserved it`."""
        words = {
            "free": "it is free",
            "reserved": f"{self.holder} has reserved it",
            "used": f"{self.holder} has cut it up",
            "coming": f"{self.holder} leaves it, but is not cut yet",
        }
        return words[self.state]

    def may_use(self, holder: Holder) -> bool:
        """Whether that job may lay parts on it: it is free, or reserved for it already."""
        return self.state == "free" or (self.state, self.holder) == ("reserved", holder)

    def put(self, state: State, holder: Holder | None = None) -> Piece:
        """The piece in that state, of that job."""
        job, file = (holder.job, holder.job_file) if holder else (None, None)
        return replace(self, state=state, job=job, job_file=file)


@dataclass(frozen=True)
class Ledger:
    """All pieces, in the order of the file."""

    path: Path
    pieces: tuple[Piece, ...] = ()

    def piece(self, name: str) -> Piece | None:
        """The piece of that name, however it is written."""
        return next((p for p in self.pieces if p.called == as_called(name)), None)
