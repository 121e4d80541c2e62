"""Section of the job sheet: the steps to build, each with its figures, picture and cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from platewheel.cli.papers.drawings.hub_holes import holes_picture
from platewheel.cli.papers.drawings.steps import (
    line_picture,
    pointer_picture,
    quarters_picture,
    star_picture,
)
from platewheel.cli.papers.html.render import render
from platewheel.cli.schema.shop import FigureRow, StepRow
from platewheel.cli.words.phrases import Sentence
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Length, Quantity, Size, Value
from platewheel.parts.base.units import Units

if TYPE_CHECKING:
    from markupsafe import Markup

FIGURES = (
    Column("figure", "Figure", Sentence),
    Column("value", "Value", Length | Size | Quantity, "number"),
    Column("limit", "Limit", Sentence),
    Column("by", "By", Sentence),
)
FORM = (
    Column("reading", "Wheel no. ______ , date ____________", Sentence),
    Column("before", "Before", Size, "box"),
    Column("pressed", "Pressed", Size, "box"),
    Column("after", "After", Size, "box"),
)


@dataclass(frozen=True)
class Picture:
    """Where to tack, weld or measure."""

    svg: str
    caption: str
    wide: bool


@dataclass(frozen=True)
class StepShown:
    """A step as the page shows it."""

    id: str
    title: str
    picture: Picture | None
    cautions: Sequence[str]
    do: Sequence[str]
    uses: Sequence[str]
    figures: Table
    form: Table | None


def steps_shown(steps: Sequence[StepRow], units: Units) -> list[StepShown]:
    """All steps, in order."""
    seam = any(step.id == "close" for step in steps)
    return [
        StepShown(
            step.id,
            step.title,
            _picture(step, seam, units),
            step.cautions,
            step.do,
            step.uses,
            figures_table(step),
            form_table(step) if step.form else None,
        )
        for step in steps
    ]


def steps_section(steps: Sequence[StepRow], units: Units) -> Markup:
    """The section of the page."""
    return render("steps.html", units, steps=steps_shown(steps, units))


def figures_table(step: StepRow) -> Table:
    """A step's figures; without limits where it has none."""
    whole = table(
        FIGURES,
        (
            {
                "figure": Sentence(row.name),
                "value": figure_value(row),
                "limit": Sentence(row.limit),
                "by": Sentence(row.source if row.limit else ""),
            }
            for row in step.figures
        ),
    )
    return whole if any(row.limit for row in step.figures) else whole.only("figure", "value")


def form_table(step: StepRow) -> Table:
    """What is read and written down by hand: before, under the load, after it."""
    by_hand: Cells = {"before": None, "pressed": None, "after": None}
    return table(FORM, ({"reading": Sentence(line), **by_hand} for line in step.form))


def figure_value(row: FigureRow) -> Value:
    """A figure as what it measures."""
    if row.fine:
        return Length(row.value, ".3f", "micrometer")
    if row.unit == "mm":
        return Size(row.value, 2 if abs(row.value) < 3 else 1)
    whole = row.value % 1 == 0 or (row.value >= 100 and row.unit != "deg")
    return Quantity(row.value, ".0f" if whole else ".2f", row.unit)


def _picture(step: StepRow, seam: bool, units: Units) -> Picture | None:
    when = "in brackets: when"
    if step.id == "true":
        svg, words = pointer_picture(8), "Read at each number, on the tread and on the edge"
    elif step.id == "tack":
        svg = star_picture([int(n) for n in step.order], seam)
        words = f"Places of tacks; {when}"
    elif step.id in ("weld", "root"):
        svg, words = quarters_picture(step.order), f"Runs; {when}"
    elif step.id == "flange":
        svg, words = line_picture(step.order), f"Tacks on a piece; {when}"
    elif step.id == "holes":
        svg = holes_picture({row.name: row.value for row in step.figures}, units)
        words = "Keyway and screws, from the end and from the side"
    else:
        return None
    return Picture(svg, words, wide=step.id in ("weld", "holes"))
