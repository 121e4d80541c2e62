"""How blanks are cut: the job file's cutting table."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.nesting.stock.hand_keys import (
    HAND_MM2_PER_MIN,
    HAND_SPACING_MM,
    HAND_THICK_SPACING_MM,
    HAND_THIN_MM,
    by_process,
    refused_by_hand,
)
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec

LEAST_WEB_MM = 1.0  # steel that must stand beside a kerf; common practice, no source


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


def _pierce(v: Any) -> Iterator[Fault]:
    if v.pierce_clear_mm is not None and 0 < v.lead_in_mm < v.pierce_clear_mm:
        yield Fault(
            "pierce_clear_mm",
            v.pierce_clear_mm,
            f"at most lead_in_mm, {v.lead_in_mm:g} mm: a lead begins no further off",
            f"lead_in_mm = {v.pierce_clear_mm:g}, or remove pierce_clear_mm",
        )


def _common_lines(v: Any) -> Iterator[Fault]:
    if not v.common_lines:
        return
    off = "or common_lines = false"
    if not v.kerf_in_path:
        yield Fault(
            "common_lines",
            True,
            "only with kerf_in_path = true: the cut round the next strip is open, and controllers "
            "differ in how they offset the ends of an open cut",
            f"kerf_in_path = true, {off}",
        )
    if v.tab_count:
        yield Fault(
            "common_lines",
            True,
            "only without tabs: a bridge on a shared line would hold two parts, tab_count is "
            f"{v.tab_count}",
            f"tab_count = 0, {off}",
        )
    if not v.kerf_mm > 0:
        yield Fault(
            "common_lines",
            True,
            "only with the true width of the kerf, for strips lie just that far apart; kerf_mm is "
            f"{v.kerf_mm:g}",
            f"kerf_mm = 1.7, as measured on your machine, {off}",
        )


def _by_hand(v: Any) -> Iterator[Fault]:
    if v.process == "hand":
        defaults = {name: field.default for name, field in Cutting.model_fields.items()}
        yield from refused_by_hand({key: getattr(v, key) for key in defaults}, defaults)


class Cutting(Spec):
    """How blanks are cut, and how far apart they lie."""

    rules: ClassVar[tuple[Rule, ...]] = (_kerf_inside, _pierce, _common_lines, _by_hand)

    process: Literal["plasma", "laser", "oxy-fuel", "hand"] = Field(
        "plasma", description="how the sheet is cut"
    )
    kerf_mm: float = Field(
        default_factory=by_process(1.7, hand=2.0),
        ge=0,
        le=10,
        description="width of the cut (default: plasma at 40 to 50 A, 1.65 to 2.03 mm; by hand 2, "
        "a grinder's disc takes 1.2 to 3: common practice, no source)",
    )
    kerf_in_path: bool = Field(
        False,
        description="false: the DXF is the part, the controller offsets; true: the DXF is "
        "the torch path",
    )
    part_spacing_mm: float = Field(
        default_factory=by_process(6.0, hand=HAND_SPACING_MM),
        ge=0,
        le=100,
        description="between finished part edges, kerfs inside it (default: plasma shops' 5 mm "
        f"and a little; by hand {HAND_SPACING_MM:g} mm, in plate above {HAND_THIN_MM:g} mm "
        f"{HAND_THICK_SPACING_MM:g}: common practice, no source)",
    )
    sheet_margin_mm: float = Field(
        default_factory=by_process(10.0, hand=HAND_SPACING_MM),
        ge=0,
        le=200,
        description="finished part edge to sheet edge (default: 5 to 10 mm, by hand "
        f"{HAND_SPACING_MM:g}: common practice, no source)",
    )
    lead_in_mm: float = Field(
        0.0,
        ge=0,
        le=30,
        description="lead on the scrap side; 0 = the controller adds its own (default)",
    )
    pierce_clear_mm: float | None = Field(
        None,
        ge=0,
        le=30,
        examples=[2.0],
        description="least from a lead's pierce to its own finished edge and to the kerf of any "
        "other cut; absent = the kerf, and at least a share of the thickness: plasma 0.25, laser "
        "0.1, oxy-fuel 0.5 (common practice, no source)",
        json_schema_extra={"takes": "a number"},
    )
    lead_out_mm: float = Field(
        0.0, ge=0, le=30, description="run-off on the scrap side after the cut is closed"
    )
    lead_shape: Literal["line", "arc"] = Field(
        "line",
        description="a line square to the cut, or a quarter arc that runs into it, its radius the "
        "length of the lead",
    )
    strips_along_sheet: bool = Field(
        False,
        description="true: tread strips run along the sheet, as it was rolled, so that they bend "
        "across the grain",
    )
    common_lines: bool = Field(
        False,
        description="true: like strips and other rectangles lie side by side, one kerf apart, and "
        "the line between two is cut once; needs kerf_in_path = true and no tabs",
    )
    tab_count: int = Field(
        0, ge=0, le=12, description="bridges that hold each part in the sheet; 0 = none"
    )
    tab_width_mm: float = Field(1.5, gt=0, le=20, description="steel left in each bridge")
    text_marks: bool = Field(True, description="part names and numbers on the text layer")
    mark_names: bool = Field(
        True,
        description="part names and numbers as strokes to mark on the steel; false: machines "
        "without a marker",
    )
    dxf_version: Literal["R2000", "R12"] = Field(
        "R2000", description="of the cutting files; R12 for old controllers"
    )
    file_units: Literal["mm", "in"] = Field(
        "mm", description="that the lines of the cutting files are drawn in"
    )
    skeleton_piece_mm: float = Field(
        0.0,
        ge=0,
        le=5000,
        description="cut the left-over grid up into pieces of at most this size; 0 = not",
    )
    least_offcut_mm: float = Field(
        300.0,
        ge=50,
        le=10000,
        description="least side of a left-over piece that is parted and kept in offcuts.toml; "
        "smaller ones are scrap (default: worth a walk to the rack, common practice, no source)",
    )
    offcut_outline: Literal["rectangle", "real"] = Field(
        "rectangle",
        description="what is kept: rectangles free of parts, or the whole outline of what is left",
    )
    cut_speed_mm_per_min: float | None = Field(
        None,
        gt=0,
        le=60000,
        examples=[2000.0],
        description="for the cutting time where there is no [[cut_speed]]; absent = a round figure "
        "for the process: plasma 2000, laser 2500, oxy-fuel 500; by hand "
        f"{HAND_MM2_PER_MIN:g} mm2 a minute over the thickness",
        json_schema_extra={"takes": "a number"},
    )
    pierce_s: float = Field(
        1.0,
        ge=0,
        le=120,
        description="time to pierce where there is no [[cut_speed]] (default: a round figure)",
    )
    rapid_mm_per_min: float = Field(
        10000.0,
        gt=0,
        le=200000,
        description="travel between cuts (default: common practice, no source)",
    )
    current_a: float | None = Field(
        None,
        gt=0,
        le=1000,
        examples=[45.0],
        description="picks the rows of [[cut_speed]]; absent = they are all for one current",
        json_schema_extra={"takes": "a number of amperes"},
    )
    heat_apart_mm: float = Field(
        0.0,
        ge=0,
        le=2000,
        description="the next part cut lies at least this far from the one just cut, while there "
        "is any such; 0 = by the shortest travel alone",
    )
    least_hole_mm: float | None = Field(
        None,
        ge=0,
        le=200,
        examples=[8.0],
        description="smaller round holes become centre marks to drill; absent = by the process: "
        "plasma 1.5 x thickness, laser 1 x, oxy-fuel 1.5 x and at least 10 mm, hand 25 mm",
        json_schema_extra={"takes": "a number"},
    )
    setup_minutes: float = Field(
        0.0,
        ge=0,
        le=600,
        description="to lay one plate or offcut on the table and begin its file; priced as cutting "
        "is, else as labour, and where plates are priced the plan is the cheapest of both",
    )
    price_per_h: float = Field(
        0.0, ge=0, description="machine and operator, any currency; 0 = not counted"
    )

    @property
    def web_mm(self) -> float:
        """Steel that stands between two neighbours: each part's kerf lies beside its own edge.

        Nothing or less: the two kerfs run into one.
        """
        return self.part_spacing_mm - 2 * self.kerf_mm

    @property
    def edge_web_mm(self) -> float:
        """Steel that stands between a kerf and the sheet's edge."""
        return self.sheet_margin_mm - self.kerf_mm

    def usual_speed(self, thickness_mm: float) -> float:
        """Speed given, or a round figure for the process (common practice, no source), mm/min."""
        if self.cut_speed_mm_per_min is None and self.process == "hand":
            return HAND_MM2_PER_MIN / thickness_mm
        return self.cut_speed_mm_per_min or SPEEDS_MM_PER_MIN[self.process]

    def spacing_in(self, thickness_mm: float) -> float:
        """Between finished part edges in a thickness: by hand more in thick plate, where the job
        file has no spacing of its own."""
        own = "part_spacing_mm" in self.model_fields_set
        if self.process == "hand" and not own and thickness_mm > HAND_THIN_MM:
            return HAND_THICK_SPACING_MM
        return self.part_spacing_mm


SPEEDS_MM_PER_MIN = {"plasma": 2000.0, "laser": 2500.0, "oxy-fuel": 500.0}
