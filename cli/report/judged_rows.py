"""Rows of what was judged: the load rating, the checks."""

from __future__ import annotations

from platewheel.cli.report.loads import block_rows, load_rows
from platewheel.cli.schema.rating import LimitRow, RatingRow
from platewheel.cli.schema.report import CheckRow
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.rating.rate import Rating
from platewheel.parts.setting.setting import Setting


def rating_row(found: Assessment, setting: Setting) -> RatingRow:
    """The rating new and worn, what limits it, and the loads that it rests on."""
    governs = found.least.governs
    return RatingRow(
        rated_n=found.least.load_n,
        rated_state="worn" if found.least.worn_mm else "new",
        new_n=found.new.load_n,
        worn_n=found.worn.load_n if found.worn else None,
        governs=governs.name,
        where=governs.where,
        payload_kg_per_wagon=found.payload_kg,
        life_km=found.finite_life_km,
        turns_in_life=sum(one.turns for one in found.by_block),
        limits_new=_limit_rows(found.new),
        limits_worn=_limit_rows(found.worn),
        loads=load_rows(setting),
        blocks=block_rows(found),
    )


def _limit_rows(rating: Rating | None) -> list[LimitRow]:
    return [LimitRow.of(limit) for limit in rating.biting] if rating else []


def check_rows(results: list[CheckResult]) -> list[CheckRow]:
    """The checks in their order."""
    return [CheckRow.of(result) for result in results]
