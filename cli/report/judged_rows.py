"""Rows of what was judged: the load rating, the checks."""

from __future__ import annotations

from platewheel.cli.report.loads import block_rows, load_rows
from platewheel.cli.schema.report import CheckRow, LimitRow, RatingRow
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.rating.rate import Rating
from platewheel.parts.setting.setting import Setting


def rating_row(found: Assessment, setting: Setting) -> RatingRow:
    def rows(rating: Rating | None) -> list[LimitRow]:
        limits = rating.biting if rating else ()
        return [
            LimitRow(
                name=limit.name,
                load_n=limit.load_n,
                where=limit.where,
                by=limit.by,
                judged=limit.judged,
            )
            for limit in limits
        ]

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
        limits_new=rows(found.new),
        limits_worn=rows(found.worn),
        loads=load_rows(setting),
        blocks=block_rows(found),
    )


def check_rows(results: list[CheckResult]) -> list[CheckRow]:
    return [
        CheckRow(
            id=r.id,
            title=r.title,
            value=r.value,
            limit=r.limit,
            unit=r.unit,
            margin=r.margin,
            at_most=r.at_most,
            verdict=r.verdict,
            says=r.says,
            source=r.source,
        )
        for r in results
    ]
