"""plates.pdf: a page a plate, to lie at the machine while it is cut."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.cli.papers.plates.boxes import GAP_MM
from platewheel.cli.papers.plates.page import PlatePages
from platewheel.cli.papers.typeset import typeset


def plates_pdf(job: Job, plates: PlatePages) -> bytes:
    """A page a layout on the job's paper.

    Raises: NotFinished where the template is broken.
    """
    return typeset(
        "plates.typ",
        {
            "title": f"{job.head.name}: plates to cut",
            "font": job.paper.font,
            "margin_mm": job.paper.margin_mm,
            "gap_mm": GAP_MM,
            "plates": plates.pages,
        },
        plates.pictures,
    )
