"""One plate of a job with all that its page is made of."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import Plan
from platewheel.cli.report.rows import cutting_warnings, sheet_rows
from platewheel.cli.schema.report import OffcutRow, SheetRow
from platewheel.nesting.cutting.cut_speed import Pace, pace
from platewheel.nesting.cutting.part_cuts import PartCuts, sheet_cuts
from platewheel.nesting.stock.layout import Layout, Nest
from platewheel.parts.base.steel import DENSITY_KG_MM3


@dataclass(frozen=True)
class Kept:
    """A piece that is kept of each plate cut so, and all its names."""

    row: OffcutRow
    names: tuple[str, ...]

    @property
    def told(self) -> str:
        """`job K7QX-1`, or `job K7QX-1 to 3` where more plates than one are cut so."""
        last = self.names[-1].rsplit("-", 1)[-1]
        return self.names[0] if len(self.names) == 1 else f"{self.names[0]} to {last}"

    @property
    def short(self) -> str:
        """The same without the job's name."""
        return self.told.removeprefix(self.names[0].rpartition(" ")[0]).strip()


@dataclass(frozen=True)
class Plate:
    """A layout, its row of the report, its cuts, and what must be known of it."""

    layout: Layout
    row: SheetRow
    parts: tuple[PartCuts, ...]
    pace: Pace
    warnings: tuple[str, ...]

    @property
    def kept(self) -> tuple[Kept, ...]:
        """Pieces to keep, each once, however many plates are cut so."""
        found = []
        for _, same in groupby(self.row.offcuts, key=lambda row: (row.outline, row.holes)):
            rows = list(same)
            found.append(Kept(rows[0], tuple(row.name for row in rows)))
        return tuple(found)

    @property
    def mass_kg(self) -> float:
        """The plate as it is laid on the machine."""
        return self.row.area_mm2 * self.row.thickness_mm * DENSITY_KG_MM3

    @property
    def heaviest(self) -> tuple[str, float]:
        """Name and kg of the heaviest part."""
        blank = max((part.placement.blank for part in self.parts), key=lambda one: one.area_mm2)
        return blank.name, blank.area_mm2 * blank.thickness_mm * DENSITY_KG_MM3

    @property
    def scrap_after_percent(self) -> float:
        """What is neither part nor kept."""
        kept = sum(piece.row.area_mm2 for piece in self.kept)
        return 100 * (1 - (self.row.parts_area_mm2 + kept) / self.row.area_mm2)


def plates_of(
    job: Job, plan: Plan, files: Sequence[str], told: Sequence[Sequence[str]]
) -> Iterator[Plate]:
    """Every layout; `told` is what the writer of each file warned of. Raises: as `plate_work`."""
    rows = sheet_rows(job, plan, files)
    for layout, row, lines in zip(plan.layouts, rows, told, strict=True):
        own = cutting_warnings(job, replace(plan, nest=Nest((layout,))))
        yield Plate(
            layout,
            row,
            sheet_cuts(layout, job.cutting).parts,
            pace(job.cutting, job.cut_speeds, row.thickness_mm),
            tuple(_together(dict.fromkeys([*lines, *own]), set(layout.counts))),
        )


def _together(lines: Iterable[str], names: Collection[str]) -> Iterator[str]:
    """What is said of several parts in the same words, once, with all their names."""
    said: dict[str, list[str]] = {}
    for line in lines:
        name, _, words = line.partition(": ")
        of_part = name in names
        said.setdefault(words if of_part else line, []).extend([name] if of_part else [])
    for words, own in said.items():
        yield f"{', '.join(own)}: {words}" if own else words
