"""STEP (ISO 10303-21, AP214) of parts and assemblies: same solid, same bytes."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from parts.faults import GeometryError

if TYPE_CHECKING:
    import cadquery as cq

_STAMP = re.compile(r"'\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d'")
_NO_DATE = "'1970-01-01T00:00:00'"  # the header wants a date; a fixed one keeps files repeatable


def write_step(model: cq.Solid | cq.Assembly, name: str, path: Path) -> None:
    """Write one solid or an assembly (names and colours kept), mm.

    Raises: GeometryError where the translator refuses; OSError from the disk.
    """
    import cadquery as cq

    assembly = model if isinstance(model, cq.Assembly) else cq.Assembly(model, name=name)
    assembly.export(str(path), exportType="STEP")
    if not path.is_file():
        raise GeometryError(f"{name}: the STEP translator wrote nothing to {path.name}")
    text = path.read_text(encoding="utf-8", errors="surrogateescape")
    text = _STAMP.sub(_NO_DATE, text, count=1)
    path.write_text(text, encoding="utf-8", errors="surrogateescape")
