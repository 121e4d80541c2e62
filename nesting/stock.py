"""What is cut, how, and from what: the job file's cutting, stock, offcut, bar and pipe tables."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from parts.faults import Fault
from parts.spec_model import Rule, Spec

LEAST_WEB_MM = 1.0  # steel that must stand beside a kerf; common practice, no source

Coordinate = Annotated[float, Field(ge=-100_000, le=100_000)]
XY = Annotated[list[Coordinate], Field(min_length=2, max_length=2)]
Ring = Annotated[list[XY], Field(min_length=3)]
Steel = Literal["S235", "S275", "S355"]


def _kerf_inside(v: Any) -> Iterator[Fault]:
    least = v.kerf_mm + LEAST_WEB_MM
    for key in ("part_spacing_mm", "sheet_margin_mm"):
        if not getattr(v, key) >= least:
            yield Fault(
                key,
                getattr(v, key),
                f"at least {least:g} mm: the kerf of {v.kerf_mm:g} mm lies inside it, "
                f"and {LEAST_WEB_MM:g} mm of steel must stand",
                f"{key} = {max(6.0, 2 * v.kerf_mm + 2):g}",
            )


class Cutting(Spec):
    """How blanks are cut, and how far apart they lie."""

    rules: ClassVar[tuple[Rule, ...]] = (_kerf_inside,)

    process: Literal["plasma", "laser", "oxy-fuel", "hand"] = Field(
        "plasma", description="how the sheet is cut"
    )
    kerf_mm: float = Field(
        1.7,
        ge=0,
        le=10,
        description="width of the cut (default: plasma at 40 to 50 A, 1.65 to 2.03 mm)",
    )
    kerf_in_path: bool = Field(
        False,
        description="false: the DXF is the part, the controller offsets; true: the DXF is "
        "the torch path",
    )
    part_spacing_mm: float = Field(
        6.0,
        ge=0,
        le=100,
        description="between finished part edges, kerfs inside it (default: plasma shops' 5 mm "
        "and a little)",
    )
    sheet_margin_mm: float = Field(
        10.0,
        ge=0,
        le=200,
        description="finished part edge to sheet edge (default: 5 to 10 mm, common practice, "
        "no source)",
    )
    lead_in_mm: float = Field(
        0.0,
        ge=0,
        le=30,
        description="straight lead on the scrap side; 0 = the controller adds its own (default)",
    )
    cut_speed_mm_per_min: float | None = Field(
        None,
        gt=0,
        le=60000,
        examples=[2000.0],
        description="for the cutting time; absent = a round figure for the process: plasma 2000, "
        "laser 2500, oxy-fuel 500, hand 150",
        json_schema_extra={"takes": "a number"},
    )
    pierce_s: float = Field(
        1.0, ge=0, le=120, description="time to pierce (default: a round figure)"
    )
    price_per_h: float = Field(
        0.0, ge=0, description="machine and operator, any currency; 0 = not counted"
    )

    @property
    def speed_mm_per_min(self) -> float:
        """Speed given, or a round figure for the process (common practice, no source)."""
        return self.cut_speed_mm_per_min or SPEEDS_MM_PER_MIN[self.process]


SPEEDS_MM_PER_MIN = {"plasma": 2000.0, "laser": 2500.0, "oxy-fuel": 500.0, "hand": 150.0}


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

    rules: ClassVar[tuple[Rule, ...]] = (_sound_outline,)

    name: str = Field(
        min_length=1, max_length=60, examples=["corner-1"], description="what is chalked on it"
    )
    steel: Steel = Field("S235", description="grade of EN 10025-2")
    thickness_mm: float = Field(gt=0, le=100, examples=[6.0], description="of the piece")
    outline: Ring = Field(
        examples=[[[0, 0], [600, 0], [600, 400], [0, 400]]],
        description="corners [x, y] in order",
        json_schema_extra={"takes": "a list of at least three [x, y] corners in mm"},
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


class Pipe(Spec):
    """Pipe for tread rings, cut to length."""

    outside_mm: float = Field(gt=0, le=3000, examples=[323.9], description="outside diameter")
    wall_mm: float = Field(gt=0, le=100, examples=[8.0], description="wall thickness")
    length_mm: float = Field(gt=0, le=30000, examples=[3000.0], description="of the pipe")
    count: int | None = _count()
    price: float = Field(0.0, ge=0, description="of one length, any currency")
