"""The load rating on the job sheet: what the wheel carries, in words, and its limits."""

from __future__ import annotations

from platewheel.cli.schema.rating import RatingRow
from platewheel.cli.words.figures import payload_words
from platewheel.cli.words.phrases import Name, Sentence
from platewheel.cli.words.table import Column, Table, table
from platewheel.cli.words.values import Figure, Force

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
        f"Rated wheel load {rating.rated_n:.0f} N (the heaviest wheel at a joint), "
        f"{rating.rated_state}: {rating.governs}, {rating.where}. {worn}Payload: "
        f"{payload_words(rating.payload_kg_per_wagon)}. Not covered: residual stress, a ring out "
        "of round, poor welds, wear beyond the allowance, loads beyond those below. Prove one "
        "wheel: press it on a rail with 1.5 times the rating, measure run-out before and after."
    )


LOADS = (
    Column("name", "Load", Sentence),
    Column("value", "Value", Figure, "number"),
    Column("how", "Worked out from", Sentence),
    Column("source", "Source", Sentence),
)
BLOCKS = (
    Column("where", "Piece of the way", Sentence),
    Column("state", "Wagon", Name),
    Column("turns", "Turns", Figure, "number"),
    Column("load", "Load, N", Force, "number", bare=True),
    Column("push", "Sideways, N", Force, "number", bare=True),
    Column("rolling", "Damage", Name, "number"),
    Column("joints", "At joints", Name, "number"),
)


def loads_table(rating: RatingRow) -> Table:
    """What the verdict rests on."""
    return table(
        LOADS,
        (
            {
                "name": Sentence(row.name),
                "value": Figure(round(row.value), row.unit),
                "how": Sentence(row.how),
                "source": Sentence(row.source),
            }
            for row in rating.loads
        ),
    )


def blocks_table(rating: RatingRow) -> Table:
    """What each kind of turn does to the place that cracks first; a damage of 1 is its life."""
    return table(
        BLOCKS,
        (
            {
                "where": Sentence(row.where),
                "state": Name(row.state),
                "turns": Figure(round(row.turns)),
                "load": Force(row.load_n),
                "push": Force(row.push_n),
                "rolling": Name(f"{row.damage:.3f}"),
                "joints": Name(f"{row.joints:.3f}"),
            }
            for row in rating.blocks
        ),
    )


BESIDE = ", told beside: calculation.pdf says why"


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
                "by": Sentence(limit.by + ("" if limit.judged else BESIDE)),
            }
            for limit in rating.limits_new
        ),
    )
