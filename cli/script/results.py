"""What the questions to a job give: frozen records that print as tables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from platewheel.cli.papers.sheet.rating import blocks_table, limits_table, loads_table, rating_words
from platewheel.cli.schema.propose import ProposalRow, ProposeReport
from platewheel.cli.schema.rating import RatingRow
from platewheel.cli.schema.report import CheckRow, LengthRow, NestingRow, Report, SheetRow
from platewheel.cli.schema.shop import BuyRow, CostRow
from platewheel.cli.script.shown import Shown, Titled
from platewheel.cli.words.checks import checks_table
from platewheel.cli.words.cost import wheel_cost_table
from platewheel.cli.words.plates import lengths_table, plates_table
from platewheel.cli.words.proposal import own_words, proposals_table
from platewheel.nesting.stock.layout import Layout
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units
from platewheel.parts.checks.result import Verdict, verdict_words

SHOWN: tuple[Verdict, ...] = ("fail", "warn", "pass", "not-assessed")


@dataclass(frozen=True)
class Checks(Shown):
    """Every check of a job, worst first. `checks["play-least"]` is one by its id.

    >>> len(job.check(quick=True).failed)
    0
    """

    rows: tuple[CheckRow, ...]
    units: Units = "mm"

    def __iter__(self) -> Iterator[CheckRow]:
        return iter(self.rows)

    def __len__(self) -> int:
        return len(self.rows)

    def __getitem__(self, id: str) -> CheckRow:
        """Raises: KeyError where this wheel has no such check."""
        for row in self.rows:
            if row.id == id:
                return row
        raise KeyError(f"{id}: not among {', '.join(row.id for row in self.rows)}")

    @property
    def failed(self) -> tuple[CheckRow, ...]:
        """Those with the verdict fail."""
        return tuple(row for row in self.rows if row.verdict == "fail")

    def lines(self) -> tuple[str, ...]:
        counts = {v: sum(r.verdict == v for r in self.rows) for v in SHOWN}
        return (", ".join(f"{counts[one]} {verdict_words(one)}" for one in SHOWN),)

    def tables(self) -> Titled:
        return (("Checks", checks_table(self.rows)),)


@dataclass(frozen=True)
class Rated(Shown):
    """What a wheel carries: `row.rated_n`, `row.governs`, the limits new and worn; N.

    >>> job.rate().row.rated_state in ("new", "worn")
    True
    """

    row: RatingRow
    units: Units = "mm"

    @property
    def load_n(self) -> float:
        """Rated load of the heaviest wheel at a joint, N."""
        return self.row.rated_n

    def lines(self) -> tuple[str, ...]:
        return (rating_words(self.row),)

    def tables(self) -> Titled:
        return (
            ("Limits", limits_table(self.row)),
            ("Loads", loads_table(self.row)),
            ("Turns", blocks_table(self.row)),
        )


@dataclass(frozen=True)
class Laid(Shown):
    """Blanks and lengths laid on the job's stock; `layouts` hold the blanks where they lie, mm.

    >>> job.nest(effort="quick").totals.unplaced
    []
    """

    sheets: tuple[SheetRow, ...]
    totals: NestingRow
    lengths: tuple[LengthRow, ...]
    layouts: tuple[Layout, ...]
    units: Units = "mm"

    @property
    def complete(self) -> bool:
        """Whether the stock holds all of the job."""
        return not self.totals.unplaced

    def lines(self) -> tuple[str, ...]:
        totals = self.totals
        left = [f"{one.count} of {one.blank}" for one in totals.unplaced]
        told = (
            f"{so_many(totals.sheets_used, 'plate')}, scrap {totals.scrap_percent:.1f} %, after "
            f"offcuts {totals.scrap_percent_after_offcuts:.1f} %",
        )
        return (*told, f"no room for {', '.join(left)}") if left else told

    def tables(self) -> Titled:
        plates = plates_table(self.sheets).only("file", "stock", "repeat", "blanks", "scrap")
        if not self.lengths:
            return (("Plates", plates),)
        cuts = lengths_table(self.lengths, self.units)
        return (
            ("Plates", plates),
            ("Lengths", cuts.only("stock", "length", "repeat", "pieces", "rest")),
        )


@dataclass(frozen=True)
class Priced(Shown):
    """What the wheels cost, and what is bought for the whole job; in the job's currency.

    >>> job.cost().wheels
    48
    """

    row: CostRow
    buying: tuple[BuyRow, ...]
    hours: float
    wheels: int
    units: Units = "mm"

    @property
    def per_wheel(self) -> float:
        """Of a wheel, all that is priced; `row.not_priced` names what is not."""
        return self.row.per_wheel

    def lines(self) -> tuple[str, ...]:
        return (self.row.says, f"{self.hours:.1f} hours of work")

    def tables(self) -> Titled:
        return (("Cost", wheel_cost_table(self.row, self.wheels)),)


@dataclass(frozen=True)
class Built(Shown):
    """A job folder as it was written, and the report that lies in it: see `platewheel schema`.

    >>> sorted(Built.__dataclass_fields__)
    ['folder', 'report', 'units']
    """

    folder: Path
    report: Report
    units: Units = "mm"

    def lines(self) -> tuple[str, ...]:
        return (str(self.folder / "job-sheet.html"), *self.report.warnings)

    def tables(self) -> Titled:
        return (("Checks", checks_table(self.report.checks)),)


@dataclass(frozen=True)
class Proposed(Shown):
    """Wheels that pass every check, cheapest first; without any, `report.refused` says why.

    >>> sorted(Proposed.__dataclass_fields__)
    ['report']
    """

    report: ProposeReport

    def __iter__(self) -> Iterator[ProposalRow]:
        return iter(self.report.proposals)

    def __len__(self) -> int:
        return len(self.report.proposals)

    def lines(self) -> tuple[str, ...]:
        return (own_words(self.report), *self.report.refused, *self.report.left_out)

    def tables(self) -> Titled:
        if not self.report.proposals:
            return ()
        return (("Wheels that fail no check", proposals_table(self.report)),)
