"""Material and use: the steel of every part, and the keys of the job file that all rests on."""

from __future__ import annotations

from typing import Any, Final

from platewheel.cli.job.job import Job
from platewheel.cli.papers.calculation.symbols import SYMBOLS
from platewheel.cli.papers.calculation.terms import digits, with_unit
from platewheel.parts.base.spec_model import unit_of
from platewheel.parts.base.steel import AXLE_STEELS
from platewheel.parts.wheel.kinds import kinds_of
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.workings.units import unit_of_name

SECTIONS: Final = ("wheel", "track", "wagon", "use", "axle", "finish", "shop")
SOURCE: Final = "EN 10025-2:2004, table 7; C45 EN 10083-2, from memory; fillets EN 1993-1-8"


def steel_rows(job: Job, made: Wheelset | None) -> list[list[str]]:
    """Part, steel, thickness, yield and tensile strength, factor of its fillets."""
    units, grade = job.paper.units, job.wheel.grade
    rows = [
        [
            kind.title,
            grade.name,
            with_unit(kind.thickness_mm(job.wheel), "mm", units),
            digits(grade.fy_n_mm2(kind.thickness_mm(job.wheel))),
            digits(grade.fu_n_mm2),
            digits(grade.beta_w),
        ]
        for kind in kinds_of(job.wheel)
    ]
    if made is not None:
        steel, thick = AXLE_STEELS[made.steel], made.thickest_mm
        strengths = [digits(steel.fy_n_mm2(thick)), digits(steel.fu_at_n_mm2(thick))]
        rows.append(["axle", steel.name, with_unit(thick, "mm", units), *strengths, ""])
    return rows


def key_rows(job: Job) -> list[list[str]]:
    """Every key that the checks may ask about: key, value with unit, given or default, and
    the symbol that stands for it in equations."""
    rows = []
    for section in SECTIONS:
        spec = getattr(job, section)
        for key, value in spec.model_dump().items():
            given = "given" if key in spec.model_fields_set else "default"
            rows.append([f"{section}.{key}", _value(key, value, job), given, SYMBOLS.get(key, "")])
    for k, piece in enumerate(job.way, 1):
        for key, value in piece.model_dump(exclude_none=True).items():
            rows.append([f"way {k}: {key}", _value(key, value, job), "given", ""])
    return rows


def _value(key: str, value: Any, job: Job) -> str:
    if value is None:
        return "left out"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        unit = unit_of(key) or unit_of_name(key) or ""
        return with_unit(value, unit, job.paper.units)
    if isinstance(value, tuple | list):
        return ", ".join(_value(key, one, job) for one in value)
    return str(value)
