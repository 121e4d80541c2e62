"""The load rating on the job sheet: what the wheel carries, in words, and its limits."""

from __future__ import annotations

from platewheel.cli.schema.report import RatingRow
from platewheel.cli.words.figures import payload_words
from platewheel.cli.words.phrases import Sentence
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Force

LIMITS = (
    Column("limit", "Limit", Sentence),
    Column("new", "New, N", Force, "number", bare=True),
    Column("worn", "Worn, N", Force, "number", bare=True),
    Column("where", "Where", Sentence),
    Column("by", "Set by", Sentence),
)


def rating_words(rating: RatingRow) -> str:
    """The rating, what it does not cover, and how to prove it."""
    worn = "" if rating.worn_n is not None else "Not rated worn: see the check. "
    return (
        f"Rated wheel load {rating.rated_n:.0f} N with unevenness and shock, "
        f"{rating.rated_state}: {rating.governs}, {rating.where}. {worn}Payload: "
        f"{payload_words(rating.payload_kg_per_wagon)}. Not covered: residual stress, a ring out "
        "of round, poor welds, wear beyond the allowance, shocks beyond the factor. Prove one "
        "wheel: press it on a rail with 1.5 times the rating, measure run-out before and after."
    )


def limits_table(rating: RatingRow) -> Table:
    """The loads that each limit allows, new and worn."""
    worn = {limit.name: Force(limit.load_n) for limit in reversed(rating.limits_worn)}
    return table(
        LIMITS,
        (
            {
                "limit": Sentence(limit.name),
                "new": Force(limit.load_n),
                "worn": worn.get(limit.name),
                "where": Sentence(limit.where),
                "by": Sentence(limit.by),
            }
            for limit in rating.limits_new
        ),
    )
