"""offcuts.toml: what a job leaves, named for the chalk and ready for the next job's file."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from platewheel.nesting.offcuts.remnant import Remnant
from platewheel.nesting.stock.round_bar import Round
from platewheel.parts.base.spec_model import toml_value
from platewheel.parts.geometry.outline import Point

NAME_LENGTH = 44  # of the job's name in an offcut's, to leave room for mark and number
MARK_SIGNS = "23456789ACDEFGHJKLMNPQRTUVWXY"  # none that chalk makes look like another
MARK_LENGTH = 4


def offcut_names(kept: Sequence[Remnant], job_name: str) -> list[tuple[str, ...]]:
    """For each piece its names, one for each plate cut so: job, mark, number.

    The mark is worked out from job and layouts: another job or another layout gives other names,
    the same job built again the same ones.
    """
    mark = _mark(kept, job_name)
    start = job_name[:NAME_LENGTH].rstrip()
    names: list[tuple[str, ...]] = []
    number = 0
    for piece in kept:
        count = piece.layout.repeat
        names.append(tuple(f"{start} {mark}-{number + i + 1}" for i in range(count)))
        number += count
    return names


def _mark(kept: Sequence[Remnant], job_name: str) -> str:
    words = [job_name]
    for piece in kept:
        layout, sheet = piece.layout, piece.layout.sheet
        words += [sheet.name, sheet.steel, f"{sheet.thickness_mm:.6g}", str(layout.repeat)]
        words += [f"{p.blank.name} {p.x_mm:.3f} {p.y_mm:.3f}" for p in layout.placements]
        words += [f"{x:.1f} {y:.1f}" for ring in (piece.corners, *piece.holes) for x, y in ring]
    number = int.from_bytes(hashlib.sha256("\n".join(words).encode()).digest()[:8], "big")
    signs = ""
    for _ in range(MARK_LENGTH):
        number, sign = divmod(number, len(MARK_SIGNS))
        signs += MARK_SIGNS[sign]
    return signs


def offcuts_toml(kept: Sequence[Remnant], job_name: str) -> str:
    """`[[offcut]]` tables ready for the next job file, each on an origin of its own."""
    lines = [
        f"# left by {job_name}: paste into the next job file; measure before use",
        "",
    ]
    for piece, names in zip(kept, offcut_names(kept, job_name), strict=True):
        for name in names:
            x0, y0, _, _ = piece.bounds
            lines += [
                "[[offcut]]",
                f"name = {toml_value(name)}",
                f"steel = {toml_value(piece.layout.sheet.steel)}",
                f"thickness_mm = {toml_value(piece.layout.sheet.thickness_mm)}",
                f"outline = {toml_value(_moved(piece.corners, x0, y0))}",
            ]
            if piece.holes:
                holes = [_moved(ring, x0, y0) for ring in piece.holes]
                lines.append(f"holes = {toml_value(holes)}")
            lines.append("")
    return "\n".join(lines)


def rounds_toml(rests: Sequence[Round]) -> str:
    """`[[round]]` tables of the ends of bar that are left, ready for the next job file; a whole
    millimetre is kept for measuring."""
    lines = []
    for rest in rests:
        lines += [
            "[[round]]",
            f"diameter_mm = {toml_value(rest.diameter_mm)}",
            f"length_mm = {toml_value(float(int(rest.length_mm)))}",
            f"count = {rest.count}",
            "",
        ]
    return "\n".join(["", *lines]) if lines else ""


def _moved(ring: Sequence[Point], x0: float, y0: float) -> list[Point]:
    """Corners from the piece's own lower left, rounding errors of the difference taken off."""
    return [(round(x - x0, 6), round(y - y0, 6)) for x, y in ring]
