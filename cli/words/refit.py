"""A refit in words, for terminal and page alike."""

from __future__ import annotations

from platewheel.cli.schema.refit import RefitReport
from platewheel.cli.words.phrases import Sentence
from platewheel.cli.words.table import Column, Table, table

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


def summary_words(report: RefitReport) -> list[str]:
    """What sharing and pairing save, a sentence each."""
    sums = report.sums
    cut = (
        f"{sums.blanks_cut} different blanks are cut where one a ring would be "
        f"{sums.blanks_one_a_ring} ({sums.blanks_of_own_size} with sizes alike to 0.1 mm)."
    )
    pairs = (
        f"Largest difference of tread diameters on an axle: {sums.largest_difference_paired_mm:.2f}"
        f" mm as paired here, {sums.largest_difference_listed_mm:.2f} mm in the order listed "
        f"(sums {sums.sum_of_differences_paired_mm:.1f} and "
        f"{sums.sum_of_differences_listed_mm:.1f} mm)."
    )
    return [cut, pairs]
