"""The unit of a cutting file: drawn in mm, turned to inches as a whole where that is asked.

R2000 names its unit in `$INSUNITS`; R12 has no place for it, there a line of text says it.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal

from platewheel.parts.base.units import MM_PER_INCH

FileUnits = Literal["mm", "in"]
UNIT_WORDS: dict[FileUnits, str] = {"mm": "all sizes in mm", "in": "all lines in inches"}
INSUNITS: dict[FileUnits, int] = {"mm": 4, "in": 1}  # Source: DXF reference, header variables
MEASUREMENT: dict[FileUnits, int] = {"mm": 1, "in": 0}  # the same: metric, English


def in_units(drawing: Any, units: FileUnits) -> float:
    """Turn a finished drawing in mm to these units, letters too; returns one of them in mm."""
    if units == "in":
        _scale(drawing, 1 / MM_PER_INCH)
    if not _is_r12(drawing):
        drawing.header["$INSUNITS"] = INSUNITS[units]
        drawing.header["$MEASUREMENT"] = MEASUREMENT[units]
    return MM_PER_INCH if units == "in" else 1.0


def read_in_mm(path: Path) -> Any:
    """A cutting file of ours as a drawing in mm, whatever unit it is in."""
    import ezdxf

    drawing = ezdxf.readfile(path)
    if _units_of(drawing) == "in":
        _scale(drawing, MM_PER_INCH)
    return drawing


def _units_of(drawing: Any) -> FileUnits:
    if _is_r12(drawing):
        said = {text.dxf.text for text in drawing.modelspace().query("TEXT")}
        return "in" if UNIT_WORDS["in"] in said else "mm"
    return "in" if drawing.header.get("$INSUNITS") == INSUNITS["in"] else "mm"


def _is_r12(drawing: Any) -> bool:
    return bool(drawing.dxfversion == "AC1009")


def _scale(drawing: Any, factor: float) -> None:
    from ezdxf.math import Matrix44

    larger = Matrix44.scale(factor, factor, factor)
    for entity in drawing.modelspace():
        entity.transform(larger)
