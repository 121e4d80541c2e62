"""rings.csv: what was measured of each rolled ring, one line a ring; all faults told at once.

Values stand between commas, semicolons or tabs, whichever the header has; between semicolons or
tabs a decimal comma is as good as a point, one of them in all of the file.
"""

from __future__ import annotations

import csv
import difflib
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from platewheel.cli.work.text_file import no_utf8, sound_bytes
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.refit.measured_ring import MeasuredRing, drawn_circumferences_mm, ring_faults
from platewheel.parts.wheel.spec import WheelSpec

COLUMNS = {  # name -> what goes in
    "ring": "number chalked on the ring",
    "outside_circumference_mm": "tape once round the tread beside the gauge edge",
    "wall_mm": "calliper across the plate; empty = as drawn or as the inside tape tells",
    "inside_circumference_mm": "tape or strip round the bore beside the gauge edge; may be empty",
    "largest_diameter_mm": "over the tread at the gauge edge, turning half round; may be empty",
    "smallest_diameter_mm": "the same; of one alone the tape's mean tells how far out of round",
    "flange_seam_mm": "drawn flange tried on: last seam open (+) or lapped (-) with the others at "
    "their root gap; may be empty",
    "after_welding_mm": "circumference again, tape beside the flange of the welded wheel; may be "
    "empty",
    "flange_angle_deg": "gauge, axle to the flange's rail-side face, once welded; may be empty",
}
NEEDED = ("ring", "outside_circumference_mm")
MOST_LINES = 20_500  # 20 000 rings and notes, all different by up to 7 %, take `refit` 50 s
MOST_BYTES = 6_000_000  # a line is some sixty bytes
NO_END = float("inf")
SIGNED = ("flange_seam_mm", "flange_angle_deg")  # what an angle may be is told beside the drawn
NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)")
WITH_COMMA = re.compile(r"[+-]?(\d+,\d*|,\d+)")
OTHERS = {";": "semicolon", "\t": "tab"}  # that may stand between values in place of commas
RING = re.compile(r"[A-Za-z0-9][A-Za-z0-9._/-]{0,19}")
TEMPLATE = "`platewheel rings JOB` writes one to fill in"


@dataclass(frozen=True)
class _Line:
    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class _Marks:
    """What stands between values, and before decimals."""

    between: str
    decimal: str


def read_rings(path: Path, drawn: WheelSpec) -> tuple[MeasuredRing, ...]:
    """The rings in the order listed. Raises: SpecError with every fault of every line."""
    name = _quiet(path.name)
    lines, marks, faults = _lines(_text(path), name)
    if not lines:
        raise SpecError([Fault(name, "no header", f"a header: {','.join(COLUMNS)}", TEMPLATE)])
    columns = [cell.lower() for cell in lines[0].cells]
    wrong = [*_header_faults(columns, lines[0], name)]
    if wrong:  # the lines below cannot be told without it
        raise SpecError([*wrong, *faults])
    rings: list[MeasuredRing] = []
    seen: dict[str, int] = {}
    for line in lines[1:]:
        ring, bad = _ring(line, columns, marks, drawn)
        bad += _repeated(line, columns, seen)
        faults += (_at(fault, line, name) for fault in bad)
        if ring:
            rings.append(ring)
    if not lines[1:] and not faults:
        faults.append(Fault(name, "no ring", "a line for each ring below the header", TEMPLATE))
    if faults:
        raise SpecError(faults)
    return tuple(rings)


def rings_template(drawn: WheelSpec, job_name: str, count: int, between: str = ",") -> str:
    """An empty rings.csv with a line for each wheel; the drawn sizes stand above as notes."""
    inside_notes = ";" if between == "," else ","
    outside, inside = drawn_circumferences_mm(drawn)
    notes = [
        f"rings of {job_name}: fill in what was rolled; lines that begin with # are notes",
        f"drawn: outside circumference {outside:.1f} mm; wall {drawn.tread_thickness_mm:g} mm; "
        f"inside circumference {inside:.1f} mm; tread diameter {drawn.tread_diameter_mm:g} mm",
        "outside a tape reads 3.14 x its own thickness too much: take that off",
    ]
    notes += [f"{name}: {what}" for name, what in COLUMNS.items()]
    notes = [note.replace(between, inside_notes) for note in notes]
    empty = between * (len(COLUMNS) - 1)
    rows = [f"{number}{empty}" for number in range(1, count + 1)]
    return "\n".join([*(f"# {note}" for note in notes), between.join(COLUMNS), *rows, ""])


def _text(path: Path) -> str:
    what = ("a file of rings", "CSV text")
    data = sound_bytes(path, MOST_BYTES, what, TEMPLATE, _quiet(str(path)))  # as it was asked for
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        found, _ = no_utf8(data, error)
        advice = "save it as CSV, UTF-8"
        raise SpecError([Fault(_quiet(path.name), found, "CSV text in UTF-8", advice)]) from error


def _lines(text: str, name: str) -> tuple[list[_Line], _Marks, list[Fault]]:
    """Lines that hold anything but notes, split into cells, numbered from 1; and their marks."""
    found, faults, between = [], [], ""
    count = len(re.findall(r"\r\n|\n|\r", text))
    if count > MOST_LINES:
        allowed = f"at most {MOST_LINES} lines, one a ring"
        advice = "share the rings out over several files, and refit each into a folder of its own"
        raise SpecError([Fault(name, f"{count} lines", allowed, advice)])
    for number, raw in enumerate(re.split(r"\r\n|\n|\r", text), start=1):
        if raw.lstrip().lstrip('"').startswith("#") or not raw.strip(" \t,;"):
            continue
        between = between or _between(raw)
        try:
            cells = next(csv.reader([raw], delimiter=between, strict=True))
        except csv.Error as error:
            advice = "take the quotes off"
            faults.append(Fault(f"{name} line {number}", raw, f"CSV ({error})", advice))
            continue
        found.append(_Line(number, tuple(cell.strip() for cell in cells)))
    commas = (WITH_COMMA.fullmatch(cell) for line in found for cell in line.cells)
    decimal = "," if between in OTHERS and any(commas) else "."
    return found, _Marks(between or ",", decimal), faults


def _between(header: str) -> str:
    """What stands between values: a comma, unless the header has another mark and no comma."""
    marks = [mark for mark in OTHERS if mark in header and "," not in header]
    return marks[0] if len(marks) == 1 else ","


def _header_faults(columns: Sequence[str], line: _Line, name: str) -> Iterator[Fault]:
    where = f"{name} line {line.number}"
    if len(columns) == 1 and re.search(r"[;\t]", columns[0]):
        allowed = "columns with one mark between them: commas, semicolons or tabs"
        yield Fault(where, columns[0], allowed, "save it as CSV, comma")
        return
    for i, column in enumerate(columns):
        if column and column not in COLUMNS:
            near = difflib.get_close_matches(column, COLUMNS, n=1, cutoff=0.5)
            advice = f"did you mean {near[0]}?" if near else "remove the column"
            known = "columns " + ", ".join(COLUMNS)
            yield Fault(f"{where}, column {i + 1}", line.cells[i], known, advice)
        elif column and column in columns[:i]:
            yield Fault(f"{where}, column {i + 1}", line.cells[i], "each column once", "remove one")
    for column in NEEDED:
        if column not in columns:
            advice = f"write {column} into the header; {TEMPLATE}"
            yield Fault(f"{where}, {column}", None, f"a column {column}", advice)


def _ring(
    line: _Line, columns: Sequence[str], marks: _Marks, drawn: WheelSpec
) -> tuple[MeasuredRing | None, list[Fault]]:
    """The ring of a line, or None, and the line's faults."""
    if len(line.cells) != len(columns):  # a decimal comma would shift all that follows
        allowed = f"{len(columns)} values, as the header has columns; found {len(line.cells)}"
        other = OTHERS.get(marks.between)
        advice = f"a {other or 'comma'} for each value left empty"
        if other is None:
            advice = f"a decimal point, not a comma, or semicolons between values; {advice}"
        return None, [Fault("", marks.between.join(line.cells), allowed, advice)]
    faults = [
        Fault(f"column {i + 1}", cell, "nothing below a head that is empty", "name it, or empty it")
        for i, (column, cell) in enumerate(zip(columns, line.cells, strict=True))
        if cell and not column
    ]
    cells = dict(zip(columns, line.cells, strict=True))
    cells.pop("", None)
    number = cells.pop("ring", "")
    if not RING.fullmatch(number):
        allowed = "1 to 20 letters, digits, '.', '_', '-' or '/', a letter or digit first"
        faults.append(Fault("ring", number or None, allowed, "the number chalked on the ring"))
    values: dict[str, float] = {}
    for column in COLUMNS:
        text = cells.get(column, "")
        if column == "ring" or (not text and column not in NEEDED):
            continue
        value = _number(text, marks)
        if value is not None and (column in SIGNED or value > 0):
            values[column] = value
        else:
            faults.append(Fault(column, text or None, *_number_wanted(text, column, marks)))
    if "outside_circumference_mm" not in values:
        return None, faults
    ring = MeasuredRing(ring=number, **values)
    faults += ring_faults(drawn, ring)
    return (None if faults else ring), faults


def _number(text: str, marks: _Marks) -> float | None:
    """No nan, no infinity (hundreds of digits), no marks between thousands."""
    if marks.decimal == "," and "." not in text:
        text = text.replace(",", ".")
    elif marks.decimal == ",":
        return None
    value = float(text) if NUMBER.fullmatch(text) else NO_END
    return value if abs(value) < NO_END else None


def _number_wanted(text: str, column: str, marks: _Marks) -> tuple[str, str]:
    """What is allowed, and what to try."""
    unit = "degrees" if column.endswith("_deg") else "mm"
    signed = column == "flange_seam_mm"
    allowed = "a number of mm, + open or - lapped" if signed else f"a number of {unit} above 0"
    if not text:
        return allowed, "measure the ring, or take its line out"
    if NUMBER.fullmatch(plain := text.replace(",", ".")) and abs(float(plain)) == NO_END:
        return allowed, "fewer digits: what the tape says"
    if marks.decimal == "," and NUMBER.fullmatch(text):
        return allowed, f"a decimal comma, as the file has elsewhere: {text.replace('.', ',')}"
    if re.fullmatch(r"[+-]?\d+,\d+", text):
        return allowed, f"a decimal point: {text.replace(',', '.')}"
    value = _number(text, marks)
    if value == 0:
        empty = "measure the ring, or take its line out" if column in NEEDED else "leave it empty"
        return allowed, f"{empty}, where it was not measured"
    if value is not None:
        return allowed, f"take the sign off: {text.lstrip('-')}"
    return allowed, f"the number alone, in {unit}, without unit"


def _repeated(line: _Line, columns: Sequence[str], seen: dict[str, int]) -> list[Fault]:
    cells = dict(zip(columns, line.cells, strict=False))
    number = cells.get("ring", "")
    first = seen.setdefault(number.casefold(), line.number)
    if not number or first == line.number:
        return []
    allowed = f"a number of its own; line {first} has it"
    return [Fault("ring", number, allowed, "see the chalk on the ring")]


def _at(fault: Fault, line: _Line, name: str) -> Fault:
    where = f"{name} line {line.number}"
    return replace(fault, key=f"{where}, {fault.key}" if fault.key else where)


def _quiet(name: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in name)
