"""job-sheet.pdf: the job on the paper that it names, from the same data as the page."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from importlib.metadata import version

from platewheel.cli.job.job import Job
from platewheel.cli.papers.plates.boxes import GAP_MM
from platewheel.cli.papers.plates.page import PlatePages
from platewheel.cli.papers.sheet.drawings import Drawings
from platewheel.cli.papers.sheet.gauges import gauges_table
from platewheel.cli.papers.sheet.page import tube_words
from platewheel.cli.papers.sheet.record import record_table, record_words
from platewheel.cli.papers.sheet.shop import (
    buying_table,
    has_own_parts,
    time_table,
    unpriced_words,
)
from platewheel.cli.papers.sheet.sizes import blanks_table, full_size, full_size_words
from platewheel.cli.papers.sheet.steps import StepShown, steps_shown
from platewheel.cli.papers.sheet.summary import (
    facts_table,
    look_at,
    not_assessed_words,
    read_first,
    wheels_words,
)
from platewheel.cli.papers.sheet.typst_data import Pictures, Shown, table_data
from platewheel.cli.papers.sheet.wheelset import saw_words
from platewheel.cli.papers.typeset import typeset
from platewheel.cli.report.wheelset_rows import missing_words
from platewheel.cli.schema.refit import WheelRecord
from platewheel.cli.schema.report import Report
from platewheel.cli.words.cost import axle_cost_table, wheel_cost_table
from platewheel.cli.words.on_paper import backticked, on_paper
from platewheel.cli.words.plates import lengths_table
from platewheel.cli.words.table import Table
from platewheel.cli.words.values import Value
from platewheel.cli.words.wheelset import fits_table, sawn_table, sizes_table
from platewheel.parts.gauges.wanted import HOW_TO_MAKE

Say = Callable[[str | Value], str]
Tell = Callable[[Table], Shown]


def job_sheet_pdf(
    job: Job,
    report: Report,
    drawings: Drawings,
    plates: PlatePages,
    wheels: Sequence[WheelRecord] = (),
) -> bytes:
    """The paper; `wheels` fill its record.

    Raises: NotFinished where a template is broken.
    """
    units, paper, pictures = job.paper.units, job.paper, Pictures()

    def say(words: str | Value) -> str:
        return on_paper(words, units)

    def tell(one: Table) -> Shown:
        return table_data(one, units)

    title = f"{job.head.name}: {wheels_words(report)}"
    pictures.add(plates.pictures.items())
    data = {
        "title": title,
        "running": [title, f"platewheel {version('platewheel')}"],
        "font": paper.font,
        "page": {
            "width_mm": paper.width_mm,
            "height_mm": paper.height_mm,
            "margin_mm": paper.margin_mm,
        },
        "gap_mm": GAP_MM,
        "summary": _summary(job, report, drawings, pictures, say, tell),
        "buying": _buying(job, report, say, tell),
        "blanks": _blanks(job, report, drawings, pictures, say, tell),
        "axle": _axle(report, drawings, pictures, say, tell),
        "plates": plates.pages,
        "steps_words": "Do one wheel through all steps before the rest. Write each reading down.",
        "steps": [
            _step(step, pictures, say, tell) for step in steps_shown(report.steps, job.paper.units)
        ],
        "record": {
            "words": record_words(wheels),
            **_record(record_table(job, wheels), tell),
        },
    }
    return typeset("job-sheet.typ", data, pictures.files)


def _summary(
    job: Job, report: Report, drawings: Drawings, pictures: Pictures, say: Say, tell: Tell
) -> Shown:
    section = drawings.wheel.section
    return {
        "section": pictures.named("section", section, "Section of the wheel, upper half"),
        "facts": tell(facts_table(job, report)),
        "look": [
            {"mark": one.mark, "title": say(one.title), "says": say(one.says)}
            for one in look_at(report)
        ],
        "not_assessed": say(not_assessed_words(report)),
        "notes": [say(line) for line in report.warnings],
        "cautions": list(read_first(job)),
    }


def _buying(job: Job, report: Report, say: Say, tell: Tell) -> Shown:
    lengths = lengths_table(report.cutting_lists, job.paper.units)
    axles = "" if report.wheelset else "axles, bearings, "
    waiting = "Setting up, waiting and mistakes are not in it."
    own = " Cutting has your own parts and gauges in it." if has_own_parts(report) else ""
    return {
        "unpriced": say(unpriced_words(report.buying)),
        "bought": tell(buying_table(report)),
        "words": "Not in the list: grinder discs, electricity for welding and grinding, "
        f"{axles}bolts, transport. Whole plates and lengths are paid; offcuts to keep are not "
        "credited.",
        "tubes": say(tube_words(report)),
        "sawn": tell(lengths.only("stock", "length", "repeat", "pieces_of", "rest")),
        "hours": tell(time_table(report).only("work", "count", "each", "hours")),
        "hours_words": waiting + own,
        "wheel": tell(wheel_cost_table(report.cost, report.job.wheels)),
        "axle": tell(axle_cost_table(report.cost)),
    }


def _blanks(
    job: Job, report: Report, drawings: Drawings, pictures: Pictures, say: Say, tell: Tell
) -> Shown:
    held = drawings.gauges
    apart = "The parts in the order in which they go together, field side to the left"
    return {
        "table": tell(blanks_table(report.blanks, job.paper.units, full_size(report))),
        "pictures": [
            pictures.named(f"blank-{number}", svg, name)
            for number, (name, svg) in enumerate(drawings.blanks.items(), 1)
        ],
        "words": full_size_words(report),
        "apart": pictures.named("apart", drawings.wheel.apart, apart),
        "gauges": tell(gauges_table(report.gauges)),
        "gauges_words": say(HOW_TO_MAKE),
        "gauges_held": pictures.named("gauges", held, "Gauges held to the wheel") if held else None,
    }


def _axle(
    report: Report, drawings: Drawings, pictures: Pictures, say: Say, tell: Tell
) -> Shown | None:
    row = report.wheelset
    if row is None or not drawings.axle:
        return None
    return {
        "picture": pictures.named("axle", drawings.axle, "Two wheels on their axle"),
        "words": f"Each wheel is held by {row.retention}; an axle takes "
        f"{say('; '.join(row.held_by))}. Keyways, set screws and fillets of shoulders are not "
        "drawn.",
        "sizes": tell(sizes_table(row)),
        "fits": tell(fits_table(row)),
        "sawn": tell(sawn_table(row)),
        "lacks": [say(line) for line in missing_words(row)] if row.cuts else [say(saw_words(row))],
    }


def _step(step: StepShown, pictures: Pictures, say: Say, tell: Tell) -> Shown:
    def typed(line: str) -> list[str]:
        pieces = backticked(line)
        return [say(piece) if k % 2 == 0 else piece for k, piece in enumerate(pieces)]

    figures = step.figures
    has_limits = any(column.key == "limit" for column in figures.columns)
    picture = step.picture and {
        **pictures.named(f"step-{step.id}", step.picture.svg, step.picture.caption),
        "caption": step.picture.caption,
        "wide": step.picture.wide,
    }
    return {
        "title": say(step.title),
        "picture": picture,
        "cautions": ["".join(typed(line)) for line in step.cautions],
        "do": [typed(line) for line in step.do],
        "uses": list(step.uses),
        "figures": tell(figures.only("figure", "value", "limit") if has_limits else figures),
        "form": tell(step.form) if step.form else None,
    }


def _record(lines: Table, tell: Tell) -> dict[str, object]:
    shown = tell(lines)
    rows = shown["rows"]
    assert isinstance(rows, list)
    return {"columns": shown["columns"], "rows": [row["cells"] for row in rows]}
