"""marking-out.pdf: each blank struck by hand, compass and grinder figures, holes by their way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain

from platewheel.cli.job.blanks import JobBlank
from platewheel.cli.job.job import Job
from platewheel.cli.papers.typeset import typeset
from platewheel.cli.words.marking import (
    Lines,
    compass_lines,
    hole_lines,
    ordinate_lines,
    small_lines,
)
from platewheel.cli.words.phrases import Sentence
from platewheel.cli.words.values import Length
from platewheel.nesting.by_hand.hole_ways import HoleTools
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.marking_way import marking_way

SCRIBE = (
    "Clean to bright steel, blue it, scribe with a hard point; a line is 0.1 to 0.2 mm wide. Punch "
    "every centre lightly, look at it, punch it deep.",
    "With the template: print at 100 %, measure its bars, glue it on, punch through every cross "
    "and every 20 mm of a line, then scribe between the punches.",
    "Holes first, while the plate is whole; then straight cuts; then chords 1 to 2 mm outside of a "
    "round line, and grind to it. Half of the punch marks must still be seen.",
    "A disc plunged square into plate overruns at the face: stop short of inner corners and finish "
    "with saw or file.",
    "Practice for these figures: common practice, no source.",
)


def marking_pdf(job: Job, blanks: Sequence[JobBlank], tools: HoleTools) -> bytes:
    """Every blank in turn on the job's paper. Raises: NotFinished where the template is broken."""
    units, paper = job.paper.units, job.paper
    return typeset(
        "marking-out.typ",
        {
            "title": f"{job.head.name}: marking out by hand",
            "words": [Sentence(line).told(units) for line in SCRIBE],
            "page": {
                "width_mm": paper.width_mm,
                "height_mm": paper.height_mm,
                "margin_mm": paper.margin_mm,
            },
            "blanks": [_blank(one, tools, units) for one in blanks],
        },
    )


def _blank(one: JobBlank, tools: HoleTools, units: Units) -> dict[str, object]:
    thick = Length(one.blank.thickness_mm, "g", "rule").told(units)
    return {
        "heading": f"{one.blank.name}: {one.count} off, {thick} {one.steel}",
        "steps": list(marking_way(one.blank, units)),
        "tables": list(_tables(one, tools, units)),
    }


def _tables(one: JobBlank, tools: HoleTools, units: Units) -> Iterator[dict[str, object]]:
    for title, heads, lines in (
        ("Compass, rule and grinder", ("", ""), compass_lines(one.blank, units)),
        (
            "Holes and inner arcs",
            ("", "made by"),
            chain(hole_lines(one.blank, tools, units), small_lines(one.blank, tools, units)),
        ),
        *ordinate_lines(one.blank, units),
    ):
        rows: Lines = list(lines)
        if rows:
            yield {"title": title, "heads": heads, "rows": rows}
