"""record.pdf: the record of the job sheet alone, to be written on by hand."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.job.job import Job
from platewheel.cli.papers.sheet.record import record_table, record_words
from platewheel.cli.papers.typeset import typeset
from platewheel.cli.schema.refit import WheelRecord
from platewheel.parts.base.so_many import so_many


def record_pdf(job: Job, wheels: Sequence[WheelRecord] = ()) -> bytes:
    """A line a wheel on the job's paper, as on the job sheet.

    Raises: NotFinished where the template is broken.
    """
    table, paper = record_table(job, wheels), job.paper
    rows = list(table.cells(paper.units))
    return typeset(
        "record.typ",
        {
            "font": paper.font,
            "title": f"{job.head.name}: record of {so_many(len(rows), 'wheel')}",
            "words": record_words(wheels, "record"),
            "page": {
                "width_mm": paper.width_mm,
                "height_mm": paper.height_mm,
                "margin_mm": paper.margin_mm,
            },
            "columns": [
                # what is written by hand gets what room the printed cells leave
                {"head": column.head, "align": column.align, "wide": by_hand}
                for column, by_hand in zip(table.columns, table.unwritten(), strict=True)
            ],
            "rows": rows,
        },
    )
