"""A ledger from its file; whatever is wrong is told by file and line, and nothing is changed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from platewheel.cli.ledger.piece import KINDS, Ledger, Piece, PieceHead
from platewheel.cli.work.text_file import NotText, no_utf8, sound_bytes, toml_table
from platewheel.nesting.stock.piece_name import as_called
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.plain_values import odd_values
from platewheel.parts.base.spec_model import find_faults, unknown_key

MOST_BYTES = 4_000_000  # a piece takes some hundred
OWN = ("name", "state", "job", "job_file", "note")
MEND = "mend that line by hand, or put back a copy of the file; it has been left as it is"
START = "`platewheel stock new FILE` writes one to start from"


def read_ledger(path: Path) -> Ledger:
    """Raises: SpecError telling every fault by file and line."""
    return ledger_of(path, _text(path))


def ledger_of(path: Path, text: str) -> Ledger:
    """The ledger that the text of the file tells. Raises: SpecError, as `read_ledger`."""
    try:
        table = toml_table(text)
    except NotText as error:
        line = error.line or text.count("\n") + 1
        fault = Fault(f"{path}:{line}", error.found, "TOML, https://toml.io", MEND)
        raise SpecError([fault]) from error
    faults: list[Fault] = []
    pieces: list[Piece] = []
    lines = _Lines(path, text)
    seen: dict[str, str] = {}
    for kind, rows in table.items():
        if kind not in KINDS or not _is_rows(rows):
            allowed = ", ".join(f"[[{name}]]" for name in KINDS)
            faults.append(Fault(lines.of(kind), kind, f"tables {allowed}", MEND))
            continue
        for i, row in enumerate(rows):
            found = list(_faults(kind, row))
            faults += (
                Fault(lines.of(kind, i, f.key), f.value, f"{f.key}: {f.allowed}", f.advice)
                for f in found
            )
            if found:
                continue
            name = row["name"]
            if as_called(name) in seen:
                told = f"a name of its own; {seen[as_called(name)]} has it too"
                advice = "chalk another; capitals and blanks make no other name"
                faults.append(Fault(lines.of(kind, i, "name"), name, told, advice))
            seen[as_called(name)] = lines.of(kind, i, "name")
            sizes = {key: value for key, value in row.items() if key not in OWN}
            own = {key: row[key] for key in OWN if key in row}
            pieces.append(Piece(kind, sizes=sizes, **own))
    if faults:
        raise SpecError(faults)
    return Ledger(path, tuple(pieces))


def _text(path: Path) -> str:
    data = sound_bytes(path, MOST_BYTES, ("a ledger", "TOML text"), START)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        found, line = no_utf8(data, error)
        raise SpecError([Fault(f"{path}:{line}", found, "TOML text", MEND)]) from error


def _is_rows(rows: object) -> bool:
    return isinstance(rows, list) and all(isinstance(row, dict) for row in rows)


def _faults(kind: str, row: dict[str, Any]) -> Iterator[Fault]:
    own = {key: row[key] for key in OWN if key in row}
    yield from find_faults(PieceHead, own)
    for free in ("note", "job_file"):  # may have lines; may be called as folders are
        own.pop(free, None)
    yield from odd_values(PieceHead, own)
    yield from odd_values(KINDS[kind], {k: v for k, v in row.items() if k not in OWN})
    sizes = {key: value for key, value in row.items() if key not in OWN}
    if "count" in sizes and kind != "offcut":
        del sizes["count"]
        yield Fault("count", row["count"], "none: each piece has a name", "a table for each piece")
    if kind == "offcut" and isinstance(row.get("name"), str):
        sizes["name"] = row["name"] or "-"
    fields = list(KINDS[kind].model_fields)
    known = ["name", *(key for key in fields if key not in ("name", "count")), *OWN[1:]]
    for fault in find_faults(KINDS[kind], sizes):
        if fault.key in sizes and fault.key not in fields:
            yield unknown_key(fault.key, fault.value, known)
        elif fault.key != "name":
            yield fault


class _Lines:
    """Where tables and keys stand in a text that TOML has read already."""

    def __init__(self, path: Path, text: str) -> None:
        self._path, self._text = path, text.splitlines()
        self._heads: dict[str, list[int]] = {}

    def of(self, kind: str, number: int = 0, key: str = "") -> str:
        """`stock.toml:12`: the line of that key of a table, else of the table's own head."""
        if kind not in self._heads:
            lines = range(len(self._text))
            self._heads[kind] = [i for i in lines if self._begins(i, kind)]
        heads = self._heads[kind]
        if number >= len(heads):  # written in one line, or in a way of its own
            return f"{self._path}:{heads[0] + 1}" if heads else str(self._path)
        at = heads[number]
        end = next((i for i in range(at + 1, len(self._text)) if self._begins(i)), None)
        word = re.escape(re.split(r"[.\[]", key)[0])
        for i in range(at + 1, len(self._text) if end is None else end):
            if key and re.match(rf"\s*+[\"']?{word}[\"']?\s*+=", self._text[i]):
                at = i
                break
        return f"{self._path}:{at + 1}"

    def _begins(self, i: int, kind: str = "") -> bool:
        """Whether a line is the head of a table, or of its key, of that kind or of any."""
        if not kind:
            return bool(re.match(r"\s*+\[\[?\s*+[\"'\w]++\s*+\]", self._text[i]))
        return bool(re.match(rf"\s*+\[*+\s*+[\"']?{re.escape(kind)}[\"']?\s*+[\]=]", self._text[i]))
