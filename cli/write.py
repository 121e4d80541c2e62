"""The files of a job folder, one function a kind; each writes below the folder it is given."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from cli.job import Job
from cli.plan import Plan
from parts.wheel import Part, wheel

WHEEL_STEP = "wheel.step"


def write_solids(job: Job, parts: Sequence[Part], folder: Path) -> list[str]:
    """One STEP for each part and one for the wheel; returns paths below the folder."""
    from parts.step_file import write_step

    home = folder / "solids"
    home.mkdir()
    for part in parts:
        write_step(part.solid(), part.name, home / f"{part.name}.step")
    write_step(wheel(job.wheel), "wheel", home / WHEEL_STEP)
    return [f"solids/{part.name}.step" for part in parts] + [f"solids/{WHEEL_STEP}"]


def write_blanks(parts: Sequence[Part], folder: Path) -> list[str]:
    """One DXF for each blank."""
    from nesting.write_dxf import write_blank_dxf

    home = folder / "blanks"
    home.mkdir()
    blanks = [part.blank for part in parts if part.blank]
    for blank in blanks:
        write_blank_dxf(blank, home / f"{blank.name}.dxf")
    return [f"blanks/{blank.name}.dxf" for blank in blanks]


def write_sheets(job: Job, plan: Plan, folder: Path) -> tuple[list[str], list[str]]:
    """One DXF for each distinct layout, and offcuts.toml; returns paths and warnings."""
    from nesting.lead import short_leads
    from nesting.left_over import offcuts_toml
    from nesting.write_dxf import write_sheet_dxf

    home = folder / "sheets"
    home.mkdir()
    files, warnings = sheet_files(plan), []
    for layout, file in zip(plan.layouts, files, strict=True):
        without = write_sheet_dxf(layout, job.cutting, folder / file)
        if without:
            names = ", ".join(f"{p.blank.name} at ({p.x_mm:g}, {p.y_mm:g})" for p in without)
            lead = f"no room for a lead-in of {job.cutting.lead_in_mm:g} mm"
            warnings.append(f"{file}: {lead}: {names}")
        short = short_leads(layout, job.cutting.lead_in_mm)
        if short:
            warnings.append(f"{file}: {short} holes are too small for the lead: it is their radius")
    text = offcuts_toml(list(plan.kept), job.head.name)
    (folder / "offcuts.toml").write_text(text, encoding="utf-8")
    return files, warnings


def sheet_files(plan: Plan) -> list[str]:
    """Paths of the cutting files, numbered within each thickness."""
    files: list[str] = []
    number: dict[float, int] = {}
    for layout in plan.layouts:
        thickness = layout.sheet.thickness_mm
        number[thickness] = number.get(thickness, 0) + 1
        files.append(f"sheets/{thickness:.12g}mm-{number[thickness]}.dxf")
    return files


def write_templates(job: Job, parts: Sequence[Part], folder: Path) -> list[tuple[str, int]]:
    """One PDF for each blank; returns paths and pages."""
    from nesting.template_pdf import write_template

    home = folder / "templates"
    home.mkdir()
    result = []
    for part in parts:
        if part.blank:
            count = part.count_per_wheel * job.head.wheels
            file = f"templates/{part.name}.pdf"
            pages = write_template(
                part.blank, count, job.paper, folder / file, job_name=job.head.name
            )
            result.append((file, pages))
    return result
