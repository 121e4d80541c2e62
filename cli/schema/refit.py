"""The schema of a refit's report.json: rings, axles and blanks as they were measured and paired."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from platewheel.cli.schema.report import BlankRow, NestingRow, SheetRow, TemplateRow
from platewheel.cli.schema.row import Row, Versioned
from platewheel.parts.checks.result import Verdict

PairedBy = Literal["as rolled", "after welding"]


class TriedRow(Row):
    """A drawn flange tried on its ring."""

    remedy: Literal["weld", "trim", "insert"] = Field(description="what is done to the seams")
    root_gap_mm: float = Field(description="at each of its seams")
    trim_mm: float = Field(description="off one end")
    insert_mm: float = Field(description="let in, at the middle of the flange's depth")
    sweep_correction_deg: float = Field(description="added to the drawn sweep of each segment")
    from_ring_mm: float = Field(description="of the error all round: the ring's own size")
    from_blank_mm: float = Field(description="of the error all round: cutting and rolling")
    says: str = Field(description="the same in words")


class WeldedRow(Row):
    """A wheel measured again once it is welded, by tape or by gauge."""

    tread_diameter_mm: float | None = Field(description="after_welding_mm / pi")
    shrunk_mm: float | None = Field(description="of diameter, from ring to welded wheel")
    as_expected: bool | None = Field(description="within half to double, and what a tape errs")
    flange_angle_verdict: Verdict | None = Field(description="against the flange window")
    flange_angle_says: str | None = Field(
        description="what the window says of it; null where not measured"
    )
    flange_angle_source: str | None = Field(description="of the window")


class ShrinkageRow(Row):
    """Expected off the tread diameter by welding, mm."""

    ring_seam_mm: float = Field(description="before the ring is taped; the tape has it")
    ring_seam_round_mm: float = Field(description="the same by tape")
    discs_mm: float = Field(description="by the beads of both discs")
    flange_seams_mm: float = Field(description="as far as the ring follows them")
    root_mm: float = Field(description="by the bead in the flange's root")
    after_mm: float = Field(description="of the last three: from the ring to the welded wheel")
    least_mm: float = Field(description="half of it")
    most_mm: float = Field(description="double of it")
    source: str = Field(description="of these figures")


class WheelRecord(Row):
    """One wheel of the build record; a spare has no axle, a spare axle no wagon."""

    wagon: str | None = Field(description="null for a spare")
    axle: str | None = Field(description="null for a spare wheel")
    wheel: int = Field(description="serial number, to be stamped")
    side: Literal["left", "right"] | None = Field(description="of the axle")
    ring: str = Field(description="its number in rings.csv")
    outside_circumference_mm: float = Field(description="by tape over the tread, at the gauge edge")
    inside_circumference_mm: float | None = Field(description="by tape; null where not measured")
    largest_diameter_mm: float | None = Field(description="null where not measured")
    smallest_diameter_mm: float | None = Field(description="null where not measured")
    flange_seam_mm: float | None = Field(
        description="flange tried on: last seam open (+) or lapped (-)"
    )
    after_welding_mm: float | None = Field(
        description="circumference of the welded wheel; null where not measured"
    )
    flange_angle_deg: float | None = Field(description="as welded; null where not measured")
    wall_mm: float = Field(description="measured, or told by the two tapes, or else as drawn")
    tread_diameter_mm: float = Field(description="outside circumference / pi")
    inside_diameter_mm: float = Field(description="at the gauge edge")
    out_of_round_mm: float | None = Field(
        description="largest less smallest diameter; null where not measured"
    )
    out_of_round_limit_mm: float = Field(description="what is allowed")
    disc_field_mm: float = Field(description="diameter that fits with the job's fit clearance")
    disc_gauge_mm: float = Field(description="the same of the gauge disc")
    disc_field_blank: str = Field(description="that it gets")
    disc_gauge_blank: str = Field(description="that it gets")
    disc_field_gap_mm: float = Field(description="on the radius, between that blank and the ring")
    disc_gauge_gap_mm: float = Field(description="the same of the gauge disc")
    flange_inner_radius_mm: float = Field(description="of the flange blank that fits best")
    flange_outer_radius_mm: float = Field(description="of the same blank")
    flange_sweep_deg: float = Field(description="of the same blank")
    flange_blank: str | None = Field(description="absent: the flange that was tried on stays")
    flange_seam_gap_mm: float = Field(description="at each seam of the flange that it gets")
    first: str | None = Field(
        default=None,
        description="done to the ring and to blanks that were cut before, with --already-cut",
    )
    tried: TriedRow | None = Field(description="null where no flange was tried on")
    welded: WeldedRow | None = Field(description="null where nothing was measured after welding")


class AxleRecord(Row):
    """Two wheels paired on an axle."""

    axle: str = Field(description="its name")
    wagon: str | None = Field(description="null for a spare axle")
    left: int = Field(description="serial number of the wheel")
    right: int = Field(description="serial number of the wheel")
    difference_mm: float = Field(description="of the tread diameters that it is paired by")
    curve_radius_m: float | None = Field(
        description="in which it rolls freely; absent for wheels alike or loose on the axle"
    )
    drift_mm: float = Field(description="over 10 m of straight track if no flange held it")
    flange_after_m: float | None = Field(description="run from mid-track till the flange touches")


class SharedRow(Row):
    """What a blank is for: its size to 0.1 mm and its rings."""

    blank: str = Field(description="its name")
    size_mm: float = Field(description="disc diameter; flange: the tread it is cut for")
    rings: list[str] = Field(description="numbers of the rings that it is for")


class LimitSaid(Row):
    """A limit that the record is held to."""

    what: str = Field(description="is held to it")
    limit: str = Field(description="in words")
    source: str = Field(description="of the limit")


class RefitSums(Row):
    """What fitting blanks to the rings comes to, rings and pieces counted."""

    rings: int = Field(description="measured")
    paired_by: PairedBy = Field(description="diameters as rolled, or after welding")
    blanks_one_a_ring: int = Field(description="a disc or two and a flange for each ring")
    blanks_of_own_size: int = Field(description="the same, sizes alike to 0.1 mm counted once")
    blanks_cut: int = Field(description="different blanks that are cut")
    new_pieces: int | None = Field(
        default=None, description="cut anew, with --already-cut; null where all are cut now"
    )
    rings_trued: int | None = Field(default=None, description="the same: pressed or resized")
    largest_difference_listed_mm: float = Field(description="on an axle, pairs as listed")
    largest_difference_paired_mm: float = Field(description="on an axle, as paired")
    sum_of_differences_listed_mm: float = Field(description="over all axles, pairs as listed")
    sum_of_differences_paired_mm: float = Field(description="over all axles, as paired")


class TruedRing(Row):
    """A ring of a choice, and what is done to it."""

    ring: str = Field(description="its number in rings.csv")
    press_mm: float = Field(description="out of round, to be pressed out")
    press_n: float = Field(description="across the largest diameter, while held")
    resize_least_mm: float = Field(description="of diameter, stretched (+) or shrunk (-); or 0")
    resize_most_mm: float = Field(description="the same; anything between the two does")
    round_least_mm: float = Field(description="the same by tape, longer (+) or shorter (-)")
    round_most_mm: float = Field(description="the same; anything between the two does")
    tension_n: float = Field(description="pull in the wall while it is stretched, else 0")


class ChoiceRow(Row):
    """True these rings too, and fewer sizes are cut; the plan is not changed by it."""

    sizes: int = Field(description="different discs and flanges, instead of blanks_cut")
    discs: int = Field(description="different discs among these")
    flanges: int = Field(description="different flanges among these")
    fewer: int = Field(description="sizes fewer than the plan")
    rings: list[TruedRing] = Field(description="to be trued")


class RefitReport(Versioned):
    """report.json of a refit."""

    job: str = Field(description="name of the job")
    sums: RefitSums = Field(description="of all rings")
    wheels: list[WheelRecord] = Field(description="in the order of the serial numbers")
    axles: list[AxleRecord] = Field(description="pairs of wheels")
    shared: list[SharedRow] = Field(description="each blank, with the rings that it is for")
    blanks: list[BlankRow] = Field(description="to be cut")
    templates: list[TemplateRow] = Field(description="at full size, to print")
    choices: list[ChoiceRow] = Field(description="rings trued for fewer sizes, if any")
    shrinkage: ShrinkageRow = Field(description="by welding")
    limits: list[LimitSaid] = Field(description="with their sources")
    sheets: list[SheetRow] | None = Field(description="absent with --no-nest")
    nesting: NestingRow | None = Field(description="all plates together; null with --no-nest")
    warnings: list[str] = Field(description="to be read before anything is cut")
