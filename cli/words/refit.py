"""A refit in words, for terminal and page alike."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.schema.refit import RefitReport, TruedRing
from platewheel.cli.words.phrases import Name, Sentence
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Count, Length
from platewheel.parts.base.so_many import noun, so_many

LIMITS = (
    Column("what", "What", Sentence, short="what"),
    Column("limit", "Limit", Sentence, short="limit"),
    Column("source", "Source", Sentence, short="source"),
)


def limits_table(report: RefitReport) -> Table:
    """Every limit that the refit judged by, with its source."""
    return table(
        LIMITS,
        (
            {
                "what": Sentence(row.what),
                "limit": Sentence(row.limit),
                "source": Sentence(row.source),
            }
            for row in report.limits
        ),
    )


def first_of(told: Sequence[str], most: int, where: str) -> list[str]:
    """No more than so many; of the rest, how many and where they are told."""
    more = len(told) - most
    return [*told[:most], f"and {more} more: {where}"] if more > 0 else list(told)


def choices_table(report: RefitReport, most: int | None = None, where: str = "") -> Table:
    """Rings that would be trued so that fewer sizes are cut; no row where that saves none. Of each
    choice no more than `most` rings, the rest told by number and `where` they are."""
    columns = (
        Column("choice", "Choice", Sentence, short="choice"),
        Column("sizes", "Sizes cut", Count, "number", "sizes cut"),
        Column("discs", "Discs", Count, "number", "discs"),
        Column("flanges", "Flanges", Count, "number", "flanges"),
        Column("rings", "What is done to which ring", Sentence, short="what is done"),
    )
    return table(
        columns,
        (
            {
                "choice": Sentence(
                    f"true {so_many(len(row.rings), 'more ring')}, cut "
                    f"{so_many(row.fewer, 'size')} fewer"
                ),
                "sizes": Count(row.sizes),
                "discs": Count(row.discs),
                "flanges": Count(row.flanges),
                "rings": Sentence(
                    "; ".join(first_of([*map(_trued, row.rings)], most or len(row.rings), where))
                ),
            }
            for row in report.choices
        ),
    )


def _trued(ring: TruedRing) -> str:
    done = []
    if ring.press_mm:
        done.append(f"press {ring.press_mm:.2f} mm ({ring.press_n / 1000:.1f} kN)")
    if ring.resize_most_mm:
        how = f"by {abs(ring.round_least_mm):.1f} to {abs(ring.round_most_mm):.1f} mm round"
        pull = f" ({ring.tension_n / 1000:.0f} kN)"
        done.append(f"stretch {how}{pull}" if ring.tension_n else f"shrink {how}")
    return f"{ring.ring}: {', '.join(done)}"


def kept_table(report: RefitReport) -> Table:
    """Which ring takes blanks that were cut before; no row where all are cut now."""
    columns = (
        Column("ring", "Ring", Name, short="ring"),
        Column("field", "Field disc", Name, short="field disc"),
        Column("gauge", "Gauge disc", Name, short="gauge disc"),
        Column("flange", "Flange", Name, short="flange"),
        Column("first", "First", Sentence, short="first"),
    )
    return table(
        columns,
        (
            {
                "ring": Name(wheel.ring),
                "field": Name(wheel.disc_field_blank),
                "gauge": Name(wheel.disc_gauge_blank),
                "flange": Name(wheel.flange_blank or "as tried on"),
                "first": Sentence(wheel.first or "as they are"),
            }
            for wheel in report.wheels
            if wheel.first is not None
        ),
    )


def choices_words(report: RefitReport) -> str:
    """How the choices are read."""
    return (
        "The plan is not changed by the choices: true the rings named, measure and refit again. "
        "Press: so much out of round, with that force across the largest diameter while it is "
        "held; a ring that is held round until it is tacked counts as round, so leave its "
        "diameters empty then. Stretch: so much by tape, with that pull in its wall. Shrink: saw "
        "the seam out and weld it again, so much shorter by tape; welding alone takes about "
        f"{report.shrinkage.ring_seam_round_mm:.2f} mm round."
    )


def welded_table(report: RefitReport) -> Table:
    """Wheels that were measured again once they were welded; no row where none was."""
    columns = (
        Column("wheel", "Wheel", Count, "number", "wheel"),
        Column("ring", "Ring", Name, short="ring"),
        Column("tread", "Tread dia welded", Length, "number", "tread", bare=True),
        Column("shrunk", "Shrunk by", Length, "number", "shrunk by", bare=True),
        Column("as_expected", "As expected", Name, short="as expected"),
        Column("angle", "Flange, deg", Name, "number", "flange deg"),
        Column("says", "Flange window", Sentence, short="flange window"),
    )
    rows: list[Cells] = []
    for wheel in report.wheels:
        row = wheel.welded
        if row is None:
            continue
        angle = wheel.flange_angle_deg
        expected = {None: "", True: "yes", False: "no"}[row.as_expected]
        rows.append(
            {
                "wheel": Count(wheel.wheel),
                "ring": Name(wheel.ring),
                "tread": _fine(row.tread_diameter_mm),
                "shrunk": _fine(row.shrunk_mm),
                "as_expected": Name(expected),
                "angle": None if angle is None else Name(f"{angle:g}"),
                "says": Sentence(f"{row.flange_angle_verdict}: {row.flange_angle_says}")
                if row.flange_angle_says
                else Sentence("not measured"),
            }
        )
    return table(columns, rows)


def _fine(mm: float | None) -> Length | None:
    return None if mm is None else Length(mm, ".2f", beside="number")


def shrinkage_words(report: RefitReport) -> str:
    """What welding is expected to take off a ring's diameter."""
    row = report.shrinkage
    seam = (
        f"A ring's own seam has taken about {row.ring_seam_mm:.2f} mm off its diameter when it is "
        "taped. "
        if row.ring_seam_mm
        else ""
    )
    return (
        f"{seam}Welding the wheel takes about {row.after_mm:.2f} mm more "
        f"({row.least_mm:.2f} to {row.most_mm:.2f} mm): beads of the discs {row.discs_mm:.2f}, "
        f"seams of the flange {row.flange_seams_mm:.2f}, its root {row.root_mm:.2f} mm. Tape every "
        "wheel again beside its flange, write after_welding_mm into rings.csv and refit again: "
        "the wheels are then paired by it."
    )


def summary_words(report: RefitReport) -> list[str]:
    """What sharing and pairing save, a sentence each."""
    sums = report.sums
    cut = (
        f"{sums.blanks_cut} different blanks are cut where one a ring would be "
        f"{sums.blanks_one_a_ring} ({sums.blanks_of_own_size} with sizes alike to 0.1 mm)."
    )
    if sums.new_pieces is not None:
        anew = (
            "nothing is cut anew"
            if not sums.new_pieces
            else (
                f"{so_many(sums.new_pieces, 'piece')} of {so_many(sums.blanks_cut, 'size')} "
                f"{noun(sums.new_pieces, 'is', 'are')} cut anew, and no plan does with fewer"
            )
        )
        cut = (
            f"With the drawn blanks cut already {anew}; "
            f"{so_many(sums.rings_trued or 0, 'ring')} of {sums.rings} "
            f"{noun(sums.rings_trued or 0, 'is', 'are')} pressed or resized for it."
        )
    pairs = (
        "Largest difference of tread diameters on an axle: "
        f"{sums.largest_difference_paired_mm:.2f} mm as paired here by the wheels "
        f"{sums.paired_by}, {sums.largest_difference_listed_mm:.2f} mm in the order listed "
        f"(sums {sums.sum_of_differences_paired_mm:.1f} and "
        f"{sums.sum_of_differences_listed_mm:.1f} mm)."
    )
    return [cut, pairs]
