"""What is cut from: the job file's stock, offcut, bar and pipe tables."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from platewheel.nesting.stock.cutting import LEAST_WEB_MM as LEAST_WEB_MM
from platewheel.nesting.stock.cutting import Cutting as Cutting
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.plain_values import name_rule
from platewheel.parts.base.spec_model import Rule, Spec

Coordinate = Annotated[float, Field(ge=-100_000, le=100_000)]
XY = Annotated[list[Coordinate], Field(min_length=2, max_length=2)]
Ring = Annotated[list[XY], Field(min_length=3)]
Steel = Literal["S235", "S275", "S355"]


def _count() -> Any:
    return Field(
        None,
        ge=0,
        le=100000,
        examples=[10],
        description="to hand; absent = as many as needed",
        json_schema_extra={"takes": "a whole number"},
    )


class Stock(Spec):
    """Sheets of one size; x of a layout runs along `length_mm`, y along `width_mm`."""

    steel: Steel = Field("S235", description="grade of EN 10025-2")
    thickness_mm: float = Field(gt=0, le=100, examples=[6.0], description="of the sheet")
    width_mm: float = Field(gt=0, le=10000, examples=[1250.0], description="of the sheet")
    length_mm: float = Field(gt=0, le=30000, examples=[2500.0], description="of the sheet")
    count: int | None = _count()
    price: float = Field(0.0, ge=0, description="of one sheet, any currency; 0 = not known")


def _sound_outline(v: Any) -> Iterator[Fault]:
    from shapely import Polygon

    shape = Polygon(v.outline)
    if not shape.is_valid or not shape.area > 0:
        yield Fault(
            "outline",
            v.outline,
            "corners in order round one area, no crossing edges",
            "list the corners as you walk round the plate",
        )
        return
    before: list[Any] = []
    for i, ring in enumerate(v.holes):
        hole = Polygon(ring)
        if not hole.is_valid or not hole.area > 0 or not shape.contains(hole):
            yield Fault(
                f"holes[{i}]", ring, "a simple outline inside the offcut", "check its corners"
            )
            continue
        if any(hole.intersects(other) for other in before):
            yield Fault(
                f"holes[{i}]", ring, "a hole clear of the others", "list both as one outline"
            )
        before.append(hole)


class Offcut(Spec):
    """A left-over piece: corners in mm on any origin, and holes already cut in it."""

    rules: ClassVar[tuple[Rule, ...]] = (_sound_outline, name_rule)

    name: str = Field(
        min_length=1, max_length=60, examples=["corner-1"], description="what is chalked on it"
    )
    steel: Steel = Field("S235", description="grade of EN 10025-2")
    thickness_mm: float = Field(gt=0, le=100, examples=[6.0], description="of the piece")
    outline: Ring = Field(
        examples=[[[0, 0], [600, 0], [600, 400], [0, 400]]],
        description="corners [x, y] in order",
        json_schema_extra={
            "takes": "a list of at least three [x, y] corners in mm, each from -100000 to 100000"
        },
    )
    holes: list[Ring] = Field(
        default_factory=list,
        description="outlines already cut out of it",
        json_schema_extra={"takes": "a list of outlines, each of at least three [x, y] corners"},
    )


class Bar(Spec):
    """Flat bar for rolled tread rings, cut to length."""

    width_mm: float = Field(gt=0, le=1000, examples=[60.0], description="of the bar")
    thickness_mm: float = Field(gt=0, le=100, examples=[8.0], description="of the bar")
    length_mm: float = Field(gt=0, le=30000, examples=[6000.0], description="of the bar")
    count: int | None = _count()
    price: float = Field(0.0, ge=0, description="of one length, any currency")


def _hollow(v: Any) -> Iterator[Fault]:
    if not 2 * v.wall_mm < v.outside_mm:
        allowed = f"below half of outside_mm = {v.outside_mm:g}, as a pipe is hollow"
        yield Fault(
            "wall_mm", v.wall_mm, allowed, "measure the wall, and the pipe over its outside"
        )


class Pipe(Spec):
    """Pipe for tread rings, cut to length."""

    rules: ClassVar[tuple[Rule, ...]] = (_hollow,)

    outside_mm: float = Field(gt=0, le=3000, examples=[323.9], description="outside diameter")
    wall_mm: float = Field(gt=0, le=100, examples=[8.0], description="wall thickness")
    length_mm: float = Field(gt=0, le=30000, examples=[3000.0], description="of the pipe")
    count: int | None = _count()
    price: float = Field(0.0, ge=0, description="of one length, any currency")
