"""The files of a job folder, one function a kind; each writes below the folder it is given."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from platewheel.cli.job.blanks import job_blanks
from platewheel.cli.job.hole_tools import hole_tools
from platewheel.cli.job.job import Job
from platewheel.cli.output.offcut_use import USED_FILE, used_toml
from platewheel.nesting.stock.round_bar import Round
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.wheel.part import Part

if TYPE_CHECKING:  # the search behind a plan is not loaded for templates
    from platewheel.cli.job.plan import Plan
    from platewheel.cli.papers.plates.page import PlatePages

PLATES_PDF = "plates.pdf"
MARKING_PDF = "marking-out.pdf"
Seen = Callable[[str, Any], None]


@dataclass(frozen=True)
class SheetsWritten:
    """Paths of the cutting files, what was warned of, and their pages for the machine."""

    files: Sequence[str]
    warnings: Sequence[str]
    plates: PlatePages


def write_blanks(job: Job, parts: Sequence[Part], folder: Path) -> list[str]:
    """One DXF for each blank, extras too."""
    from platewheel.nesting.files.write_dxf import write_blank_dxf

    home = folder / "blanks"
    home.mkdir()
    files = []
    for one in job_blanks(job, parts):
        files.append(f"blanks/{one.stem}.dxf")
        cut = job.cutting
        to = folder / files[-1]
        write_blank_dxf(one.blank, to, cut.dxf_version, cut.file_units, job.file_layers)
    return files


def write_sheets(
    job: Job,
    plan: Plan,
    folder: Path,
    rests: Sequence[Round] = (),
    seen: Seen = lambda file, drawing: None,
) -> SheetsWritten:
    """One DXF for each distinct layout, their pages for the machine, and what is left (`rests` of
    round bar too) and used. Each file is read back and proved; of one
    in inches or a machine's own layer names that is done before it is turned into them. `seen` is
    called with each file as it stands and with what was read of it, None where it was turned.

    Raises: NestingError for a file that its proof refuses.
    """
    from platewheel.cli.papers.plates.page import plate_pages
    from platewheel.cli.papers.plates_pdf import plates_pdf
    from platewheel.nesting.by_hand.straight_cuts import require_clear
    from platewheel.nesting.files.asked import asked_of
    from platewheel.nesting.files.write_dxf import write_sheet_dxf
    from platewheel.nesting.offcuts.file import offcut_names, offcuts_toml, rounds_toml
    from platewheel.nesting.proof.cuts import require_cuts

    home = folder / "sheets"
    home.mkdir()
    files = sheet_files(plan)
    names = offcut_names(plan.kept, job.head.name)
    told, plain = [], unchecked(job.cutting, {"file_units": "mm"})
    by_hand = job.cutting.process == "hand"
    if by_hand:  # outlines and holes are proved as a torch would cut them, straight cuts apart
        plain = unchecked(plain, {"process": "plasma", "mark_names": False})
    for layout, file in zip(plan.layouts, files, strict=True):
        path = folder / file
        kept = () if by_hand else plan.kept
        told.append(write_sheet_dxf(layout, plain, path, kept, () if by_hand else names))
        drawing = require_cuts(path, asked_of(layout, plain, kept))
        if by_hand:
            require_clear(layout, job.cutting)
        if job.file_layers or plain != job.cutting:
            write_sheet_dxf(layout, job.cutting, path, plan.kept, names, job.file_layers)
            drawing = None
        seen(file, drawing)
    text = offcuts_toml(list(plan.kept), job.head.name) + rounds_toml(rests)
    (folder / "offcuts.toml").write_text(text, encoding="utf-8")
    used = used_toml(plan.layouts, job.head.name)
    (folder / USED_FILE).write_text(used, encoding="utf-8")
    plates = plate_pages(job, plan, files, told)
    (folder / PLATES_PDF).write_bytes(plates_pdf(job, plates))
    warnings = [line for extra in job.extras for line in extra.warnings]
    warnings += job.drawn_disc.warnings if job.drawn_disc else ()
    warnings += [f"{file}: {line}" for file, own in zip(files, told, strict=True) for line in own]
    return SheetsWritten(files, warnings, plates)


def sheet_files(plan: Plan) -> list[str]:
    """Paths of the cutting files, numbered within each thickness."""
    files: list[str] = []
    number: dict[float, int] = {}
    for layout in plan.layouts:
        thickness = layout.sheet.thickness_mm
        number[thickness] = number.get(thickness, 0) + 1
        files.append(f"sheets/{thickness:.12g}mm-{number[thickness]}.dxf")
    return files


def write_templates(
    job: Job,
    parts: Sequence[Part],
    folder: Path,
    print_scale: float = 1.0,
    *,
    beside: bool = True,
) -> list[tuple[str, int]]:
    """One PDF for each blank, extras too, and `beside` them for each strip and plywood gauge; small
    ones share one. By hand also how each blank is struck without one. Returns paths, pages of the
    templates.

    `print_scale`: measured bar / true bar of the printer. Raises: SpecError outside 0.9 to 1.1.
    """
    from platewheel.cli.job.strips import wheel_strips
    from platewheel.nesting.templates.pdf import blank_template
    from platewheel.nesting.templates.plywood import plywood_template
    from platewheel.nesting.templates.sets import write_template_set
    from platewheel.parts.making.plywood import plywood_gauges

    units = job.paper.units
    templates = [
        blank_template(one.blank, one.count, units, job.cutting, one.stem, hole_tools(job))
        for one in job_blanks(job, parts)
    ]
    if beside and job.paper.wrap_strips:
        templates += wheel_strips(job.wheel, units)
    if beside:
        gauges = plywood_gauges(job.wheel, units)
        templates += [plywood_template(one.board, one.title, one.use, units) for one in gauges]
    home = folder / "templates"
    home.mkdir()
    if job.cutting.process == "hand":
        from platewheel.cli.papers.marking_pdf import marking_pdf

        marked = marking_pdf(job, job_blanks(job, parts), hole_tools(job))
        (folder / MARKING_PDF).write_bytes(marked)
    made = write_template_set(
        templates, job.paper, home, job_name=job.head.name, print_scale=print_scale
    )
    return [(f"templates/{stem}.pdf", pages) for stem, pages in made]
